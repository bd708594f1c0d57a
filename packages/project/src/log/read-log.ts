import type { Steps } from "@tapeworthy/core";
import { ProjectError } from "../error.ts";
import { NumberBlocks, WordBlocks } from "./blocks.ts";
import { cellsOf, clockIn, isGapWord, isOverRange, numberIn, withUnit } from "./cell.ts";
import { type Dialect, dialectSteps, type Found, type Wish } from "./dialect.ts";
import { type Encoding, encodingOf, highBytes, Transcoder, textOf } from "./encoding.ts";
import type { LogColumn, PreambleLine, ReadLog, Remark, RemarkKind } from "./log.ts";

/** Bytes looked at for the dialect; the longest line that is read; bytes worked at between two pauses; rows a remark lists. */
const headSize = 65_536;
const longestLine = 1_000_000;
const piece = 24_576;
const listed = 1000;
/** Different texts of a column that are kept. */
const mostWords = 10_000;
const [LF, CR, SPACE, TAB, PLUS, MINUS, DOT, COMMA] = [10, 13, 32, 9, 43, 45, 46, 44];

const powers = Array.from({ length: 23 }, (_, i) => 10 ** i);

type ColumnStore =
  | { readonly kind: "number" | "clock"; readonly numbers: NumberBlocks; gaps: number }
  | { readonly kind: "text"; readonly words: WordBlocks; gaps: number };

/**
 * Reads a log in chunks as they come, so that a file never lies whole in memory. Work is done in steps of about 24 kB; between two of them
 * the caller may pause. Whatever is odd is a remark with its place; what makes the log unreadable is an error, and then nothing is returned.
 *
 * Numbers are exact: up to 15 digits and 22 places are one division of two exact numbers, the rest goes the long way. A gap is NaN.
 * Limits: a line of at most 1 MB, 1000 columns, 10 000 different texts a column; a quoted cell ends on its line.
 */
export class LogReader {
  private readonly file: string;
  private readonly wish: Wish;
  private readonly errors: ProjectError[] = [];
  private readonly remarks = new Map<
    string,
    { about: RemarkKind; first: ProjectError; count: number; rows: number[] }
  >();
  private readonly preamble: PreambleLine[] = [];
  private readonly comments: PreambleLine[] = [];
  private transcoder: Transcoder | undefined;
  private encoding: Encoding = "utf-8";
  /** Undefined while all bytes were ASCII. */
  private latin: boolean | undefined;
  private held: Uint8Array = new Uint8Array(0);
  private begun = false;
  private found: Found | undefined;
  private signs: { decimal: "." | ","; thousands: Dialect["thousands"] } = { decimal: ".", thousands: "" };
  private decimalUnseen = false;
  private columns: ColumnStore[] = [];
  private rows = 0;
  private line = 1;
  private afterCR = false;
  /** Where lines and rows part ways: from row `row` on, its line is `row + by`. */
  private readonly breaks: { row: number; by: number }[] = [];
  private separator = 44;
  private decimal = DOT;
  private commentBytes: number[] = [];
  private ended = false;
  /** True while what comes behind the last end of a line is read. */
  private last = false;

  constructor(file: string, wish: Wish = {}) {
    this.file = file;
    this.wish = wish;
    if (wish.encoding === "latin-1") this.latin = true;
  }

  /** True once an error has been found: more chunks are not looked at. */
  get failed(): boolean {
    return this.errors.length > 0;
  }

  *take(chunk: Uint8Array | string): Steps<void> {
    for (let at = 0; at < chunk.length && !this.failed; at += piece) {
      const part = typeof chunk === "string" ? chunk.slice(at, at + piece) : chunk.subarray(at, at + piece);
      this.piece(part);
      if (!this.begun && this.readyToBegin) yield* this.begin();
      yield undefined;
    }
  }

