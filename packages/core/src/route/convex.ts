/**
 * Signed distance of two convex parts in the side view.
 *
 *     d = max over unit n of [ min over b of n·b - max over a of n·a ]
 *
 * Positive: how far apart. Negative: the shortest shift that takes them apart, its sign turned. Where the parts overlap the greatest
 * value stands on a side of one of them, so trying each side is exact; where they don't it is the least of corner to side.
 *
 * Separating axis theorem for convex polygons (memory; derived again here from the sum of a and -b, whose sides are those of both).
 */

/** A convex part: its corners anticlockwise (x to the right, z up) as x, z, x, z ...; one corner is a point, two a segment. m. */
export type Part = readonly number[];

export interface Separation {
  /** m; negative where the parts overlap. */
  d: number;
  /** Unit direction from the first part to the second: shifting the second by -d along it makes them touch. */
  nx: number;
  nz: number;
  /** The two nearest points; where the parts overlap, those that come to touch. */
  ax: number;
  az: number;
  bx: number;
  bz: number;
}

/** Greatest reach of a part along a direction. */
export function reachAlong(part: Part, nx: number, nz: number): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < part.length; i += 2) {
    const v = nx * part[i]! + nz * part[i + 1]!;
    if (v > most) most = v;
  }
  return most;
}

export function separation(a: Part, b: Part): Separation {
  const s: Separation = { d: Number.NEGATIVE_INFINITY, nx: 1, nz: 0, ax: 0, az: 0, bx: 0, bz: 0 };
  // A corner that stands square before a side is the nearest pair, however far away.
  if (alongSides(a, b, s, 1) && s.d >= 0) return s;
  if (alongSides(b, a, s, -1) && s.d >= 0) return s;
  // Two parts without area: their ends part them too, which no side shows.
  if (a.length <= 4 && b.length <= 4) {
    pastEnds(a, b, s, 1);
    pastEnds(b, a, s, -1);
  }
  if (s.d < 0 && s.d > Number.NEGATIVE_INFINITY) return s;
  s.d = Number.POSITIVE_INFINITY;
  cornersToSides(a, b, s, 1);
  cornersToSides(b, a, s, -1);
  if (s.d > 0) {
    s.nx = (s.bx - s.ax) / s.d;
    s.nz = (s.bz - s.az) / s.d;
  }
  return s;
}

/** Tries each side of p as the line between; true where the best so far is a corner of q square before a side of p. */
function alongSides(p: Part, q: Part, s: Separation, sign: 1 | -1): boolean {
  const n = p.length;
  let square = false;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const ex = p[j]! - p[i]!;
    const ez = p[j + 1]! - p[i + 1]!;
    const l = Math.sqrt(ex * ex + ez * ez);
    if (!(l > 0)) continue;
    const nx = ez / l;
    const nz = -ex / l;
    let nearest = Number.POSITIVE_INFINITY;
    let k = 0;
    for (let m = 0; m < q.length; m += 2) {
      const v = nx * q[m]! + nz * q[m + 1]!;
      if (v < nearest) {
        nearest = v;
        k = m;
      }
    }
    const d = nearest - nx * p[i]! - nz * p[i + 1]!;
    if (d <= s.d) continue;
    const t = ((q[k]! - p[i]!) * ex + (q[k + 1]! - p[i + 1]!) * ez) / (l * l);
    square = t >= 0 && t <= 1;
    const at = t < 0 ? 0 : t > 1 ? 1 : t;
    s.d = d;
    s.nx = sign * nx;
    s.nz = sign * nz;
    points(s, sign, p[i]! + at * ex, p[i + 1]! + at * ez, q[k]!, q[k + 1]!);
  }
  return square;
}

/** Tries the directions along a segment. */
function pastEnds(p: Part, q: Part, s: Separation, sign: 1 | -1): void {
  if (p.length !== 4) return;
  const ex = p[2]! - p[0]!;
  const ez = p[3]! - p[1]!;
  const l = Math.sqrt(ex * ex + ez * ez);
  if (!(l > 0)) return;
  for (const way of [1, -1]) {
    const nx = (way * ex) / l;
    const nz = (way * ez) / l;
    const d = -reachAlong(q, -nx, -nz) - reachAlong(p, nx, nz);
    if (d > s.d) {
      s.d = d;
      s.nx = sign * nx;
      s.nz = sign * nz;
    }
  }
}

/** Least distance of a corner of q to a side of p, kept in s where it is less than what s holds. */
function cornersToSides(p: Part, q: Part, s: Separation, sign: 1 | -1): void {
  const n = p.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const ex = p[j]! - p[i]!;
    const ez = p[j + 1]! - p[i + 1]!;
    const l2 = ex * ex + ez * ez;
    for (let m = 0; m < q.length; m += 2) {
      const rx = q[m]! - p[i]!;
      const rz = q[m + 1]! - p[i + 1]!;
      let t = l2 > 0 ? (rx * ex + rz * ez) / l2 : 0;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const gx = rx - t * ex;
      const gz = rz - t * ez;
      const d = Math.sqrt(gx * gx + gz * gz);
      if (d < s.d) {
        s.d = d;
        points(s, sign, p[i]! + t * ex, p[i + 1]! + t * ez, q[m]!, q[m + 1]!);
      }
    }
  }
}

function points(s: Separation, sign: 1 | -1, px: number, pz: number, qx: number, qz: number): void {
  s.ax = sign === 1 ? px : qx;
  s.az = sign === 1 ? pz : qz;
  s.bx = sign === 1 ? qx : px;
  s.bz = sign === 1 ? qz : pz;
}

/** Twice the signed area; positive where the corners run anticlockwise. */
export function doubleArea(corners: Part): number {
  let sum = 0;
  for (let i = 0, j = corners.length - 2; i < corners.length; j = i, i += 2)
    sum += corners[j]! * corners[i + 1]! - corners[i]! * corners[j + 1]!;
  return sum;
}

/** What of a convex part lies where n·p <= limit; empty where nothing does. */
export function cut(part: Part, nx: number, nz: number, limit: number): Part {
  const out: number[] = [];
  const put = (x: number, z: number): void => {
    if (out.length === 0 || x !== out.at(-2) || z !== out.at(-1)) out.push(x, z);
  };
  const n = part.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const here = nx * part[i]! + nz * part[i + 1]! - limit;
    const next = nx * part[j]! + nz * part[j + 1]! - limit;
    if (here <= 0) put(part[i]!, part[i + 1]!);
    // A segment runs there and back: its way back would give the same place again.
    if (((here < 0 && next > 0) || (here > 0 && next < 0)) && !(n === 4 && i === 2)) {
      const t = here / (here - next);
      put(part[i]! + t * (part[j]! - part[i]!), part[i + 1]! + t * (part[j + 1]! - part[i + 1]!));
    }
  }
  if (out.length > 2 && out[0] === out.at(-2) && out[1] === out.at(-1)) out.length -= 2;
  return out;
}

/** Which way the corner at b turns; positive anticlockwise. */
const turning = (c: Part, a: number, b: number, d: number): number =>
  (c[2 * b]! - c[2 * a]!) * (c[2 * d + 1]! - c[2 * b + 1]!) - (c[2 * b + 1]! - c[2 * a + 1]!) * (c[2 * d]! - c[2 * b]!);

/**
 * Splits a simple polygon, anticlockwise, into convex parts: triangles cut off one by one, then joined again across every cut that the
 * parts can do without. At most four times as many parts as the fewest possible (Hertel and Mehlhorn 1983, memory).
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
