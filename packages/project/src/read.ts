import {
  checkDimension,
  type Dimension,
  type Field,
  type Given,
  given,
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
  type Scene,
  unitOf,
  type Written,
} from "@tapeworthy/core";
import { didYouMean, type ProjectError } from "./error.ts";
import type { GivenStore } from "./given-store.ts";
import type { Entry, MapSource, ScalarSource, Source, SourceFile } from "./source.ts";

/** What a file is read in: whose names it may use, how its addresses begin, what scatters at which level. */
export interface Setting {
  readonly source: SourceFile;
  /** Beginning of every address: "plover/". */
  readonly prefix: string;
  readonly level: Level;
  readonly names: (field: QuantityField, at: string) => Names;
  /** Names whose own text is wrong: what uses them is silently left out, so that one fault is one error. */
  readonly failed?: ReadonlySet<string>;
  /** True where `actual W` (the tape on the reel) may be named. */
  readonly actual: boolean;
  /** Values that replace those at these paths: overrides of one width. */
  readonly instead: ReadonlyMap<string, Source>;
  readonly store: GivenStore;
  readonly errors: ProjectError[];
}

/** Reads a tree of a file against a description of fields. Everything that is wrong goes to `setting.errors`. */
export class FieldReader {
  readonly setting: Setting;
  readonly givens = new Map<string, Given>();
  /** Nominal limits to check once all numbers have their values. */
  readonly limits: { readonly given: Given; readonly field: QuantityField; readonly place: Place }[] = [];
  /** Paths of `instead` that were met. */
  readonly met = new Set<string>();
  constructor(setting: Setting) {
    this.setting = setting;
  }

  read(field: Field, value: Source, path: string): unknown {
    const replaced = this.setting.instead.get(path);
    if (replaced) this.met.add(path);
    const at = replaced ?? value;
    switch (field.kind) {
      case "quantity":
        return at.kind === "scalar" ? this.quantity(field, at, path) : this.refuse(at, this.shape(at), `a quantity: ${field.means}`, `For example ${field.example}.`);
      case "word":
        return this.word(field.of, field.means, at);
      case "text":
        if (at.kind !== "scalar") return this.refuse(at, this.shape(at), `text: ${field.means}`);
        return at.text;
      case "list": {
        if (at.kind === "list") return at.items.map((item, i) => this.read(field.of, item, join(path, itemName(item, i))));
        if (field.orOne) return [this.read(field.of, at, join(path, "1"))];
        return this.refuse(at, this.shape(at), `a list: ${field.means}`, "Write a list as [a, b] or one item a line, each after a dash.");
      }
      case "tuple": {
        if (at.kind !== "list" || at.items.length !== field.of.length)
          return this.refuse(at, at.kind === "list" ? `${at.items.length} values` : this.shape(at), `a list of ${field.of.length}: ${field.means}`);
        return field.of.map((f, i) => this.read(f, at.items[i]!, join(path, `${i + 1}`)));
      }
      case "map": {
        if (at.kind !== "map") return this.refuse(at, this.shape(at), `names with values: ${field.means}`);
        return Object.fromEntries([...at.entries.values()].map((e) => [e.key, this.read(field.of, e.value, join(path, e.key))]));
      }
      case "either": {
        const fits = field.of.find((f) => this.fits(f, at)) ?? field.of.at(-1)!;
        return this.read(fits, at, path);
      }
      case "group":
        return this.group(field.members, field.oneOf, field.means, at, path);
    }
  }

  private fits(f: Field, at: Source): boolean {
    if (f.kind === "word") return at.kind === "scalar" && (f.of === undefined || f.of.includes(at.text));
    if (f.kind === "tuple" || f.kind === "list") return at.kind === "list";
    if (f.kind === "group" || f.kind === "map") return at.kind === "map";
    return at.kind === "scalar";
  }

