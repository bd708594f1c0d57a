import type { Given, GivenSpec, Model, Place, Quantity } from "@tapeworthy/core";
import { actualReads } from "./read.ts";

/**
 * Givens kept over edits: one whose text and reads are unchanged stays the same object, so its identity stays the key of
 * whatever was computed from it. Its place moves along when lines above it change.
 */
export class GivenStore {
  /** By address: one entry a variant, since a family's letters differ by width. */
  private readonly lists = new Map<string, { readonly given: Given; readonly reads: Readonly<Record<string, Quantity>>; readonly level: string }[]>();

  given(spec: Omit<GivenSpec, "reads">, reads: Readonly<Record<string, Quantity>>, actual: readonly string[], make: (spec: GivenSpec) => Given): Given {
    const identity = Object.entries(reads);
    const list = this.lists.get(spec.address) ?? [];
    const before = list.find(
      (one) =>
        one.given.text === spec.text &&
        one.level === spec.level &&
        Object.keys(one.reads).length === identity.length &&
        identity.every(([name, q]) => one.reads[name] === q),
    );
    if (before) {
      Object.assign(before.given.origin as { -readonly [K in keyof Place]: Place[K] }, spec.origin);
      return before.given;
    }
    const place = { ...(spec.origin as Place) };
    const fresh = make({
      ...spec,
      origin: place,
      reads: actual.length === 0 ? () => reads : (scene) => ({ ...reads, ...actualReads(actual, scene) }),
    });
    list.push({ given: fresh, reads, level: spec.level });
    this.lists.set(spec.address, list.slice(-64));
    return fresh;
  }

  /** A model of the loader's own (a mark's position), kept while what it is made of stays the same. */
  model(key: string, parts: readonly Quantity[], make: () => Model): Model {
    const before = this.models.get(key);
    if (before && before.parts.length === parts.length && before.parts.every((q, i) => q === parts[i])) return before.model;
    const fresh = make();
    this.models.set(key, { model: fresh, parts });
    return fresh;
  }
  private readonly models = new Map<string, { readonly model: Model; readonly parts: readonly Quantity[] }>();
}
