import { ChangeSet } from "@codemirror/state";
import { isMap, isSeq, parseDocument, type YAMLMap, type YAMLSeq } from "yaml";
import { applied, asValue, type Edit } from "../edit.ts";
import type { Mapping } from "./mapping.ts";

/** A new item of a list: its members in order, values as they are to stand there. A value that is a group is written on one line. */
export interface Item {
  readonly [member: string]: Value | undefined;
}
export type Value = string | readonly string[] | Item | readonly Item[];

/** The text of a trial that has nothing yet. */
export function newTrial(head: {
  readonly trial: string;
  readonly unit: string;
  readonly tape: string;
  readonly question: string;
  readonly built?: string | undefined;
}): string {
  const { trial, unit, tape, question, built } = head;
  return `format: 1\n${lines({ trial, unit, tape, question, built }, "").join("\n")}\n`;
}

/** Adds an item to a list of a trial's file. Comments, order and everything else stay as they are. */
export function added(text: string, file: string, key: "readings" | "counts" | "mapping" | "runs", item: Item): Edit {
  const insert = (from: number, what: string, to = from): Edit => ({
    file,
    changes: ChangeSet.of({ from, to, insert: what }, text.length),
  });
  const end = text === "" || text.endsWith("\n") ? "" : "\n";
  const root = parseDocument(text, { version: "1.2", schema: "core" }).contents;
  const pair = isMap(root) ? root.items.find((p) => `${p.key}` === key) : undefined;
  const list = pair?.value;
  if (!pair || !isSeq(list)) {
    if (pair) throw new RangeError(`"${key}" of ${file} is no list`);
    return insert(text.length, `${end}${key}:\n${block(item, "  ")}`);
  }
  const seq = list as YAMLSeq;
  const [from, valueEnd] = seq.range!;
  if (seq.flow) {
    if (seq.items.length === 0) return insert(from, `\n${block(item, "  ").replace(/\n$/, "")}`, valueEnd);
    const close = text.lastIndexOf("]", valueEnd - 1);
    return insert(close, `, ${flow(item)}`);
  }
  const indent = " ".repeat(from - (text.lastIndexOf("\n", from - 1) + 1));
  // Behind the last item's last line, before comments that belong to what follows.
  const last = seq.items.at(-1) as { range?: [number, number, number] };
  const after = lineEnd(text, (last.range?.[1] ?? valueEnd) - 1);
  return insert(after, `${text[after - 1] === "\n" ? "" : "\n"}${block(item, indent)}`);
}

/** Sets a run (or reading, or count) aside with a reason, or changes the reason: nothing is deleted. Numbers from 1. */
export const setAside = (
  text: string,
  file: string,
  key: "runs" | "readings" | "counts",
  number: number,
  reason: string,
): Edit => memberSet(text, file, key, number, "set aside", reason);

/** Gives a member of a run (or reading, or count) another value, or adds it. Numbers from 1; what stands beside it stays. */
export function memberSet(
  text: string,
  file: string,
  key: "runs" | "readings" | "counts",
  number: number,
  member: string,
  value: Value,
): Edit {
  const root = parseDocument(text, { version: "1.2", schema: "core" }).contents;
  const list = isMap(root) ? root.get(key) : undefined;
  const item = isSeq(list) ? list.items[number - 1] : undefined;
  if (!isMap(item)) throw new RangeError(`${file} has no ${number}. of "${key}"`);
  const map = item as YAMLMap;
  type Ranged = { readonly range?: readonly [number, number, number] } | undefined;
  const change = (from: number, to: number, insert: string): Edit => ({
    file,
    changes: ChangeSet.of({ from, to, insert }, text.length),
  });
  const line = `${member}: ${valueText(value)}`;
  const before = map.items.find((p) => `${p.key}` === member);
  const [at, was] = [before?.key as Ranged, before?.value as Ranged];
  if (at?.range && was?.range) {
    const to = was.range[1];
    return change(at.range[0], to, `${line}${text[to - 1] === "\n" ? "\n" : ""}`);
  }
  if (map.flow) {
    const close = text.lastIndexOf("}", map.range![1] - 1);
    return change(close, close, `, ${line}`);
  }
  const from = (map.items[0]!.key as Ranged)!.range![0];
  const indent = " ".repeat(from - (text.lastIndexOf("\n", from - 1) + 1));
  const after = lineEnd(text, (map.items.at(-1)!.value as Ranged)!.range![1] - 1);
  return change(after, after, `${text[after - 1] === "\n" ? "" : "\n"}${indent}${line}\n`);
}

/** Several edits of one text, one after another, as one that can be taken back at once. */
export function inOne(text: string, file: string, steps: readonly ((text: string) => Edit)[]): Edit {
  let now = text;
  let changes = ChangeSet.empty(text.length);
  for (const step of steps) {
    const edit = step(now);
    now = applied(edit, now);
    changes = changes.compose(edit.changes);
  }
  return { file, changes };
}

/** A mapping as an item under `mapping:`. */
export const mappingItem = (name: string, { header, columns }: Mapping): Item => ({
  name,
  header,
  columns: columns.map(
    ({ column, role, unit, reversed, zero }): Item => ({
      column,
      is: role,
      unit: unit === "" ? undefined : unit,
      reversed: reversed ? "true" : undefined,
      zero: zero === 0 ? undefined : `${zero}`,
    }),
  ),
});

/** Behind the end of the line that holds an offset. */
function lineEnd(text: string, at: number): number {
  const end = text.indexOf("\n", Math.max(0, at));
  return end < 0 ? text.length : end + 1;
}
/** An item as block lines under a dash. */
const block = (item: Item, indent: string): string => {
  const [first = "", ...rest] = lines(item, `${indent}  `);
  return `${[`${indent}- ${first.trimStart()}`, ...rest].join("\n")}\n`;
};
function lines(item: Item, indent: string): string[] {
  return Object.entries(item).flatMap(([key, value]) => {
    if (value === undefined) return [];
    if (isItems(value)) return [`${indent}${key}:`, ...value.map((v) => `${indent}  - ${flow(v)}`)];
    return [`${indent}${key}: ${valueText(value)}`];
  });
}
const isItems = (value: Value): value is readonly Item[] =>
  Array.isArray(value) && value.length > 0 && typeof value[0] === "object";
function valueText(value: Value): string {
  if (typeof value === "string") return asValue(value);
  if (Array.isArray(value))
    return `[${(value as readonly (string | Item)[]).map((v) => (typeof v === "string" ? asValue(v) : flow(v))).join(", ")}]`;
  return flow(value as Item);
}
const flow = (item: Item): string =>
  `{${Object.entries(item)
    .flatMap(([key, value]) => (value === undefined ? [] : [`${key}: ${valueText(value)}`]))
    .join(", ")}}`;