  *end(): Steps<ReadLog> {
    this.ended = true;
    if (!this.failed && !this.begun) yield* this.begin();
    this.last = true;
    if (!this.failed && this.held.length > 0) this.lines(joined(this.held, Uint8Array.of(LF)));
    if (!this.failed && this.transcoder?.cut)
      this.remark(
        "cut",
        Math.max(1, this.line - 1),
        0,
        1,
        "",
        "half a character at the end",
        "a whole text",
        "The file was cut off.",
      );
    if (!this.failed) this.judge();
    if (this.failed) return { errors: this.errors };
    const columns: LogColumn[] = [];
    const { names, units } = this.found!;
    for (const [c, store] of this.columns.entries()) {
      const shared = { name: names[c]!, unit: units[c]!, gaps: store.gaps };
      if (store.kind === "text") {
        if (store.words.left > 0)
          this.remark(
            "words",
            this.found!.dialect.first,
            0,
            1,
            "",
            `more than ${mostWords} different texts in "${names[c]}"`,
            `at most ${mostWords}`,
            "The rest is taken for gaps: is the column of any use?",
          );
        const codes = yield* store.words.codes.joined();
        columns.push({ ...shared, kind: "text", words: store.words.words, codes: new Int32Array(codes) });
      } else
        columns.push({
          ...shared,
          kind: "number",
          values: yield* store.numbers.joined(),
          clock: store.kind === "clock",
        });
      yield undefined;
    }
    // A separator at the end of every line makes a column without a name or a value.
    const last = columns.at(-1)!;
    if (columns.length > 1 && last.gaps === this.rows && /^column \d+$/.test(last.name)) columns.pop();
    const { breaks } = this;
    const lineOf = (row: number): number => {
      let by = 0;
      for (const b of breaks) {
        if (b.row > row) break;
        by = b.by;
      }
      return row + by;
    };
    const log = {
      file: this.file,
      dialect: { ...this.found!.dialect, ...this.signs, encoding: this.latin ? ("latin-1" as const) : this.encoding },
      preamble: this.preamble,
      comments: this.comments,
      rows: this.rows,
      columns,
      remarks: [...this.remarks.values()] satisfies Remark[],
      lineOf,
    };
    return { log, errors: [] };
  }

  private piece(part: Uint8Array | string): void {
    if (!this.transcoder) {
      const found =
        typeof part === "string"
          ? { encoding: "utf-8" as const, mark: part.startsWith("\ufeff") ? 1 : 0 }
          : encodingOf(part);
      this.encoding = this.wish.encoding ?? found.encoding;
      this.transcoder = new Transcoder(typeof part === "string" ? "string" : this.encoding);
      this.piece(typeof part === "string" ? part.slice(found.mark) : part.subarray(found.mark));
      return;
    }
    const bytes = this.transcoder.bytes(part);
    if (bytes.length === 0) return;
    const data = joined(this.held, bytes);
    if (!this.begun) {
      this.held = data;
      return;
    }
    const end = lastEnd(data);
    this.held = data.slice(end);
    if (end > 0) this.lines(data.subarray(0, end));
    if (this.held.length > longestLine) this.tooLong(this.line, this.held, 0);
  }

  private get readyToBegin(): boolean {
    const { held } = this;
    return held.length >= headSize && (held.length > longestLine || lastEnd(held) > 0);
  }