  private group(members: Members, oneOf: readonly string[] | undefined, means: string, at: Source, path: string): unknown {
    if (at.kind !== "map") return this.refuse(at, this.shape(at), `members with values: ${means}`, `It holds ${Object.keys(members).slice(0, 6).join(", ")}${Object.keys(members).length > 6 ? " and more" : ""}.`);
    const out: Record<string, unknown> = {};
    for (const entry of at.entries.values()) {
      const member = Object.hasOwn(members, entry.key) ? members[entry.key]! : undefined;
      if (!member) {
        this.unknownKey(entry, Object.keys(members), means);
        continue;
      }
      const inner = member.kind === "optional" ? member.of : member;
      const innerPath = join(path, entry.key);
      if (member.kind === "optional" && this.isNone(entry.value) && !this.setting.instead.has(innerPath)) continue;
      const value = this.read(inner, entry.value, innerPath);
      if (value !== undefined) out[entry.key] = value;
    }
    for (const [name, member] of Object.entries(members)) {
      if (at.entries.has(name)) continue;
      const added = this.setting.instead.get(join(path, name));
      if (added) out[name] = this.read(member.kind === "optional" ? member.of : member, added, join(path, name));
      else if (!oneOf && member.kind !== "optional") this.missing(name, member, at, means);
    }
    if (oneOf && at.entries.size !== 1) {
      const found = at.entries.size === 0 ? "none" : [...at.entries.keys()].join(" and ");
      return this.refuse(at, found, `one of ${oneOf.join(", ")}: ${means}`);
    }
    return out;
  }

  private isNone = (value: Source): boolean => value.kind === "scalar" && value.text === "none";

  private unknownKey(entry: Entry, known: readonly string[], means: string): void {
    const hint = didYouMean(entry.key, known) ?? `Known here: ${known.join(", ")}.`;
    this.setting.errors.push(this.setting.source.error(entry.keyPlace, `"${entry.key}"`, `a member of ${means}`, hint));
  }
  private missing(name: string, member: Field | OptionalField<Field>, at: MapSource, means: string): void {
    const field = member.kind === "optional" ? member.of : member;
    const example = field.kind === "quantity" ? field.example : field.kind === "word" && field.of ? field.of[0]! : "...";
    this.setting.errors.push(
      this.setting.source.error(at.place, `no "${name}"`, `"${name}" in ${means}`, `Add "${name}: ${example}".`),
    );
  }

  private word(of: readonly string[] | undefined, means: string, at: Source): unknown {
    if (at.kind !== "scalar") return this.refuse(at, this.shape(at), `a word: ${means}`);
    if (of && !of.includes(at.text)) return this.refuse(at, `"${short(at.text)}"`, `one of ${of.join(", ")}`, didYouMean(at.text, of));
    if (/\n/.test(at.text) || at.text.length > 200) return this.refuse(at, "a long text", `a word: ${means}`);
    return at.text;
  }

  private quantity(field: QuantityField, at: ScalarSource, path: string): Given | undefined {
    const wanted = field.unit === "any" ? undefined : unitOf(field.unit).dimension;
    return this.number(at, path, field, wanted);
  }

  /** One number of the file. `wanted` undefined: any dimension. */
  number(at: ScalarSource, path: string, field: QuantityField, wanted: Dimension | undefined): Given | undefined {
    const { source, prefix, level, store, actual } = this.setting;
    const text = at.text.trim();
    if (/\n/.test(text) || text.length > 400) {
      this.refuse(at, "a text over several lines", `a quantity on one line: ${field.means}`);
      return undefined;
    }
    try {
      let written = parseQuantity(text);
      const names = this.setting.names(field, path);
      const used = written.form === "expression" ? namesIn(written.node) : [];
      if (used.some((name) => this.setting.failed?.has(name))) return undefined;
      const reads: Record<string, Quantity> = {};
      let follows = false;
      for (const name of used) {
        if (Object.hasOwn(names, name)) reads[name] = names[name]!;
        else if (name.startsWith("actual ") && actual && tapeLetter(name)) follows = true;
      }
      const dims = (name: string): Dimension | undefined => {
        if (Object.hasOwn(reads, name)) return dimensionOfQuantity(reads[name]!);
        if (name.startsWith("actual ") && actual && tapeLetter(name)) return [1, 0, 0, 0, 0];
        return undefined;
      };
      const dimension = this.dimension(written, wanted, dims, text, names);
      if (written.form === "range" && !written.status) {
        if (!field.set)
          throw new NotationError(0, text.length, `the range ${text} without a status`, "guess or measured behind it", `Write "${text} guess" if nobody has measured it, or a tolerance: "${middle(written)}".`);
        written = parseQuantity(middle(written));
      }
      if (written.form === "expression" && written.node.op === "num" && !Number.isFinite(written.node.v * unitOf(written.node.unit).factor))
        throw new NotationError(0, text.length, text, "a finite number");
      const { factor } = field.unit === "any" ? { factor: 1 } : unitOf(field.unit);
      const lever = field.lever && ([field.lever[0] * factor, field.lever[1] * factor] as const);
      const result = store.given(
        { address: prefix + path, symbol: path.split(".").at(-1)!, text, origin: at.place, dimension, written, level, ...(lever ? { lever } : {}), ...(field.settable ? { settable: true as const } : {}) },
        reads,
        follows ? used.filter((n) => n.startsWith("actual ")) : [],
        given,
      );
      this.givens.set(result.address, result);
      this.limits.push({ given: result, field, place: at.place });
      return result;
    } catch (e) {
      if (!(e instanceof NotationError)) throw e;
      const lead = at.text.length - at.text.trimStart().length;
      const from = at.from + lead + e.at;
      const place = source.place(from, Math.min(from + e.length, Math.max(from + 1, at.to)));
      this.setting.errors.push(source.error(place, e.found, e.expected, e.hint));
      return undefined;
    }
  }

