/** A step from the root of a YAML file inwards: a key of a mapping, or an item of a list by its number from 0. */
export type Step = string | number;
/** Where in a YAML file a cursor stands: the way there, and whether a key or a value is being written. */
export interface YamlPlace {
  readonly path: readonly Step[];
  readonly writes: "key" | "value";
  /** What stands of that key or value before the cursor. */
  readonly begun: string;
}

interface Token {
  readonly indent: number;
  readonly step: Step;
}

/**
 * The place of a cursor, from indentation and brackets alone: it is asked while a line is half written, when no parser could tell. Block
 * mappings and lists, and flow mappings and lists that begin on the cursor's own line.
 */
export function yamlPlace(text: string, cursor: number): YamlPlace | undefined {
  const lines = text.slice(0, cursor).split("\n");
  const last = lines.at(-1)!;
  if (inComment(last)) return undefined;
  const own = tokensOf(last);
  const rest = last.slice(own.end);
  const flow = flowOf(rest);
  let path: Step[] = [];
  let indent = own.tokens[0]?.indent ?? own.end;
  for (let i = lines.length - 2; i >= 0 && indent > 0; i--) {
    const { tokens, isEmpty } = tokensOf(lines[i]!);
    if (isEmpty) continue;
    for (const { indent: at, step } of [...tokens].reverse()) {
      if (at >= indent) continue;
      path = [typeof step === "number" ? itemNumber(lines, i, at) : step, ...path];
      indent = at;
    }
  }
  const here = own.tokens.map(({ step, indent: at }) => (step === 0 ? itemNumber(lines, lines.length - 1, at) : step));
  path = [...path, ...here];
  if (flow) return { path: [...path, ...flow.path], writes: flow.writes, begun: flow.begun };
  const ends = own.tokens.at(-1);
  return typeof ends?.step === "string"
    ? { path, writes: "value", begun: rest.trimStart() }
    : { path, writes: "key", begun: rest.trimStart() };
}

/** Items before a line that belong to the same list: its number. */
function itemNumber(lines: readonly string[], at: number, indent: number): number {
  let n = 0;
  for (let i = at - 1; i >= 0; i--) {
    const { tokens, isEmpty } = tokensOf(lines[i]!);
    if (isEmpty) continue;
    const first = tokens[0];
    if (!first || first.indent < indent) break;
    if (first.indent === indent) {
      if (typeof first.step !== "number") break;
      n++;
    }
  }
  return n;
}

/** "  - name: x" is an item at 2 and a key at 4; what follows them begins at `end`. */
function tokensOf(line: string): { tokens: Token[]; end: number; isEmpty: boolean } {
  const tokens: Token[] = [];
  let at = /^ */.exec(line)![0].length;
  for (;;) {
    const dash = /^- +/.exec(line.slice(at)) ?? /^-$/.exec(line.slice(at));
    if (dash) {
      tokens.push({ indent: at, step: 0 });
      at += dash[0].length;
      continue;
    }
    const key = /^("(?:[^"\\]|\\.)*"|'[^']*'|[^\s#{}[\],&*!|>'"%@`:](?:[^:#{}[\],]|:(?=\S))*?)\s*:(?=\s|$)/.exec(
      line.slice(at),
    );
    if (key) {
      tokens.push({ indent: at, step: unquoted(key[1]!) });
      at += key[0].length;
    }
    return { tokens, end: at, isEmpty: /^\s*(#.*)?$/.test(line) };
  }
}
const unquoted = (key: string): string => (/^["']/.test(key) ? key.slice(1, -1) : key);
const inComment = (line: string): boolean => /^\s*#|\s#/.test(line.replace(/"(?:[^"\\]|\\.)*"|'[^']*'/g, ""));

/** The way through brackets that are still open at the end of a piece of line; undefined where none is. */
function flowOf(rest: string): YamlPlace | undefined {
  const open: { readonly kind: "{" | "["; key: string | undefined; item: number; from: number }[] = [];
  for (let i = 0; i < rest.length; i++) {
    const ch = rest[i]!;
    const top = open.at(-1);
    if (ch === '"' || ch === "'") {
      const end = rest.indexOf(ch, i + 1);
      if (end < 0) break;
      i = end;
    } else if (ch === "{" || ch === "[") open.push({ kind: ch, key: undefined, item: 0, from: i + 1 });
    else if (ch === "}" || ch === "]") open.pop();
    else if (ch === "," && top) {
      top.key = undefined;
      top.item++;
      top.from = i + 1;
    } else if (ch === ":" && top?.kind === "{" && /\s|$/.test(rest[i + 1] ?? " ")) {
      top.key = unquoted(rest.slice(top.from, i).trim());
      top.from = i + 1;
    }
  }
  const top = open.at(-1);
  if (!top) return undefined;
  const path = open.flatMap((one): Step[] => (one.kind === "[" ? [one.item] : one.key === undefined ? [] : [one.key]));
  const begun = rest.slice(top.from).trimStart();
  const writes = top.kind === "{" && top.key === undefined ? "key" : "value";
  return { path, writes, begun };
}
