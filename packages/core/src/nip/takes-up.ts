import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { grip, noNip } from "./grip.ts";

/**
 * Film taken up per index against film released.
 *
 *     x_t = o P_1                       taken up at the rollers' surface
 *     x_r = P_1 (1 + C_10/(10 P_0))     released by the tape's travel, longest pitch
 *     W_s = S (o - 1) P_1               work that slipping costs each index
 *
 * o surface speed of the rollers over the mean speed of the tape, 0.9 .. 2; P_1 pocket pitch, m; C_10 error over ten hole pitches, m;
 * P_0 hole pitch, m; S traction limit, N. What is taken up beyond the release slips. The film's stretch under pull (below 0.3 %) is
 * left out.
 */
export const takenUp = model({
  id: "nip.taken-up",
  symbol: "x_t",
  unit: "m",
  title: "film taken up per index",
  equation: "o*P_1",
  form: "closed",
  origin: { cite: "rolling without slip", how: "derived" },
  valid: { o: [0.5, 3] },
  reads: ({ unit, tape }) => (unit.nip?.overspeed ? { o: unit.nip.overspeed, P_1: tape.letters.P1 } : undefined),
  value: ({ o, P_1 }) => o * P_1,
});
export const released = model({
  id: "nip.released",
  symbol: "x_r",
  unit: "m",
  title: "film released per index",
  equation: "P_1*(1 + C_10/(10*P_0))",
  form: "closed",
  origin: { cite: "EIA-481-D p. 13, ten-pitch error", how: "read" },
  reads: ({ tape }) => ({ P_1: tape.letters.P1, C_10: tape.tenPitch, P_0: tape.letters.P0 }),
  value: ({ P_1, C_10, P_0 }) => P_1 * (1 + C_10 / (10 * P_0)),
});
export const slipWork = model({
  id: "nip.slip-work",
  symbol: "W_s",
  unit: "J",
  title: "work of slipping per index",
  equation: "S*(o - 1)*P_1",
  form: "closed",
  origin: { cite: "force times slipped length", how: "derived" },
  reads: (scene) =>
    scene.unit.nip?.overspeed && !noNip(scene)
      ? { S: grip(scene), o: scene.unit.nip.overspeed, P_1: scene.tape.letters.P1 }
      : undefined,
  value: ({ S, o, P_1 }) => S * (o - 1) * P_1,
});
export const checkTakesUp: Check = {
  id: "nip.takes-up",
  station: 7,
  severity: "S",
  status: "established",
  title: "the nip takes up what the tape releases",
  value: takenUp,
  atLeast: released,
  absent: ({ unit }) =>
    !unit.nip ? "the unit has no nip" : !unit.nip.overspeed ? "the nip's overspeed is not given" : undefined,
  because: (say) => `Each index the rollers take up ${say(takenUp)} of film where the tape releases ${say(released)}.`,
  beside: (scene) => (noNip(scene) ? [] : [slipWork]),
};