  private dimension(written: Written, wanted: Dimension | undefined, dims: (name: string) => Dimension | undefined, text: string, names: Names): Dimension {
    try {
      return checkDimension(written, wanted, dims, text);
    } catch (e) {
      if (e instanceof NotationError && e.expected.startsWith("a letter of the tape")) {
        const word = e.found.replaceAll('"', "");
        const hint = word.startsWith("actual ")
          ? this.setting.actual
            ? `After "actual" stands a letter of the tape: ${actualLetters.join(" ")}.`
            : '"actual" is for unit files, which may follow the tape on the reel.'
          : (letterHint(word) ?? didYouMean(word, Object.keys(names)) ?? `Known here: ${Object.keys(names).join(" ")}.`);
        throw new NotationError(e.at, e.length, e.found, e.expected, hint);
      }
      throw e;
    }
  }

  private refuse(at: Source, found: string, expected: string, hint?: string): undefined {
    this.setting.errors.push(this.setting.source.error(at.place, found, expected, hint));
    return undefined;
  }
  private shape = (at: Source): string => (at.kind === "scalar" ? `"${short(at.text)}"` : at.kind === "list" ? "a list" : "a group of members");
}

const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text.replace(/\n/g, " "));
export const join = (path: string, name: string): string => (path === "" ? name : `${path}.${name}`);
/** List items are addressed by their name where they have one, else by their number from 1. */
function itemName(item: Source, i: number): string {
  const name = item.kind === "map" ? item.entries.get("name")?.value : undefined;
  return name?.kind === "scalar" ? name.text : `${i + 1}`;
}
const middle = (w: Written & { form: "range" }): string =>
  `${+((w.low + w.high) / 2).toPrecision(12)} ±${+((w.high - w.low) / 2).toPrecision(12)}${w.unit === "" ? "" : ` ${w.unit}`}`;

export const actualLetters = ["W", "A0", "B0", "K0", "P1", "T", "T1", "T2", "B1", "E1", "F", "D0", "P0", "P2"] as const;
const tapeLetter = (name: string): boolean => (actualLetters as readonly string[]).includes(name.slice("actual ".length));
/** Given a name of the notation that needs `built for`. */
const letterHint = (word: string): string | undefined =>
  ["A0", "B0", "K0", "P1", "T", "T1", "T2", "B1", "b", "w_t"].includes(word)
    ? `"${word}" means the pocket the unit is built for: give it under "built for" for every width.`
    : undefined;
const dimensionOfQuantity = (q: Quantity): Dimension => (q.kind === "given" ? q.dimension : [1, 0, 0, 0, 0]);

/** What `actual W` reads in a scene. */
export const actualReads = (wanted: readonly string[], scene: Scene): Record<string, Quantity> =>
  Object.fromEntries(wanted.map((name) => [name, scene.tape.letters[name.slice("actual ".length) as (typeof actualLetters)[number]]]));
