import type { ChangeSet } from "@codemirror/state";

/**
 * What a change touches of the text before it, in half steps: 2i is the gap before line i, 2i + 1 is line i itself (lines from 0).
 *
 * - Whole lines that are removed or replaced by whole lines: those lines and the gaps between them, not the lines beside them.
 * - Whole lines put in between two lines: the gap alone.
 * - Anything else: every line from the one it begins in to the one it ends in. Characters put in at an end of a line touch the gap there
 *   too, since lines put into that gap would stand on one side of them or the other, depending on who came first.
 *
 * The empty line behind a last line break is no line but the gap after the last.
 */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Every stretch that a change of a text touches, in the text's order. */
export function touchedBy(changes: ChangeSet, text: string): Stretch[] {
  const starts = lineStarts(text);
  const last = starts.length - 1;
  const lastIsEmpty = starts[last] === text.length;
  const lineAt = (at: number): number => {
    let [low, high] = [0, last];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const isStart = (at: number): boolean => starts[lineAt(at)] === at;
  const isEnd = (at: number): boolean => at === text.length || text[at] === "\n";
  const stretches: Stretch[] = [];
  changes.iterChanges((from, to, _fromB, _toB, inserted) => {
    const insert = inserted.toString();
    const [first, end] = [lineAt(from), lineAt(to)];
    const wholeLines = isStart(from) && (isStart(to) || to === text.length) && (insert === "" || insert.endsWith("\n"));
    let [low, high] = [2 * first + 1, 2 * end + 1];
    if (wholeLines && from === to) [low, high] = [2 * first, 2 * first];
    else if (wholeLines) high = isStart(to) ? 2 * end - 1 : 2 * last + 1;
    else if (from === to) {
      if (isStart(from)) low = 2 * first;
      if (isEnd(from)) high = 2 * first + 2;
    }
    const most = lastIsEmpty ? 2 * last : 2 * last + 2;
    stretches.push({ from: Math.min(low, most), to: Math.min(high, most) });
  }, true);
  return stretches;
}

/** The first line, from 1, that both of two changes of one text touch; undefined where they keep apart. */
export function lineTouchedTwice(a: ChangeSet, b: ChangeSet, text: string): number | undefined {
  if (a.empty || b.empty) return undefined;
  const [one, other] = [touchedBy(a, text), touchedBy(b, text)];
  for (let i = 0, j = 0; i < one.length && j < other.length; ) {
    const [p, q] = [one[i]!, other[j]!];
    const from = Math.max(p.from, q.from);
    if (from <= Math.min(p.to, q.to)) return Math.floor(from / 2) + 1;
    if (p.to < q.to) i++;
    else j++;
  }
  return undefined;
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let i = text.indexOf("\n"); i >= 0; i = text.indexOf("\n", i + 1)) starts.push(i + 1);
  return starts;
}
