import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { arcsOf } from "../route/pose.ts";
import type { Scene } from "../scene.ts";
import { noPockets, pocketDrop, pocketLength } from "../tape/pocket.ts";

/**
 * The groove under the pockets.
 *
 *     g_d = d - drop - h                                            room under the pocket, m
 *     h   = r - sqrt(r^2 - L^2/4)                                   chord of a rigid pocket inside a bend that turns down; else 0
 *     g_w = m - (B_1 - B_u)/2 - |E_1 + F - E_u - F_u| - (c - W)/2   room beside it with the tape against the far wall, m
 *
 * d depth below the ledges, drop pocket below the underside, L its outside length, r bend radius, all m; m margin drawn on each side of the
 * pocket the unit is built for (B_u), B_1 the served pocket's outside width; E_1 + F its middle from the tape's edge, E_u + F_u the
 * catalogue's; c - W the side play. Pockets outside a bend need no extra depth. With `rests on: cover side` the underside
 * moves down by T - T_u when the tape is thicker.
 */
const throughThickness = ({ unit, tape }: Scene): readonly { readonly T: Quantity; readonly T_u: Quantity }[] =>
  unit.tape["rests on"] === "cover side" && unit.letters.T ? [{ T: tape.letters.T, T_u: unit.letters.T }] : [];
const chord = (arc: { readonly radius: number; readonly turn: number }, L: number): number =>
  arc.turn < 0 ? arc.radius - Math.sqrt(arc.radius ** 2 - (L * L) / 4) : 0;

export const roomUnder = model({
  id: "groove.room-under",
  symbol: "g_d",
  unit: "m",
  title: "room under the pocket",
  equation: "d - drop - h, h = r - sqrt(r^2 - L^2/4) inside a bend",
  form: "solved",
  origin: { cite: "rigid pocket on a chord", how: "derived" },
  reads: (scene) =>
    scene.tape.kind === "embossed"
      ? {
          d: scene.unit.tape.section.groove.depth,
          drop: pocketDrop,
          L: pocketLength,
          arcs: arcsOf(scene.unit.tape.route),
          thickness: throughThickness(scene),
        }
      : undefined,
  value: ({ d, drop, L, arcs, thickness }) => {
    const h = arcs.reduce((most, arc) => Math.max(most, chord(arc, L)), 0);
    const sunk = thickness.reduce((sum, t) => sum + t.T - t.T_u, 0);
    return d - drop - h - sunk;
  },
  where: ({ L, arcs }) => {
    let at = -1;
    let most = 0;
    arcs.forEach((arc, i) => {
      if (chord(arc, L) > most) {
        most = chord(arc, L);
        at = i;
      }
    });
    return at < 0 ? "on the straight" : `bend ${at + 1} of the route`;
  },
});
export const checkDepth: Check = {
  id: "groove.depth",
  station: 2,
  severity: "S",
  status: "established",
  title: "the pockets clear the groove's floor",
  value: roomUnder,
  atLeast: noLength,
  absent: ({ unit, tape }) =>
    noPockets(tape.kind) ??
    (unit.tape["rests on"] === "floors" ? "the pockets rest on the groove's floor: it is their support" : undefined),
  because: (say) => `${say(roomUnder)} are left under a pocket that hangs ${say(pocketDrop)} below the tape.`,
};

export const roomBeside = model({
  id: "groove.room-beside",
  symbol: "g_w",
  unit: "m",
  title: "room beside the pocket",
  equation: "m - (B_1 - B_u)/2 - abs(E_1 + F - E_u - F_u) - (c - W)/2",
  form: "closed",
  origin: { cite: "geometry across the channel, tape centred in it", how: "derived" },
  reads: ({ unit, tape }) =>
    tape.kind === "embossed" && unit.letters.B1
      ? {
          m: unit.tape.section.groove.margin,
          B_1: tape.letters.B1,
          B_u: unit.letters.B1,
          E_1: tape.letters.E1,
          F: tape.letters.F,
          E_u: unit.letters.E1!,
          F_u: unit.letters.F!,
          c: unit.tape.section.width,
          W: tape.letters.W,
        }
      : undefined,
  value: ({ m, B_1, B_u, E_1, F, E_u, F_u, c, W }) => m - (B_1 - B_u) / 2 - Math.abs(E_1 + F - E_u - F_u) - (c - W) / 2,
});
export const checkWidth: Check = {
  id: "groove.width",
  station: 2,
  severity: "S",
  status: "established",
  title: "the pockets clear the groove's walls",
  value: roomBeside,
  atLeast: noLength,
  absent: ({ unit, tape }) =>
    noPockets(tape.kind) ?? (unit.letters.B1 ? undefined : "the pocket the unit is built for is not given"),
  because: (say, scene) =>
    `${say(roomBeside)} are left beside a pocket ${say(scene.tape.letters.B1)} wide when the tape leans to one side of its channel.`,
};
