import { anyMotor, unitMean, unitStart } from "../drive/current.ts";
import { noMotor } from "../drive/motor.ts";
import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { firstDip } from "./store.ts";

/**
 * Volts at the farthest unit of a rail while several units start at once.
 *
 *     V_u = V - I_t R_f - (n_s I_1 (1 - (n_s - 1)/(2 n)) + (n - n_s) I_u (n - n_s + 1)/(2 n)) R_r - I_1 2 R_c/n_p
 *     I_t = n_s I_1 + (n - n_s) I_u                  current of the whole rail, A
 *     R_f, R_r = 2 rho l/A                           cable to the rail, rail along the units, both conductors, ohm
 *
 * V volts of the supply; n units evenly along the rail, n_s of which start at once and stand at its far end; I_1 current of a unit as its motors start, I_u its mean,
 * A (drive/current.ts); rho of copper at 20 degC; l length one way, m, A cross-section of a conductor, m2; R_c resistance of a contact, n_p contacts each
 * way. Exact for a ladder of n equal pieces: every unit's current flows through the pieces before it. What is left out counts nothing: without a cable
 * the rail is stiff up to the first unit.
 *
 * Steady currents: the capacitors of the units carry the first 50 to 100 us, the inductance of the cable is not looked at. Warm copper has 4 % more for
 * every 10 K. With every unit starting at once a rail sags most: the firmware's stagger is what `together` stands for.
 */
const ohm = { cite: "Ohm's law", how: "derived" } as const;
export const copper = tabled("catalogue/copper", "rho", "1.72e-8 ohm*m", unitOf("ohm*m").dimension, {
  cite: "resistivity of copper at 20 degC, handbooks",
  how: "memory",
});
export const noResistance = tabled("bound/no resistance", "0", "0 ohm", unitOf("ohm").dimension, {
  cite: "none is given",
  how: "derived",
});
const wire = (what: "cable" | "bar", symbol: string, title: string): Model =>
  model({
    id: `supply.${what}-resistance`,
    symbol,
    unit: "ohm",
    shownIn: "mohm",
    title,
    equation: "2*rho*l/A",
    form: "closed",
    origin: { cite: "resistance of a wire", how: "derived" },
    reads: ({ requirement: { supply } }) => {
      const given = supply?.[what];
      return given && { rho: copper, l: given.length, A: given.area };
    },
    value: ({ rho, l, A }) => (2 * rho * l) / A,
  });
export const cableResistance = wire("cable", "R_f", "resistance of the cable to the rail, there and back");
export const barResistance = wire("bar", "R_r", "resistance of the rail along the units, there and back");

/** Units on the rail, and how many of them start at once. */
const unitsOn = ({ requirement: { supply } }: Scene): Quantity => supply?.units ?? one;
const together = (scene: Scene): Quantity => scene.requirement.supply?.together ?? unitsOn(scene);

export const railCurrent = model({
  id: "supply.rail-current",
  symbol: "I_t",
  unit: "A",
  title: "current of the whole rail while units start together",
  equation: "min(n_s, n)*I_1 + max(0, n - n_s)*I_u",
  form: "closed",
  origin: { cite: "sum of currents", how: "derived" },
  reads: (scene) =>
    scene.requirement.supply && anyMotor(scene)
      ? { n: unitsOn(scene), n_s: together(scene), I_1: unitStart, I_u: unitMean }
      : undefined,
  value: ({ n, n_s, I_1, I_u }) => Math.min(n_s, n) * I_1 + Math.max(0, n - n_s) * I_u,
});
export const contactResistance = ({ unit, requirement }: Scene): Quantity =>
  unit.supply?.connector?.resistance ?? requirement.assume["contact resistance"];

