import {
  checkDimension,
  type Dimension,
  type Field,
  type Given,
  given,
  isBare,
  type Level,
  type Members,
  type Names,
  NotationError,
  namesIn,
  type OptionalField,
  type Place,
  parseQuantity,
  type Quantity,
  type QuantityField,
  toSI,
  unitOf,
  type Written,
  wayOut,
} from "@tapeworthy/core";
import { actualLetters, isActual, isActualLetter } from "./actual.ts";
import { didYouMean, nearest, type ProjectError } from "./error.ts";
import type { GivenStore } from "./given-store.ts";
import type { Limit } from "./limits.ts";
import type { Entry, ListSource, MapSource, ScalarSource, Source, SourceFile } from "./source.ts";

/** What a file is read in: whose names it may use, how its addresses begin, what scatters at which level. */
export interface Setting {
  readonly source: SourceFile;
  /** Beginning of every address: "plover/". */
  readonly prefix: string;
  readonly level: Level;
  readonly names: (field: QuantityField, at: string) => Names;
  /** Names whose own text is wrong or missing, which has been said: what uses them is left out in silence. */
  readonly failed: Set<string>;
  /** True where `actual W` (the tape on the reel) may be named. */
  readonly actual: boolean;
  /** Values that replace those at these paths: overrides of one width. */
  readonly instead: ReadonlyMap<string, Source>;
  /** Where those values stand in the file: "per width.24." before the path, so that their addresses are their own. */
  readonly insteadAt?: string;
  readonly store: GivenStore;
  readonly shared: Shared;
  readonly errors: ProjectError[];
  /** What may stand where a name is not known, in a file without letters or `let` names. */
  readonly expects?: string | undefined;
  /** The way out for a name that is not known, where the file knows a better one than "did you mean". */
  readonly hint?: (name: string) => string | undefined;
  /** A name that is missed once and then counts as failed: one missing letter is one error. */
  readonly once?: (name: string) => boolean;
  /** Names that are left out in silence at a path, because what would have given them is wrong and has been said to be. */
  readonly silent?: (name: string, path: string) => boolean;
  /** The equation's symbol of a number, where it is not the last word of its path. */
  readonly symbol?: (path: string) => string | undefined;
}

/** What the readings of one file at several widths share: numbers that name nothing, and texts once parsed. */
export interface Shared {
  readonly givens: Map<ScalarSource, Given>;
  readonly written: Map<string, Written>;
}
export const nothingShared = (): Shared => ({ givens: new Map(), written: new Map() });

const noQuantities: ReadonlyMap<string, Source> = new Map();
/** A setting for a file with neither letters nor overrides. */
export const plainSetting = (
  s: Pick<Setting, "source" | "prefix" | "level" | "store" | "errors" | "symbol">,
): Setting => ({
  names: () => ({}),
  expects: "a number with its unit",
  failed: new Set(),
  actual: false,
  instead: noQuantities,
  shared: nothingShared(),
  ...s,
});

/** Reads a tree of a file against a description of fields. Everything that is wrong goes to `setting.errors`. */
export class FieldReader {
  readonly setting: Setting;
  readonly givens = new Map<string, Given>();
  /** Nominal limits to check once all numbers have their values. */
  readonly limits: Limit[] = [];
  /** Paths of `instead` that were met. */
  readonly met = new Set<string>();
  /** Names out of `failed` that something was left out for. */
  readonly leftOut = new Set<string>();
  constructor(setting: Setting) {
    this.setting = setting;
  }

  read(field: Field, value: Source, path: string): unknown {
    const at = this.valueAt(path, value);
    if (at.kind === "broken") return this.fail(path);
    switch (field.kind) {
      case "quantity":
        return this.quantity(field, at, path);
      case "word":
        return this.word(field.of, field.means, at);
      case "text":
        return at.kind === "scalar" ? at.text : this.refuse(at, shapeOf(at), `text: ${field.means}`);
      case "list":
        if (at.kind === "list") return this.items(at, field.of, path);
        if (field.orOne) return [this.read(field.of, at, join(path, "1"))];
        return this.refuse(
          at,
          shapeOf(at),
          `a list: ${field.means}`,
          "Write a list as [a, b] or one item a line, each after a dash.",
        );
      case "tuple":
        if (at.kind !== "list" || at.items.length !== field.of.length)
          return this.refuse(
            at,
            at.kind === "list" ? `${at.items.length} values` : shapeOf(at),
            `a list of ${field.of.length}: ${field.means}`,
          );
        return field.of.map((f, i) => this.read(f, at.items[i]!, join(path, `${i + 1}`)));
      case "map":
        if (at.kind !== "map") return this.refuse(at, shapeOf(at), `names with values: ${field.means}`);
        return Object.fromEntries(
          [...at.entries.values()].map((e) => [e.key, this.read(field.of, e.value, join(path, e.key))]),
        );
      case "either":
        return this.either(field.of, field.means, at, path);
      case "group":
        return this.group(field.members, field.oneOf, field.means, at, path);
    }
  }

