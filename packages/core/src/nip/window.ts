import { notLedToNip } from "../film/friction.ts";
import { bearablePull, filmPull } from "../film/pull.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { grip, noNip } from "./grip.ts";

/**
 * The nip's window: it must pull harder than the strongest seal, and slip before the film breaks or the drive stalls.
 *
 *     S >= F                          nip.pulls
 *     S <= min(F_b/s, M_s/r_1)        nip.slips
 *
 * S traction limit, N; F pull the film needs, N; F_b break of the film, N; s its safety; M_s stall torque of the peel drive at the
 * roller, N m; r_1 radius of the driven roller, m. Both checks see one friction: alone each may hold for some frictions and yet no
 * friction pass both.
 */
const stallCap = model({
  id: "nip.cap",
  symbol: "S_max",
  unit: "N",
  title: "most the nip may pull before film or drive gives in",
  equation: "min(F_max, M_s/r_1)",
  form: "closed",
  origin: { cite: "the weaker of film and drive", how: "derived" },
  reads: ({ unit }) => {
    const M_s = unit["peel drive"]?.stall;
    const r_1 = unit.nip?.rollers?.radius[0];
    return M_s && r_1 && { F_max: bearablePull, M_s, r_1 };
  },
  value: ({ F_max, M_s, r_1 }) => Math.min(F_max, M_s / r_1),
});
const cap = ({ unit }: Scene): Model => (unit["peel drive"]?.stall && unit.nip?.rollers ? stallCap : bearablePull);
const absent = (scene: Scene) => noNip(scene) ?? notLedToNip(scene);

export const checkPulls: Check = {
  id: "nip.pulls",
  station: 7,
  severity: "S",
  status: "established",
  title: "the nip pulls the film off",
  value: grip,
  atLeast: filmPull,
  absent,
  because: (say, scene) => `The nip grips with ${say(grip(scene))}; the film needs ${say(filmPull)} to peel.`,
};
export const checkSlips: Check = {
  id: "nip.slips",
  station: 7,
  severity: "S",
  status: "established",
  title: "the nip slips before the film breaks",
  value: grip,
  atMost: cap,
  absent,
  because: (say, scene) =>
    `The nip grips with ${say(grip(scene))} before it slips; film and drive bear ${say(cap(scene))}.`,
};
