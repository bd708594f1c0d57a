import { describe, expect, test } from "vitest";
import * as spring from "../../material/figures.ts";
import * as disagreements from "./disagreements.ts";
import * as embossed from "./embossed.ts";
import * as everyWidth from "./every-width.ts";
import * as families from "./families.ts";
import * as film from "./film.ts";
import * as filmMaterial from "./film-material.ts";
import * as materials from "./materials.ts";
import * as narrow from "./narrow.ts";
import * as pressed from "./pressed.ts";
import * as punched from "./punched.ts";
import * as reels from "./reels.ts";
import { sources } from "./sources.ts";

const tables = {
  disagreements,
  embossed,
  everyWidth,
  families,
  filmMaterial,
  film,
  materials,
  narrow,
  pressed,
  punched,
  reels,
  spring,
};

/** Every object and every text in a table, once for each place it stands. */
function* inside(thing: unknown): Generator<object | string> {
  if (typeof thing === "string") yield thing;
  if (typeof thing !== "object" || thing === null) return;
  yield thing;
  for (const part of Object.values(thing)) yield* inside(part);
}
const objects = [...inside({ ...tables })].filter((thing) => typeof thing === "object");
const texts = [...inside({ ...tables, sources })].filter((thing) => typeof thing === "string");
const cited = objects.filter((thing): thing is { sources: readonly string[]; how?: string } => "sources" in thing);
const figures = cited.filter(
  (thing): thing is { sources: readonly string[]; how: string; value?: number; low?: number; high?: number } =>
    "how" in thing,
);

test("every figure, range, fact, family and voice names at least one source that is in the table", () => {
  expect(figures.length).toBeGreaterThan(500);
  for (const { sources: named } of cited) {
    expect(named.length).toBeGreaterThan(0);
    for (const source of named) expect(Object.keys(sources)).toContain(source);
  }
});
test("whatever says how it is known names its sources", () => {
  for (const thing of objects) if ("how" in thing) expect(thing).toHaveProperty("sources");
});
test("every source in the table is used", () => {
  const used = new Set(cited.flatMap(({ sources: named }) => named));
  expect(Object.keys(sources).filter((source) => !used.has(source))).toEqual([]);
});

describe("how a figure is known agrees with where it is from", () => {
  test("what is read names a source that can be read", () => {
    for (const { how, sources: named } of figures)
      if (how === "read") expect(named.some((source) => source !== "memory" && source !== "derived")).toBe(true);
  });
  test("what is remembered or derived names memory or derived", () => {
    for (const { how, sources: named } of figures) if (how !== "read") expect(named).toContain(how);
  });
});

test("figures are finite, ranges run upwards and tolerances straddle zero", () => {
  for (const figure of figures) {
    for (const part of [figure.value, figure.low, figure.high])
      if (part !== undefined) expect(Number.isFinite(part)).toBe(true);
    if (figure.low !== undefined) expect(figure.low).toBeLessThan(figure.high ?? Number.NaN);
    if ("tol" in figure) expect((figure.tol as number[])[0]).toBeLessThanOrEqual(0);
    if ("tol" in figure) expect((figure.tol as number[])[1]).toBeGreaterThanOrEqual(0);
  }
});

test("no text holds an address", () => {
  for (const text of texts) expect(text).not.toMatch(/https?:|http|www|\.com\b|\.html\b|\/\//i);
});