  /** Looks at the beginning: is it text, and how is it written. */
  private *begin(): Steps<void> {
    this.begun = true;
    const head = this.held;
    if (head.length === 0) {
      this.fail(1, 1, 1, "", "an empty file", "a header and rows of numbers", "Export the log again.");
      return;
    }
    const odd = whatBinary(head);
    if (odd) {
      this.fail(1, 1, 1, "", odd.found, "text with rows of numbers", odd.hint);
      return;
    }
    let end = lastEnd(head);
    const whole = this.ended && end < head.length;
    if (whole) end = head.length;
    if (end === 0) {
      this.tooLong(1, head, 0);
      return;
    }
    const part = head.subarray(0, end);
    this.settle(part, 0, end);
    if (this.failed) return;
    const text = textOf(part, 0, end, this.latin === true);
    const lines = text.split(/\r\n|\n|\r/);
    if (lines.at(-1) === "") lines.pop();
    const long = lines.findIndex((l) => l.length > longestLine);
    const found = yield* dialectSteps(lines, this.wish);
    if (!("dialect" in found)) {
      this.fail(found.line, found.column, 1, lines[found.line - 1] ?? "", found.found, found.expected, found.hint);
      return;
    }
    if (long >= 0) {
      this.tooLong(long + 1, head, 0);
      return;
    }
    this.found = found;
    const { dialect } = found;
    this.signs = { decimal: dialect.decimal, thousands: dialect.thousands };
    this.decimalUnseen = found.decimalUnseen;
    this.separator = dialect.separator.charCodeAt(0);
    this.decimal = dialect.decimal.charCodeAt(0);
    this.commentBytes = [...dialect.comment].map((c) => c.charCodeAt(0));
    this.columns = found.kinds.map((kind) =>
      kind === "text"
        ? { kind, words: new WordBlocks(mostWords), gaps: 0 }
        : { kind, numbers: new NumberBlocks(), gaps: 0 },
    );
    for (const [i, line] of lines.slice(0, dialect.first - 1).entries()) {
      if (line.trim() === "" || i + 1 === dialect.header || i + 1 === dialect.units) continue;
      this.preamble.push(keyAndValue(line, i + 1, dialect));
    }
    if (dialect.header === 0)
      this.remark(
        "header",
        dialect.first,
        0,
        1,
        lines[dialect.first - 1] ?? "",
        "no line of names above the numbers",
        "a header",
        'The columns are called "column 1" and so on; say with --map what each is.',
      );
    if (found.ambiguous) {
      const { line, cell } = found.ambiguous;
      const at = Math.max(0, lines[line - 1]!.indexOf(cell));
      const other = cell.replace(/[.,]/, "");
      this.remark(
        "decimal",
        line,
        at,
        cell.length,
        lines[line - 1]!,
        `${cell}, and every number with a mark like it`,
        "a mark that shows whether it is the decimal one",
        `Read as ${cell.replace(",", ".")}; if ${other} is meant, say so: --thousands "${dialect.decimal}".`,
      );
    }
    // The first row begins behind as many line ends as lines stand above it.
    let from = 0;
    for (let n = 1; n < dialect.first; n++) from = nextLine(head, from);
    this.line = dialect.first;
    this.breaks.push({ row: 0, by: dialect.first });
    this.held = head.slice(end);
    const rows = head.subarray(from, end);
    const unended = whole ? rows.subarray(lastEnd(rows)) : undefined;
    this.lines(unended ? rows.subarray(0, rows.length - unended.length) : rows);
    if (unended && unended.length > 0) this.held = unended;
    if (this.held.length > longestLine) this.tooLong(this.line, this.held, 0);
  }

