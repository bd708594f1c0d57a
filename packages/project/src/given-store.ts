import { type Given, type GivenSpec, isPlace, type Origin, type Place, type Quantity } from "@tapeworthy/core";
import { actualReads } from "./actual.ts";
import { attached, type Fellowship } from "./together.ts";

type Reads = Readonly<Record<string, Quantity>>;
interface Kept {
  readonly given: Given;
  readonly reads: Reads;
  readonly level: string;
  readonly fellows: readonly Fellowship[] | undefined;
  /** The reading of its file that last met it. */
  reading: object;
}

/**
 * What was read, kept over edits: a given whose text and reads are unchanged stays the same object, so its identity stays the key
 * of whatever was computed from it. Its place moves along when lines above it change.
 */
export class GivenStore {
  /** By address: one entry a variant, since a family's letters differ by width. */
  private readonly lists = new Map<string, readonly Kept[]>();
  private readonly made = new Map<string, { readonly parts: readonly unknown[]; readonly thing: unknown }>();
  /** By address: with which others the project says that a number's scatter goes together. */
  together: ReadonlyMap<string, readonly Fellowship[]> | undefined;

  /**
   * `reading` is one and the same object while a file is read: two texts that are alike but stand in two places (overrides of two
   * widths) are two numbers, each with its own place.
   */
  given(
    spec: Omit<GivenSpec, "reads">,
    reads: Reads,
    actual: readonly string[],
    reading: object,
    make: (spec: GivenSpec) => Given,
  ): Given {
    const names = Object.entries(reads);
    const list = this.lists.get(spec.address) ?? [];
    const fellows = this.together?.get(spec.address);
    const before = list.find(
      (one) =>
        one.given.text === spec.text &&
        one.level === spec.level &&
        sameFellows(one.fellows, fellows) &&
        Object.keys(one.reads).length === names.length &&
        names.every(([name, q]) => one.reads[name] === q) &&
        (one.reading !== reading || samePlace(one.given.origin, spec.origin)),
    );
    if (before) {
      before.reading = reading;
      Object.assign(before.given.origin as { -readonly [K in keyof Place]: Place[K] }, spec.origin);
      return before.given;
    }
    const alone = make({
      ...spec,
      origin: { ...spec.origin },
      reads: actual.length === 0 ? () => reads : (scene) => ({ ...reads, ...actualReads(actual, scene) }),
    });
    const fresh = fellows ? attached(alone, fellows) : alone;
    this.lists.set(spec.address, [...list, { given: fresh, reads, level: spec.level, fellows, reading }].slice(-64));
    return fresh;
  }

  /** Anything made of the same parts as last time: a mark's position, a file whose text has not changed. */
  kept<T>(key: string, parts: readonly unknown[], make: () => T): T {
    const before = this.made.get(key);
    if (before && before.parts.length === parts.length && before.parts.every((part, i) => part === parts[i]))
      return before.thing as T;
    const thing = make();
    this.made.set(key, { parts, thing });
    return thing;
  }
}
const samePlace = (a: Origin, b: Origin): boolean =>
  isPlace(a) && isPlace(b) ? a.line === b.line && a.column === b.column : isPlace(a) === isPlace(b);
const sameFellows = (a: readonly Fellowship[] | undefined, b: readonly Fellowship[] | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    a.length === b?.length &&
    a.every((one, i) => one.per === b[i]!.per && one.place.of === b[i]!.place.of && one.place.at === b[i]!.place.at));
