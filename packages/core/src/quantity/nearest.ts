/** The word of a list nearest to one that was written, if it is near enough to be meant. */
export function nearest(word: string, list: Iterable<string>): string | undefined {
  let best: string | undefined;
  // Of one letter nothing but its case may differ: every other letter is one step away.
  let least = (word.length < 2 ? 0 : Math.max(1, Math.floor(word.length / 3))) + 0.5;
  for (const candidate of list) {
    const d = distance(word.toLowerCase(), candidate.toLowerCase());
    if (d < least) {
      least = d;
      best = candidate;
    }
  }
  return best;
}
export const didYouMean = (word: string, list: Iterable<string>): string | undefined => {
  const near = nearest(word, list);
  return near === undefined ? undefined : `Did you mean "${near}"?`;
};

/** Edit distance with swaps of neighbours counting one (optimal string alignment). */
function distance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 6 || a.length > 60) return Number.POSITIVE_INFINITY;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, before[j - 2]! + 1);
      next.push(d);
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}
