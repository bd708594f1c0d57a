import type { Part } from "./convex.ts";

/**
 * A simple polygon split into convex parts: triangles cut off one by one, then joined again across every cut the parts can do without.
 *
 * At most four times as many parts as the fewest possible (Hertel and Mehlhorn 1983, memory). A corner is an ear when it bulges and no
 * other corner lies in its triangle; every simple polygon of more than three corners has two (Meisters 1975, memory). O(n^3): outlines of
 * bodies have a dozen corners. Corners anticlockwise; RangeError where the sides run into each other.
 */
export function convexParts(corners: Part): Part[] {
  const parts = triangles(corners);
  const bent = (ring: readonly number[]): boolean =>
    ring.some((_, i) => turning(corners, ring[i]!, ring[(i + 1) % ring.length]!, ring[(i + 2) % ring.length]!) < 0);
  for (let i = 0; i < parts.length; i++)
    for (let k = i + 1; k < parts.length; k++) {
      const joined = join(parts[i]!, parts[k]!);
      if (!joined || bent(joined)) continue;
      parts[i] = joined;
      parts.splice(k, 1);
      k = i;
    }
  return parts.map((ring) => ring.flatMap((c) => [corners[2 * c]!, corners[2 * c + 1]!]));
}

/** Which way the corner at b turns; positive anticlockwise. */
const turning = (c: Part, a: number, b: number, d: number): number =>
  (c[2 * b]! - c[2 * a]!) * (c[2 * d + 1]! - c[2 * b + 1]!) - (c[2 * b + 1]! - c[2 * a + 1]!) * (c[2 * d]! - c[2 * b]!);

/** Two rings joined across a side they share; undefined where they share none. */
function join(p: readonly number[], q: readonly number[]): number[] | undefined {
  for (let i = 0; i < p.length; i++) {
    const from = p[i]!;
    const to = p[(i + 1) % p.length]!;
    const k = q.findIndex((c, m) => c === to && q[(m + 1) % q.length] === from);
    if (k < 0) continue;
    // Round p from the far end of the side to its near end, then round q back.
    const first = p.map((_, m) => p[(i + 1 + m) % p.length]!);
    const second = q.map((_, m) => q[(k + 1 + m) % q.length]!);
    return [...first, ...second.slice(1, -1)];
  }
  return undefined;
}

/** Ears cut off a simple polygon, as rings of corner numbers. */
function triangles(corners: Part): number[][] {
  const left = Array.from({ length: corners.length / 2 }, (_, i) => i);
  const out: number[][] = [];
  while (left.length > 3) {
    const ear = left.findIndex((_, i) => isEar(corners, left, i));
    if (ear < 0) throw new RangeError("a polygon's sides run into each other");
    const ring = [left.at(ear - 1)!, left[ear]!, left[(ear + 1) % left.length]!];
    if (turning(corners, ring[0]!, ring[1]!, ring[2]!) > 0) out.push(ring);
    left.splice(ear, 1);
  }
  if (turning(corners, left[0]!, left[1]!, left[2]!) > 0) out.push(left);
  return out;
}
function isEar(corners: Part, left: readonly number[], i: number): boolean {
  const a = left.at(i - 1)!;
  const b = left[i]!;
  const c = left[(i + 1) % left.length]!;
  const turn = turning(corners, a, b, c);
  if (turn < 0) return false;
  return left.every(
    (p) =>
      p === a ||
      p === b ||
      p === c ||
      turning(corners, a, b, p) < 0 ||
      turning(corners, b, c, p) < 0 ||
      turning(corners, c, a, p) < 0,
  );
}
