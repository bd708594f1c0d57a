import type { Place } from "@tapeworthy/core";
import { isAlias, isMap, isScalar, isSeq, LineCounter, type Node as YamlNode, parseDocument, type YAMLError } from "yaml";
import { ProjectError } from "./error.ts";

/** A value of a file with its place, before anything is known of what it means. */
export type Source = ScalarSource | ListSource | MapSource;
export interface ScalarSource {
  readonly kind: "scalar";
  readonly text: string;
  readonly place: Place;
  /** Offsets of the value in the file's text, without quotes. */
  readonly from: number;
  readonly to: number;
}
export interface ListSource {
  readonly kind: "list";
  readonly items: readonly Source[];
  readonly place: Place;
}
export interface MapSource {
  readonly kind: "map";
  readonly entries: ReadonlyMap<string, Entry>;
  readonly place: Place;
}
export interface Entry {
  readonly key: string;
  readonly keyPlace: Place;
  readonly value: Source;
}

/** One file: its text, and the tools to say where in it something stands. */
export class SourceFile {
  readonly file: string;
  readonly text: string;
  private readonly lines = new LineCounter();
  constructor(file: string, text: string) {
    this.file = file;
    this.text = text;
    this.lines.addNewLine(0);
    for (let i = text.indexOf("\n"); i >= 0; i = text.indexOf("\n", i + 1)) this.lines.addNewLine(i + 1);
  }
  place(from: number, to: number): Place {
    const { line, col } = this.lines.linePos(Math.min(from, this.text.length));
    const end = this.text.indexOf("\n", from);
    const length = Math.max(1, Math.min(to, end < 0 ? this.text.length : end) - from);
    return { file: this.file, line: Math.max(1, line), column: Math.max(1, col), length };
  }
  offset(place: Place): number {
    return this.lines.lineStarts[place.line - 1]! + place.column - 1;
  }
  lineText(line: number): string {
    const start = this.lines.lineStarts[line - 1] ?? 0;
    const end = this.text.indexOf("\n", start);
    return this.text.slice(start, end < 0 ? undefined : end).replace(/\r$/, "");
  }
  error(place: Place, found: string, expected: string, hint?: string): ProjectError {
    return new ProjectError(place, this.lineText(place.line), found, expected, hint);
  }
}

const longest = 1_000_000;
const deepest = 40;

/** Parses a file's text. Errors of the text itself come back as data; the tree is there only where there are none. */
export function parseSource(source: SourceFile): { tree?: Source; errors: ProjectError[] } {
  const { text } = source;
  if (text.length > longest)
    return {
      errors: [source.error(source.place(0, 1), `${text.length} characters`, `at most ${longest}`, "A design file is text a person reads; split it.")],
    };
  const odd = text.search(controls);
  if (odd >= 0)
    return {
      errors: [
        source.error(source.place(odd, odd + 1), `the control character U+${text.charCodeAt(odd).toString(16).padStart(4, "0").toUpperCase()}`, "plain text", "Save the file as UTF-8 text."),
      ],
    };
  let doc: ReturnType<typeof parseDocument>;
  try {
    doc = parseDocument(text, { prettyErrors: false, uniqueKeys: true, strict: true, version: "1.2", schema: "core", merge: false });
  } catch (e) {
    return { errors: [source.error(source.place(0, 1), `text that is not YAML (${(e as Error).message})`, "a design file")] };
  }
  if (doc.errors.length > 0) return { errors: doc.errors.map((e) => ofYaml(source, e)) };
  if (!doc.contents) return { errors: [source.error(source.place(0, 1), "an empty file", 'a design file that begins with "format: 1"')] };
  const errors: ProjectError[] = [];
  const tree = convert(doc.contents as YamlNode, source, errors, 0);
  return tree && errors.length === 0 ? { tree, errors } : { errors };
}
// Control characters but tab, line feed and carriage return.
const controls = new RegExp("[\\u0000-\\u0008\\u000b\\u000c\\u000e-\\u001f\\u007f]");