  /** Rows of whole lines. What is plain is read from the bytes; any other line goes the long way. */
  private lines(b: Uint8Array): void {
    const { separator, columns } = this;
    // A mark that also parts the cells stands only between quotes, and quotes go the long way.
    let decimal = this.decimal === separator ? -1 : this.decimal;
    let marked = false;
    const last = columns.length - 1;
    const blank = separator === SPACE;
    const comment = this.commentBytes[0] ?? -1;
    const values = new Float64Array(columns.length);
    let at = 0;
    if (this.afterCR && b[0] === LF) at = 1;
    this.afterCR = b[b.length - 1] === CR;
    while (at < b.length && this.errors.length === 0) {
      const start = at;
      let p = at;
      let c = 0;
      let plain = b[p] !== comment;
      while (plain) {
        while (b[p] === SPACE) p++;
        const column = columns[c]!;
        if (column.kind === "number") {
          let sign = 1;
          if (b[p] === MINUS) {
            sign = -1;
            p++;
          } else if (b[p] === PLUS) p++;
          let mantissa = 0;
          let digits = 0;
          let places = 0;
          let d = b[p]! - 48;
          while (d >= 0 && d <= 9) {
            mantissa = mantissa * 10 + d;
            digits++;
            d = b[++p]! - 48;
          }
          if (b[p] === decimal) {
            d = b[++p]! - 48;
            while (d >= 0 && d <= 9) {
              mantissa = mantissa * 10 + d;
              places++;
              d = b[++p]! - 48;
            }
          }
          // Too long to be exact this way, or something else than a number or nothing: the long way.
          if (
            digits + places === 0 &&
            last > 0 &&
            !blank &&
            (b[p] === separator || isEnd(b[p]!)) &&
            isGapAt(b, p, start, separator)
          ) {
            values[c] = Number.NaN;
          } else if (digits + places === 0 || digits + places > 15) {
            plain = false;
            break;
          } else {
            if (places > 0) marked = true;
            values[c] = (sign * mantissa) / powers[places]!;
          }
        } else if (column.kind === "text") {
          const from = p;
          let high = false;
          while (b[p] !== separator && b[p]! !== LF && b[p]! !== CR) {
            const byte = b[p]!;
            if (byte === 34 || byte === 39 || (byte < 32 && byte !== TAB)) break;
            if (byte > 127) high = true;
            p++;
          }
          let to = p;
          while (to > from && b[to - 1] === SPACE) to--;
          if (high || (b[p] !== separator && !isEnd(b[p]!))) {
            plain = false;
            break;
          }
          if (to === from) values[c] = -1;
          else {
            values[c] = column.words.codeOfBytes(b, from, to, () => textOf(b, from, to, false));
            if (values[c]! < 0) {
              plain = false;
              break;
            }
          }
        } else {
          plain = false;
          break;
        }
        while (b[p] === SPACE) p++;
        const next = b[p]!;
        if (next === LF || next === CR) {
          plain = c === last;
          break;
        }
        if (blank) {
          // The blanks that part the cells have been passed over.
          if (b[p - 1] !== SPACE || c === last) {
            plain = false;
            break;
          }
          c++;
          continue;
        }
        if (next !== separator || c === last) {
          plain = false;
          break;
        }
        p++;
        c++;
      }
      if (plain) {
        for (let i = 0; i <= last; i++) {
          const store = columns[i]!;
          const value = values[i]!;
          if (store.kind === "text") {
            store.words.codes.push(value);
            if (value < 0) store.gaps++;
          } else {
            store.numbers.push(value);
            if (Number.isNaN(value)) store.gaps++;
          }
        }
        this.rows++;
      } else {
        p = start;
        while (p < b.length && !isEnd(b[p]!)) p++;
        if (marked) this.decimalUnseen = false;
        this.oddLine(b, start, p);
        decimal = this.decimal === separator ? -1 : this.decimal;
      }
      this.line++;
      at = p + 1;
      if (b[p] === CR && b[at] === LF) at++;
    }
    if (marked) this.decimalUnseen = false;
  }

