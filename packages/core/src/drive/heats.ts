import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { dutyOf, runCurrentOf, startCurrentOf, startsOf } from "./current.ts";
import { constantOf, copperRise, type DriveName, driveOf, inertiaOf, noMotor, resistanceOf } from "./motor.ts";

/**
 * How hot the windings get: running against their load, and held fast on top of that until the firmware lets go.
 *
 *     (x - x_0) (1 - b x)^2/(1 + a x) = R_t R I^2 d  rise x at a set torque, mean over a run, K
 *     x_0 = R_t f J (V/k)^2                          of it what starts and stops leave in the winding
 *     y_v = (sqrt(1 + 4 a R_t V^2/R) - 1)/(2 a)      rise held fast at set volts, for good: V^2/R falls as the winding warms
 *     y_i = R_t R I_m^2/(1 - a R_t R I_m^2)          rise held fast at the bridge's limit; without end from I_m = 1/sqrt(a R_t R) on
 *     y   = min(y_v, y_i, V^2 t_s/(R C_w))           the last while the case stays cold: what t_s can store
 *     T_w = T_a + x + y
 *
 * R resistance at 20 degC, ohm; a 0.00393 of copper, b 0.001 .. 0.002 of the magnets, 1/K; R_t thermal resistance from winding to air, K/W, 20 .. 150;
 * I current that the load asks with cold magnets, A; d share of the time it runs; f starts a second; J, k of the rotor: a run-up to V/k loses as much
 * as the rotor then holds, and a stop by short circuit loses that; V volts of the rail; I_m limit of the bridge, A; t_s how long the
 * firmware drives a motor that stands, s; C_w heat capacity of the winding, J/K; T_a of the room, degC.
 *
 * At a set torque a warm winding takes more current (its magnets are weaker) and has more resistance, so there is a greatest current: beyond it no rise is
 * steady. There the number given goes on in a straight line from the top of the curve and only says how far beyond it is. Held fast there is no such
 * end, volts limit it. The rise is counted from room temperature with R of 20 degC: 2 % low in a room of 25 degC. Iron losses and the chopping of
 * the current are left out. Small motors state no thermal figures: both resistances are guesses until a stall has been timed on one.
 */
const heat = {
  cite: "heat balance of a winding whose resistance and magnets change with its temperature",
  how: "derived",
} as const;

/** Rise at a set torque. `power` is R_t R I^2 d, the rise if nothing changed, `base` what warms it besides, both K. */
export function setTorqueRise(power: number, a: number, b: number, base = 0): number {
  if (!(power >= 0)) throw new RangeError(`a heating of ${power} K is none`);
  if (!(base >= 0)) throw new RangeError(`a heating of ${base} K is none`);
  const top = topOf(a, b, base);
  if (top === undefined) {
    const left = 1 - a * power;
    return left > 0 ? (base + power) / left : (base + power) * 1e6;
  }
  const most = Math.max(0, ((top - base) * (1 - b * top) ** 2) / (1 + a * top));
  if (power >= most) return top + (power - most);
  // (x - base)(1 - b x)^2 - power (1 + a x) bends one way up to its top, so Newton from the left never steps over its first root.
  let x = base;
  for (let i = 0; i < 100; i++) {
    const cold = 1 - b * x;
    const step =
      ((x - base) * cold * cold - power * (1 + a * x)) / (cold * cold - 2 * b * (x - base) * cold - power * a);
    if (!(step < -1e-12 * (1 + x))) break;
    x = Math.min(top, x - step);
  }
  return x;
}
/** Where the curve of the set torque has its top; undefined for magnets that do not fade. */
function topOf(a: number, b: number, base = 0): number | undefined {
  if (!(b > 0)) return undefined;
  if (base * b >= 1) return base;
  // (1 - b x)(1 + a x) = (x - base)(2 b (1 + a x) + a (1 - b x)), that is 2 a b x^2 + (3 b - a b base) x = 1 + base (a + 2 b).
  const half = 3 * b - a * b * base;
  return (Math.sqrt(half * half + 8 * a * b * (1 + base * (a + 2 * b))) - half) / (4 * a * b);
}
/** Greatest current of a set torque that has a steady temperature, A. */
export const greatestTorqueCurrent = (R: number, R_t: number, a: number, b: number): number => {
  const top = topOf(a, b);
  if (top === undefined) return runawayCurrent(R, R_t, a);
  return Math.sqrt((top * (1 - b * top) ** 2) / (1 + a * top) / (R_t * R));
};
/** Current from which a set current has no steady temperature, A. */
export const runawayCurrent = (R: number, R_t: number, a: number): number => 1 / Math.sqrt(a * R_t * R);
/** Rise at a set current; without end from the runaway current on. */
export const setCurrentRise = (I: number, R: number, R_t: number, a: number): number => {
  const share = a * R_t * R * I * I;
  return share < 1 ? (R_t * R * I * I) / (1 - share) : Number.POSITIVE_INFINITY;
};
/** Rise at set volts, held fast for good. */
export const setVoltsRise = (V: number, R: number, R_t: number, a: number): number =>
  (Math.sqrt(1 + (4 * a * R_t * V * V) / R) - 1) / (2 * a);
