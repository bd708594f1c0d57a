import { notLedToNip } from "../film/friction.ts";
import { noNip } from "../nip/grip.ts";
import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { pitchRadius } from "../sprocket/wheel.ts";
import { unitVolts } from "../supply/volts.ts";
import { bridgeOf } from "./current.ts";
import { timesOf } from "./free-rotor.ts";
import { filmTorque, tapeTorque } from "./load.ts";
import {
  constantOf,
  copperRise,
  type DriveName,
  driveOf,
  frictionTorqueOf,
  motors,
  noMotor,
  resistanceOf,
} from "./motor.ts";

/**
 * Does a drive still turn at the least supply, hot, against its load?
 *
 *     R_h = R (1 + a (T_h - 20 degC)),  k_h = k (1 - b (T_h - 20 degC))
 *     I_h = V_u/(R_h + R_b)                          no more than the bridge's limit I_m, where there is one
 *     M_s = N e max(0, k_h I_h - T_0)                torque of the driven shaft held fast
 *     M                                              torque asked: of the wheel by the tape, of the lower roller by the film (drive/load.ts)
 *     q   = M_s/M                                    must be 1 or more; the weaker drive counts
 *     v   = r/N max(0, V_u - (R_h + R_b) I)/k_h      speed under that load, I = (T_0 + M/(N e))/k_h: shown beside
 *
 * R, k, T_0, N, e of drive/motor.ts; T_h temperature of a winding at work, 60 .. 110 degC; a of copper, b of the magnets, 1/K; V_u volts at the unit
 * (supply/volts.ts), R_b resistance of the bridge, ohm.
 *
 * Held fast, so the greatest torque there is: how fast it moves under its load is the index's question. Where a unit file states `stall`, that torque
 * is taken as it stands. A motor within 25 % of its current held fast lives longest (a user's note); the run currents stand beside drive.heats.
 */
const statics = { cite: "torque balance of a motor held fast", how: "derived" } as const;
interface PullModels {
  readonly hotResistance: Model;
  readonly hotConstant: Model;
  readonly hotCurrent: Model;
  readonly limitedCurrent: Model;
  readonly stallTorque: Model;
  readonly reserve: Model;
  readonly speed: Model;
}
const made = (name: DriveName): PullModels => {
  const the = `the ${name} drive's`;
  const hot = { cite: "copper and magnets in heat", how: "derived" } as const;
  const ready = (scene: Scene): boolean => noMotor(scene, name) === undefined;
  const hotResistance = model({
    id: `drive.${name}-hot-resistance`,
    symbol: "R_h",
    unit: "ohm",
    title: `resistance of ${the} motor, hot`,
    equation: "R*(1 + a*(T_h - 20 degC))",
    form: "closed",
    origin: hot,
    reads: (scene) => {
      const R = resistanceOf(scene, name);
      return R && { R, a: copperRise, T_h: scene.requirement.assume["hot winding"] };
    },
    value: ({ R, a, T_h }) => R * (1 + a * (T_h - 20)),
  });
  const hotConstant = model({
    id: `drive.${name}-hot-constant`,
    symbol: "k_h",
    unit: "N*m/A",
    shownIn: "mN*m/A",
    title: `torque of ${the} rotor per ampere, hot`,
    equation: "k*(1 - b*(T_h - 20 degC))",
    form: "closed",
    origin: hot,
    reads: (scene) => {
      const k = constantOf(scene, name);
      const { assume } = scene.requirement;
      return k && { k, b: assume["magnet fade"], T_h: assume["hot winding"] };
    },
    value: ({ k, b, T_h }) => k * (1 - b * (T_h - 20)),
  });
  const hotCurrent = model({
    id: `drive.${name}-hot-current`,
    symbol: "I_h",
    unit: "A",
    title: `current of ${the} motor held fast, hot`,
    equation: "V_u/(R_h + R_b)",
    form: "closed",
    origin: { cite: "Ohm's law", how: "derived" },
    reads: (scene) => {
      const V_u = unitVolts(scene);
      return V_u && ready(scene) ? { V_u, R_h: hotResistance, R_b: bridgeOf(scene) } : undefined;
    },
    value: ({ V_u, R_h, R_b }) => V_u / (R_h + R_b),
  });
  const limitedCurrent = model({
    id: `drive.${name}-limited-current`,
    symbol: "I_h",
    unit: "A",
    title: `current of ${the} motor held fast, hot, within its limit`,
    equation: "min(I_f, I_m)",
    form: "closed",
    origin: { cite: "the bridge holds the current at its limit", how: "derived" },
    reads: (scene) => {
      const I_m = driveOf(scene, name)?.["current limit"];
      return I_m && hotCurrent.reads(scene) ? { I_f: hotCurrent, I_m } : undefined;
    },
    value: ({ I_f, I_m }) => Math.min(I_f, I_m),
  });
  const stallTorque = model({
    id: `drive.${name}-stall`,
    symbol: "M_s",
    unit: "N*m",
    title: `torque of ${the} shaft held fast, at the least supply, hot`,
    equation: "N*e*max(0, k_h*I_h - T_0)",
    form: "closed",
    origin: statics,
    reads: (scene) => {
      const T_0 = frictionTorqueOf(scene, name);
      return T_0 && hotCurrent.reads(scene)
        ? {
            N: motors[name].ratio,
            e: motors[name].efficiency,
            k_h: hotConstant,
            I_h: driveOf(scene, name)?.["current limit"] ? limitedCurrent : hotCurrent,
            T_0,
          }
        : undefined;
    },
    value: ({ N, e, k_h, I_h, T_0 }) => N * e * Math.max(0, k_h * I_h - T_0),
  });
  const reserve = model({
    id: `drive.${name}-reserve`,
    symbol: name === "feed" ? "q_f" : "q_p",
    unit: "1",
    title: `${the} torque over what is asked of it`,
    equation: "M_s/M",
    form: "closed",
    origin: statics,
    reads: (scene) => {
      const M_s = stallTorqueOf(scene, name);
      return M_s && loadOf[name].reads(scene) ? { M_s, M: loadOf[name] } : undefined;
    },
    value: ({ M_s, M }) => M_s / M,
  });
  const speed = model({
    id: `drive.${name}-speed`,
    symbol: "v",
    unit: "m/s",
    title:
      name === "feed"
        ? "speed of the tape at the least supply, hot"
        : "speed of the lower roller's face at the least supply, hot",
    equation: "r/N*max(0, V_u - (R_h + R_b)*(T_0 + M/(N*e))/k_h)/k_h",
    form: "closed",
    origin: { cite: "equations of the brushed motor under a steady load", how: "derived" },
    reads: (scene) => {
      const [V_u, T_0] = [unitVolts(scene), frictionTorqueOf(scene, name)];
      const r = name === "feed" ? pitchRadius : scene.unit.nip?.rollers?.radius[0];
      return V_u && T_0 && r && ready(scene) && loadOf[name].reads(scene)
        ? {
            r,
            N: motors[name].ratio,
            V_u,
            R_h: hotResistance,
            R_b: bridgeOf(scene),
            T_0,
            M: loadOf[name],
            e: motors[name].efficiency,
            k_h: hotConstant,
          }
        : undefined;
    },
    value: ({ r, N, V_u, R_h, R_b, T_0, M, e, k_h }) =>
      ((r / N) * Math.max(0, V_u - ((R_h + R_b) * (T_0 + M / (N * e))) / k_h)) / k_h,
  });
  return { hotResistance, hotConstant, hotCurrent, limitedCurrent, stallTorque, reserve, speed };
};
const loadOf = { feed: tapeTorque, peel: filmTorque } as const;
export const pulls: Readonly<Record<DriveName, PullModels>> = { feed: made("feed"), peel: made("peel") };

