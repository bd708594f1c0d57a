import { ChangeSet, Text } from "@codemirror/state";
import { isMap, isScalar, type Pair, parseDocument, type YAMLMap, type Node as YamlNode } from "yaml";
import { asValue, type Edit } from "./edit.ts";

/** Members of a unit file after which `per width` stands where there is none yet. */
const before = ["format", "unit", "revision", "note", "serves", "built for", "let"];

/**
 * Gives a number of a unit's file another text at one width alone: under `per width`, whatever way it is written there, in order of the widths.
 * `path` is the number's path in the file: "nip.preload". Comments, order and every other line stay. Throws RangeError for a text that is no
 * unit file.
 */
export function writtenForWidth(text: string, file: string, width: number, path: string, value: string): Edit {
  const doc = parseDocument(text, {
    prettyErrors: false,
    uniqueKeys: false,
    version: "1.2",
    schema: "core",
    merge: false,
  });
  const root = doc.contents as YamlNode | null;
  if (doc.errors.length > 0 || !isMap(root) || root.flow) throw new RangeError(`${file} is no unit file`);
  const entry = `${asValue(path)}: ${asValue(value)}`;
  const put = (from: number, to: number, insert: string): Edit => {
    const lines = (text.includes("\r\n") ? insert.replaceAll("\n", "\r\n") : insert).split("\n");
    return { file, changes: ChangeSet.of({ from, to, insert: Text.of(lines) }, text.length) };
  };

  const overrides = pairOf(root, "per width");
  if (!overrides) {
    const at = placeFor(text, root);
    const gap = text.slice(0, at).endsWith("\n") || at === 0 ? "" : "\n";
    return put(at, at, `${gap}per width:\n  ${width}: {${entry}}\n${at < text.length ? "\n" : ""}`);
  }
  const widths = overrides.value as YamlNode | null;
  if (!isMap(widths)) throw new RangeError(`"per width" of ${file} holds no widths`);
  const own = pairOf(widths, `${width}`);
  if (!own) return insertedPair(text, widths, `${width}: {${entry}}`, (key) => Number(key) > width, put);
  const paths = own.value as YamlNode | null;
  if (!isMap(paths)) throw new RangeError(`"per width" of ${file} holds no paths at ${width}`);
  const known = pairOf(paths, path);
  if (!known) return insertedPair(text, paths, entry, () => false, put);
  const at = known.value as YamlNode | null;
  if (!isScalar(at) || !at.range) throw new RangeError(`"${path}" at ${width} is no number in ${file}`);
  return put(at.range[0], at.range[1], asValue(value));
}

type Put = (from: number, to: number, insert: string) => Edit;
type AnyMap = YAMLMap<unknown, unknown>;
const keyOf = (pair: Pair): string => {
  const key = pair.key as YamlNode;
  return isScalar(key) ? (typeof key.value === "string" ? key.value : (key.source ?? String(key.value))) : "";
};
const pairOf = (map: AnyMap, key: string): Pair | undefined => map.items.find((pair) => keyOf(pair) === key);
const startOf = (pair: Pair): number => (pair.key as YamlNode).range![0];

/** A pair put into a map before the first one that goes after it, else at its end, written as the map is. */
function insertedPair(text: string, map: AnyMap, pair: string, goesAfter: (key: string) => boolean, put: Put): Edit {
  const next = map.items.find((one) => goesAfter(keyOf(one)));
  if (map.flow) {
    if (next) return put(startOf(next), startOf(next), `${pair}, `);
    const close = map.range![1] - 1;
    const last = map.items.at(-1);
    if (!last) return put(map.range![0] + 1, close, pair);
    const end = endOf(last);
    return put(end, end, `, ${pair}`);
  }
  const indent = " ".repeat(columnOf(text, startOf(map.items[0]!)));
  if (next) {
    const at = lineStart(text, startOf(next));
    return put(at, at, `${indent}${pair}\n`);
  }
  const end = lineEnd(text, endOf(map.items.at(-1)!));
  return put(end, end, `\n${indent}${pair}`);
}
const endOf = (pair: Pair): number => ((pair.value ?? pair.key) as YamlNode).range![1];
const lineStart = (text: string, at: number): number => text.lastIndexOf("\n", at - 1) + 1;
/** The end of the line in which something ends, before its break; a block that ends with its line break ends with that line. */
function lineEnd(text: string, at: number): number {
  const end = text.indexOf("\n", text[at - 1] === "\n" ? at - 1 : at);
  const last = end < 0 ? text.length : end;
  return text[last - 1] === "\r" ? last - 1 : last;
}
const columnOf = (text: string, at: number): number => at - lineStart(text, at);

/** Where `per width` goes: before the first member that describes the unit, above the comment that belongs to it. */
function placeFor(text: string, root: AnyMap): number {
  const next = root.items.find((pair) => !before.includes(keyOf(pair)));
  if (!next) return text.length;
  let at = lineStart(text, startOf(next));
  for (
    let above = lineStart(text, at - 1);
    at > 0 && /^\s*#/.test(text.slice(above, at));
    above = lineStart(text, at - 1)
  )
    at = above;
  return at;
}