  private either(fields: readonly Field[], means: string, at: Source, path: string): unknown {
    const words = fields.flatMap((f) => (f.kind === "word" ? (f.of ?? []) : []));
    const way = at.kind === "scalar" && !words.includes(at.text) ? didYouMean(at.text, words) : undefined;
    if (way) return this.refuse(at, shapeOf(at), `${words.join(", ")} or a value: ${means}`, way);
    return this.read(fields.find((f) => fits(f, at)) ?? fields.at(-1)!, at, path);
  }

  /** The value at a path: the file's, or the one that this width has instead. */
  private valueAt(path: string, value: Source): Source {
    const replaced = this.setting.instead.get(path);
    if (replaced) this.met.add(path);
    return replaced ?? value;
  }

  /** The address of the number at a path: an override stands at its own, not at the value it replaces. */
  private addressOf(path: string): string {
    const { prefix, instead, insteadAt } = this.setting;
    const overridden = [...instead.keys()].some((key) => path === key || path.startsWith(`${key}.`));
    return `${prefix}${overridden ? (insteadAt ?? "") : ""}${path}`;
  }

  private items(at: ListSource, field: Field, path: string): unknown[] {
    const seen = new Set<string>();
    return at.items.map((item, i) => {
      const named = nameOf(item);
      const name = named?.text ?? `${i + 1}`;
      // Two of one name would have one address, and one draw.
      if (seen.has(name) && named)
        return this.refuse(named, `the name "${short(name)}" a second time`, "each name once in a list");
      seen.add(name);
      return this.read(field, item, join(path, name));
    });
  }

  private group(
    members: Members,
    oneOf: readonly string[] | undefined,
    means: string,
    at: Source,
    path: string,
  ): unknown {
    const names = Object.keys(members);
    if (at.kind !== "map") {
      const some = `${names.slice(0, 6).join(", ")}${names.length > 6 ? " and more" : ""}`;
      return this.refuse(at, shapeOf(at), `members with values: ${means}`, `It holds ${some}.`);
    }
    const out: Record<string, unknown> = {};
    // What misspelt members were meant to be: a misspelt member is not missing too.
    const meant = new Set<string | undefined>();
    for (const entry of at.entries.values()) {
      const member = Object.hasOwn(members, entry.key) ? members[entry.key]! : undefined;
      if (member) this.member(member, entry.key, entry.value, path, out);
      else meant.add(this.unknownKey(entry, names, means));
    }
    for (const [name, member] of Object.entries(members)) {
      if (at.entries.has(name)) continue;
      const added = this.setting.instead.get(join(path, name));
      if (added) this.member(member, name, added, path, out);
      else if (!oneOf && !meant.has(name) && member.kind !== "optional") this.missing(name, member, at, means);
    }
    if (oneOf && at.entries.size !== 1 && meant.size === 0) {
      const found = at.entries.size === 0 ? "none" : [...at.entries.keys()].join(" and ");
      return this.refuse(at, found, `one of ${oneOf.join(", ")}: ${means}`);
    }
    return out;
  }
  private member(
    member: Field | OptionalField<Field>,
    name: string,
    value: Source,
    path: string,
    out: Record<string, unknown>,
  ): void {
    const inner = join(path, name);
    if (member.kind === "optional" && isNone(this.valueAt(inner, value))) return;
    const read = this.read(member.kind === "optional" ? member.of : member, value, inner);
    if (read !== undefined) out[name] = read;
  }

