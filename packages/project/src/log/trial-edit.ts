import { ChangeSet } from "@codemirror/state";
import { isCollection, isMap, isPair, isSeq, parseDocument, type YAMLMap, type YAMLSeq } from "yaml";
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
  const change = (changes: readonly Change[]): Edit => ({ file, changes: ChangeSet.of(changes, text.length, "\n") });
  const root = parseDocument(text, { version: "1.2", schema: "core" }).contents;
  const pair = isMap(root) ? root.items.find((p) => `${p.key}` === key) : undefined;
  const list = pair?.value;
  if (!pair || !isSeq(list)) {
    if (pair) throw new RangeError(`"${key}" of ${file} is no list`);
    const end = text === "" || text.endsWith("\n") ? "" : "\n";
    return change([{ from: text.length, insert: `${end}${key}:\n${block(item, "  ")}` }]);
  }
  const seq = list as YAMLSeq;
  const [from, to] = seq.range!;
  // An empty list is begun on lines of its own, if there is nothing in its brackets that would be lost.
  if (seq.flow && !(root as YAMLMap).flow && /^\[\s*\]$/.test(text.slice(from, to)))
    return change([{ from, to, insert: `\n${block(item, "  ").replace(/\n$/, "")}` }]);
  return change(intoList(text, seq, (indent) => block(item, indent), flow(item)));
}

/** A change of a text, as an edit takes it. */
interface Change {
  readonly from: number;
  readonly to?: number;
  readonly insert: string;
}
/** Puts one more item at the end of a list, in the list's own notation: whole lines under a dash of its indent, or what may stand in brackets. */
export function intoList(text: string, seq: YAMLSeq, lines: (indent: string) => string, inBrackets: string): Change[] {
  if (seq.flow) return intoBrackets(text, seq, inBrackets);
  const from = seq.range![0];
  const indent = " ".repeat(from - (text.lastIndexOf("\n", from - 1) + 1));
  // Behind the last item's last line and the comments below it that are indented as its members are, before those that belong to what follows.
  let after = lineEnd(text, endOf(seq)! - 1);
  while (new RegExp(`^${indent} +#`).test(text.slice(after, lineEnd(text, after)))) after = lineEnd(text, after);
  const br = breakOf(text);
  return [{ from: after, insert: `${text[after - 1] === "\n" ? "" : br}${lines(indent).replaceAll("\n", br)}` }];
}
/** Puts one more member into a list or a group in brackets, behind its last; a comma at its end stays at its end. */
function intoBrackets(text: string, node: YAMLSeq | YAMLMap, what: string): Change[] {
  const [from, to] = node.range!;
  const close = to - 1;
  const last = node.items.at(-1);
  if (last === undefined) return [{ from: from + 1, insert: what }];
  const [start, end] = [startOf(last)!, endOf(last)!];
  const lead = text.slice(text.lastIndexOf("\n", start - 1) + 1, start);
  // Nothing stands between the last member and the bracket but comments, blanks and at most one comma.
  const comma = text
    .slice(end, close)
    .replace(/#.*/g, (comment) => " ".repeat(comment.length))
    .indexOf(",");
  const below = lineEnd(text, comma < 0 ? end : end + comma);
  if (lead.trim() !== "" || below > close) return [{ from: end, insert: `, ${what}` }];
  // A member a line: the new one has a line as well, and the comment beside the last stays beside it.
  const br = breakOf(text);
  if (comma >= 0) return [{ from: below, insert: `${lead}${what},${br}` }];
  return [
    { from: end, insert: "," },
    { from: below, insert: `${lead}${what}${br}` },
  ];
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
  const changes = (...of: readonly Change[]): Edit => ({ file, changes: ChangeSet.of(of, text.length, "\n") });
  const change = (from: number, to: number, insert: string): Edit => changes({ from, to, insert });
  const line = `${member}: ${valueText(value)}`;
  const before = map.items.find((p) => `${p.key}` === member);
  const [at, was] = [before?.key as Ranged, before?.value as Ranged];
  if (at?.range && was?.range) {
    const to = was.range[1];
    return change(at.range[0], to, `${line}${text[to - 1] === "\n" ? "\n" : ""}`);
  }
  if (map.flow) {
    const [start, end] = map.range!;
    if (text[start] === "{") return changes(...intoBrackets(text, map, line));
    // One member alone in a list may stand without braces, two may not.
    return changes({ from: start, insert: "{" }, { from: end, insert: `, ${line}}` });
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

/** Where a node, or a key with its value, begins. */
const startOf = (node: unknown): number | undefined =>
  isPair(node) ? startOf(node.key) : (node as Ranged | null)?.range?.[0];
/** Behind a node's last letter: the range of a list in lines may reach over comments below it. */
function endOf(node: unknown): number | undefined {
  if (isPair(node)) return endOf(node.value) ?? endOf(node.key);
  const end = (node as Ranged | null)?.range?.[1];
  return isCollection(node) && !node.flow && node.items.length > 0 ? (endOf(node.items.at(-1)) ?? end) : end;
}
type Ranged = { readonly range?: readonly [number, number, number] } | undefined;
/** How a text breaks its lines. */
const breakOf = (text: string): string => (text.includes("\r\n") ? "\r\n" : "\n");
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
