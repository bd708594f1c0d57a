import { asWritten, type Given, type Quantity, Realiser, type Scene, tabled } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { noPocket, readBuiltFor, tapesBuiltFor } from "./built-for.ts";
import { type ProjectError, showError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import type { Letters } from "./letters.ts";
import { FieldReader, plainSetting } from "./read.ts";
import { parseSource, SourceFile } from "./source.ts";

const cite = { cite: "invented for this test", how: "judgement" } as const;
const pocket = (name: string, numbers: Readonly<Record<string, string>>) =>
  Object.fromEntries(
    Object.entries(numbers).map(([l, text]) => [l, tabled(`tapes/${name}/${l}`, l, text, [1, 0, 0, 0, 0], cite)]),
  );
const tapes: Readonly<Record<string, Readonly<Record<string, Given>>>> = {
  small: pocket("small", { A0: "2 mm", B0: "3 mm", K0: "1.5 mm", P1: "4 mm", T: "0.3 mm" }),
  tall: pocket("tall", { A0: "1.8 mm", B0: "3.5 mm", K0: "2.5 mm", P1: "4 mm", T: "0.25 mm" }),
};
const store = new GivenStore();
/** What a width of 12 is built for, as it stands in a file. */
function read(text: string | undefined, beside: typeof tapes = {}) {
  const letters: Letters = {};
  const there = { ...tapes, ...beside };
  const source = new SourceFile("units/knot.yaml", `format: 1\nbuilt for:\n  12: ${text ?? "x"}\n`);
  const { tree } = parseSource(source);
  const map = tree?.kind === "map" ? tree.entries.get("built for")?.value : undefined;
  const value = map?.kind === "map" ? map.entries.get("12")?.value : undefined;
  const errors: ProjectError[] = [];
  const reader = new FieldReader(plainSetting({ source, prefix: "knot/", level: "unit", store, errors }));
  const built = text === undefined || !value ? { missing: source.place(0, 6) } : { value };
  const tapeNames = [...Object.keys(there), "broken"];
  readBuiltFor(reader, { built, width: 12, source, stem: "knot", pockets: (t) => there[t], tapeNames, store }, letters);
  return { letters, failed: reader.setting.failed, said: errors.map(showError).join("\n"), built, source };
}
const mm = (q: Quantity | undefined): number => {
  if (!q) throw new Error("no such letter");
  return +(new Realiser({} as Scene, [q]).run(asWritten).number(q) * 1e3).toFixed(9);
};
const inMm = (letters: Letters, ...names: (keyof Letters)[]): number[] => names.map((l) => mm(letters[l]));

describe("the pocket of a width", () => {
  test("is that of the tape it names, and nothing is made anew", () => {
    const { letters, said } = read("small");
    expect([letters.A0, letters.K0, said]).toEqual([tapes.small!.A0, tapes.small!.K0, ""]);
  });
  test("is letter by letter the greatest of several tapes, in whatever order they stand", () => {
    for (const text of ["[small, tall]", "[tall, small]"])
      expect(inMm(read(text).letters, "A0", "B0", "K0", "P1", "T")).toEqual([2, 3.5, 2.5, 4, 0.3]);
  });
  test("may be given letter by letter", () => {
    const { letters, said } = read("{A0: 2.1 mm, B0: 3.1 mm, K0: 1 mm, P1: 8 mm, T: 0.2 mm}");
    expect([...inMm(letters, "A0", "P1"), said]).toEqual([2.1, 8, ""]);
    expect((letters.A0 as Given).address).toBe("knot/built for.12.A0");
  });
  // B1 = B0 + 2 T = 3 + 0.6; T2 = K0 + T + T1 = 1 + 0.2 + 0.1. [derived]
  test("has an outside that follows from its letters, unless that is given too", () => {
    expect(inMm(read("small").letters, "B1")).toEqual([3.6]);
    const all = "{A0: 2 mm, B0: 3 mm, K0: 1 mm, P1: 4 mm, T: 0.2 mm, T1: 0.1 mm";
    expect(inMm(read(`${all}}`).letters, "T2", "B1")).toEqual([1.3, 3.4]);
    expect(inMm(read(`${all}, T2: 1.5 mm, B1: 3.9 mm}`).letters, "T2", "B1")).toEqual([1.5, 3.9]);
  });
  test("has on the drawing one number where the tape has a scatter", () => {
    const written = read("{A0: 2 ±0.1 mm, B0: 3 mm, K0: 1 mm, P1: 4 mm, T: 0.2 mm}").letters.A0 as Given;
    expect(written.scatters).toHaveLength(1);
    const beside = { scattered: { ...tapes.small, A0: written } };
    const drawn = read("scattered", beside).letters.A0 as Given;
    expect([drawn.scatters, mm(drawn), drawn.address]).toEqual([[], 2, "knot/built for.12.A0 as drawn"]);
    // The same object each time: its identity is the key of what is computed from it.
    expect(read("scattered", beside).letters.A0).toBe(drawn);
  });
});

describe("a pocket is refused", () => {
  test("for a tape that is not there, with the nearest that is", () => {
    const { said, failed } = read("smal");
    expect(said).toBe(
      `units/knot.yaml:3:7: found "smal", expected a tape of this project, or letters with values
3 |   12: smal
          ^^^^
Did you mean "small"?`,
    );
    expect(failed.has("A0")).toBe(true);
  });
  test("for a letter that is the catalogue's, and for one that is none", () => {
    expect(read("{W: 12 mm}").said).toContain('"W" is the catalogue\'s for this width.');
    expect(read("{A00: 2 mm}").said).toContain('found "A00", expected a letter of the pocket:');
  });
  test("in silence for a tape whose own file is wrong: that has been said there", () => {
    const { said, failed, letters } = read("[broken, small]");
    // What the others have stays; what they have not is not missed again.
    expect([said, failed.has("A0"), letters.A0]).toEqual(["", false, tapes.small!.A0]);
    expect(read("broken").failed.has("A0")).toBe(true);
  });
  test("in silence where it is missing: who needs a letter says so, once for all letters", () => {
    const { said, failed, source } = read(undefined);
    expect([said, failed.has("K0")]).toEqual(["", true]);
    expect(showError(noPocket(source, source.place(10, 15), 12, ["T", "A0", "T"]))).toBe(
      `units/knot.yaml:2:1: found no pocket for W = 12 mm, expected "built for" to give A0 T at each width
2 | built for:
    ^^^^^
Write a tape's name, "12: NAME", or its letters, "12: {A0: 1 mm, T: 1 mm}".`,
    );
  });
});

test("a sentence names the tapes that a width is built for, and says nothing where it names none", () => {
  expect(tapesBuiltFor(read("small").built)).toBe(", built for small");
  expect(tapesBuiltFor(read("[small, tall]").built)).toBe(", built for small, tall");
  for (const text of ["{A0: 2 mm}", undefined]) expect(tapesBuiltFor(read(text).built)).toBe("");
  expect(tapesBuiltFor(undefined)).toBe("");
});