  private unknownKey({ key, keyPlace }: Entry, known: readonly string[], means: string): string | undefined {
    const hint = didYouMean(key, known) ?? `Known here: ${known.join(", ")}.`;
    this.setting.errors.push(this.setting.source.error(keyPlace, `"${short(key)}"`, `a member of ${means}`, hint));
    return nearest(key, known);
  }
  private missing(name: string, member: Field | OptionalField<Field>, at: MapSource, means: string): void {
    const field = member.kind === "optional" ? member.of : member;
    const example =
      field.kind === "quantity" ? field.example : field.kind === "word" && field.of ? field.of[0]! : "...";
    this.refuse(at, `no "${name}"`, `"${name}" in ${means}`, `Add "${name}: ${example}".`);
  }

  private word(of: readonly string[] | undefined, means: string, at: Source): unknown {
    if (at.kind !== "scalar") return this.refuse(at, shapeOf(at), `a word: ${means}`);
    if (of && !of.includes(at.text)) {
      const wanted = of.length === 1 ? `"${of[0]}": ${means}` : `one of ${of.join(", ")}`;
      return this.refuse(at, `"${short(at.text)}"`, wanted, didYouMean(at.text, of));
    }
    if (/\n/.test(at.text) || at.text.length > 200) return this.refuse(at, "a long text", `a word: ${means}`);
    return at.text;
  }

  private quantity(field: QuantityField, at: Source, path: string): Given | undefined {
    if (at.kind === "scalar") return this.number(at, path, field);
    this.refuse(at, shapeOf(at), `a quantity: ${field.means}`, `For example ${field.example}.`);
    return this.fail(path);
  }

  /** One number of the file. */
  number(at: ScalarSource, path: string, field: QuantityField): Given | undefined {
    const { source, failed, silent, shared } = this.setting;
    const known = shared.givens.get(at);
    if (known && known.address === this.addressOf(path)) return this.took(known, field, at);
    const text = at.text.trim();
    if (text.length > 400 || /\n/.test(source.text.slice(at.from, at.to))) {
      this.refuse(
        at,
        text.length > 400 ? "a long text" : "a text over several lines",
        `a quantity on one line: ${field.means}`,
      );
      return this.fail(path);
    }
    try {
      const written = shared.written.get(text) ?? parseQuantity(text);
      shared.written.set(text, written);
      const used = written.form === "expression" ? namesIn(written.node) : [];
      const missed = used.filter((name) => failed.has(name) || silent?.(name, path));
      for (const name of missed) this.leftOut.add(name);
      if (missed.length > 0) return this.fail(path);
      return this.given(written, used, text, at, path, field);
    } catch (e) {
      if (!(e instanceof NotationError)) throw e;
      const lead = at.text.length - at.text.trimStart().length;
      const from = Math.min(at.from + lead + e.at, Math.max(at.from, at.to - 1));
      const place = source.place(from, Math.min(from + e.length, Math.max(from + 1, at.to)));
      this.setting.errors.push(source.error(place, e.found, e.expected, e.hint));
      return this.fail(path);
    }
  }

  private given(
    asWritten: Written,
    used: readonly string[],
    text: string,
    at: ScalarSource,
    path: string,
    field: QuantityField,
  ): Given {
    const { source, level, store, actual, symbol } = this.setting;
    const names = this.setting.names(field, path);
    const reads: Record<string, Quantity> = {};
    for (const name of used) if (Object.hasOwn(names, name)) reads[name] = names[name]!;
    const follows = actual ? used.filter(isActualLetter) : [];
    const dimensionOf = (name: string): Dimension | undefined => {
      if (Object.hasOwn(reads, name)) return dimensionOfQuantity(reads[name]!);
      return follows.includes(name) ? [1, 0, 0, 0, 0] : undefined;
    };
    const dimension = this.dimension(asWritten, field, dimensionOf, text, names);
    const written = asWritten.form === "range" && !asWritten.status ? asSet(asWritten, field, text) : asWritten;
    const si = (v: number) => (field.unit === "any" ? v : toSI(v, unitOf(field.unit)));
    const result = store.given(
      {
        address: this.addressOf(path),
        symbol: symbol?.(path) ?? path.split(".").at(-1)!,
        text,
        origin: this.placeOf(at, text),
        dimension,
        written,
        level,
        ...(field.lever ? { lever: [si(field.lever[0]), si(field.lever[1])] as const } : {}),
        ...(field.settable ? { settable: true as const } : {}),
      },
      reads,
      follows,
      source,
      given,
    );
    if (used.length === 0) this.setting.shared.givens.set(at, result);
    return this.took(result, field, at);
  }
  /** Where a number's text stands: with its quotes if it has any, without blanks of other kinds around it. */
  private placeOf(at: ScalarSource, text: string): Place {
    const { source } = this.setting;
    if (text.length === at.text.length || at.from !== source.offset(at.place)) return at.place;
    const from = at.from + at.text.indexOf(text);
    return source.place(from, from + text.length);
  }
  private took(given: Given, field: QuantityField, at: ScalarSource): Given {
    this.givens.set(given.address, given);
    this.limits.push({ given, field, place: at.place });
    return given;
  }

