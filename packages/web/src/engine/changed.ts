import { flipsOf, type TapeResult } from "@tapeworthy/core";
import { lineDiff } from "@tapeworthy/project";
import type { Changed, NumberView, TextChange } from "./state.ts";

/** The project as it stood before a change: its texts, what was drawn of its pairs, the numbers on screen. */
export interface Snapshot {
  readonly texts: ReadonlyMap<string, string>;
  readonly drawn: ReadonlyMap<string, TapeResult>;
  readonly numbers: readonly NumberView[];
}

/** What one change moved, as far as it is drawn. */
export function changedSince(
  before: Snapshot,
  texts: ReadonlyMap<string, string>,
  now: ReadonlyMap<string, TapeResult>,
  numbers: readonly NumberView[],
  settled: boolean,
): Changed {
  const pairs = [...now].flatMap(([key, after]) => {
    const was = before.drawn.get(key);
    return was && was !== after ? [[was, after] as const] : [];
  });
  const flips = flipsOf(pairs);
  return {
    what: textChanges(before, texts, numbers),
    flips,
    worse: flips.filter((f) => f.worse).length,
    better: flips.filter((f) => !f.worse).length,
    settled,
  };
}

/** Numbers that say something else now; where the lines changed hold none of those on screen, the lines themselves. */
export function textChanges(
  before: Snapshot,
  texts: ReadonlyMap<string, string>,
  numbers: readonly NumberView[],
): TextChange[] {
  const files = [...new Set([...before.texts.keys(), ...texts.keys()])].filter(
    (file) => before.texts.get(file) !== texts.get(file),
  );
  const out: TextChange[] = [];
  const byAddress = new Map(before.numbers.map((n) => [n.address, n]));
  for (const file of files) {
    const mine = numbers.filter((n) => n.place.file === file);
    const moved = mine.flatMap((n): TextChange[] => {
      const was = byAddress.get(n.address);
      // A number written for this width alone has an address of its own: it stands against the family's.
      const family = n.onlyWidth === undefined ? undefined : before.numbers.find((one) => one.path === n.path);
      const old = was ?? family;
      return old && old.text !== n.text
        ? [{ address: n.address, file, line: n.place.line, before: old.text, after: n.text }]
        : [];
    });
    if (moved.length > 0) {
      out.push(...moved);
      continue;
    }
    const [old, fresh] = [before.texts.get(file) ?? "", texts.get(file) ?? ""];
    lineDiff(old, fresh).iterChanges((from, to, fromB, _toB, inserted) => {
      out.push({
        address: undefined,
        file,
        line: fresh.slice(0, fromB).split("\n").length,
        before: old.slice(from, to).trim(),
        after: inserted.toString().trim(),
      });
    });
  }
  return out;
}