function convert(node: YamlNode, source: SourceFile, errors: ProjectError[], depth: number): Source | undefined {
  const [from, to] = node.range ?? [0, 1];
  const place = source.place(from, to);
  const refuse = (found: string, expected: string, hint?: string): undefined => {
    errors.push(source.error(place, found, expected, hint));
    return undefined;
  };
  if (depth > deepest) return refuse("values nested very deeply", `at most ${deepest} levels`);
  if (isAlias(node)) return refuse(`the reference "*${node.source}"`, "a value", "Write the value out: every number has one place of its own.");
  if ("anchor" in node && node.anchor) return refuse(`the anchor "&${node.anchor}"`, "a value", "Write the value out: every number has one place of its own.");
  if ("tag" in node && node.tag && !node.tag.startsWith("tag:yaml.org,2002:") ) return refuse(`the tag ${node.tag}`, "a value");
  if (isScalar(node)) {
    const quoted = node.type === "QUOTE_DOUBLE" || node.type === "QUOTE_SINGLE";
    const text = quoted || node.type === "BLOCK_FOLDED" || node.type === "BLOCK_LITERAL" ? String(node.value) : (node.source ?? "");
    return { kind: "scalar", text, place, from: quoted ? from + 1 : from, to: quoted ? to - 1 : to };
  }
  if (isSeq(node)) {
    const items = node.items.map((item) => convert(item as YamlNode, source, errors, depth + 1));
    return items.every((i) => i !== undefined) ? { kind: "list", items, place } : undefined;
  }
  if (isMap(node)) {
    const entries = new Map<string, Entry>();
    let whole = true;
    for (const { key, value } of node.items) {
      if (!isScalar(key)) {
        whole = false;
        errors.push(source.error(place, "a key that is no word", "a word and a colon"));
        continue;
      }
      const [kf, kt] = key.range ?? [from, from + 1];
      const keyPlace = source.place(kf, kt);
      const name = typeof key.value === "string" ? key.value : (key.source ?? String(key.value));
      if (value === null) {
        whole = false;
        errors.push(source.error(keyPlace, `"${name}" without a value`, "a value after the colon", 'Leave the line out, or write "none" for a member the unit has not.'));
        continue;
      }
      const inner = convert(value as YamlNode, source, errors, depth + 1);
      if (inner) {
        const empty = inner.kind === "scalar" && inner.text === "";
        if (empty) {
          whole = false;
          errors.push(source.error(keyPlace, `"${name}" without a value`, "a value after the colon", 'Leave the line out, or write "none" for a member the unit has not.'));
        } else entries.set(name, { key: name, keyPlace, value: inner });
      } else whole = false;
    }
    return whole ? { kind: "map", entries, place } : undefined;
  }
  return refuse("something unknown", "a value");
}

/** The YAML reader's errors in our words. */
function ofYaml(source: SourceFile, e: YAMLError): ProjectError {
  const [from, to] = e.pos;
  const place = source.place(from, Math.max(from + 1, to));
  const at = source.text.slice(from, Math.max(from + 1, to)).split("\n")[0]!.slice(0, 30);
  switch (e.code) {
    case "DUPLICATE_KEY":
      return source.error(place, `the key "${at.replace(/:.*/, "")}" a second time`, "each key once", "Remove one of the two.");
    case "TAB_AS_INDENT":
      return source.error(place, "a tab as indent", "spaces", "Indent with two spaces a level.");
    case "BAD_INDENT":
      return source.error(place, "a line indented differently from its neighbours", "the indent of the lines it belongs to");
    case "MISSING_CHAR":
      return source.error(place, "the end of a line or of the file", /'?(["\]},:'])'?/.test(e.message) ? `a closing sign (${e.message.match(/[\]}"':,]+/)?.[0] ?? "bracket"})` : "a closing sign");
    case "MULTILINE_IMPLICIT_KEY":
    case "BLOCK_AS_IMPLICIT_KEY":
      return source.error(place, "a colon inside a value, or a key over two lines", 'one "key: value" a line', 'Put a value that holds ": " in double quotes.');
    case "UNEXPECTED_TOKEN":
      return source.error(place, `"${at}"`, "a key, a list item or a value");
    case "BAD_ALIAS":
      return source.error(place, `"${at}"`, "a value", "A text that begins with * or & needs double quotes.");
    default:
      return source.error(place, `text that is not YAML here ("${at}")`, "a key, a list item or a value");
  }
}