  /** A line that is no plain row: empty, a comment, with quotes or gaps, or no row at all. */
  private oddLine(b: Uint8Array, from: number, to: number): void {
    const { columns } = this;
    if (to - from > longestLine) {
      this.tooLong(this.line, b, from);
      return;
    }
    this.settle(b, from, to);
    if (this.failed) return;
    const text = textOf(b, from, to, this.latin === true);
    const { dialect } = this.found!;
    if (text.trim() === "") {
      this.skip();
      return;
    }
    if (dialect.comment !== "" && text.trimStart().startsWith(dialect.comment)) {
      if (this.comments.length < listed) this.comments.push(keyAndValue(text, this.line, dialect));
      this.skip();
      return;
    }
    const control = text.search(controls);
    if (control >= 0) {
      const code = text.charCodeAt(control).toString(16).padStart(4, "0").toUpperCase();
      this.fail(
        this.line,
        control + 1,
        1,
        text,
        `the control character U+${code}`,
        "plain text",
        "The file is damaged here, or is not text. Export the log again.",
      );
      return;
    }
    const { cells, starts, open } = cellsOf(text, dialect.separator, dialect.quote);
    if (open >= 0) {
      this.fail(
        this.line,
        open + 1,
        1,
        text,
        "a quote that is not closed on its line",
        `a closing ${dialect.quote}`,
        "A text of several lines can't be read; export without it.",
      );
      return;
    }
    while (cells.length > columns.length && cells.at(-1) === "") cells.pop();
    const read: number[] = [];
    const odd: (readonly [about: RemarkKind, c: number, found: string, expected: string, hint: string])[] = [];
    let numbers = 0;
    let texts = 0;
    for (let c = 0; c < columns.length; c++) {
      const store = columns[c]!;
      const cell = cells[c] ?? "";
      if (store.kind === "text") {
        read.push(0);
        continue;
      }
      const value = cell === "" ? Number.NaN : this.value(cell, c, store.kind, odd);
      if (
        value === undefined &&
        store.gaps === this.rows &&
        this.found!.undecided[c] &&
        cells.length <= columns.length
      ) {
        // So far the column was empty: now it shows that it holds texts.
        odd.pop();
        const words = new WordBlocks(mostWords);
        for (let i = 0; i < this.rows; i++) words.push("");
        columns[c] = { kind: "text", words, gaps: store.gaps };
        read.push(0);
        continue;
      }
      if (value === undefined) texts++;
      else if (!Number.isNaN(value)) numbers++;
      read.push(value ?? Number.NaN);
    }
    if (numbers === 0 && (texts > 0 || cells.length < columns.length)) {
      const again = texts > 0 && cells.every((cell, i) => cell === "" || this.isHead(cell, i));
      const shown = text.trim().slice(0, 40);
      if (again)
        this.remark(
          "header again",
          this.line,
          0,
          text.length,
          text,
          "the header a second time",
          "rows",
          "The recorder was started again. The rows go on after it.",
        );
      else
        this.remark(
          "no row",
          this.line,
          0,
          text.length,
          text,
          `"${shown}"`,
          `a row of ${columns.length} cells`,
          "The line is left out.",
        );
      this.skip();
      return;
    }
    const row = this.rows;
    if (cells.length !== columns.length) {
      const long = cells.length > columns.length;
      const at = long ? starts[columns.length]! : text.length;
      this.remark(
        long ? "long row" : "short row",
        this.line,
        at,
        1,
        text,
        cells.length === 1 ? "1 cell" : `${cells.length} cells`,
        `${columns.length}, as in the header`,
        long
          ? "Which cell belongs where can't be told: the whole row is taken for gaps."
          : this.last
            ? "The file seems to be cut off here. The cells that are missing are taken for gaps."
            : "The cells that are missing are taken for gaps.",
        row,
      );
      if (long) read.fill(Number.NaN);
      if (long) odd.length = 0;
    }
    for (const [about, c, found, expected, hint] of odd)
      this.remark(about, this.line, starts[c] ?? 0, (cells[c] ?? "").length, text, found, expected, hint, row, c);
    for (const [c, store] of columns.entries()) {
      if (store.kind === "text") {
        if (store.words.push(cells.length > columns.length ? "" : (cells[c] ?? "")) < 0) store.gaps++;
      } else {
        store.numbers.push(read[c]!);
        if (Number.isNaN(read[c]!)) store.gaps++;
      }
    }
    this.rows++;
  }
  private isHead(cell: string, c: number): boolean {
    const { names, units } = this.found!;
    const [name, unit] = [names[c] ?? "", units[c] ?? ""];
    return cell === name || (name !== "" && cell.startsWith(name)) || (unit !== "" && cell.includes(unit));
  }

