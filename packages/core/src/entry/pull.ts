import { roomOver } from "../channel/lips.ts";
import type { Given } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { setCurvature } from "../reel/set.ts";
import type { Scene } from "../scene.ts";
import { type Passed, pastBend, pastStraight } from "./bends.ts";
import { stiffness } from "./stiffness.ts";
import { tapeWeight } from "./weight.ts";

/**
 * Pull in the tape after each piece of its route, from the reel to the wheel.
 *
 *     T_0 = F_d                      drag of the reel, N
 *     T_i = T_(i-1) past piece i     straight pieces and bends: bends.ts
 *     T_e = T_n                      what the wheel pulls against, before the hold-down
 *     q_a = least contact over the bends; below 1 the tape does not lie on one of them
 *
 * Walls and ledges rub with mu; a bend that turns down has the pockets inside, as the reel had (memory), one that turns up bends the tape against its
 * set. The room over the tape is that under the lips, at least the running clearance. Friction at the side walls (yaw) and of the film is not in it.
 */
type Piece = { readonly line: Given } | { readonly radius: Given; readonly turn: Given };
type Drawn = { readonly line: number } | { readonly radius: number; readonly turn: number };

/** Pieces of the route before and behind the place from which lengths are measured. */
export function piecesOf({ unit }: Scene): { readonly behind: readonly Piece[]; readonly ahead: readonly Piece[] } {
  const { route, place } = unit.tape;
  const placed = Math.max(
    0,
    route.findIndex((p) => p.mark === place.mark),
  );
  const drawn = (from: number, to?: number): readonly Piece[] =>
    route
      .slice(from, to)
      .flatMap((p): Piece[] =>
        p.arc ? [{ radius: p.arc.radius, turn: p.arc.turn }] : p.line ? [{ line: p.line }] : [],
      );
  return { behind: drawn(0, placed), ahead: drawn(placed) };
}
const lengthOf = (p: Drawn): number => ("line" in p ? p.line : p.radius * Math.abs(p.turn));
const partOf = (p: Drawn, share: number): Drawn =>
  "line" in p ? { line: p.line * share } : { radius: p.radius, turn: p.turn * share };
/** Pieces upstream and downstream of a place that lies `at` ahead of the placed mark, each in the order of travel. */
export function cutAt(
  behind: readonly Drawn[],
  ahead: readonly Drawn[],
  at: number,
): { readonly before: readonly Drawn[]; readonly after: readonly Drawn[] } {
  const before: Drawn[] = [];
  const after: Drawn[] = [];
  let left = at;
  for (const p of behind) left += lengthOf(p);
  const add = (p: Drawn): void => {
    const long = lengthOf(p);
    if (left >= long) before.push(p);
    else if (left <= 0) after.push(p);
    else {
      before.push(partOf(p, left / long));
      after.push(partOf(p, 1 - left / long));
    }
    left -= long;
  };
  for (const p of behind) add(p);
  for (const p of ahead) add(p);
  return { before, after };
}

/** What the tape meets in its channel, as one group of reads. */
export const channelReads = (scene: Scene) => {
  const { requirement, tape } = scene;
  return {
    EI: stiffness(scene),
    kappa: setCurvature(scene),
    w: tapeWeight,
    T: tape.letters.T,
    s_l: roomOver,
    c_r: requirement.assume["running clearance"],
    mu: requirement.assume["wall friction"],
    psi: requirement.assume[tape.kind === "embossed" ? "hysteresis" : "board hysteresis"],
  };
};
export interface Channel {
  readonly EI: number;
  readonly kappa: number;
  readonly w: number;
  readonly T: number;
  readonly s_l: number;
  readonly c_r: number;
  readonly mu: number;
  readonly psi: number;
}
export interface After extends Passed {
  readonly piece: "straight" | "bend";
}
/** Pull after each of these pieces, from a pull before the first. */
export function pullAfterEach(
  pull: number,
  pieces: readonly Drawn[],
  { EI, kappa, w, T, s_l, c_r, mu, psi }: Channel,
): readonly After[] {
  const room = Math.max(s_l, c_r);
  let now = pull;
  return pieces.map((p): After => {
    if ("line" in p) {
      now = pastStraight(now, { length: p.line, EI, kappa, mu, weight: w, room });
      return { piece: "straight", pull: now, inside: now, contact: Number.POSITIVE_INFINITY };
    }
    const R = p.radius + (p.turn > 0 ? -T / 2 : T / 2);
    const passed = pastBend(now, { EI, R, phi: Math.abs(p.turn), kappa: p.turn < 0 ? kappa : -kappa, mu, psi, room });
    now = passed.pull;
    return { piece: "bend", ...passed };
  });
}

/** Drag of the reel: from the unit file, else assumed. */
export const reelDrag = ({ unit, requirement }: Scene): Quantity => unit.reel?.drag ?? requirement.assume["reel drag"];

export const routePull = model({
  id: "entry.pieces",
  symbol: "T_i",
  unit: "",
  title: "pull in the tape after each piece of its route, up to the wheel",
  equation: "T_i = T_(i-1) past piece i; T_0 = F_d",
  form: "solved",
  origin: { cite: "rope law with the stiffness of the elastica", how: "derived" },
  reads: (scene) => {
    const { sprocket, tape } = scene.unit;
    return (
      sprocket && {
        ...channelReads(scene),
        ...piecesOf(scene),
        F_d: reelDrag(scene),
        s_w: sprocket.at,
        s_0: tape.place.x,
      }
    );
  },
  value: (x) => {
    const { before } = cutAt(x.behind, x.ahead, x.s_w - x.s_0);
    return pullAfterEach(x.F_d, before, x);
  },
});
/** A bend that is always lain on counts as this often its least. */
const always = 1e6;
export const arcContact = model({
  id: "entry.contact",
  symbol: "q_a",
  unit: "1",
  title: "least contact of the tape with a bend of its route; 1 and more: it lies on the arc",
  equation: "min(T/B, phi/(a_1 + a_2)) over the bends",
  form: "solved",
  origin: { cite: "first integral of the elastica", how: "derived" },
  reads: ({ unit }) => (unit.sprocket ? { pieces: routePull } : undefined),
  value: ({ pieces }) => pieces.reduce((least, p) => Math.min(least, p.contact), always),
});
export const entryPull = model({
  id: "entry.pull",
  symbol: "T_e",
  unit: "N",
  title: "pull of the tape at the wheel, from its reel and its route",
  equation: "T_n of the route's last piece before the wheel",
  form: "solved",
  origin: { cite: "rope law with the stiffness of the elastica", how: "derived" },
  valid: { q_a: [1, 1e9] },
  reads: (scene) => (scene.unit.sprocket ? { pieces: routePull, F_d: reelDrag(scene), q_a: arcContact } : undefined),
  value: ({ pieces, F_d }) => pieces.at(-1)?.pull ?? F_d,
  where: ({ pieces }) => {
    let [from, most, worst] = [0, Number.NEGATIVE_INFINITY, 0];
    pieces.forEach((p, i) => {
      if (p.pull - from > most && i > 0) [most, worst] = [p.pull - from, i];
      from = p.pull;
    });
    const counted = pieces.slice(0, worst + 1).filter((p) => p.piece === pieces[worst]?.piece).length;
    return pieces.length < 2 ? "one piece" : `most of it is added by ${pieces[worst]!.piece} ${counted}`;
  },
});