/** Time constants of winding and case, slow last, s. */
export function twoNodes(R_1: number, R_2: number, C_1: number, C_2: number): readonly [number, number] {
  const sum = 1 / (R_1 * C_1) + 1 / (R_1 * C_2) + 1 / (R_2 * C_2);
  const product = 1 / (R_1 * C_1 * R_2 * C_2);
  const slow = (2 * product) / (sum + Math.sqrt(sum * sum - 4 * product));
  return [slow / product, 1 / slow];
}

export const ambient = ({ requirement }: Scene): Quantity =>
  requirement.ambient ?? requirement.assume["room temperature"];

interface HeatModels {
  readonly toAir: Model;
  readonly running: Model;
  readonly heldFast: Model;
  readonly winding: Model;
}
const made = (name: DriveName): HeatModels => {
  const the = `the ${name} drive's`;
  const given = (scene: Scene) => driveOf(scene, name)?.heat;
  const toAir = model({
    id: `motor.${name}-to-air`,
    symbol: "R_t",
    unit: "kelvin*s/J",
    title: `thermal resistance from ${the} winding to air`,
    equation: "R_1 + R_2",
    form: "closed",
    origin: { cite: "thermal resistances in a row", how: "derived" },
    reads: (scene) => ({
      R_1: given(scene)?.["winding to case"] ?? scene.requirement.assume["winding to case"],
      R_2: given(scene)?.["case to air"] ?? scene.requirement.assume["case to air"],
    }),
    value: ({ R_1, R_2 }) => R_1 + R_2,
  });
  const running = model({
    id: `motor.${name}-rise`,
    symbol: "x",
    unit: "kelvin",
    title: `rise of ${the} winding over a run`,
    equation: "(x - R_t*f*J*(V/k)^2)*(1 - b*x)^2/(1 + a*x) = R_t*R*I^2*d",
    form: "solved",
    origin: heat,
    valid: { I: [0, 20] },
    reads: (scene) => {
      const [R, I, k] = [resistanceOf(scene, name), runCurrentOf(scene, name), constantOf(scene, name)];
      const { supply, assume } = scene.requirement;
      return R && I && k && supply
        ? {
            R_t: toAir,
            R,
            I,
            d: dutyOf(scene),
            a: copperRise,
            b: assume["magnet fade"],
            f: startsOf(scene),
            J: inertiaOf(scene, name),
            V: supply.volts,
            k,
          }
        : undefined;
    },
    value: ({ R_t, R, I, d, a, b, f, J, V, k }) => setTorqueRise(R_t * R * I * I * d, a, b, R_t * f * J * (V / k) ** 2),
  });
  const heldFast = model({
    id: `motor.${name}-stall-rise`,
    symbol: "y",
    unit: "kelvin",
    title: `rise of ${the} winding held fast`,
    equation: "min((sqrt(1 + 4*a*R_t*V^2/R) - 1)/(2*a), R_t*R*I_m^2/(1 - a*R_t*R*I_m^2), V^2*t_s/(R*C_w))",
    form: "solved",
    origin: heat,
    reads: (scene) => {
      const R = resistanceOf(scene, name);
      const V = scene.requirement.supply?.volts;
      const I_m = driveOf(scene, name)?.["current limit"];
      const t_s = driveOf(scene, name)?.["stall time"];
      const C_w = given(scene)?.["winding capacity"] ?? scene.requirement.assume["winding capacity"];
      return R && V
        ? { R_t: toAir, R, V, a: copperRise, ...(I_m ? { I_m } : {}), ...(t_s ? { t_s, C_w } : {}) }
        : undefined;
    },
    value: ({ R_t, R, V, a, I_m, t_s, C_w }) =>
      Math.min(
        setVoltsRise(V, R, R_t, a),
        I_m === undefined ? Number.POSITIVE_INFINITY : setCurrentRise(I_m, R, R_t, a),
        t_s === undefined || C_w === undefined ? Number.POSITIVE_INFINITY : (V * V * t_s) / (R * C_w),
      ),
  });
  const winding = model({
    id: `motor.${name}-winding`,
    symbol: name === "feed" ? "T_f" : "T_p",
    unit: "kelvin",
    shownIn: "degC",
    title: `temperature of ${the} winding, run and then held fast`,
    equation: "T_a + x + y",
    form: "closed",
    origin: { cite: "sum of rises", how: "derived" },
    reads: (scene) => (running.reads(scene) ? { T_a: ambient(scene), x: running, y: heldFast } : undefined),
    value: ({ T_a, x, y }) => T_a + x + y,
  });
  return { toAir, running, heldFast, winding };
};
export const heats: Readonly<Record<DriveName, HeatModels>> = { feed: made("feed"), peel: made("peel") };

