import { ChangeSet } from "@codemirror/state";
import { lineDiff, lineTouchedTwice } from "@tapeworthy/project";

/** A stretch that two people wrote at once. Places are those of their text. */
export interface Clash {
  readonly before: string;
  readonly mine: string;
  readonly theirs: string;
  readonly from: number;
  readonly to: number;
}
/** Two texts that came of one. */
export interface Merged {
  /** What was written here and goes beside what was written there: a change of their text. */
  readonly again: ChangeSet;
  readonly clashes: readonly Clash[];
}

interface Stretch {
  from: number;
  to: number;
}

/**
 * Puts two texts that came of one together, by whole lines: what only one of them changed is taken, what both changed to the same is one, and
 * where they touch the same lines in two ways, their text stands and both are told.
 */
export function merged(before: string, mine: string, theirs: string): Merged {
  const [ours, others] = [lineDiff(before, mine), lineDiff(before, theirs)];
  const alone: ReturnType<typeof eachOf>[number][] = [];
  const both: Stretch[] = [];
  for (const hunk of eachOf(ours)) {
    if (lineTouchedTwice(hunk.change, others, before) === undefined) alone.push(hunk);
    else both.push({ from: hunk.from, to: hunk.to });
  }
  // Each of these is widened by what was done to the same lines there, until nothing more joins.
  for (let grown = true; grown; ) {
    grown = false;
    for (const stretch of both)
      for (const { from, to, change } of eachOf(others)) {
        const whole = ChangeSet.of({ from: stretch.from, to: stretch.to, insert: "" }, before.length);
        const touches = overlaps(stretch, { from, to }) || lineTouchedTwice(whole, change, before) !== undefined;
        if (!touches || (from >= stretch.from && to <= stretch.to)) continue;
        stretch.from = Math.min(stretch.from, from);
        stretch.to = Math.max(stretch.to, to);
        grown = true;
      }
    for (const one of alone.filter((a) => both.some((stretch) => overlaps(stretch, a)))) {
      alone.splice(alone.indexOf(one), 1);
      both.push({ from: one.from, to: one.to });
      grown = true;
    }
  }
  const clashes = joined(both).flatMap(({ from, to }): Clash[] => {
    const at = (changes: ChangeSet): readonly [number, number] => [changes.mapPos(from, -1), changes.mapPos(to, 1)];
    const [a, b] = [at(ours), at(others)];
    const [mineThere, theirsThere] = [mine.slice(...a), theirs.slice(...b)];
    return mineThere === theirsThere
      ? []
      : [{ before: before.slice(from, to), mine: mineThere, theirs: theirsThere, from: b[0], to: b[1] }];
  });
  const again = alone.reduce((all, { change }) => all.compose(change.map(all)), ChangeSet.empty(before.length));
  return { again: again.map(others), clashes };
}

function eachOf(changes: ChangeSet) {
  const out: { readonly from: number; readonly to: number; readonly change: ChangeSet }[] = [];
  changes.iterChanges((from, to, _a, _b, insert) => {
    out.push({ from, to, change: ChangeSet.of({ from, to, insert }, changes.length) });
  }, true);
  return out;
}
/** Two stretches share a character, or one of them is a place within the other or at an end of it. */
const overlaps = (a: Stretch, b: Stretch): boolean =>
  a.from === a.to || b.from === b.to ? a.from <= b.to && b.from <= a.to : a.from < b.to && b.from < a.to;
function joined(list: readonly Stretch[]): Stretch[] {
  const out: Stretch[] = [];
  for (const one of [...list].sort((a, b) => a.from - b.from || a.to - b.to)) {
    const last = out.at(-1);
    if (last && overlaps(last, one)) last.to = Math.max(last.to, one.to);
    else out.push({ ...one });
  }
  return out;
}
