import { columnsFor, type LimitStates } from "./limit-states.ts";

/** Limit states measured in their own standard deviations. */
export interface Scaled extends LimitStates {
  /** What each limit state was divided by. */
  readonly by: Float64Array;
  /** g at the middle, divided. */
  readonly middle: Float64Array;
  /** Slope of each divided limit state at the middle, over h either way. */
  readonly slopes: readonly Float64Array[];
}

/** Half the distance over which a slope at the middle is taken: a kink at the middle shows, and so does a flat that ends. */
const h = 0.7;

/**
 * Limit states divided by their own standard deviation at the middle of scatter, so that grams and millimetres can be compared:
 *
 *     sd_k = sqrt(sum over i of ((g_k(+h e_i) - g_k(-h e_i))/(2 h))^2),    h = 0.7,    but at least |g_k(0)|/8
 *
 * The least of several limit states in mixed units misleads subset simulation in most runs; the least of scaled ones does not (measured;
 * unpublished working notes). A limit state that nothing moves is divided by 1.
 */
export function scaled(limits: LimitStates): Scaled {
  const d = limits.dimensions;
  const n = 2 * d + 1;
  const z = columnsFor(d, n);
  for (let i = 0; i < d; i++) {
    z[i]![1 + 2 * i] = h;
    z[i]![2 + 2 * i] = -h;
  }
  const values = limits.at(z, n);
  const by = new Float64Array(values.length);
  const middle = new Float64Array(values.length);
  const slopes = values.map((g, k) => {
    const slope = new Float64Array(d);
    let squares = 0;
    for (let i = 0; i < d; i++) {
      const s = slopeFrom(g[0]!, g[1 + 2 * i]!, g[2 + 2 * i]!, h);
      slope[i] = s;
      squares += s * s;
    }
    const least = Number.isFinite(g[0]) ? Math.abs(g[0]!) / 8 : 0;
    const sd = Math.max(Math.sqrt(squares), least);
    by[k] = sd > 0 ? sd : 1;
    middle[k] = g[0]! / by[k]!;
    for (let i = 0; i < d; i++) slope[i]! /= by[k]!;
    return slope;
  });
  let out = by.length === 0 ? [] : Array.from(by, () => new Float64Array(0));
  return {
    dimensions: d,
    names: limits.names,
    by,
    middle,
    slopes,
    at(points, count) {
      const raw = limits.at(points, count);
      if (out[0] && out[0].length < count) out = out.map(() => new Float64Array(count));
      raw.forEach((column, k) => {
        const scale = 1 / by[k]!;
        const to = out[k]!;
        for (let i = 0; i < count; i++) to[i] = column[i]! * scale;
      });
      return out;
    },
  };
}

/** Slope between two points either side; from one side where the other has no answer. */
export function slopeFrom(middle: number, above: number, below: number, half: number): number {
  const [up, down] = [Number.isFinite(above), Number.isFinite(below)];
  if (up && down) return (above - below) / (2 * half);
  if (!Number.isFinite(middle)) return 0;
  return up ? (above - middle) / half : down ? (middle - below) / half : 0;
}
