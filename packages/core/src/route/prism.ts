import { type Outline, outlineGap, type Point } from "./outline.ts";

/**
 * Bodies as prisms: an outline in the side view times a stretch of y, and the signed gap of two of them.
 *
 *     g = sqrt(d_xz^2 + d_y^2)   apart in both
 *     g = max(d_xz, d_y)         else: apart in one, that one; overlapping in both, the shorter way out
 *
 * d_xz signed gap of the outlines, d_y signed gap of the stretches of y, m. Exact wherever d_xz is (derived). It rises with d_xz at any
 * d_y: the least gap of a moving prism stands where its outline comes nearest.
 */
export interface Across {
  readonly from: number;
  readonly to: number;
}
export interface Prism {
  readonly outline: Outline;
  /** m from the tape's sprocket-side edge. */
  readonly y: Across;
}
export interface PrismGap {
  readonly gap: number;
  /** Gap in the side view, and across. */
  readonly inPlane: number;
  readonly across: number;
  readonly on: Point;
  readonly to: Point;
}

/** A prism; RangeError with words where its stretch of y is none. */
export function prism(outline: Outline, from: number, to: number): Prism {
  if (!Number.isFinite(from) || !Number.isFinite(to))
    throw new RangeError(`a body fills y from ${from} to ${to}, which is no place`);
  if (from > to)
    throw new RangeError(
      `a body fills y from ${(from * 1e3).toFixed(3)} mm down to ${(to * 1e3).toFixed(3)} mm; give the lesser first`,
    );
  return { outline, y: { from, to } };
}

/** Signed gap of two stretches of y. */
export const gapAcross = (a: Across, b: Across): number => Math.max(b.from - a.to, a.from - b.to);

/** Signed gap of two prisms from that of their outlines and that of their stretches of y. */
export function combined(inPlane: number, across: number): number {
  return inPlane > 0 && across > 0 ? Math.sqrt(inPlane * inPlane + across * across) : Math.max(inPlane, across);
}
/** How near the outlines must be for the prisms to be nearer than `gap`; negative infinity where no outline is near enough. */
export function inPlaneBelow(gap: number, across: number): number {
  if (across >= gap) return Number.NEGATIVE_INFINITY;
  return across > 0 ? Math.sqrt(gap * gap - across * across) : gap;
}

export function prismGap(a: Prism, b: Prism): PrismGap {
  const { gap: inPlane, on, to } = outlineGap(a.outline, b.outline);
  const across = gapAcross(a.y, b.y);
  return { gap: combined(inPlane, across), inPlane, across, on, to };
}
