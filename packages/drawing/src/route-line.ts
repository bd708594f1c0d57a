import { after, before, type Piece, type Pose } from "@tapeworthy/core";

/** A piece of the route laid down: where it begins and what it is. */
export interface Laid {
  readonly from: Pose;
  readonly piece: Piece;
  readonly to: Pose;
}

/** The route of the tape's underside as numbers: pieces end to end, any place on it by its arc length. */
export class RouteLine {
  readonly pieces: readonly Laid[];
  readonly start: Pose;
  readonly end: Pose;
  /** Pieces before and behind the placed pose. */
  constructor(placed: Pose, behind: readonly Piece[], ahead: readonly Piece[]) {
    let start = placed;
    for (const piece of [...behind].reverse()) start = before(start, piece);
    const laid: Laid[] = [];
    let pose = start;
    for (const piece of [...behind, ...ahead]) {
      const to = after(pose, piece);
      laid.push({ from: pose, piece, to });
      pose = to;
    }
    this.pieces = laid;
    this.start = start;
    this.end = pose;
  }

  /** Pose at an arc length; beyond its ends the route goes on straight. */
  at(s: number): Pose {
    if (this.pieces.length === 0 || s <= this.start.s) return after(this.start, { line: s - this.start.s });
    const one = this.pieces.find(({ to }) => s <= to.s);
    if (!one) return after(this.end, { line: s - this.end.s });
    const long = one.to.s - one.from.s;
    const part = long > 0 ? (s - one.from.s) / long : 0;
    return after(one.from, "line" in one.piece ? { line: one.piece.line * part } : { radius: one.piece.radius, turn: one.piece.turn * part });
  }

  /** Pieces between two arc lengths, cut to them, drawn at a height off the underside (towards the film is positive). */
  between(s0: number, s1: number): Laid[] {
    const out: Laid[] = [];
    const cut = (from: number, to: number, piece: Piece | undefined): void => {
      if (to - from <= 1e-12) return;
      const [a, b] = [this.at(from), this.at(to)];
      const kept: Piece = !piece || "line" in piece ? { line: to - from } : { radius: piece.radius, turn: Math.sign(piece.turn) * ((to - from) / piece.radius) };
      out.push({ from: a, piece: kept, to: b });
    };
    cut(s0, Math.min(s1, this.start.s), undefined);
    for (const { from, piece, to } of this.pieces) cut(Math.max(s0, from.s), Math.min(s1, to.s), piece);
    cut(Math.max(s0, this.end.s), s1, undefined);
    return out;
  }
}

/** The point at a height off the underside at a pose. */
export const off = (pose: Pose, height: number): readonly [x: number, z: number] => [pose.x - height * Math.sin(pose.heading), pose.z + height * Math.cos(pose.heading)];
