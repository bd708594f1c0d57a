import { noCurrent, runCurrentOf, startCurrentOf } from "../drive/current.ts";
import type { Check } from "../quantity/check.ts";
import { type Given, tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";

/**
 * How warm the narrowest trace of the unit's supply gets.
 *
 *     I  = c dT^0.44 A^0.725                         A in square mils, I in ampere: IPC-2221
 *     dT = (I/(c (w t/(25.4 um)^2)^0.725))^(1/0.44)  K over the board
 *
 * c 0.048 A outside, 0.024 A inside the board; w width 0.1 .. 10 mm, t thickness 18 .. 105 um of the trace; I current of the unit with both motors running at
 * once, A, 0 .. 35; dT 10 .. 100 K.
 *
 * A trace warms within seconds, so starts of some 10 ms don't count. A fit to old charts: IPC-2152, measured, has replaced them with one curve and its
 * modifiers; inside the board this fit is on the safe side (by about 2, memory). It does not hold for planes or vias.
 */
const fit = { cite: "IPC-2221, curve fit as a semiconductor maker's calculator quotes it", how: "read" } as const;
const constants: Readonly<Record<"outside" | "inside", Given>> = {
  outside: tabled("catalogue/trace outside", "c", "0.048 A", unitOf("A").dimension, fit),
  inside: tabled("catalogue/trace inside", "c", "0.024 A", unitOf("A").dimension, fit),
};
const usualCopper = tabled("catalogue/copper of a board", "t", "35 um", unitOf("um").dimension, {
  cite: "common practice, no source",
  how: "memory",
});

export const bothRunning = model({
  id: "supply.both-running",
  symbol: "I",
  unit: "A",
  title: "current of a unit with all its motors running",
  equation: "I_f + I_p + I_0",
  form: "closed",
  origin: { cite: "sum of currents", how: "derived" },
  reads: (scene) => {
    const run = (name: "feed" | "peel"): Quantity | undefined =>
      runCurrentOf(scene, name) ?? startCurrentOf(scene, name);
    const [I_f, I_p] = [run("feed"), run("peel")];
    return I_f || I_p
      ? { I_f: I_f ?? noCurrent, I_p: I_p ?? noCurrent, I_0: scene.unit.supply?.idle ?? noCurrent }
      : undefined;
  },
  value: ({ I_f, I_p, I_0 }) => I_f + I_p + I_0,
});
export const traceRise = model({
  id: "supply.trace-rise",
  symbol: "dT",
  unit: "kelvin",
  title: "rise of the supply's narrowest trace",
  equation: "1 kelvin*(I/(c*(w*t/(25.4 um)^2)^0.725))^(1/0.44)",
  form: "closed",
  origin: fit,
  valid: { I: [0, 35], w: [0.05e-3, 10.2e-3], t: [10e-6, 150e-6] },
  reads: (scene) => {
    const trace = scene.unit.supply?.trace;
    return trace && bothRunning.reads(scene)
      ? { I: bothRunning, c: constants[trace.layer], w: trace.width, t: trace.thickness ?? usualCopper }
      : undefined;
  },
  value: ({ I, c, w, t }) => power(I / (c * power((w * t) / 25.4e-6 ** 2, 0.725)), 1 / 0.44),
});
const riseAllowed = ({ unit, requirement }: Scene): Quantity =>
  unit.supply?.trace?.rise ?? requirement.assume["trace rise"];
export const checkTrace: Check = {
  id: "supply.trace",
  station: 9,
  severity: "S",
  status: "established",
  title: "the supply's narrowest trace stays cool",
  value: traceRise,
  atMost: riseAllowed,
  absent: (scene) => {
    if (!scene.unit.supply?.trace) return "the unit's supply gives no trace";
    return bothRunning.reads(scene) ? undefined : "no motor of the unit is known together with its supply";
  },
  because: (say, scene) => {
    const { width, layer } = scene.unit.supply!.trace!;
    return `A trace ${say(width)} wide, ${layer} the board, carries ${say(bothRunning)} and warms by ${say(traceRise)}, where ${say(riseAllowed(scene))} are allowed.`;
  },
  beside: () => [bothRunning],
};
