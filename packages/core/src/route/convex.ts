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
  let side = alongSides(a, b, s, 1);
  // What stands square before a side is the nearest pair, however far away.
  if (s.d >= 0 && before(a, b, side, s, 1)) return s;
  let sign: 1 | -1 = 1;
  const other = alongSides(b, a, s, -1);
  if (other >= 0) {
    side = other;
    sign = -1;
    if (s.d >= 0 && before(b, a, side, s, -1)) return s;
  }
  // Two parts without area: their ends part them too, which no side shows.
  const apart = a.length <= 4 && b.length <= 4 && Math.max(pastEnds(a, b), pastEnds(b, a)) >= 0;
  if (s.d < 0 && side >= 0 && !apart) {
    if (sign === 1) before(a, b, side, s, 1);
    else before(b, a, side, s, -1);
    return s;
  }
  s.d = Number.POSITIVE_INFINITY;
  cornersToSides(a, b, s, 1);
  cornersToSides(b, a, s, -1);
  if (s.d > 0) {
    s.nx = (s.bx - s.ax) / s.d;
    s.nz = (s.bz - s.az) / s.d;
  }
  return s;
}

/** Tries each side of p as the line between; the number of the one that is better than what s holds, -1 where none is. */
function alongSides(p: Part, q: Part, s: Separation, sign: 1 | -1): number {
  const n = p.length;
  let best = -1;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const ex = p[j]! - p[i]!;
    const ez = p[j + 1]! - p[i + 1]!;
    const l = Math.sqrt(ex * ex + ez * ez);
    if (!(l > 0)) continue;
    const nx = ez / l;
    const nz = -ex / l;
    let nearest = Number.POSITIVE_INFINITY;
    for (let m = 0; m < q.length; m += 2) {
      const v = nx * q[m]! + nz * q[m + 1]!;
      if (v < nearest) nearest = v;
    }
    const d = nearest - nx * p[i]! - nz * p[i + 1]!;
    if (d <= s.d) continue;
    s.d = d;
    s.nx = sign * nx;
    s.nz = sign * nz;
    best = i;
  }
  return best;
}

/**
 * The nearest points of the side of p that s found and of q: the corner of q that reaches farthest, or the middle of what overlaps where
 * a side of q lies along that of p. False where nothing of q stands square before the side.
 */
function before(p: Part, q: Part, i: number, s: Separation, sign: 1 | -1): boolean {
  const j = i + 2 === p.length ? 0 : i + 2;
  const ex = p[j]! - p[i]!;
  const ez = p[j + 1]! - p[i + 1]!;
  const l = Math.sqrt(ex * ex + ez * ez);
  const nx = sign * s.nx;
  const nz = sign * s.nz;
  const limit = s.d + nx * p[i]! + nz * p[i + 1]! + 1e-12 * (l + Math.abs(s.d));
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (let m = 0; m < q.length; m += 2) {
    if (nx * q[m]! + nz * q[m + 1]! > limit) continue;
    const t = ((q[m]! - p[i]!) * ex + (q[m + 1]! - p[i + 1]!) * ez) / (l * l);
    if (t < from) from = t;
    if (t > to) to = t;
  }
  const low = Math.max(0, from);
  const high = Math.min(1, to);
  const t = low <= high ? (low + high) / 2 : low > 1 ? 1 : 0;
  const x = p[i]! + t * ex;
  const z = p[i + 1]! + t * ez;
  points(s, sign, x, z, x + s.d * nx, z + s.d * nz);
  return low <= high;
}

/** How far q lies past an end of the segment p; negative where it is beside it. */
function pastEnds(p: Part, q: Part): number {
  if (p.length !== 4) return Number.NEGATIVE_INFINITY;
  const ex = p[2]! - p[0]!;
  const ez = p[3]! - p[1]!;
  return Math.max(-reachAlong(q, -ex, -ez) - reachAlong(p, ex, ez), -reachAlong(q, ex, ez) - reachAlong(p, -ex, -ez));
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
      t = Math.max(0, Math.min(1, t));
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
