import type { Point } from "./outline.ts";
import { after, before, type Piece, type Pose } from "./pose.ts";

/**
 * A route laid out: lines and bends end to end, each with the pose it begins at.
 *
 * Neighbouring lines count as one, and so do bends of the same radius and sense: a mark between two pieces changes nothing. The line
 * `up` metres above a course is again a course: lines stay, bends that turn up lose `up` of their radius, bends that turn down gain it.
 */
export interface Stretch {
  readonly start: Pose;
  readonly length: number;
  /** Radius and the way it turns: 1 up, -1 down. Absent on a line. */
  readonly bend?: { readonly radius: number; readonly sense: 1 | -1; readonly centre: Point };
}
export interface Course {
  readonly stretches: readonly Stretch[];
  /** Arc length at its ends, m. */
  readonly from: number;
  readonly to: number;
}

/** A route longer than this is a slip of a letter, m. */
const longest = 2;

/** Lays pieces end to end from a pose. RangeError with words where a piece is none or the whole is longer than 2 m. */
export function layCourse(start: Pose, pieces: readonly Piece[]): Course {
  if (![start.x, start.z, start.heading, start.s].every(Number.isFinite))
    throw new RangeError("the route begins at no place: a number of its start is not finite");
  const stretches: Stretch[] = [];
  let at = start;
  for (const [i, piece] of joined(pieces).entries()) {
    const stretch = stretchOf(at, piece, i);
    if (!stretch) continue;
    stretches.push(stretch);
    at = after(at, piece);
    if (at.s - start.s > longest)
      throw new RangeError(
        `the route is more than ${longest} m long at its piece ${i + 1}; a letter has no sensible value here`,
      );
  }
  if (stretches.length === 0) throw new RangeError("the route has no piece of any length");
  return { stretches, from: start.s, to: at.s };
}

/** A course through a placed mark: the pieces before it in the order of travel, then those after it. */
export const courseThrough = (placed: Pose, behind: readonly Piece[], ahead: readonly Piece[]): Course =>
  layCourse(
    behind.reduceRight<Pose>((to, piece) => before(to, piece), placed),
    [...behind, ...ahead],
  );

function stretchOf(start: Pose, piece: Piece, i: number): Stretch | undefined {
  if ("line" in piece) {
    if (!(piece.line >= 0 && piece.line < Number.POSITIVE_INFINITY))
      throw new RangeError(`piece ${i + 1} of the route is a line of ${piece.line} m`);
    return piece.line === 0 ? undefined : { start, length: piece.line };
  }
  const { radius, turn } = piece;
  if (!(radius > 0 && radius < Number.POSITIVE_INFINITY))
    throw new RangeError(`piece ${i + 1} of the route is a bend of radius ${radius} m`);
  if (!Number.isFinite(turn)) throw new RangeError(`piece ${i + 1} of the route turns by ${turn}`);
  if (turn === 0) return undefined;
  const sense = turn > 0 ? 1 : -1;
  const centre = {
    x: start.x - sense * radius * Math.sin(start.heading),
    z: start.z + sense * radius * Math.cos(start.heading),
  };
  return { start, length: radius * Math.abs(turn), bend: { radius, sense, centre } };
}

function joined(pieces: readonly Piece[]): Piece[] {
  const out: Piece[] = [];
  for (const piece of pieces) {
    const last = out.at(-1);
    if (last && "line" in last && "line" in piece) out[out.length - 1] = { line: last.line + piece.line };
    else if (
      last &&
      "radius" in last &&
      "radius" in piece &&
      last.radius === piece.radius &&
      last.turn * piece.turn > 0
    )
      out[out.length - 1] = { radius: last.radius, turn: last.turn + piece.turn };
    else out.push(piece);
  }
  return out;
}

/** The pose so far into a stretch; past its ends it goes on as it is. */
export function along({ start, bend }: Stretch, length: number): Pose {
  const far = Math.abs(length);
  const piece: Piece = bend ? { radius: bend.radius, turn: (bend.sense * far) / bend.radius } : { line: far };
  return length >= 0 ? after(start, piece) : before(start, piece);
}

/** The pose at an arc length of the course, its ends at most. */
export function poseOn(course: Course, s: number): Pose {
  const { stretches } = course;
  const i = stretches.findLastIndex((one) => one.start.s <= s);
  const stretch = stretches[Math.max(0, i)]!;
  return along(stretch, Math.max(0, Math.min(stretch.length, s - stretch.start.s)));
}

/** The course that runs `up` metres above this one, at the same arc lengths of its own. */
export function raised(course: Course, up: number): Course {
  const first = course.stretches[0]!.start;
  const start = { ...first, x: first.x - up * Math.sin(first.heading), z: first.z + up * Math.cos(first.heading) };
  const pieces = course.stretches.map(({ length, bend }): Piece => {
    if (!bend) return { line: length };
    const radius = bend.radius - bend.sense * up;
    if (!(radius > 0))
      throw new RangeError(
        `a bend of ${(bend.radius * 1e3).toFixed(2)} mm has no line ${(up * 1e3).toFixed(2)} mm above it`,
      );
    return { radius, turn: (bend.sense * length) / bend.radius };
  });
  return layCourse(start, pieces);
}
