import { ambient } from "../drive/heats.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * How hot the regulator of the logic gets.
 *
 *     T_j = T_a + (V - V_o) I R_t                    linear: what it takes off becomes heat
 *     T_j = T_a + V_o I (1/e - 1) R_t                switching, of efficiency e
 *
 * V volts of the rail, V_o what it gives, I the current it gives, A; R_t thermal resistance from junction to air as it is soldered, K/W, 20 .. 300;
 * T_a of the room, degC. 10 to 3.3 V at 80 mA is 0.54 W. The board's other heat is in T_a only if somebody puts it there; idle current is left out.
 */
const balance = { cite: "heat balance of a regulator", how: "derived" } as const;
const valid = { R_t: [1, 500] } as const;
export const linearJunction = model({
  id: "supply.linear-junction",
  symbol: "T_j",
  unit: "kelvin",
  shownIn: "degC",
  title: "temperature of the linear regulator's junction",
  equation: "T_a + max(0, V - V_o)*I*R_t",
  form: "closed",
  origin: balance,
  valid,
  reads: (scene) => {
    const regulator = scene.unit.supply?.regulator;
    const V = scene.requirement.supply?.volts;
    return regulator?.kind === "linear" && V
      ? { T_a: ambient(scene), V, V_o: regulator.out, I: regulator.load, R_t: regulator["thermal resistance"] }
      : undefined;
  },
  value: ({ T_a, V, V_o, I, R_t }) => T_a + Math.max(0, V - V_o) * I * R_t,
});
export const switchingJunction = model({
  id: "supply.switching-junction",
  symbol: "T_j",
  unit: "kelvin",
  shownIn: "degC",
  title: "temperature of the switching regulator's junction",
  equation: "T_a + V_o*I*(1/e - 1)*R_t",
  form: "closed",
  origin: balance,
  valid,
  reads: (scene) => {
    const regulator = scene.unit.supply?.regulator;
    const e = regulator?.efficiency;
    return regulator?.kind === "switching" && e
      ? { T_a: ambient(scene), V_o: regulator.out, I: regulator.load, e, R_t: regulator["thermal resistance"] }
      : undefined;
  },
  value: ({ T_a, V_o, I, e, R_t }) => T_a + V_o * I * (1 / e - 1) * R_t,
});
const junctionOf = ({ unit }: Scene): Model =>
  unit.supply?.regulator?.kind === "switching" ? switchingJunction : linearJunction;
export const checkRegulator: Check = {
  id: "supply.regulator",
  station: 9,
  severity: "S",
  status: "established",
  title: "the logic's regulator stays cool enough",
  value: junctionOf,
  atMost: ({ unit }) => unit.supply?.regulator?.limit,
  absent: ({ unit, requirement }) => {
    const regulator = unit.supply?.regulator;
    if (!regulator) return "the unit's supply gives no regulator";
    if (regulator.kind === "switching")
      return regulator.efficiency ? undefined : "the switching regulator's efficiency is not given";
    return requirement.supply ? undefined : "project.yaml gives no supply";
  },
  because: (say, scene) => {
    const { out, load, limit, kind } = scene.unit.supply!.regulator!;
    return `The ${kind} regulator gives ${say(out)} at ${say(load)} and gets ${say(junctionOf(scene))} hot, where it stands ${say(limit)}.`;
  },
};
