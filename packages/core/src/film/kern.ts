import { gripFace } from "../nip/grip.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { notLedToNip } from "./friction.ts";

/**
 * Kern of the film: the line of pull at a nip of face f, centred on the film, can leave the middle by f/2 at most; both edges stay in
 * tension while it stays within b/6. So a face of b/3 makes a slack edge from nip error impossible (sufficient, not necessary).
 *
 *     k = b/3
 *
 * b width of the film, m. Needs a span of about b for the pull to spread (St Venant, judgement). It never stops a tape by itself.
 */
export const kern = model({
  id: "film.kern-width",
  symbol: "k_b",
  unit: "m",
  title: "widest face that keeps both edges taut whatever the nip's error",
  equation: "b/3",
  form: "closed",
  origin: { cite: "middle third of a rectangular section, statics", how: "derived" },
  reads: ({ tape }) => ({ b: tape.film.width }),
  value: ({ b }) => b / 3,
});
export const face = model({
  id: "nip.face",
  symbol: "f",
  unit: "m",
  title: "gripped width of the film",
  equation: "f_d",
  form: "closed",
  origin: { cite: "unit file", how: "read" },
  reads: (scene) => {
    const f = gripFace(scene);
    return f && { f_d: f };
  },
  value: ({ f_d }) => f_d,
});
export const checkKern: Check = {
  id: "film.kern",
  station: 4,
  severity: "N",
  status: "established",
  title: "the nip grips the middle of the film",
  value: face,
  atMost: kern,
  absent: (scene) => notLedToNip(scene) ?? (gripFace(scene) ? undefined : "the unit has no nip rollers"),
  because: (say) =>
    `The nip grips ${say(face)} of the film; up to ${say(kern)} an error of the nip can't slacken an edge.`,
};