export const farVolts = model({
  id: "supply.volts-at-unit",
  symbol: "V_u",
  unit: "V",
  title: "volts at the farthest unit while units start together",
  equation:
    "V - I_t*R_f - (min(n_s, n)*I_1*(1 - (min(n_s, n) - 1)/(2*n)) + max(0, n - n_s)*I_u*(max(0, n - n_s) + 1)/(2*n))*R_r - I_1*2*R_c/n_p",
  form: "closed",
  origin: ohm,
  reads: (scene) => {
    const { supply } = scene.requirement;
    return supply && anyMotor(scene)
      ? {
          V: supply.volts,
          I_t: railCurrent,
          R_f: supply.cable ? cableResistance : noResistance,
          n: unitsOn(scene),
          n_s: together(scene),
          I_1: unitStart,
          I_u: unitMean,
          R_r: supply.bar ? barResistance : noResistance,
          R_c: contactResistance(scene),
          n_p: scene.unit.supply?.connector?.pins ?? one,
        }
      : undefined;
  },
  value: ({ V, I_t, R_f, n, n_s, I_1, I_u, R_r, R_c, n_p }) => {
    const [starting, others] = [Math.min(n_s, n), Math.max(0, n - n_s)];
    const far = starting * I_1 * (1 - (starting - 1) / (2 * n));
    const near = (others * I_u * (others + 1)) / (2 * n);
    return V - I_t * R_f - (far + near) * R_r - (I_1 * 2 * R_c) / n_p;
  },
});
/** Volts at the unit: those of the rail where no motor is known; undefined where project.yaml gives no supply. */
export const unitVolts = (scene: Scene): Quantity | undefined =>
  farVolts.reads(scene) ? farVolts : scene.requirement.supply?.volts;

/**
 * What the contacts of the unit's connector carry together: every doubling of their number takes 20 % from each.
 *
 *     I_c = I_p n 0.8^(log2 n) = I_p n^(1 - 0.3219)
 *
 * I_p rating of one pin alone, A; n pins that share the current, 1 .. 16. A connector user's rule (read), not a standard's.
 */
export const contactsCarry = model({
  id: "supply.contacts-carry",
  symbol: "I_c",
  unit: "A",
  title: "what the contacts of the unit's connector carry together",
  equation: "I_p*n_p^(1 - 0.3219280948873623)",
  form: "closed",
  origin: { cite: "derating of connector pins, 20 % for every doubling, a design note", how: "read" },
  valid: { n_p: [1, 16] },
  reads: ({ unit: { supply } }) => supply?.connector && { I_p: supply.connector.rating, n_p: supply.connector.pins },
  value: ({ I_p, n_p }) => I_p * power(n_p, 1 - 0.3219280948873623),
});

/** The least volts at which the unit works: as stated, else what its regulator needs. */
const neededByRegulator = model({
  id: "supply.regulator-needs",
  symbol: "V_n",
  unit: "V",
  title: "volts that the regulator needs",
  equation: "V_o + V_d",
  form: "closed",
  origin: { cite: "definition of a regulator's dropout", how: "derived" },
  reads: ({ unit: { supply } }) =>
    supply?.regulator?.dropout && { V_o: supply.regulator.out, V_d: supply.regulator.dropout },
  value: ({ V_o, V_d }) => V_o + V_d,
});
export const leastVolts = (scene: Scene): Quantity | undefined =>
  scene.unit.supply?.least ?? (neededByRegulator.reads(scene) ? neededByRegulator : undefined);

export const checkDrop: Check = {
  id: "supply.drop",
  station: 9,
  severity: "S",
  status: "established",
  title: "the farthest unit keeps the volts it works at",
  value: farVolts,
  atLeast: leastVolts,
  absent: (scene) => {
    if (!scene.requirement.supply) return "project.yaml gives no supply";
    if (!anyMotor(scene)) return noMotor(scene, "feed");
    if (!leastVolts(scene))
      return "the unit's supply gives neither the least volts at which its board works nor its regulator's dropout";
    const { cable, bar } = scene.requirement.supply;
    return cable || bar ? undefined : "project.yaml gives neither the cable of the supply nor the bar along the units";
  },
  because: (say, scene) => {
    const contacts = contactsCarry.reads(scene)
      ? `; its contacts carry ${say(contactsCarry)} and see ${say(unitStart)}`
      : "";
    const count = (q: Quantity) => (q.kind === "given" ? q.text : say(q));
    return `${count(together(scene))} of ${count(unitsOn(scene))} units starting at once draw ${say(railCurrent)} from the rail and leave the farthest ${say(farVolts)}, where it needs ${say(leastVolts(scene)!)}${contacts}.`;
  },
  beside: (scene) => [
    railCurrent,
    unitStart,
    unitMean,
    ...[contactsCarry, firstDip].filter((m) => m.reads(scene) !== undefined),
  ],
};
