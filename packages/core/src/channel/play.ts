import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { arcsOf } from "../route/pose.ts";
import type { Scene } from "../scene.ts";

/**
 * Side play of the tape in its channel.
 *
 *     j = c - W - k (L/L_0)^2
 *
 * c clear width of the channel, m; W width of the tape on the reel, m; k bow of the tape's edge over L_0 = 250 mm, m, 0 .. 2e-3;
 * L guided length, m, 0.01 .. 0.5. A letter W in the unit file is the catalogue's: the reel's own deviation stays in the gap.
 * The bow of a circular edge; tension that would straighten it is left out (safe side).
 */
/** Length over which the standard states the bow of an edge. */
export const camberBase = tabled("bound/camber base", "L_0", "250 mm", [1, 0, 0, 0, 0], {
  cite: "EIA-481-D, camber note (older sheets: 100 mm)",
  how: "memory",
});

export const guidedLength = model({
  id: "channel.guided-length",
  symbol: "L",
  unit: "m",
  title: "guided length of the channel",
  equation: "sum of the route's pieces",
  form: "solved",
  origin: { cite: "route of the unit file", how: "derived" },
  reads: ({ unit }) => ({ lines: unit.tape.route.flatMap((p) => p.line ?? []), arcs: arcsOf(unit.tape.route) }),
  value: ({ lines, arcs }) =>
    lines.reduce((sum, line) => sum + line, 0) + arcs.reduce((sum, arc) => sum + arc.radius * Math.abs(arc.turn), 0),
});
const guided = ({ unit }: Scene): Quantity => unit.tape.section["guided length"] ?? guidedLength;

export const sidePlay = model({
  id: "channel.play",
  symbol: "j",
  unit: "m",
  title: "side play of the tape in its channel",
  equation: "c - W - k*(L/L_0)^2",
  form: "closed",
  origin: { cite: "geometry; sagitta of a circular edge", how: "derived" },
  valid: { L: [0.005, 0.5], k: [0, 3e-3] },
  reads: (scene) => ({
    c: scene.unit.tape.section.width,
    W: scene.tape.letters.W,
    k: scene.tape.camber,
    L: guided(scene),
    L_0: camberBase,
  }),
  value: ({ c, W, k, L, L_0 }) => c - W - k * (L / L_0) ** 2,
});
export const checkPlay: Check = {
  id: "entry.play",
  station: 1,
  severity: "S",
  status: "established",
  title: "the tape fits between the side walls",
  value: sidePlay,
  atLeast: noLength,
  absent: () => undefined,
  because: (say, scene) =>
    `${say(sidePlay)} are left between a ${say(scene.tape.letters.W)} tape with its bow and walls ${say(scene.unit.tape.section.width)} apart.`,
};
