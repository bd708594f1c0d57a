import type { Place } from "@tapeworthy/core";
import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  parseDocument,
  type YAMLError,
  type Node as YamlNode,
} from "yaml";
import { ProjectError } from "./error.ts";

/** A value of a file with its place, before anything is known of what it means. */
export type Source = ScalarSource | ListSource | MapSource | BrokenSource;
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
/** A value that could not be read and has been reported: whatever rests on it is left out in silence. */
export interface BrokenSource {
  readonly kind: "broken";
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
  /** The place of a stretch of text, up to the end of its first line. */
  place(from: number, to: number): Place {
    const start = Math.min(from, this.text.length);
    const { line, col } = this.lines.linePos(start);
    const end = start - col + 1 + this.lineText(line).length;
    return { file: this.file, line, column: col, length: Math.max(1, Math.min(to, end) - start) };
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

const longest = 200_000;
const deepest = 40;

/** Parses a file's text. What is wrong with the text comes back as data; there is a tree wherever its structure can be seen. */
export function parseSource(source: SourceFile): { tree?: Source; errors: ProjectError[] } {
  const { text } = source;
  const refuse = (from: number, to: number, found: string, expected: string, hint?: string) => ({
    errors: [source.error(source.place(from, to), found, expected, hint)],
  });
  if (text.length > longest)
    return refuse(
      0,
      1,
      `${text.length} characters`,
      `at most ${longest}`,
      "A design file is text a person reads; split it.",
    );
  const odd = text.search(controls);
  if (odd >= 0) {
    const code = text.charCodeAt(odd).toString(16).padStart(4, "0").toUpperCase();
    return refuse(odd, odd + 1, `the control character U+${code}`, "plain text", "Save the file as UTF-8 text.");
  }
  const tooDeep = () => {
    const at = deepestAt(text);
    return refuse(at, at + 1, "values nested very deeply", `at most ${deepest} levels`);
  };
  // Keys given twice are looked for below: the parser compares each key with each.
  let doc: ReturnType<typeof parseDocument>;
  try {
    doc = parseDocument(text, {
      prettyErrors: false,
      uniqueKeys: false,
      strict: true,
      version: "1.2",
      schema: "core",
      merge: false,
    });
  } catch (e) {
    if (!(e instanceof Error)) throw e;
    if (/call stack/i.test(e.message)) return tooDeep();
    return refuse(0, 1, `text that is not YAML (${e.message})`, "a design file");
  }
  // The structure is lost at the first fault; what the parser says after it follows from it.
  const [fatal] = doc.errors;
  if (fatal) {
    return doc.errors.some((e) => /call stack/i.test(e.message)) ? tooDeep() : { errors: [ofYaml(source, fatal)] };
  }
  const errors: ProjectError[] = [];
  const tree = doc.contents ? convert(doc.contents as YamlNode, source, errors, 0) : undefined;
  if (!tree || isEmpty(tree)) return refuse(0, 1, "an empty file", 'a design file that begins with "format: 1"');
  return { tree, errors };
}
// Control characters but tab, line feed and carriage return.
const controls = /(?![\t\n\r])\p{Cc}/u;

/** Where brackets or dashes first stand deeper than is allowed. */
function deepestAt(text: string): number {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    if ("[{".includes(text[i]!)) depth++;
    if ("]}".includes(text[i]!)) depth--;
    if (depth > deepest) return i;
  }
  return Math.max(0, text.search(/(?:[-?:] ){40}/));
}

const noValue = [
  "a value after the colon",
  'Leave the line out, or write "none" for a member the unit has not.',
] as const;

function convert(node: YamlNode, source: SourceFile, errors: ProjectError[], depth: number): Source {
  const [from, to] = node.range ?? [0, 1];
  const place = source.place(from, to);
  const refuse = (at: Place, found: string, expected: string, hint?: string): BrokenSource => {
    errors.push(source.error(at, found, expected, hint));
    return { kind: "broken", place };
  };
  if (depth > deepest) return refuse(place, "values nested very deeply", `at most ${deepest} levels`);
  const extra = decoration(node, source);
  if (extra) return refuse(...extra);
  if (isScalar(node)) {
    const quoted = node.type === "QUOTE_DOUBLE" || node.type === "QUOTE_SINGLE";
    const block = node.type === "BLOCK_FOLDED" || node.type === "BLOCK_LITERAL";
    const text = quoted || block ? String(node.value) : (node.source ?? "");
    return { kind: "scalar", text, place, from: quoted ? from + 1 : from, to: quoted ? to - 1 : to };
  }
  if (isSeq(node)) {
    const items = node.items.map((item) => {
      const inner = convert(item as YamlNode, source, errors, depth + 1);
      return isEmpty(inner) ? refuse(inner.place, "an item without a value", "a value", "Leave it out.") : inner;
    });
    return { kind: "list", items, place };
  }
  if (isMap(node)) {
    const entries = new Map<string, Entry>();
    for (const { key, value } of node.items) {
      const keyNode = key as YamlNode | null;
      const [keyFrom, keyTo] = keyNode?.range ?? [from, from + 1];
      const keyPlace = source.place(keyFrom, keyTo);
      const badKey = keyNode && decoration(keyNode, source);
      if (badKey) {
        refuse(...badKey);
        continue;
      }
      if (!isScalar(key) || key.value === null) {
        refuse(keyPlace, "a key that is no word", "a word and a colon");
        continue;
      }
      const name = typeof key.value === "string" ? key.value : (key.source ?? String(key.value));
      if (entries.has(name)) {
        // The first one holds.
        refuse(keyPlace, `the key "${name}" a second time`, "each key once", "Remove one of the two.");
        continue;
      }
      const inner = value === null ? undefined : convert(value as YamlNode, source, errors, depth + 1);
      entries.set(name, {
        key: name,
        keyPlace,
        value:
          inner === undefined || isEmpty(inner) ? refuse(keyPlace, `"${name}" without a value`, ...noValue) : inner,
      });
    }
    return { kind: "map", entries, place };
  }
  return refuse(place, "something unknown", "a value");
}
const isEmpty = (value: Source): boolean => value.kind === "scalar" && value.text === "";

/** What YAML lets stand before a value and a design file does not: references, anchors, tags. */
function decoration(
  node: YamlNode,
  source: SourceFile,
): readonly [at: Place, found: string, expected: string, hint: string] | undefined {
  const [from, to] = node.range ?? [0, 1];
  const before = (sign: string, word: string): Place => {
    const at = source.text.lastIndexOf(sign, Math.max(0, from - 1));
    return at < 0 ? source.place(from, to) : source.place(at, at + word.length);
  };
  const hint = "Write the value out: every number has one place of its own.";
  if (isAlias(node)) return [source.place(from, to), `the reference "*${node.source}"`, "a value", hint];
  if ("anchor" in node && node.anchor)
    return [before(`&${node.anchor}`, `&${node.anchor}`), `the anchor "&${node.anchor}"`, "a value", hint];
  if (!("tag" in node) || !node.tag) return undefined;
  const start = source.text.lastIndexOf("!", Math.max(0, from - 1));
  const written =
    start < 0
      ? node.tag
      : (source.text.slice(source.text.slice(0, start).search(/!*$/)).match(/^\S+/)?.[0] ?? node.tag);
  return [
    before(written, written),
    `the tag "${written}"`,
    "a value",
    "Leave it out: what a value is follows from where it stands.",
  ];
}

/** The YAML reader's errors in our words. */
function ofYaml(source: SourceFile, e: YAMLError): ProjectError {
  const { text } = source;
  const [from] = e.pos;
  const rest = text.slice(from).split("\n")[0]!.trimEnd();
  /** From the fault to the next space or sign, the way a person would point at it. */
  const word = (rest.match(/^[^\s,{}[\]]+|^[,{}[\]]+/)?.[0] ?? rest.slice(0, 1)).slice(0, 30);
  const at = source.place(from, from + Math.max(1, word.length));
  const refuse = (found: string, expected: string, hint?: string, place = at) =>
    source.error(place, found, expected, hint);
  const oneLine = ['one "key: value" a line', 'Put a value that holds ": " in double quotes.'] as const;
  switch (e.code) {
    case "TAB_AS_INDENT":
      return refuse("a tab as indent", "spaces", "Indent with two spaces a level.");
    case "BAD_INDENT": {
      const flow = /^Flow (map|seq)/.exec(e.message)?.[1];
      if (!flow)
        return refuse("a line indented differently from its neighbours", "the indent of the lines it belongs to");
      return (
        unclosed(source, from, flow === "map" ? "{" : "[") ??
        refuse(`"${word}"`, `a closing "${flow === "map" ? "}" : "]"}" before it`)
      );
    }
    case "MISSING_CHAR": {
      const quote = /closing (["'])/.exec(e.message)?.[1];
      const open = quote ? text.lastIndexOf(quote, from) : -1;
      if (quote && open >= 0)
        return refuse("a quote that is not closed", `a closing ${quote}`, undefined, source.place(open, open + 1));
      if (/map values/.test(e.message)) return refuse(`"${word}" without a colon`, ...oneLine);
      return refuse(`"${word}"`, "a comma, a colon or a closing bracket before it");
    }
    case "MULTILINE_IMPLICIT_KEY":
    case "BLOCK_AS_IMPLICIT_KEY": {
      const line = rest.replace(/\s+#.*/, "");
      const whole = source.place(from, from + line.length);
      if (/:\s/.test(line)) return refuse("a colon inside a value", ...oneLine, whole);
      if (e.code === "BLOCK_AS_IMPLICIT_KEY")
        return refuse(
          "a value that goes on in the next line",
          oneLine[0],
          "Indent the next line like this one.",
          whole,
        );
      const hint = line.includes(":")
        ? "A blank stands behind the colon."
        : "A colon and a blank stand behind the key.";
      return refuse(`"${line.slice(0, 30)}" without a key`, oneLine[0], hint, whole);
    }
    case "BLOCK_IN_FLOW": {
      const run = rest.match(/^[^,{}[\]]+/)?.[0] ?? word;
      return refuse(
        `"${run.slice(0, 40)}"`,
        "a comma between two members",
        oneLine[1],
        source.place(from, from + run.length),
      );
    }
    case "UNEXPECTED_TOKEN":
      if (/node end/.test(e.message))
        return refuse(
          `"${word}" behind a value`,
          "the end of the value",
          "Put a value that holds quotes or brackets in double quotes.",
        );
      if (/^[\]}]/.test(word))
        return refuse(
          `"${word[0]}" that closes nothing`,
          "the end of the value",
          "Remove it.",
          source.place(from, from + 1),
        );
      if (word.startsWith(","))
        return refuse('","', "a value before the comma", "Remove it.", source.place(from, from + 1));
      return refuse(`"${word}"`, "a key, a list item or a value");
    case "MULTIPLE_DOCS":
      return refuse("a second document", "one document a file", 'Remove the line "---".');
    case "BAD_SCALAR_START":
      return refuse(`"${word}"`, "a value", `A text that begins with ${text[from]} needs double quotes.`);
    case "BAD_DQ_ESCAPE":
      return refuse(`"${word}" in double quotes`, "plain text", "A backslash within double quotes is written twice.");
    case "BAD_ALIAS":
      return refuse(`"${word}"`, "a value", "A text that begins with * or & needs double quotes.");
    default:
      return refuse(`text that is not YAML here ("${word}")`, "a key, a list item or a value");
  }
}

/** The bracket that is never closed before an offset. */
function unclosed(source: SourceFile, before: number, open: "{" | "["): ProjectError | undefined {
  const close = open === "{" ? "}" : "]";
  let depth = 0;
  for (let i = before - 1; i >= 0; i--) {
    if (source.text[i] === close) depth++;
    if (source.text[i] !== open) continue;
    if (depth === 0)
      return source.error(
        source.place(i, i + 1),
        `"${open}" that is not closed`,
        `a closing "${close}"`,
        "A list or group over several lines is indented.",
      );
    depth--;
  }
  return undefined;
}
