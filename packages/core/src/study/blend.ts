import type { Given } from "../quantity/given.ts";
import { phi, phiInverse } from "../quantity/law.ts";

/**
 * Coordinates of a number between two others, from theirs (quantity/between.ts); those of one where the other has none.
 *
 *     z = z_a cos(pi t/2) + z_b sin(pi t/2)
 *
 * Normal at every share t where z_a and z_b are normal and independent, and exactly a's at t = 0, b's at t = 1. Uniform coordinates in
 * [-1, 1] go through their normal deviates and back, so that they stay uniform. `which` is the scatter, -1 for belief; the column is kept,
 * for what rests on the same column is not evaluated again.
 */
export function blended(
  given: Given,
  which: number,
  a: Float64Array | undefined,
  b: Float64Array | undefined,
): Float64Array {
  const t = given.blend!.share;
  if (!b || (a && (a === b || t === 0))) return a!;
  if (!a || t === 1) return b;
  const mine = columns.get(given) ?? new Map<number, Kept>();
  columns.set(given, mine);
  const known = mine.get(which);
  if (known && known.a === a && known.b === b) return known.column;
  const uniform = which >= 0 && given.scatters[which]!.law === "uniform";
  const [c, s] = [Math.cos((Math.PI / 2) * t), Math.sin((Math.PI / 2) * t)];
  const [x, y] = uniform ? [asNormal(a), asNormal(b)] : [a, b];
  const normal = x.map((v, k) => c * v + s * y[k]!);
  const column = uniform ? normal.map((z) => 2 * phi(z) - 1) : normal;
  mine.set(which, { a, b, column });
  return column;
}
interface Kept {
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly column: Float64Array;
}
const columns = new WeakMap<Given, Map<number, Kept>>();

const normals = new WeakMap<Float64Array, Float64Array>();
function asNormal(u: Float64Array): Float64Array {
  const known = normals.get(u);
  if (known) return known;
  const made = u.map((v) => phiInverse(Math.min(1 - 2 ** -53, Math.max(2 ** -54, (v + 1) / 2))));
  normals.set(u, made);
  return made;
}
