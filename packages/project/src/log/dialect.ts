import type { Steps } from "@tapeworthy/core";
import { cellsOf, clockIn, isGapWord, isOverRange, type NumberSigns, numberIn, withUnit } from "./cell.ts";
import type { Encoding } from "./encoding.ts";
import { unitText } from "./unit-text.ts";

export const separators = [";", "\t", ",", "|", " "] as const;
export type Separator = (typeof separators)[number];

/** How a log is written: what was taken from its beginning, or what the user wants. */
export interface Dialect extends NumberSigns {
  readonly encoding: Encoding;
  readonly separator: Separator;
  readonly quote: '"' | "'" | "";
  /** What a line that is no row begins with; empty where there is no such line. */
  readonly comment: "#" | "%" | "//" | "!" | "";
  /** Lines of the file, from 1; 0 where there is none. */
  readonly header: number;
  readonly units: number;
  readonly first: number;
  /** Share of the lines looked at that fit, times how clear the choice was: 1 is sure. */
  readonly sure: number;
}
/** What the user knows better. */
export type Wish = Partial<Omit<Dialect, "sure">> & {
  /** Columns that are texts though they look like numbers: a reel's or a card's number. */
  readonly texts?: readonly string[];
};

/** What kind of thing a column holds. */
export type CellKind = "number" | "clock" | "text";
export interface Found {
  readonly dialect: Omit<Dialect, "encoding">;
  readonly names: readonly string[];
  readonly units: readonly string[];
  readonly kinds: readonly CellKind[];
  /** Columns that are empty as far as was looked. */
  readonly undecided: readonly boolean[];
  /** A column of a decimal mark that could as well part thousands: a cell that shows it. */
  readonly ambiguous?: { readonly line: number; readonly cell: string };
  /** True where no number of the beginning holds the decimal mark. */
  readonly decimalUnseen: boolean;
}
/** Why a beginning is no log: in which line, from which character, what was found and expected. */
export interface NotFound {
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

const commentSigns = ["#", "%", "//", "!"] as const;
const mostColumns = 1000;

type CellClass = "number" | "clock" | "gap" | "text";
function classOf(cell: string, signs: NumberSigns): CellClass {
  if (cell === "" || isGapWord(cell) || isOverRange(cell)) return "gap";
  if (numberIn(cell, signs) !== undefined || withUnit(cell, signs)) return "number";
  return clockIn(cell) === undefined ? "text" : "clock";
}

interface Split {
  readonly cells: readonly string[];
  readonly classes: readonly CellClass[];
  readonly blank: boolean;
  readonly comment: boolean;
}
interface Try {
  readonly separator: Separator;
  readonly signs: NumberSigns;
  readonly lines: readonly Split[];
  readonly count: number;
  readonly kinds: readonly CellKind[];
  readonly first: number;
  readonly fit: number;
  readonly score: number;
}

/** Lines that are looked at: so many first, more of them where those hold no number. */
const looked = [120, 1000] as const;

/** Reads the dialect off the first lines of a log; a pause may be made between any two ways to read them. */
export function* dialectSteps(lines: readonly string[], wish: Wish = {}): Steps<Found | NotFound> {
  let found: Found | NotFound | undefined;
  for (const most of looked) {
    // Rows far down, where the user says so.
    found = yield* dialectOf(lines.slice(0, most + (wish.first ?? 0)), wish);
    if ("dialect" in found && found.dialect.sure > 0.3) return found;
    if (lines.length <= most) return found;
  }
  return found!;
}
function* dialectOf(lines: readonly string[], wish: Wish): Steps<Found | NotFound> {
  const written = lines.findIndex((l) => l.trim() !== "");
  if (written < 0)
    return {
      line: 1,
      column: 1,
      found: "nothing but empty lines",
      expected: "a header and rows of numbers",
      hint: "Export the log again.",
    };
  if (wish.first !== undefined && wish.first > lines.length)
    return {
      line: lines.length,
      column: 1,
      found: `${lines.length} lines`,
      expected: `the first row in line ${wish.first}, as you say`,
      hint: "Say a line of the log: --first LINE.",
    };
  for (const [i, l] of lines.entries()) {
    const most = Math.max(...separators.map((s) => (s === " " ? 0 : count(l, s))));
    if (most >= mostColumns)
      return {
        line: i + 1,
        column: 1,
        found: `${most + 1} columns`,
        expected: `at most ${mostColumns}`,
        hint: "One column a quantity and one row a reading; a table written sideways is to be turned first.",
      };
  }
  const quote = wish.quote ?? '"';
  const quoted = quote !== "" && lines.some((l) => /(?:^|[,;\t|]) *"/.test(l));
  const comment = wish.comment ?? commentOf(lines);
  const tries: Try[] = [];
  for (const separator of wish.separator === undefined ? separators : [wish.separator])
    if (separator === " " || lines.some((l) => l.includes(separator)) || (separator === ";" && tries.length === 0))
      for (const signs of signsFor(separator, quoted, wish, lines)) {
        const one = tried(lines, separator, quote, comment, signs, wish);
        if (one) tries.push(one);
        yield undefined;
      }
  tries.sort((a, b) => b.score - a.score);
  const [best] = tries;
  if (!best) return noNumbers(lines, quote, written);
  const doubled = commaBetweenCommas(best, lines, quote);
  if (doubled) return doubled;
  const rival = tries.find((t) => t.separator !== best.separator);
  const head = headOf(best, lines, quote, comment, wish);
  const numbers = best.lines
    .slice(best.first)
    .flatMap((l) => (l.cells.length === best.count ? l.cells.filter((_, c) => l.classes[c] === "number") : []));
  const marked = numbers.filter((n) => n.includes(best.signs.decimal));
  const couldPart = marked.length > 0 && marked.every((n) => /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(n));
  const unlike = marked.some((n) => n.split(/[.,]/)[1] !== "000");
  const ambiguous = couldPart && unlike && wish.decimal === undefined && best.signs.thousands === "";
  const clear = Math.min(1, 0.5 + 3 * Math.max(0, 1 - (rival?.score ?? 0) / best.score));
  const spot = ambiguous ? best.lines.findIndex((l, i) => i >= best.first && l.cells.some((c) => c === marked[0])) : -1;
  return {
    dialect: {
      separator: best.separator,
      ...best.signs,
      quote,
      comment,
      header: head.header,
      units: head.units,
      first: best.first + 1,
      sure: best.fit * clear * (ambiguous ? 0.6 : 1) * (head.header === 0 ? 0.9 : 1),
    },
    names: head.names,
    units: head.unitTexts,
    kinds: best.kinds.map((k, c) => (wish.texts?.includes(head.names[c]!) ? "text" : k)),
    undecided: best.kinds.map((_, c) =>
      best.lines.slice(best.first).every((l) => l.cells.length !== best.count || l.classes[c] === "gap"),
    ),
    ...(ambiguous ? { ambiguous: { line: spot + 1, cell: marked[0]! } } : {}),
    decimalUnseen: marked.length === 0 && wish.decimal === undefined,
  };
}
const count = (line: string, sign: string): number => {
  let n = 0;
  for (let i = line.indexOf(sign); i >= 0; i = line.indexOf(sign, i + 1)) n++;
  return n;
};
function commentOf(lines: readonly string[]): Dialect["comment"] {
  return commentSigns.find((s) => lines.some((l) => l.trimStart().startsWith(s))) ?? "";
}
function signsFor(separator: Separator, quoted: boolean, wish: Wish, lines: readonly string[]): NumberSigns[] {
  const all: NumberSigns[] = [
    { decimal: ".", thousands: "" },
    { decimal: ",", thousands: "" },
    { decimal: ".", thousands: "," },
    { decimal: ",", thousands: "." },
    { decimal: ".", thousands: "'" },
    { decimal: ",", thousands: " " },
    { decimal: ".", thousands: " " },
  ];
  const held = new Map<string, boolean>();
  const groups = (sign: string): boolean => {
    const known =
      held.get(sign) ??
      lines.some((l) => new RegExp(`\\d[${sign}${sign === " " ? "\u00a0\u202f" : ""}]\\d{3}`).test(l));
    held.set(sign, known);
    return known;
  };
  return all.filter(
    ({ decimal, thousands }) =>
      (thousands === "" || thousands === wish.thousands || groups(thousands)) &&
      (wish.decimal === undefined || decimal === wish.decimal) &&
      (wish.thousands === undefined || thousands === wish.thousands) &&
      (separator !== "," || quoted || (decimal !== "," && thousands !== ",")) &&
      (separator !== " " || thousands !== " "),
  );
}

function tried(
  lines: readonly string[],
  separator: Separator,
  quote: string,
  comment: string,
  signs: NumberSigns,
  wish: Wish,
): Try | undefined {
  const split = lines.map((line): Split => {
    const blank = line.trim() === "";
    const isComment = comment !== "" && line.trimStart().startsWith(comment);
    if (blank || isComment) return { cells: [], classes: [], blank, comment: isComment };
    const { cells } = cellsOf(line, separator, quote);
    return { cells, classes: cells.map((c) => classOf(c, signs)), blank, comment: false };
  });
  const from = wish.first === undefined ? 0 : wish.first - 1;
  const isNumbered = (l: Split): boolean => l.classes.some((c) => c === "number" || c === "clock");
  const counts = new Map<number, number>();
  for (const l of split.slice(from))
    if (isNumbered(l)) counts.set(l.cells.length, (counts.get(l.cells.length) ?? 0) + 1);
  if (counts.size === 0) return undefined;
  // The most frequent number of cells; of two alike the greater.
  const [k] = [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]!;
  const body = split.slice(from).filter((l) => l.cells.length === k && isNumbered(l));
  const late = body.slice(Math.floor(body.length / 2));
  const kinds = Array.from({ length: k }, (_, c): CellKind => {
    // A column that holds nothing late is what it was before.
    const lines = late.some((l) => l.classes[c] !== "gap") ? late : body;
    const has = (kind: CellClass) => lines.filter((l) => l.classes[c] === kind).length;
    const [numbers, clocks, texts] = [has("number"), has("clock"), has("text")];
    if (clocks > numbers && clocks >= texts) return "clock";
    return texts > numbers ? "text" : "number";
  });
  if (kinds.every((kind) => kind === "text")) return undefined;
  const fits = (l: Split): boolean =>
    l.cells.length === k &&
    isNumbered(l) &&
    l.classes.every((c, i) => c === "gap" || kinds[i] === "text" || c === kinds[i]);
  const found = split.findIndex((l, i) => i >= from && fits(l));
  if (found < 0) return undefined;
  const first = wish.first === undefined ? found : from;
  const rest = split.slice(first).filter((l) => !l.blank && !l.comment);
  const fit = rest.filter(fits).length / rest.length;
  const cells = rest.filter(fits).flatMap((l) => l.classes);
  const numbers = cells.filter((c) => c === "number" || c === "clock").length / Math.max(1, cells.length);
  // Of all lines that hold anything, so that no way of reading wins by leaving lines out.
  const fitting = rest.filter(fits).length / split.slice(from).filter((l) => !l.blank && !l.comment).length;
  const score =
    fitting *
    (0.5 + 0.5 * numbers) *
    (k > 1 ? 1 : 0.6) *
    (signs.thousands === "" ? 1 : 0.97) *
    (separator === " " ? 0.9 : 1);
  return { separator, signs, lines: split, count: k, kinds, first, fit, score };
}

/** Decimal commas between separating commas: under every name stand two whole numbers. */
function commaBetweenCommas(best: Try, lines: readonly string[], quote: string): NotFound | undefined {
  if (best.separator !== "," || best.first === 0 || best.count % 2 !== 0) return undefined;
  const before = lines[best.first - 1]!;
  const names = cellsOf(before, ",", quote).cells;
  const rows = best.lines.slice(best.first).filter((l) => l.cells.length === best.count);
  const whole = rows.every((l) => l.cells.every((c) => /^-?\d+$/.test(c)));
  if (names.length * 2 !== best.count || !whole || rows.length === 0) return undefined;
  return {
    line: best.first + 1,
    column: 1,
    found: `${best.count} whole numbers under ${names.length} names`,
    expected: `${names.length} cells`,
    hint: "The comma seems to be both decimal mark and separator. Export with semicolons, or with a decimal point.",
  };
}

/** Where the names and units stand: above the first row, maybe behind a comment sign. */
function headOf(
  best: Try,
  lines: readonly string[],
  quote: string,
  comment: string,
  wish: Wish,
): { header: number; units: number; names: string[]; unitTexts: string[] } {
  const { count: k, first, separator } = best;
  const cellsAt = (i: number): string[] | undefined => {
    let line = lines[i]!.trim() === "" ? "" : lines[i]!;
    if (comment !== "" && line.trimStart().startsWith(comment))
      line = line.trimStart().slice(comment.length).trimStart();
    if (line === "") return undefined;
    const { cells } = cellsOf(line, separator, quote);
    while (cells.length > k && cells.at(-1) === "") cells.pop();
    if (cells.length === k - 1 && separator !== " ") cells.push("");
    return cells.length === k ? cells : undefined;
  };
  const above: number[] = [];
  // What is ruled, "---;---", names nothing.
  for (let i = first - 1; i >= 0 && above.length < 4; i--) if (/[^\s\-=_+|:;,]/.test(lines[i]!)) above.push(i);
  const isUnits = (cells: readonly string[]): boolean => {
    const said = cells.filter((c) => c !== "");
    return said.length > 0 && said.filter((c) => isUnitCell(c)).length >= 0.6 * said.length;
  };
  const names = (i: number): string[] | undefined => {
    const cells = cellsAt(i);
    if (!cells) return undefined;
    const plain = cells.filter((c) => c !== "");
    const texts = plain.filter((c) => numberIn(c, best.signs) === undefined && clockIn(c) === undefined);
    // A name of a column may be one word alone only where there is one column alone.
    return texts.length >= 0.6 * plain.length && plain.length >= Math.min(2, k) ? cells : undefined;
  };
  let header = 0;
  let units = 0;
  if (wish.header !== undefined) {
    header = wish.header;
    units = wish.units ?? 0;
    if (wish.units === undefined && header > 0 && header < first) {
      const next = cellsAt(header);
      if (next && isUnits(next)) units = header + 1;
    }
  } else {
    // Other lines may stand between: a comment, a line of another table.
    const [a, b] = above.filter((i) => names(i) !== undefined);
    const [cellsA, cellsB] = [a === undefined ? undefined : names(a), b === undefined ? undefined : names(b)];
    if (cellsA && cellsB && isUnits(cellsA)) {
      header = b! + 1;
      units = a! + 1;
    } else if (cellsA && !(isUnits(cellsA) && k > 1 && cellsA.every((c) => c.length <= 5 && isUnitCell(c))))
      header = a! + 1;
    else if (cellsA) units = a! + 1;
    if (wish.units !== undefined) units = wish.units;
  }
  const said = header > 0 ? (cellsAt(header - 1) ?? []) : [];
  const saidUnits = units > 0 ? (cellsAt(units - 1) ?? []) : [];
  const texts: string[] = [];
  const unitTexts: string[] = [];
  for (let c = 0; c < k; c++) {
    const { name, unit } = apart(said[c] ?? "");
    const plain = name === "" ? `column ${c + 1}` : name;
    let own = plain;
    for (let times = 2; texts.includes(own); times++) own = `${plain} (${times})`;
    texts.push(own);
    unitTexts.push(bare(saidUnits[c] ?? "") || unit);
  }
  return { header, units, names: texts, unitTexts };
}
const bare = (cell: string): string => cell.replace(/^[[(<{]\s*|\s*[\])>}]$/g, "").replace(/^-+$/, "");
const isUnitCell = (cell: string): boolean =>
  /^[[(].*[\])]$/.test(cell) || cell === "-" || unitText(bare(cell)) !== undefined;

/** A header's cell as name and unit: "pull [N]", "Zeit (ms)", "force / N", "t_s", "force_N", "travel in mm". */
export function apart(cell: string): { name: string; unit: string } {
  const framed = /^(.*?)\s*[[(<{]\s*([^\])>}]*?)\s*[\])>}]\s*$/.exec(cell);
  if (
    framed &&
    framed[1] !== "" &&
    (unitText(framed[2]!) !== undefined || /^\[/.test(cell.slice(framed[1]!.length).trim()))
  )
    return { name: framed[1]!, unit: framed[2]! };
  // The first sign behind which nothing but a unit stands: "v / mm/s" is in mm/s, not in s.
  for (const { 0: sign, index } of cell.matchAll(/\s*\/\s*|\s+in\s+|,\s*|_|:\s*/g)) {
    const [name, unit] = [cell.slice(0, index).trimEnd(), cell.slice(index + sign.length)];
    if (name !== "" && unitText(unit) !== undefined && !/^[dhm]$/.test(unit)) return { name, unit };
  }
  return { name: cell, unit: "" };
}

/** There is no number anywhere: a header alone, or no table. */
function noNumbers(lines: readonly string[], quote: string, written: number): NotFound {
  const what = /^\s*[{[]/.test(lines[written]!)
    ? "JSON"
    : /^\s*</.test(lines[written]!)
      ? "a page of the web or XML"
      : undefined;
  if (what)
    return {
      line: written + 1,
      column: 1,
      found: what,
      expected: "rows of numbers, with a header over them",
      hint: "Export the log as CSV (comma-separated text).",
    };
  const tables = separators
    .filter((s) => s !== " ")
    .map((s) => Math.max(...lines.map((l) => cellsOf(l, s, quote).cells.length)));
  const filled = lines.filter((l) => l.trim() !== "");
  const most = Math.max(...tables);
  if (most > 1 && filled.length <= 2)
    return {
      line: written + 1,
      column: 1,
      found: `a header of ${most} columns and no row`,
      expected: "rows of numbers under it",
      hint: "Was the recorder stopped before it wrote? Export the log again.",
    };
  return {
    line: written + 1,
    column: 1,
    found: "no column of numbers in the first lines",
    expected: "rows of numbers, with a header over them",
    hint: "Is this the right file? If its numbers begin further down, say where: --first LINE.",
  };
}