  /** The number in a cell; NaN for a gap that is named, undefined for a text. */
  private value(
    cell: string,
    c: number,
    kind: "number" | "clock",
    odd: (readonly [RemarkKind, number, string, string, string])[],
  ): number | undefined {
    const name = `"${this.found!.names[c]}"`;
    if (kind === "clock") {
      const seconds = clockIn(cell);
      if (seconds !== undefined) return seconds;
    } else {
      const value = numberIn(cell, this.signs);
      if (value !== undefined) {
        if (this.decimalUnseen && cell.includes(this.signs.decimal)) this.decimalUnseen = false;
        return value;
      }
    }
    if (isGapWord(cell)) {
      odd.push(["gap word", c, `"${cell}" in ${name}`, "a number", "It is taken for a gap."]);
      return Number.NaN;
    }
    if (isOverRange(cell)) {
      odd.push([
        "over range",
        c,
        `"${cell}" in ${name}`,
        "a number",
        "Taken for a gap: what lies out of the instrument's range is not known.",
      ]);
      return Number.NaN;
    }
    const other = { decimal: this.signs.decimal === "." ? "," : ".", thousands: "" } as const;
    if (kind === "number") {
      const inUnit = withUnit(cell, this.signs);
      if (inUnit) {
        const units = this.found!.units as string[];
        if (units[c] === "") units[c] = inUnit.unit;
        if (units[c] === inUnit.unit) return inUnit.value;
        odd.push([
          "unit",
          c,
          `${cell} in ${name}`,
          `a number in ${units[c]}`,
          "Taken for a gap. A column has one unit throughout.",
        ]);
        return Number.NaN;
      }
      const otherwise = numberIn(cell, other);
      if (otherwise !== undefined && this.decimalUnseen && this.separator !== other.decimal.charCodeAt(0)) {
        // The beginning held whole numbers only, so its decimal mark was a guess.
        this.signs = other;
        this.decimal = other.decimal.charCodeAt(0);
        this.decimalUnseen = false;
        return otherwise;
      }
      if (otherwise !== undefined) {
        odd.push([
          "decimal",
          c,
          `${cell} in ${name}`,
          `a number with a decimal ${this.signs.decimal === "." ? "point" : "comma"}, as above`,
          "Taken for a gap. Were two exports put together?",
        ]);
        return Number.NaN;
      }
    }
    odd.push(["text", c, `"${cell.slice(0, 40)}" in ${name}`, "a number", "It is taken for a gap."]);
    return undefined;
  }

  private skip(): void {
    const by = this.line + 1 - this.rows;
    const last = this.breaks.at(-1);
    if (last && last.row === this.rows) last.by = by;
    else this.breaks.push({ row: this.rows, by });
  }

  /** Holds bytes above 127 to one encoding. */
  private settle(b: Uint8Array, from: number, to: number): void {
    const { utf8, other } = highBytes(b, from, to);
    if (utf8 < 0 && other < 0) return;
    if (this.wish.encoding === "latin-1") return;
    if (this.latin === undefined) this.latin = other >= 0 && (utf8 < 0 || other < utf8);
    const wrong = this.latin ? utf8 : other;
    if (wrong < 0) return;
    let line = this.line;
    let start = from;
    for (let i = from; i < wrong; i++)
      if (b[i] === LF || (b[i] === CR && b[i + 1] !== LF)) {
        line++;
        start = i + 1;
      }
    let end = wrong;
    while (end < to && !isEnd(b[end]!)) end++;
    const before = textOf(b, start, wrong, this.latin);
    this.fail(
      line,
      before.length + 1,
      1,
      textOf(b, start, end, this.latin),
      this.latin
        ? "a character in UTF-8 in a text of Latin-1"
        : `the byte ${b[wrong]!.toString(16)}, which is no UTF-8, in a text of UTF-8`,
      "one encoding throughout",
      this.latin
        ? "Were two exports put together? If the text is Latin-1 all the same, say so: --encoding latin-1."
        : "Were two exports put together? Save each as UTF-8 and read them apart.",
    );
  }

