import type { Given } from "../quantity/given.ts";
import { type Membership, phi, type Scatter, type Together } from "../quantity/law.ts";
import type { Deviates } from "./deviates.ts";

/**
 * Scatters that go together: their normal scores are correlated.
 *
 *     z = L e,    L L' = R,    e independent standard normal
 *
 * z    normal scores of the scatters, one a member: a normal or lognormal scatter's own coordinate; between limits t = 2 Phi(z) - 1
 * R    their correlations, 1 on the diagonal, symmetric, positive definite
 * L    lower triangle (Cholesky), so that member i is made of the scores e of members 1 to i
 *
 * Each scatter keeps its own law. The correlation is that of the normal scores; of numbers between limits it is a little less,
 * (6/pi) asin(r/2) (Pearson 1907; memory). Members are of one level: what differs between reels knows nothing of units.
 *
 * `lowerTriangle` gives L row by row; undefined where R is not positive definite. A pivot under 1e-10 counts as none: two members would be
 * one number in two places.
 */
export function lowerTriangle(by: readonly (readonly number[])[]): Float64Array[] | undefined {
  const rows: Float64Array[] = [];
  for (let i = 0; i < by.length; i++) {
    const row = new Float64Array(by.length);
    for (let j = 0; j <= i; j++) {
      let sum = by[i]![j]!;
      const other = j === i ? row : rows[j]!;
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!;
      if (j === i) {
        if (!(sum > 1e-10)) return undefined;
        row[i] = Math.sqrt(sum);
      } else row[j] = sum / other[j]!;
    }
    rows.push(row);
  }
  return rows;
}

const triangles = new WeakMap<Together, Float64Array[]>();
function triangleOf(of: Together): Float64Array[] {
  const known = triangles.get(of);
  if (known) return known;
  const made = lowerTriangle(of.by);
  if (!made) throw new RangeError(`correlations of ${of.members.join(", ")} are not positive definite`);
  triangles.set(of, made);
  return made;
}

/** What stands in for the laws of scatters that do not go with others: independent scores of the members, by seed and address. */
const score = (deviates: Deviates, scatter: Scatter, key: string, n: number): Float64Array =>
  deviates.normal(`together ${scatter.level} ${key}`, n);

const columns = new WeakMap<Deviates, Map<string, { readonly of: Together; readonly column: Float64Array }>>();
/** The coordinates of n draws of a scatter that goes together with others; kept, for what rests on one column is not evaluated again. */
export function togetherColumn(deviates: Deviates, scatter: Scatter, { of, at }: Membership, n: number): Float64Array {
  const mine = columns.get(deviates) ?? new Map<string, { of: Together; column: Float64Array }>();
  columns.set(deviates, mine);
  const key = `${n} ${scatter.level} ${scatter.law} ${of.members[at]}`;
  const known = mine.get(key);
  if (known?.of === of) return known.column;
  const row = triangleOf(of)[at]!;
  const column = new Float64Array(n);
  for (let j = 0; j <= at; j++) {
    if (row[j] === 0) continue;
    const e = score(deviates, scatter, of.members[j]!, n);
    for (let k = 0; k < n; k++) column[k]! += row[j]! * e[k]!;
  }
  if (scatter.law === "uniform") for (let k = 0; k < n; k++) column[k] = 2 * phi(column[k]!) - 1;
  mine.set(key, { of, column });
  return column;
}

/** One scatter of a number. */
interface One {
  readonly given: Given;
  readonly which: number;
}
/** What a normal score is made of: weights of the independent scores of scatters in a list, by their place in it. */
export type Mixture = readonly (readonly [weight: number, at: number])[];
/**
 * For each scatter of a list, what its normal score is made of; undefined where it is its own. Of scatters that go together those in the list
 * count: the others are left to chance.
 */
export function mixtures(list: readonly One[]): (Mixture | undefined)[] {
  const groups = new Map<Together, { readonly i: number; readonly at: number }[]>();
  list.forEach(({ given, which }, i) => {
    const place = given.scatters[which]!.together;
    if (place) groups.set(place.of, [...(groups.get(place.of) ?? []), { i, at: place.at }]);
  });
  const out: (Mixture | undefined)[] = list.map(() => undefined);
  for (const [of, members] of groups) {
    members.sort((a, b) => a.at - b.at);
    const rows = lowerTriangle(members.map((a) => members.map((b) => of.by[a.at]![b.at]!)));
    if (!rows) throw new RangeError(`correlations of ${of.members.join(", ")} are not positive definite`);
    rows.forEach((row, i) => {
      if (i > 0) out[members[i]!.i] = [...row.subarray(0, i + 1)].map((w, j) => [w, members[j]!.i] as const);
    });
  }
  return out;
}
