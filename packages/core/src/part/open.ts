import { constantOf, motors, noMotor } from "../drive/motor.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import type { Scene } from "../scene.ts";
import { pitchRadius } from "../sprocket/wheel.ts";

/**
 * The pockets that travel open, and what an index does to them.
 *
 *     n_o = (s_p - s_o)/P_1                          indexes that a part spends in an open pocket
 *     dv  = q_v V r_p/(k N)                          greatest change of the tape's speed within 1 ms of an index, m/s
 *
 * s_o where the film is opened, s_p the pick, along the tape, m; P_1 pocket pitch, m; V volts of the rail; k torque of the feed motor per ampere, N its
 * turns for one of the wheel, r_p the wheel's pitch radius, m: V r_p/(k N) is the tape's speed without a load; q_v share of it that changes within a millisecond.
 *
 * The raw peak of the acceleration at a blow depends on the steps of whoever computes it; the change in a millisecond does not. q_v, 0.06 .. 0.5, is what
 * simulated indexes gave (cycle/); the simulation itself takes 10 ms and stands beside part.knocks. Where no motor is known dv itself is assumed. A tape that
 * a person pulls through, or a slipping tooth, does worse.
 */
/** Where the film leaves the pockets. */
const openedAt = ({ unit }: Scene): Quantity | undefined => unit.film.peel?.at ?? unit.film.opener?.at;
export const openIndexes = model({
  id: "part.open-indexes",
  symbol: "n_o",
  unit: "1",
  title: "indexes that a part spends in an open pocket",
  equation: "(s_p - s_o)/P_1",
  form: "closed",
  origin: { cite: "open length over the pocket pitch", how: "derived" },
  reads: (scene) => {
    const [s_o, s_p] = [openedAt(scene), pickOf(scene)];
    return s_o && s_p && { s_p, s_o, P_1: scene.tape.letters.P1 };
  },
  value: ({ s_p, s_o, P_1 }) => (s_p - s_o) / P_1,
});
const changeOfDrive = model({
  id: "part.speed-change",
  symbol: "dv",
  unit: "m/s",
  title: "greatest change of the tape's speed within a millisecond of an index",
  equation: "q_v*V*r_p/(k*N)",
  form: "closed",
  origin: { cite: "share of the drive's speed without a load, from simulated indexes", how: "derived" },
  reads: (scene) => {
    const { supply, assume } = scene.requirement;
    const k = constantOf(scene, "feed");
    return supply && k && scene.unit.sprocket && !noMotor(scene, "feed")
      ? { q_v: assume["speed change share"], V: supply.volts, r_p: pitchRadius, k, N: motors.feed.ratio }
      : undefined;
  },
  value: ({ q_v, V, r_p, k, N }) => (q_v * V * r_p) / (k * N),
});
/** Greatest change of the tape's speed within a millisecond: from the feed drive, else what is assumed of drives. */
export const speedChange = (scene: Scene): Quantity =>
  changeOfDrive.reads(scene) ? changeOfDrive : scene.requirement.assume["speed change"];

type Figure = "partMass" | "partHeight" | "partLength" | "partWidth";
const called: Readonly<Record<Figure, string>> = {
  partMass: "mass",
  partHeight: "height",
  partLength: "length along the travel",
  partWidth: "width across the tape",
};
/** Why a check of parts in open pockets does not apply; undefined where it does. */
export function noOpenPart(scene: Scene, ...needed: readonly Figure[]): string | undefined {
  const missing = needed.filter((figure) => !scene.tape[figure]).map((figure) => called[figure]);
  if (missing.length > 0) return `the tape file does not give the part's ${missing.join(" and ")}`;
  if (!openedAt(scene)) return "the unit file does not say where the film is opened";
  return pickOf(scene) ? undefined : 'the route has no mark "pick"';
}
