import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * Free height over the tape under the lips that hold its edges down.
 *
 *     s_l   = g - T                    room over the carrier, m
 *     s_min = n_f T_1 + t_s + c_r      films, a splice, and the clearance a running tape wants
 *     s_max = h - o_t                  lifted so far, the tape still overlaps a tooth by o_t
 *
 * g height between ledge and lip, T thickness of the carrier, n_f films that run under the lips (1; 2 on punched tape), T_1 thickness of
 * a film, t_s splice, c_r running clearance, h tip of a tooth above the underside, o_t overlap; all m.
 */
export const roomOver = model({
  id: "lips.room",
  symbol: "s_l",
  unit: "m",
  title: "room over the carrier under the lips",
  equation: "g - T",
  form: "closed",
  origin: { cite: "geometry of the section", how: "derived" },
  reads: ({ unit, tape }) => ({ g: unit.tape.section.lips.gap, T: tape.letters.T }),
  value: ({ g, T }) => g - T,
});
export const roomNeeded = model({
  id: "lips.needed",
  symbol: "s_min",
  unit: "m",
  title: "room that films, a splice and free running need",
  equation: "n_f*T_1 + t_s + c_r",
  form: "closed",
  origin: { cite: "sum of thicknesses", how: "derived" },
  reads: ({ tape, requirement: { assume } }) => ({
    n_f: tape.films,
    T_1: tape.letters.T1,
    t_s: assume["splice thickness"],
    c_r: assume["running clearance"],
  }),
  value: ({ n_f, T_1, t_s, c_r }) => n_f * T_1 + t_s + c_r,
});
export const roomAllowed = model({
  id: "lips.allowed",
  symbol: "s_max",
  unit: "m",
  title: "room at which a lifted edge still keeps its tooth",
  equation: "h - o_t",
  form: "closed",
  origin: { cite: "geometry; the overlap is a judgement", how: "derived" },
  reads: ({ unit, requirement: { assume } }) =>
    unit.sprocket && { h: unit.sprocket.tooth["height above tape"], o_t: assume["tooth overlap"] },
  value: ({ h, o_t }) => h - o_t,
});
export const checkLips: Check = {
  id: "groove.lips",
  station: 2,
  severity: "S",
  status: "judgement",
  title: "the lips let the tape run and keep it on the teeth",
  value: roomOver,
  atLeast: roomNeeded,
  atMost: ({ unit }: Scene) => (unit.sprocket ? roomAllowed : undefined),
  absent: () => undefined,
  because: (say, { unit }) =>
    `The lips leave ${say(roomOver)} over the tape; films and a splice need ${say(roomNeeded)}${unit.sprocket ? `, and above ${say(roomAllowed)} an edge rides up a tooth` : ""}.`,
};