  private judge(): void {
    if (!this.found) return;
    const { dialect } = this.found;
    if (this.rows === 0) {
      this.fail(dialect.first, 1, 1, "", "no row", "rows of numbers", "Export the log again.");
      return;
    }
    const times = (about: RemarkKind): number =>
      [...this.remarks.values()].filter((r) => r.about === about).reduce((n, r) => n + r.count, 0);
    const first = (about: RemarkKind): ProjectError => [...this.remarks.values()].find((r) => r.about === about)!.first;
    const ragged = times("short row") + times("long row");
    if (ragged > 10 && ragged > 0.2 * this.rows) {
      const e = first(times("long row") > 0 ? "long row" : "short row");
      this.errors.push(
        new ProjectError(
          e.place,
          e.lineText,
          `${ragged} of ${this.rows} rows with another number of cells than the header`,
          `${this.columns.length} cells a row`,
          'Is the separator right? Say which with --separator ";".',
        ),
      );
    }
    const junk = times("no row");
    if (junk > 10 && junk > 0.2 * (this.rows + junk)) {
      const e = first("no row");
      this.errors.push(
        new ProjectError(
          e.place,
          e.lineText,
          `${junk} lines that are no rows, beside ${this.rows} that are`,
          "a table of numbers",
          "Were two logs put together? Read them apart.",
        ),
      );
    }
    for (const [c, store] of this.columns.entries()) {
      if (store.kind === "text") continue;
      const texts = [...this.remarks].filter(([key]) => key === `text ${c}`).map(([, r]) => r)[0];
      const filled = this.rows - store.gaps;
      if (texts && texts.count > 10 && texts.count > 0.2 * (filled + texts.count))
        this.errors.push(
          new ProjectError(
            texts.first.place,
            texts.first.lineText,
            `${texts.count} texts among ${filled} numbers in "${this.found.names[c]}"`,
            "a column of numbers",
            `If it is a column of texts, say so: --texts "${this.found.names[c]}".`,
          ),
        );
    }
  }

  private tooLong(line: number, b: Uint8Array, from: number): void {
    for (const sign of [COMMA, 59, TAB, 124]) {
      let cells = 1;
      for (let i = from; i < b.length; i++) if (b[i] === sign) cells++;
      if (cells <= 1000) continue;
      this.fail(
        line,
        1,
        1,
        textOf(b, from, Math.min(b.length, from + 60), this.latin === true),
        `${cells} columns and more in one line`,
        "at most 1000",
        "One column a quantity and one row a reading; a table written sideways is to be turned first.",
      );
      return;
    }
    this.fail(
      line,
      1,
      1,
      textOf(b, from, Math.min(b.length, from + 60), this.latin === true),
      "a line of more than 1 MB",
      "lines of at most 1 MB",
      "Is the file text? A table written sideways is to be turned first.",
    );
  }
  private fail(
    line: number,
    column: number,
    length: number,
    text: string,
    found: string,
    expected: string,
    hint: string,
  ) {
    this.errors.push(errorAt(this.file, line, column, length, text, found, expected, hint));
  }
  private remark(
    about: RemarkKind,
    line: number,
    from: number,
    length: number,
    text: string,
    found: string,
    expected: string,
    hint: string,
    row?: number,
    column?: number,
  ): void {
    const key = column === undefined ? about : `${about} ${column}`;
    const before = this.remarks.get(key);
    if (!before) {
      const first = errorAt(this.file, line, from + 1, length, text, found, expected, hint);
      this.remarks.set(key, { about, first, count: 1, rows: row === undefined ? [] : [row] });
      return;
    }
    before.count++;
    if (row !== undefined && before.rows.length < listed) before.rows.push(row);
  }
}

/** An error with as much of the line as a person can read. */
function errorAt(
  file: string,
  line: number,
  column: number,
  length: number,
  text: string,
  found: string,
  expected: string,
  hint: string,
): ProjectError {
  const place = { file, line, column, length: Math.max(1, length) };
  return new ProjectError(place, text.length > 4000 ? text.slice(0, 4000) : text, found, expected, hint);
}
// Control characters but the tab.
const controls = /(?!\t)\p{Cc}/u;

