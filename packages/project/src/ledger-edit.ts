import { ChangeSet } from "@codemirror/state";
import { type Frozen, fromSI, type Score, unitBehind, unitOf } from "@tapeworthy/core";
import { isMap, isScalar, isSeq, parseDocument, type Scalar, type YAMLSeq } from "yaml";
import { asValue, type Edit } from "./edit.ts";
import { ledgerPath } from "./ledger-read.ts";
import { intoList } from "./log/trial-edit.ts";
import { isDesignPath, type Texts } from "./project.ts";

/** Entries are added at the end of the ledger's list, in the notation it has: nothing that stands in the file is touched. */
function appended(text: string | undefined, { lines, inBrackets }: Entry): Edit {
  const before = text ?? "";
  const changed = (changes: readonly { readonly from: number; readonly insert: string }[]): Edit => ({
    file: ledgerPath,
    changes: ChangeSet.of(changes, before.length, "\n"),
  });
  const begun = (from: number, head: string): Edit => {
    const end = from === 0 || before[from - 1] === "\n" ? "" : "\n";
    return changed([{ from, insert: `${end}${head}${lines("  ")}` }]);
  };
  const root = parseDocument(before, { version: "1.2", schema: "core" }).contents;
  // A file that holds comments alone is begun.
  if (root === null) return begun(before.length, "format: 1\nledger:\n");
  const pair = isMap(root) ? root.items.find((p) => `${p.key}` === "ledger") : undefined;
  if (isSeq(pair?.value)) return changed(intoList(before, pair.value as YAMLSeq, lines, inBrackets));
  if (!isMap(root) || root.flow || (pair && !(isScalar(pair.value) && pair.value.source === "")))
    throw new RangeError(`"ledger" of ${ledgerPath} is no list`);
  if (!pair) return begun(before.length, "ledger:\n");
  // Nothing stands below the key yet, or comments alone, or other keys.
  const line = before.indexOf("\n", (pair.key as Scalar).range![1]) + 1 || before.length;
  const rest = before.slice(line).replace(/^\s*#.*$/gm, "");
  return begun(rest.trim() === "" ? before.length : line, "");
}
/** An entry in both notations: whole lines under a dash, and what may stand in brackets. */
interface Entry {
  lines(indent: string): string;
  readonly inBrackets: string;
}
type Words = readonly (readonly [key: string, value: string | undefined])[];
function entry(words: Words, key?: ReadonlyMap<string, string>): Entry {
  const members = words.flatMap(([name, value]) => (value === undefined ? [] : [`${name}: ${value}`]));
  const stood = [...(key ?? [])].sort(([a], [b]) => (a < b ? -1 : 1)).map(([a, t]) => `${asValue(a)}: ${asValue(t)}`);
  const onOneLine = key ? [`rests on: {${stood.join(", ")}}`] : [];
  const rests = stood.length === 0 ? onOneLine : ["rests on:", ...stood.map((line) => `  ${line}`)];
  return {
    lines: (indent) => [...members, ...rests].map((l, i) => `${indent}${i === 0 ? "- " : "  "}${l}\n`).join(""),
    inBrackets: `{${[...members, ...onOneLine].join(", ")}}`,
  };
}
/** A number (SI) in a unit, with so many figures as keep it apart from its neighbours. */
export const inUnitOf = (v: number, unit: string, count = 4): string =>
  `${+fromSI(v, unitOf(unit)).toPrecision(count)}${unitBehind(unit)}`;

/** Freezes a prediction; `shownIn` is the unit its value is written in. */
export function frozenEdit(text: string | undefined, f: Frozen, shownIn: string): Edit {
  const { predicted } = f;
  const ends = predicted && [predicted.median, predicted.low, predicted.high].map((v) => asValue(inUnitOf(v, shownIn)));
  return appended(
    text,
    entry(
      [
        ["frozen", asValue(f.id)],
        ["trial", asValue(f.trial)],
        ["question", asValue(f.question)],
        ["unit", asValue(f.unit)],
        ["tape", asValue(f.tape)],
        ["predicted", ends && `[${ends.join(", ")}]`],
        [
          "fails",
          f.fails && `[${[f.fails.median, f.fails.low, f.fails.high].map((v) => +v.toPrecision(3)).join(", ")}]`,
        ],
        ["share", String(+f.share.toFixed(4))],
        ["date", f.date],
        ["seed", String(f.seed)],
        ["version", asValue(f.version)],
        ["sha", f.sha],
      ],
      f.key,
    ),
  );
}
export function scoredEdit(
  text: string | undefined,
  score: Score,
  more: { readonly date: string | undefined; readonly late: string | undefined; readonly shownIn: string },
): Edit {
  const { came } = score;
  return appended(
    text,
    entry([
      ["scored", asValue(score.frozen)],
      ["trial", asValue(score.trial)],
      ["date", more.date],
      ...(came.kind === "value"
        ? ([
            ["came", asValue(inUnitOf(came.value, more.shownIn))],
            ["uncertainty", asValue(inUnitOf(came.uncertainty, more.shownIn, 2))],
          ] as const)
        : ([
            ["pieces", String(came.run)],
            ["failed", String(came.failed)],
          ] as const)),
      ["result", score.agreed ? "agreed" : "missed"],
      ["late", more.late === undefined ? undefined : asValue(more.late)],
    ]),
  );
}
/** Takes the result of a trial of a check into belief. */
export const takenEdit = (text: string | undefined, trial: string, date: string | undefined): Edit =>
  appended(
    text,
    entry([
      ["taken", asValue(trial)],
      ["date", date],
    ]),
  );
export const apartEdit = (text: string | undefined, trial: string, reason: string, date: string | undefined): Edit =>
  appended(
    text,
    entry([
      ["apart", asValue(trial)],
      ["reason", asValue(reason)],
      ["date", date],
    ]),
  );
export const keyedEdit = (
  text: string | undefined,
  trial: string,
  key: ReadonlyMap<string, string>,
  date: string | undefined,
): Edit =>
  appended(
    text,
    entry(
      [
        ["keyed", asValue(trial)],
        ["date", date],
      ],
      key,
    ),
  );

/** The design's texts in their fixed order, each with its length before it: what the ledger's SHA-256 is taken of. The ledger and the trials are no part of it. */
export const canonicalTexts = (texts: Texts): string =>
  [...texts]
    .filter(([path]) => isDesignPath(path))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([path, text]) => `${path}\n${text.length}\n${text}\n`)
    .join("");
/** The next free name: L-01, L-02. */
export function nextId(frozen: readonly Frozen[]): string {
  for (let n = frozen.length + 1; ; n++) {
    const id = `L-${String(n).padStart(2, "0")}`;
    if (!frozen.some((f) => f.id === id)) return id;
  }
}
