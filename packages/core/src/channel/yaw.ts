import { forwardPull, noFilmPull, tapeHold } from "../film/seat.ts";
import type { Check } from "../quantity/check.ts";
import { noForce } from "../quantity/force.ts";
import { model } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import { arcsOf } from "../route/pose.ts";
import { guidedLength } from "./play.ts";

/**
 * The wheel pulls at the hole line, drag and film off it: the tape turns in its side play about the tooth.
 *
 *     psi = max(0, c - W)/(2 l)                  yaw, rad: the tape's edge touches a wall at the far end of the guided length
 *     e_x = psi F,  e_y = psi x_p                error at the pick along and across, m; the part turns by psi
 *     M   = F_h (W/2 - E_1) - F_f F              moment about the hole line, N m; + turns the far edge back
 *     N   = |M|/(l - l_b)                        force on each wall, N
 *     l_b = mu_w (W - 2 E_1)                     guided length at which friction on the walls jams the tape askew
 *
 * c clear width of the channel, W width of the tape, m; l guided length upstream of the wheel, m, 0.01 .. 0.5; F hole line to the pocket's middle,
 * E_1 hole line to the edge, m; x_p pick to wheel along the tape, m; F_h friction and reel drag, taken at the tape's middle, F_f forward pull
 * of the film behind the peel edge, taken at the pocket's middle, N (0 where no film is led); mu_w friction of the tape's edges on the walls.
 *
 * Statics of a rigid tape between two walls, in its own plane: a bend does not change it. l is the guided length, taken to end at the wheel,
 * or what the route has upstream of the wheel if that is less. The bow of the edge, which takes some play, is left out (safe side), and so
 * is the side play of the tooth in its hole. Where the film draws ahead of the drag (M below 0) friction works against the turn: N and l_b
 * are then upper values. While |M| is below the friction of the tape on its ledges it stays at any yaw up to psi; it
 * flips with the seat (film/seat.ts). Uneven seal tracks add P e to M (film/seals.ts).
 */
const geometry = { cite: "statics of a rigid strip between two walls", how: "derived" } as const;

/** Length of tape that the route has upstream of the wheel, and what the walls guide of it. */
export const yawLength = model({
  id: "channel.yaw-length",
  symbol: "l",
  unit: "m",
  title: "guided length upstream of the wheel",
  equation: "min(guided length, route upstream of the wheel)",
  form: "solved",
  origin: { cite: "route of the unit file", how: "derived" },
  valid: { L: [0.005, 2] },
  reads: ({ unit }) => {
    const { route, place, section } = unit.tape;
    const placed = Math.max(
      0,
      route.findIndex((p) => p.mark === place.mark),
    );
    const upstream = route.slice(0, placed);
    return (
      unit.sprocket && {
        L: section["guided length"] ?? guidedLength,
        lines: upstream.flatMap((p) => p.line ?? []),
        arcs: arcsOf(upstream),
        s_w: unit.sprocket.at,
        s_0: place.x,
      }
    );
  },
  value: ({ L, lines, arcs, s_w, s_0 }) => {
    const behind =
      lines.reduce((sum, line) => sum + line, 0) + arcs.reduce((sum, a) => sum + a.radius * Math.abs(a.turn), 0);
    const upstream = behind + s_w - s_0;
    if (!(upstream > 0)) throw new RangeError("the wheel stands before the beginning of the route");
    return Math.min(L, upstream);
  },
});
export const bindingLength = model({
  id: "channel.binding-length",
  symbol: "l_b",
  unit: "m",
  title: "guided length at which the tape jams askew",
  equation: "mu_w*(W - 2*E_1)",
  form: "closed",
  origin: { cite: "a strip pulled at one edge between two rubbing walls jams, statics of a drawer", how: "derived" },
  valid: { mu_w: [0.02, 0.8] },
  reads: ({ tape, requirement }) => ({
    mu_w: requirement.assume["wall friction"],
    W: tape.letters.W,
    E_1: tape.letters.E1,
  }),
  value: ({ mu_w, W, E_1 }) => mu_w * (W - 2 * E_1),
});
export const yaw = model({
  id: "channel.yaw",
  symbol: "psi",
  unit: "1",
  shownIn: "mrad",
  title: "yaw of the tape in its play",
  equation: "max(0, c - W)/(2*l)",
  form: "closed",
  origin: geometry,
  reads: ({ unit, tape }) => unit.sprocket && { c: unit.tape.section.width, W: tape.letters.W, l: yawLength },
  value: ({ c, W, l }) => Math.max(0, c - W) / (2 * l),
});
export const yawAlong = model({
  id: "pick.yaw-along",
  symbol: "e_x",
  unit: "m",
  shownIn: "um",
  title: "error at the pick along the travel, from yaw",
  equation: "psi*F",
  form: "closed",
  origin: geometry,
  reads: ({ unit, tape }) => unit.sprocket && { psi: yaw, F: tape.letters.F },
  value: ({ psi, F }) => psi * F,
});
export const yawAcross = model({
  id: "pick.yaw-across",
  symbol: "e_y",
  unit: "m",
  shownIn: "um",
  title: "error at the pick across the tape, from yaw",
  equation: "psi*abs(s_w - s_p)",
  form: "closed",
  origin: geometry,
  reads: (scene) => {
    const s_p = pickOf(scene);
    const wheel = scene.unit.sprocket;
    return wheel && s_p && { psi: yaw, s_w: wheel.at, s_p };
  },
  value: ({ psi, s_w, s_p }) => psi * Math.abs(s_w - s_p),
});
export const yawMoment = model({
  id: "channel.yaw-moment",
  symbol: "M",
  unit: "N*m",
  title: "moment of drag and film about the hole line",
  equation: "F_h*(W/2 - E_1) - F_f*F",
  form: "closed",
  origin: geometry,
  reads: (scene) => ({
    F_h: tapeHold,
    W: scene.tape.letters.W,
    E_1: scene.tape.letters.E1,
    F_f: noFilmPull(scene) === undefined ? forwardPull : noForce,
    F: scene.tape.letters.F,
  }),
  value: ({ F_h, W, E_1, F_f, F }) => F_h * (W / 2 - E_1) - F_f * F,
});
export const wallForce = model({
  id: "channel.wall-force",
  symbol: "N",
  unit: "N",
  title: "force of the tape on each side wall; without end, then below 0, where it jams",
  equation: "abs(M)/(l - l_b)",
  form: "closed",
  origin: geometry,
  reads: ({ unit }) => unit.sprocket && { M: yawMoment, l: yawLength, l_b: bindingLength },
  value: ({ M, l, l_b }) => Math.abs(M) / (l - l_b),
});
export const checkYaw: Check = {
  id: "tape.yaw",
  station: 2,
  severity: "S",
  status: "established",
  title: "the side walls guide the tape far enough not to jam it askew",
  value: yawLength,
  atLeast: bindingLength,
  absent: ({ unit }) => (unit.sprocket ? undefined : "the unit has no sprocket"),
  because: (say) =>
    `The walls guide ${say(yawLength)} of tape up to the wheel, where ${say(bindingLength)} would jam it askew; in its play it turns by ${say(yaw)}, ${say(yawAlong)} along the travel at the pick.`,
  beside: () => [yaw, yawAlong, yawAcross, yawMoment, wallForce],
};
