import { after, before, type Piece, type Pose } from "@tapeworthy/core";

/** A piece of the route laid down: where it begins, what it is, where it ends. */
export interface Laid {
  readonly from: Pose;
  readonly piece: Piece;
  readonly to: Pose;
}
/** The route of the tape's underside as plain numbers: pieces end to end. */
export interface Route {
  readonly pieces: readonly Laid[];
  readonly start: Pose;
  readonly end: Pose;
}

/** Lays pieces before and behind a placed pose end to end. */
export function laidDown(placed: Pose, behind: readonly Piece[], ahead: readonly Piece[]): Route {
  let start = placed;
  for (const piece of [...behind].reverse()) start = before(start, piece);
  const pieces: Laid[] = [];
  let pose = start;
  for (const piece of [...behind, ...ahead]) {
    const to = after(pose, piece);
    pieces.push({ from: pose, piece, to });
    pose = to;
  }
  return { pieces, start, end: pose };
}

/** Pose at an arc length; beyond its ends the route goes on straight. */
export function poseOn(route: Route, s: number): Pose {
  if (s <= route.start.s) return after(route.start, { line: s - route.start.s });
  const one = route.pieces.find(({ to }) => s <= to.s);
  if (!one) return after(route.end, { line: s - route.end.s });
  const long = one.to.s - one.from.s;
  const part = long > 0 ? (s - one.from.s) / long : 0;
  return after(
    one.from,
    "line" in one.piece ? { line: one.piece.line * part } : { radius: one.piece.radius, turn: one.piece.turn * part },
  );
}

/** The pieces between two arc lengths, cut to them. */
export function between(route: Route, s0: number, s1: number): Laid[] {
  const out: Laid[] = [];
  const cut = (from: number, to: number, piece: Piece | undefined): void => {
    if (to - from <= 1e-12) return;
    const kept: Piece =
      !piece || "line" in piece
        ? { line: to - from }
        : { radius: piece.radius, turn: Math.sign(piece.turn) * ((to - from) / piece.radius) };
    out.push({ from: poseOn(route, from), piece: kept, to: poseOn(route, to) });
  };
  cut(s0, Math.min(s1, route.start.s), undefined);
  for (const { from, piece, to } of route.pieces) cut(Math.max(s0, from.s), Math.min(s1, to.s), piece);
  cut(Math.max(s0, route.end.s), s1, undefined);
  return out;
}

/** The point at a height off the underside at a pose; towards the film is positive. */
export const off = (pose: Pose, height: number): readonly [x: number, z: number] => [
  pose.x - height * Math.sin(pose.heading),
  pose.z + height * Math.cos(pose.heading),
];
