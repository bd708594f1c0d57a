import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * Does the pick tool reach every part through the window over the pocket?
 *
 *     g_x = o_x - A_0 - e_t - max(0, D_0 - t_a)
 *     g_y = o_y - B_0 - e_t - max(0, c - W) - 2 |(E_1 + F) - (E_1 + F)_u|
 *     g   = the least of both, over the window in the cover and that in the leaf
 *
 * o window, A_0, B_0 pocket of the served tape, m; e_t by how much the pick tool with its wander outreaches the pocket, both sides together, m;
 * D_0 - t_a play of a tooth in its hole along the travel (0 without a sprocket), c - W play of the tape in its channel; E_1 + F edge of the tape
 * to the middle of its pocket, and the same as the unit is built for (_u): a pocket off the middle loses room on one side, so twice.
 *
 * The window's middle is taken over the pocket's. Rotation of the tape in its play is left out: below 5 mrad it moves a corner by a
 * hundredth of the pocket's half length.
 */
interface Window {
  readonly x: number;
  readonly y: number;
  readonly name: string;
}
interface Room {
  readonly windows: readonly Window[];
  readonly A_0: number;
  readonly B_0: number;
  readonly e_t: number;
  readonly along: number;
  readonly across: number;
}
export function leastRoom({ windows, A_0, B_0, e_t, along, across }: Room): { room: number; where: string } {
  let room = Number.NaN;
  let [name, way] = ["", ""];
  // It is asked for every draw: no object is made but the answer.
  for (let i = 0; i < windows.length; i++) {
    const window = windows[i]!;
    const [x, y] = [window.x - A_0 - e_t - along, window.y - B_0 - e_t - across];
    if (i === 0 || x < room) [room, name, way] = [x, window.name, "along the travel"];
    if (y < room) [room, name, way] = [y, window.name, "across the tape"];
  }
  return { room, where: `${name}, ${way}` };
}

const windowsOf = ({ unit }: Scene) =>
  [
    { window: unit.tape.opening, name: "the window in the cover" },
    { window: unit["hold-down"]?.opening, name: "the window in the hold-down" },
  ].flatMap(({ window, name }) => (window ? [{ x: window.x, y: window.y, name }] : []));

const alongPlay = model({
  id: "hold.tooth-play",
  symbol: "j_x",
  unit: "m",
  title: "play of a tooth in its hole along the travel",
  equation: "max(0, D_0 - t_a)",
  form: "closed",
  origin: { cite: "hole less tooth", how: "derived" },
  reads: ({ unit, tape }) => unit.sprocket && { D_0: tape.letters.D0, t_a: unit.sprocket.tooth.along },
  value: ({ D_0, t_a }) => Math.max(0, D_0 - t_a),
});
export const acrossPlay = model({
  id: "hold.side-play",
  symbol: "j_y",
  unit: "m",
  title: "play of the pocket across the tape, its place on the tape counted",
  equation: "max(0, c - W) + 2*abs(E_1 + F - E_u - F_u)",
  form: "closed",
  origin: { cite: "channel less tape; place of the pocket", how: "derived" },
  reads: ({ unit, tape }) => {
    const { E1: E_u, F: F_u } = unit.letters;
    const { W, E1, F } = tape.letters;
    return E_u && F_u && { c: unit.tape.section.width, W, E_1: E1, F, E_u, F_u };
  },
  value: ({ c, W, E_1, F, E_u, F_u }) => Math.max(0, c - W) + 2 * Math.abs(E_1 + F - E_u - F_u),
});
export const openingRoom = model({
  id: "hold.opening",
  symbol: "g_o",
  unit: "m",
  title: "room of the pick tool in the window over the pocket",
  equation: "opening - pocket - pick tool - play, the least over both directions and all windows",
  form: "solved",
  origin: { cite: "sum of lengths", how: "derived" },
  reads: (scene) => {
    const windows = windowsOf(scene);
    if (windows.length === 0 || !acrossPlay.reads(scene)) return undefined;
    return {
      windows,
      A_0: scene.tape.letters.A0,
      B_0: scene.tape.letters.B0,
      e_t: scene.requirement.assume["pick tool excess"],
      along: scene.unit.sprocket ? alongPlay : noLength,
      across: acrossPlay,
    };
  },
  value: (x) => leastRoom(x).room,
  where: (x) => leastRoom(x).where,
});
export const checkOpening: Check = {
  id: "hold.opening",
  station: 3,
  severity: "S",
  status: "established",
  title: "the window over the pocket lets the pick tool in",
  value: openingRoom,
  atLeast: noLength,
  absent: (scene) =>
    windowsOf(scene).length === 0 ? "neither the cover nor the hold-down has a window over the pocket" : undefined,
  because: (say, { tape }) =>
    `Beside the pick tool ${say(openingRoom)} are left in the window over a pocket of ${say(tape.letters.A0)} by ${say(tape.letters.B0)}.`,
  beside: () => [acrossPlay],
};