/** How far the hotter winding, measured against what it stands, lies over what it stands: below 0 K is well. */
const over = (name: DriveName): Model =>
  model({
    id: `motor.${name}-over-limit`,
    symbol: name === "feed" ? "o_f" : "o_p",
    unit: "kelvin",
    title: `temperature of the ${name} drive's winding over what it stands`,
    equation: "T_w - T_max",
    form: "closed",
    origin: { cite: "difference to a limit", how: "derived" },
    reads: (scene) =>
      heats[name].winding.reads(scene) ? { T_w: heats[name].winding, T_max: limitOf(scene, name) } : undefined,
    value: ({ T_w, T_max }) => T_w - T_max,
  });
const limitOf = (scene: Scene, name: DriveName): Quantity =>
  driveOf(scene, name)?.heat?.limit ?? scene.requirement.assume["winding limit"];
const overLimit = { feed: over("feed"), peel: over("peel") } as const;
export const hotter = model({
  id: "motor.over-limit",
  symbol: "o",
  unit: "kelvin",
  title: "temperature of the hotter winding over what it stands",
  equation: "max(o_f, o_p)",
  form: "closed",
  origin: { cite: "the worse of two", how: "derived" },
  reads: (scene) =>
    noHeat(scene, "feed") || noHeat(scene, "peel") ? undefined : { o_f: overLimit.feed, o_p: overLimit.peel },
  value: ({ o_f, o_p }) => Math.max(o_f, o_p),
  where: ({ o_f, o_p }) => (o_f >= o_p ? "the feed drive" : "the peel drive"),
});
const noRise = tabled("bound/no rise", "0", "0 kelvin", unitOf("kelvin").dimension, {
  cite: "by definition of the check",
  how: "derived",
});

function noHeat(scene: Scene, name: DriveName): string | undefined {
  const missing = noMotor(scene, name);
  if (missing) return missing;
  if (!scene.requirement.supply) return "project.yaml gives no supply";
  return runCurrentOf(scene, name) ? undefined : `what loads the ${name} drive is not known`;
}
const drives = ["feed", "peel"] as const;
const judged = (scene: Scene): DriveName[] => drives.filter((name) => noHeat(scene, name) === undefined);
const heldValue = (scene: Scene): Model => {
  const names = judged(scene);
  return names.length === 2 ? hotter : overLimit[names[0] ?? "feed"];
};
export const checkHeats: Check = {
  id: "drive.heats",
  station: 8,
  severity: "L",
  status: "established",
  title: "the windings stay cool enough, held fast as well",
  value: heldValue,
  atMost: noRise,
  absent: (scene) => (judged(scene).length > 0 ? undefined : `${noHeat(scene, "feed")}; ${noHeat(scene, "peel")}`),
  because: (say, scene) => {
    const each = judged(scene).map((name) => {
      const held = driveOf(scene, name)?.["stall time"];
      const time = held ? `held fast for ${say(held)}` : "held fast for good (no stall time is given)";
      return `the ${name} drive's winding warms by ${say(heats[name].running)} in a run of ${say(runCurrentOf(scene, name)!)} and by ${say(heats[name].heldFast)} ${time}: ${say(heats[name].winding)}, where it stands ${say(limitOf(scene, name))}`;
    });
    const [first = "", ...more] = each;
    return `${first[0]?.toUpperCase()}${first.slice(1)}${more.map((one) => `; ${one}`).join("")}.`;
  },
  beside: (scene) =>
    judged(scene).flatMap((name) => [heats[name].winding, runCurrentOf(scene, name)!, startCurrentOf(scene, name)!]),
};