  private dimension(
    written: Written,
    field: QuantityField,
    dimensionOf: (name: string) => Dimension | undefined,
    text: string,
    names: Names,
  ): Dimension {
    const wanted = field.unit === "any" ? undefined : unitOf(field.unit).dimension;
    const kind = { follows: this.setting.actual, set: field.set };
    // An angle is a plain number to the dimensions, but nobody means radians by 20.
    if ((field.unit === "deg" || field.unit === "mrad") && isBare(written))
      throw new NotationError(
        0,
        text.length,
        `${text} without a unit`,
        "an angle",
        wayOut(text, written, field.unit, kind),
      );
    try {
      return checkDimension(written, wanted, dimensionOf, text, kind);
    } catch (e) {
      if (!(e instanceof NotationError) || !e.expected.startsWith("a letter of the tape")) throw e;
      const name = e.found.replaceAll('"', "");
      if (this.setting.once?.(name)) this.setting.failed.add(name);
      const known = Object.keys(names);
      throw new NotationError(e.at, e.length, e.found, this.setting.expects ?? e.expected, this.hintFor(name, known));
    }
  }
  private hintFor(name: string, names: readonly string[]): string {
    if (isActual(name))
      return this.setting.actual
        ? `After "actual" stands a letter of the tape: ${actualLetters.join(" ")}.`
        : '"actual" follows the tape on the reel: only "let" and the members of a unit file may.';
    const hint = this.setting.hint?.(name);
    if (hint) return hint;
    if (names.length === 0) return "No letter is known here.";
    return didYouMean(name, names) ?? `Known here: ${names.join(" ")}.`;
  }

  private fail(path: string): undefined {
    this.setting.failed.add(path);
    return undefined;
  }
  /** Says what is wrong with a value, unless that has been said. */
  private refuse(at: Source, found: string, expected: string, hint?: string): undefined {
    if (at.kind !== "broken") this.setting.errors.push(this.setting.source.error(at.place, found, expected, hint));
    return undefined;
  }
}

function fits(f: Field, at: Source): boolean {
  if (f.kind === "word") return at.kind === "scalar" && (f.of === undefined || f.of.includes(at.text));
  if (f.kind === "tuple" || f.kind === "list") return at.kind === "list";
  if (f.kind === "group" || f.kind === "map") return at.kind === "map";
  return at.kind === "scalar";
}
const isNone = (value: Source): boolean => value.kind === "scalar" && value.text === "none";

/** A range without a status is a set where the field takes one, and a thing between tolerances there. */
function asSet(range: Written & { form: "range" }, field: QuantityField, text: string): Written {
  const middle = `${+((range.low + range.high) / 2).toPrecision(12)} ±${+((range.high - range.low) / 2).toPrecision(12)}${range.unit === "" ? "" : ` ${range.unit}`}`;
  if (field.set) return { ...parseQuantity(middle), scatters: range.scatters };
  throw new NotationError(
    0,
    text.length,
    `the range ${text} without a status`,
    "guess or measured behind it",
    `Write "${text} guess" if nobody has measured it, or a tolerance: "${middle}".`,
  );
}

/** What an error says that it found. */
export const shapeOf = (at: Source): string =>
  at.kind === "scalar" ? `"${short(at.text)}"` : at.kind === "list" ? "a list" : "a group of members";
/** What an error shows of a text. */
export const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text).replace(/\s+/g, " ");
export const join = (path: string, name: string): string => (path === "" ? name : `${path}.${name}`);
/** List items are addressed by their name where they have one, else by their number from 1. */
function nameOf(item: Source): ScalarSource | undefined {
  const name = item.kind === "map" ? item.entries.get("name")?.value : undefined;
  return name?.kind === "scalar" ? name : undefined;
}
const dimensionOfQuantity = (q: Quantity): Dimension => (q.kind === "given" ? q.dimension : [1, 0, 0, 0, 0]);
