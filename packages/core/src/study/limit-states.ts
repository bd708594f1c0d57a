/**
 * Several limit states g_k over independent standard normal coordinates z; each fails where it is below 0.
 *
 *     p_k = P(g_k(z) < 0),    p = P(min over k of g_k(z) < 0),    z ~ N(0, I)
 *
 * g_k that is not a number counts as failing: where a model has no answer, no window holds.
 */
export interface LimitStates {
  readonly dimensions: number;
  /** One a limit state. */
  readonly names: readonly string[];
  /** g_k at n points; z[i] is the column of coordinate i. out[k] has n values; may be written over by the next call. */
  at(z: readonly Float64Array[], n: number): readonly Float64Array[];
}

/** Limit states given point by point; for formulas, and for tests. The point handed over is written over by the next one. */
export function pointwise(
  dimensions: number,
  named: Readonly<Record<string, (z: Float64Array) => number>>,
): LimitStates {
  const functions = Object.values(named);
  const point = new Float64Array(dimensions);
  let out = functions.map(() => new Float64Array(0));
  return {
    dimensions,
    names: Object.keys(named),
    at(z, n) {
      if (!out[0] || out[0].length < n) out = functions.map(() => new Float64Array(n));
      for (let i = 0; i < n; i++) {
        for (let d = 0; d < dimensions; d++) point[d] = z[d]![i]!;
        for (let k = 0; k < functions.length; k++) out[k]![i] = functions[k]!(point);
      }
      return out;
    },
  };
}

/** The same limit states, with the points counted at which they were computed. */
export class Counted implements LimitStates {
  readonly dimensions: number;
  readonly names: readonly string[];
  points = 0;
  private readonly inner: LimitStates;
  constructor(inner: LimitStates) {
    this.inner = inner;
    this.dimensions = inner.dimensions;
    this.names = inner.names;
  }
  at(z: readonly Float64Array[], n: number): readonly Float64Array[] {
    this.points += n;
    return this.inner.at(z, n);
  }
}

/** Empty columns for n points. */
export const columnsFor = (dimensions: number, n: number): Float64Array[] =>
  Array.from({ length: dimensions }, () => new Float64Array(n));

/** The least of all limit states at each of n points; not a number counts as failing. Written into `out`. */
export function leastOf(values: readonly Float64Array[], n: number, out: Float64Array, only?: number): void {
  for (let i = 0; i < n; i++) {
    let least = Number.POSITIVE_INFINITY;
    if (only !== undefined) least = failing(values[only]![i]!);
    else
      for (const column of values) {
        const g = failing(column[i]!);
        if (g < least) least = g;
      }
    out[i] = least;
  }
}
const failing = (g: number): number => (Number.isNaN(g) ? Number.NEGATIVE_INFINITY : g);
