import { ChangeSet } from "@codemirror/state";
import { textOf } from "./changes.ts";

/** Beyond so many lines put in and taken out, the search for the shortest way is given up and the stretch between is replaced whole. */
const farthest = 600;

/**
 * The change that turns one text into another, in whole lines: the shortest list of lines taken out and put in (the greedy search of
 * Myers 1986, "An O(ND) difference algorithm and its variations" [memory]). A line counts with its line break, so a last line without
 * one differs from the same line with one.
 */
export function lineDiff(before: string, after: string): ChangeSet {
  const [a, b] = [linesOf(before), linesOf(after)];
  let [from, endA, endB] = [0, a.length, b.length];
  while (from < endA && from < endB && a[from] === b[from]) from++;
  while (endA > from && endB > from && a[endA - 1] === b[endB - 1]) {
    endA--;
    endB--;
  }
  const kept = commonLines(a.slice(from, endA), b.slice(from, endB));
  const starts = [0];
  for (const line of a) starts.push(starts.at(-1)! + line.length);
  const specs: { from: number; to: number; insert: ReturnType<typeof textOf> }[] = [];
  let [i, j] = [from, from];
  for (const [p, q] of [...kept.map(([p, q]) => [from + p, from + q] as const), [endA, endB] as const]) {
    if (p > i || q > j) specs.push({ from: starts[i]!, to: starts[p]!, insert: textOf(b.slice(j, q).join("")) });
    [i, j] = [p + 1, q + 1];
  }
  return ChangeSet.of(specs, before.length);
}

/** Lines with their breaks; no line after a last break. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];

/** Pairs of places at which both lists hold the same line, rising in both; as many as there can be. */
function commonLines(a: readonly string[], b: readonly string[]): (readonly [number, number])[] {
  if (a.length === 0 || b.length === 0) return [];
  const reach = Math.min(a.length + b.length, farthest);
  /** On diagonal k = i - j the farthest i, for every number of steps. */
  const steps: Int32Array[] = [];
  const far = new Int32Array(2 * reach + 3);
  const mid = reach + 1;
  for (let d = 0; d <= reach; d++) {
    for (let k = -d; k <= d; k += 2) {
      const down = k === -d || (k !== d && far[mid + k - 1]! < far[mid + k + 1]!);
      let i = down ? far[mid + k + 1]! : far[mid + k - 1]! + 1;
      while (i < a.length && i - k < b.length && i - k >= 0 && a[i] === b[i - k]) i++;
      far[mid + k] = i;
      if (i >= a.length && i - k >= b.length) return wayBack(a, b, steps, far.slice(mid - d - 1, mid + d + 2), d, k);
    }
    steps.push(far.slice(mid - d - 1, mid + d + 2));
  }
  return [];
}
function wayBack(
  a: readonly string[],
  b: readonly string[],
  steps: readonly Int32Array[],
  reached: Int32Array,
  count: number,
  diagonal: number,
): (readonly [number, number])[] {
  const pairs: (readonly [number, number])[] = [];
  let [i, k] = [reached[count + 1 + diagonal]!, diagonal];
  for (let d = count; d >= 0; d--) {
    const before = steps[d - 1];
    const at = (q: number): number => (before ? (before[d + q] ?? 0) : 0);
    const down = d > 0 && (k === -d || (k !== d && at(k - 1) < at(k + 1)));
    const came = d === 0 ? 0 : down ? at(k + 1) : at(k - 1) + 1;
    while (i > came) {
      i--;
      pairs.push([i, i - k]);
    }
    if (d === 0) break;
    k = down ? k + 1 : k - 1;
    i = at(k);
  }
  if (pairs.some(([p, q]) => a[p] !== b[q]))
    throw new Error("a line was paired with another; please report both texts");
  return pairs.reverse();
}
