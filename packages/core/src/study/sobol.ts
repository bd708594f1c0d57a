import { mixed } from "./deviates.ts";
import { directions } from "./directions.ts";
import { normalScores } from "./normal-score.ts";
import { owen, reversed } from "./owen.ts";

/** Dimensions that one net has; further ones are padding. */
export const netDimensions = directions.length + 1;

/** Direction numbers of a dimension, each reversed: v_1 stands in bit 0. */
function directionsOf(dimension: number): Int32Array {
  const v = new Int32Array(32);
  if (dimension === 0) {
    for (let i = 0; i < 32; i++) v[i] = 1 << (31 - i);
  } else {
    const [poly, ...m] = directions[dimension - 1]!;
    const degree = m.length;
    for (let i = 0; i < degree; i++) v[i] = m[i]! << (31 - i);
    for (let i = degree; i < 32; i++) {
      let x = v[i - degree]! ^ (v[i - degree]! >>> degree);
      for (let k = 1; k < degree; k++) if ((poly! >>> (degree - k)) & 1) x ^= v[i - k]!;
      v[i] = x;
    }
  }
  return v.map(reversed);
}
const kept: Int32Array[] = [];
const reversedDirections = (dimension: number): Int32Array => {
  kept[dimension] ??= directionsOf(dimension);
  return kept[dimension]!;
};

/** Sobol' point `index` in one dimension as a reversed word: the sum (xor) of the direction numbers at the ones of the index' Gray code. */
function wordAt(v: Int32Array, index: number): number {
  let gray = index ^ (index >>> 1);
  let x = 0;
  for (let i = 0; gray !== 0; i++, gray >>>= 1) if (gray & 1) x ^= v[i]!;
  return x;
}

/** Plain Sobol' points, not scrambled, in [0, 1): for comparison with other programs. */
export function plainSobol(dimension: number, index: number): number {
  return (reversed(wordAt(reversedDirections(dimension), index)) >>> 0) * 2 ** -32;
}

/**
 * Sobol' points with Owen's scrambling, as columns.
 *
 *     u_d(k) = (scramble_d(x_d(k)) + 1/2) 2^-32,    z = Phi^-1(u)
 *
 * Every dimension is scrambled by seed and name: a new input takes a dimension, but turns over no other one's digits. Put the largest
 * contributors first (`largestFirst`): with them in late dimensions the gain is lost (measured; unpublished working notes). Good for means,
 * shares and quantiles in the middle; for tail shares hardly better than plain draws; not for rare events. n should be a power of two.
 *
 * A net has 128 dimensions. What lies beyond takes them again, in another order of points by group: between two groups the points are
 * paired at random (padding; Burley 2020, memory), so nothing is wrong there, but nothing gained by their playing together.
 */
export class SobolPoints {
  readonly dimensions: number;
  private readonly scrambles: Int32Array;
  private readonly orders: Int32Array;
  constructor(seed: number, names: readonly string[]) {
    this.dimensions = names.length;
    this.scrambles = Int32Array.from(names, (name) => mixed(mixed(seed, "scramble "), name));
    const groups = Math.ceil(names.length / netDimensions);
    this.orders = Int32Array.from({ length: groups }, (_, g) => mixed(mixed(seed, "order "), `${g}`));
  }
  /** Uniform in (0, 1): n points of one dimension from point `from` on. */
  uniform(dimension: number, from: number, n: number, out = new Float64Array(n)): Float64Array {
    const group = Math.floor(dimension / netDimensions);
    const v = reversedDirections(dimension % netDimensions);
    const seed = this.scrambles[dimension]!;
    if (group > 0) {
      const order = this.orders[group]!;
      for (let k = 0; k < n; k++) {
        // Whole blocks of 2^m points stay together, so each group's points are a net as before.
        const index = reversed(owen(reversed(from + k), order)) >>> 0;
        out[k] = ((reversed(owen(wordAt(v, index), seed)) >>> 0) + 0.5) * 2 ** -32;
      }
      return out;
    }
    let x = wordAt(v, from);
    for (let k = 0; k < n; k++) {
      out[k] = ((reversed(owen(x, seed)) >>> 0) + 0.5) * 2 ** -32;
      const next = from + k + 1;
      x ^= v[31 - Math.clz32(next & -next)]!;
    }
    return out;
  }
  /** Standard normal scores of the same points. */
  normal(dimension: number, from: number, n: number, out = new Float64Array(n)): Float64Array {
    this.uniform(dimension, from, n, out);
    normalScores(out, n);
    return out;
  }
}

/** Which dimension each of several inputs gets: the one that counts most the first. Equal ones keep their order. */
export function largestFirst(importance: ArrayLike<number>): number[] {
  const order = Array.from({ length: importance.length }, (_, i) => i).sort(
    (a, b) => importance[b]! - importance[a]! || a - b,
  );
  const out = new Array<number>(order.length);
  order.forEach((input, dimension) => {
    out[input] = dimension;
  });
  return out;
}