/** Torque of a drive's shaft held fast: what the unit file states, else what its motor gives. Undefined where neither is there. */
export function stallTorqueOf(scene: Scene, name: DriveName): Quantity | undefined {
  const stated = driveOf(scene, name)?.stall;
  return stated ?? (pulls[name].stallTorque.reads(scene) ? pulls[name].stallTorque : undefined);
}
export const weakerReserve = model({
  id: "drive.reserve",
  symbol: "q",
  unit: "1",
  title: "torque of the weaker drive over what is asked of it",
  equation: "min(q_f, q_p)",
  form: "closed",
  origin: statics,
  reads: (scene) =>
    noReserve(scene, "feed") || noReserve(scene, "peel")
      ? undefined
      : { q_f: pulls.feed.reserve, q_p: pulls.peel.reserve },
  value: ({ q_f, q_p }) => Math.min(q_f, q_p),
  where: ({ q_f, q_p }) => (q_f <= q_p ? "the feed drive" : "the peel drive"),
});

/** Why a drive is not held against its load; undefined where it is. */
function noReserve(scene: Scene, name: DriveName): string | undefined {
  const d = driveOf(scene, name);
  if (!d) return `the unit has no ${name} drive`;
  if (name === "feed" && !scene.unit.sprocket) return "the unit has no sprocket";
  if (name === "peel") {
    const film = notLedToNip(scene) ?? noNip(scene);
    if (film) return film;
    if (!scene.unit.nip?.rollers) return "the nip's rollers are not given";
  }
  if (d.stall) return undefined;
  return noMotor(scene, name) ?? (scene.requirement.supply ? undefined : "project.yaml gives no supply");
}
const drives = ["feed", "peel"] as const;
const judged = (scene: Scene): DriveName[] => drives.filter((name) => noReserve(scene, name) === undefined);
const reserveOf = (scene: Scene): Model => {
  const names = judged(scene);
  return names.length === 2 ? weakerReserve : pulls[names[0] ?? "feed"].reserve;
};
const asked: Readonly<Record<DriveName, string>> = { feed: "the tape asks", peel: "the film asks" };
export const checkMoves: Check = {
  id: "drive.moves",
  station: 8,
  severity: "S",
  status: "established",
  title: "the motors move tape and film at the least supply, hot",
  value: reserveOf,
  atLeast: one,
  absent: (scene) =>
    judged(scene).length > 0 ? undefined : `${noReserve(scene, "feed")}; ${noReserve(scene, "peel")}`,
  because: (say, scene) => {
    const each = judged(scene).map(
      (name) => `the ${name} drive turns with ${say(stallTorqueOf(scene, name)!)}, ${asked[name]} ${say(loadOf[name])}`,
    );
    const left = drives.filter((name) => noReserve(scene, name));
    const unsaid = left.length > 0 ? ` (${left.map((name) => noReserve(scene, name)).join("; ")})` : "";
    const which = each.length === 2 ? "the weaker gives " : "";
    return `Held fast at the least supply, hot, ${each.join("; ")}: ${which}${say(reserveOf(scene))} times what is asked${unsaid}.`;
  },
  beside: (scene) =>
    judged(scene).flatMap((name) => [
      loadOf[name],
      ...(pulls[name].speed.reads(scene) ? [pulls[name].speed] : []),
      ...timesOf(scene, name),
    ]),
};