/** Whether an empty cell is empty from its separator on: a sign alone is none. */
function isGapAt(b: Uint8Array, at: number, start: number, separator: number): boolean {
  let i = at - 1;
  while (i >= start && b[i] === SPACE) i--;
  return i < start || b[i] === separator;
}
const isEnd = (byte: number): boolean => byte === LF || byte === CR;
function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  if (a.length === 0) return b;
  const out = new Uint8Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}
/** Just behind the last end of a line. */
function lastEnd(b: Uint8Array): number {
  for (let i = b.length - 1; i >= 0; i--) if (isEnd(b[i]!)) return i + 1;
  return 0;
}
function nextLine(b: Uint8Array, from: number): number {
  let i = from;
  while (i < b.length && !isEnd(b[i]!)) i++;
  return b[i] === CR && b[i + 1] === LF ? i + 2 : i + 1;
}

/** What a file that is no text most likely is. */
function whatBinary(head: Uint8Array): { found: string; hint: string } | undefined {
  const begins = (...bytes: number[]) => bytes.every((byte, i) => head[i] === byte);
  if (begins(0x50, 0x41, 0x52, 0x31))
    return {
      found: "a Parquet file",
      hint: "Give the log as the recorder exported it; raw.parquet is what was kept of one.",
    };
  if (begins(0x50, 0x4b, 3, 4))
    return { found: "a zip archive or a spreadsheet file", hint: "Export the sheet as CSV (comma-separated text)." };
  if (begins(0x1f, 0x8b)) return { found: "a compressed file", hint: "Unpack it first." };
  if (begins(0xd0, 0xcf, 0x11, 0xe0)) return { found: "an old spreadsheet file", hint: "Export the sheet as CSV." };
  if (begins(0x25, 0x50, 0x44, 0x46)) return { found: "a PDF file", hint: "Export the numbers as CSV." };
  if (begins(0x89, 0x50, 0x4e, 0x47) || begins(0xff, 0xd8, 0xff))
    return { found: "a picture", hint: "Export the log as CSV." };
  let odd = 0;
  const n = Math.min(head.length, 4096);
  for (let i = 0; i < n; i++) {
    const c = head[i]!;
    if (c < 9 || (c > 13 && c < 32 && c !== 27) || c === 127) odd++;
  }
  if (odd > Math.max(2, 0.02 * n))
    return { found: "bytes that are no text", hint: "Export the log as CSV (comma-separated text)." };
  return undefined;
}

/** "Sample rate: 1000 Hz", "Operator;Ada", "# speed = 80". */
function keyAndValue(line: string, at: number, dialect: { separator: string; comment: string }): PreambleLine {
  let text = line.trim();
  if (dialect.comment !== "" && text.startsWith(dialect.comment)) text = text.slice(dialect.comment.length).trim();
  while (text.endsWith(dialect.separator) && dialect.separator !== " ") text = text.slice(0, -1).trim();
  const m = /^([^:=;\t|,]{1,60}?)\s*[:=;\t|,]\s*(.*)$/.exec(text);
  return m
    ? { line: at, key: m[1]!.trim(), value: m[2]!.trim().slice(0, 400) }
    : { line: at, key: "", value: text.slice(0, 400) };
}

/** Reads a whole log from chunks. `rest` is called after every step: a promise that it returns is waited for. */
export async function readLog(
  file: string,
  chunks: AsyncIterable<Uint8Array | string> | Iterable<Uint8Array | string>,
  wish: Wish = {},
  rest?: () => Promise<void> | undefined,
): Promise<ReadLog> {
  const reader = new LogReader(file, wish);
  const run = async <T>(steps: Steps<T>): Promise<T> => {
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      const pause = rest?.();
      if (pause) await pause;
    }
  };
  for await (const chunk of chunks) {
    await run(reader.take(chunk));
    if (reader.failed) break;
  }
  return run(reader.end());
}
