import { gripFace } from "../nip/grip.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { notLedToNip } from "./friction.ts";
import { filmEh } from "./laminate.ts";
import { runningPeel } from "./peel-force.ts";
import { filmPull } from "./pull.ts";

/**
 * Two seal tracks of unlike strength pull the film off its middle.
 *
 *     b_c   = b - 2 s - w_t                       distance of the tracks' middles, m
 *     e     = |r_s - 1|/(r_s + 1) b_c/2           line of pull off the film's middle, m
 *     e_s   = b/6                                 beyond it the weaker edge goes slack, whatever the nip grips
 *     r_max = (3 b_c + b)/(3 b_c - b)             the same as a ratio of the tracks
 *     x_w   = max(0, e - f/2)                     walk at the nip until the pull lies at the end of the gripped face, m
 *     M_e   = P e                                 moment on the tape, N m: it turns the tape in its play
 *
 * r_s one track's strength over the other's, 0.2 .. 5; b width of the film, m, 0.003 .. 0.2; s its edge to a track, m; w_t width of a track,
 * m; f gripped face, m; P running peel force, N. Statics of two forces and of a rectangular section; within about b of the peel line both
 * edges are still held by their own track (St Venant, judgement), so it speaks of spans longer than that.
 *
 * A slack edge stops nothing by itself: it is too long by eps, 0.08 % for tracks 3 to 1 and 2 N on 24 mm tape, 0.8 % for 5 to 1 and 5 N, where
 * a span is pressed into folds at 1.5 to 2.5 %. Nor does the walk bring a track under the grip: it ends where the stronger track lies at the
 * end of the face. So the check enters the pick error (through M_e) and colours no cell; a track under the grip is film.stick's.
 *
 *     eps = 2 F (b - w)/(Eh w^2),  w = 3 (b/2 - e)   excess length of the slack edge over the taut part of width w
 *
 * F greatest pull in the film, N; Eh its stretching stiffness per width, N/m. Fibres that bear tension alone, strain linear across.
 */
const statics = { cite: "two parallel forces; middle third of a rectangular section", how: "derived" } as const;
const ratio = (r_s: number): number => Math.abs(r_s - 1) / (r_s + 1);

export const trackDistance = model({
  id: "film.track-distance",
  symbol: "b_c",
  unit: "m",
  title: "distance between the middles of the seal tracks",
  equation: "b - 2*s - w_t",
  form: "closed",
  origin: { cite: "geometry across the film", how: "derived" },
  reads: ({ tape: { film } }) => ({ b: film.width, s: film.inset, w_t: film.track }),
  value: ({ b, s, w_t }) => b - 2 * s - w_t,
});
export const pullOffset = model({
  id: "film.pull-offset",
  symbol: "e",
  unit: "m",
  title: "line of pull off the film's middle",
  equation: "abs(r_s - 1)/(r_s + 1)*b_c/2",
  form: "closed",
  origin: statics,
  valid: { r_s: [0.2, 5] },
  reads: ({ requirement: { assume } }) => ({ r_s: assume["seal ratio"], b_c: trackDistance }),
  value: ({ r_s, b_c }) => (ratio(r_s) * b_c) / 2,
});
export const slackOffset = model({
  id: "film.slack-offset",
  symbol: "e_s",
  unit: "m",
  title: "offset of the pull beyond which an edge goes slack",
  equation: "b/6",
  form: "closed",
  origin: statics,
  valid: { b: [0.003, 0.2] },
  reads: ({ tape }) => ({ b: tape.film.width }),
  value: ({ b }) => b / 6,
});
export const slackRatio = model({
  id: "film.slack-ratio",
  symbol: "r_max",
  unit: "1",
  title: "ratio of the seal tracks beyond which an edge goes slack",
  equation: "(3*b_c + b)/(3*b_c - b)",
  form: "closed",
  origin: statics,
  reads: ({ tape }) => ({ b_c: trackDistance, b: tape.film.width }),
  value: ({ b_c, b }) => (3 * b_c + b) / (3 * b_c - b),
});
export const nipWalk = model({
  id: "film.nip-walk",
  symbol: "x_w",
  unit: "m",
  title: "walk of the film at the nip",
  equation: "max(0, e - f/2)",
  form: "closed",
  origin: { cite: "a face of width f holds the line of pull within f/2 of its middle, statics", how: "derived" },
  reads: (scene) => {
    const f = gripFace(scene);
    return f && { e: pullOffset, f };
  },
  value: ({ e, f }) => Math.max(0, e - f / 2),
});
/** What film.stick would see of the nearer track once the film has walked: reported, for the walk is no error of the rollers. */
export const walkedOverlap = model({
  id: "film.walked-overlap",
  symbol: "o_w",
  unit: "m",
  title: "width of the nearer seal track under the gripped band once the film has walked",
  equation: "max(0, min(w_t, f/2 + e_w + x_w - (b/2 - s - w_t)))",
  form: "closed",
  origin: { cite: "geometry across the film", how: "derived" },
  reads: (scene) => {
    const f = gripFace(scene);
    const { film } = scene.tape;
    return (
      f && {
        w_t: film.track,
        f,
        e_w: scene.requirement.assume["film wander"],
        x_w: nipWalk,
        b: film.width,
        s: film.inset,
      }
    );
  },
  value: ({ w_t, f, e_w, x_w, b, s }) => Math.max(0, Math.min(w_t, f / 2 + e_w + x_w - (b / 2 - s - w_t))),
});
export const sealMoment = model({
  id: "film.seal-moment",
  symbol: "M_e",
  unit: "N*m",
  title: "moment of uneven seal tracks on the tape",
  equation: "P*e",
  form: "closed",
  origin: statics,
  reads: (scene) => (notLedToNip(scene) ? undefined : { P: runningPeel, e: pullOffset }),
  value: ({ P, e }) => P * e,
});
export const slackExcess = model({
  id: "film.slack-excess",
  symbol: "eps",
  unit: "1",
  shownIn: "%",
  title: "excess length of a slack edge",
  equation: "2*F*max(0, b - 3*(b/2 - e))/(Eh*(3*(b/2 - e))^2)",
  form: "closed",
  origin: { cite: "tension-only fibres with a strain linear across the width", how: "derived" },
  valid: { Eh: [60e3, 240e3], b: [0.003, 0.2] },
  reads: (scene) =>
    notLedToNip(scene) ? undefined : { F: filmPull, b: scene.tape.film.width, e: pullOffset, Eh: filmEh },
  value: ({ F, b, e, Eh }) => {
    const taut = 3 * (b / 2 - e);
    return (2 * F * Math.max(0, b - taut)) / (Eh * taut ** 2);
  },
});

export const checkSeals: Check = {
  id: "film.seals",
  station: 4,
  severity: "A",
  status: "established",
  title: "uneven seal tracks slacken no edge of the film",
  value: pullOffset,
  atMost: slackOffset,
  absent: notLedToNip,
  because: (say, { requirement }) =>
    `Seal tracks ${say(requirement.assume["seal ratio"])} to 1 draw the film ${say(pullOffset)} off its middle; beyond ${say(slackOffset)}, ${say(slackRatio)} to 1, the weaker edge hangs slack.`,
  beside: () => [slackRatio, nipWalk, walkedOverlap, sealMoment, slackExcess],
};
