import { asWritten, type Given, type Quantity, Realiser, type Scene } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { chip, coil } from "./curlew.fixture.ts";
import { showError } from "./error.ts";
import { example } from "./example.fixture.ts";
import { GivenStore } from "./given-store.ts";
import { SourceFile } from "./source.ts";
import { readTapeFile, type TapeFile } from "./tape-file.ts";

const read = (text: string, store = new GivenStore(), name = "coil"): TapeFile => {
  const { file, errors } = readTapeFile(new SourceFile(`tapes/${name}.yaml`, text), name, store);
  if (!file) throw new Error(errors.map(showError).join("\n\n"));
  return file;
};
const value = (q: Quantity) => new Realiser({} as Scene, [q]).run(asWritten).number(q);
const mm = (q: Quantity) => +(value(q) * 1e3).toFixed(9);

describe("a tape file", () => {
  test("of five numbers is a whole tape: what it does not give is the catalogue's, or an unknown with its range", () => {
    const { tape } = read("format: 1\ntape: least\nW: 12 mm\nA0: 4.3 mm\nB0: 4.3 mm\nK0: 2.1 mm\nP1: 8 mm\n");
    expect(tape).toMatchObject({ name: "least", kind: "embossed", row: 12, part: "", departures: [] });
    expect(mm(tape.letters.F)).toBe(5.5);
    expect((tape.letters.T as Given).unknown).toMatchObject({ low: 0.0002, high: 0.0004 });
    expect((tape.letters.T as Given).letter).toBe("g");
    expect(mm(tape.letters.T2)).toBeCloseTo(2.1 + mm(tape.letters.T) + mm(tape.letters.T1), 8);
    expect(mm(tape.letters.B1)).toBeCloseTo(4.3 + 2 * mm(tape.letters.T), 8);
    expect(tape.letters.wall.reads({} as Scene)).toEqual({ T: tape.letters.T });
    expect((tape.film.seal as Given).unknown).toBeDefined();
  });
  test("scatters between reels where its text names no level", () => {
    const { tape } = read(coil);
    expect((tape.letters.W as Given).scatters).toEqual([
      { level: "reel", law: "uniform", from: -0.00006, to: 0.00006 },
    ]);
    expect((tape.film.seal as Given).scatters.map((s) => s.level)).toEqual(["reel", "index"]);
  });
  test("may use its own letters further down, which keep their scatter", () => {
    const { tape } = read(coil.replace("K0: 2.1 mm", "K0: 2.1 ±0.05 mm"));
    expect(mm(tape.letters.T2)).toBeCloseTo(2.46, 9);
    expect((tape.letters.T2 as Given).reads({} as Scene)).toEqual({ K0: tape.letters.K0 });
    expect((tape.letters.K0 as Given).scatters).toHaveLength(1);
  });
  test("keeps the letter of evidence of every number", () => {
    const { tape } = read(coil);
    expect([
      (tape.letters.W as Given).letter,
      (tape.letters.A0 as Given).letter,
      (tape.letters.T1 as Given).letter,
    ]).toEqual(["m", "d", "g"]);
  });
  test("names its friction by material, in lower case", () => {
    expect(value(read(coil).tape.film.friction.petg!)).toBe(0.24);
  });
  test("has addresses that begin with its own name, and the name of its file", () => {
    const file = read(coil, new GivenStore(), "choke");
    expect(file.stem).toBe("choke");
    expect([...file.tape.givens.keys()].slice(0, 3)).toEqual(["tapes/choke/W", "tapes/choke/A0", "tapes/choke/B0"]);
    expect([...file.tape.givens.keys()]).toContain("tapes/choke/film.friction.PETG");
  });
  test("beyond the catalogue goes on, with the departure and its place", () => {
    const { tape } = read(coil.replace("T: 0.30 mm", "T: 0.30 mm\nE1: 1.90 mm"));
    expect(tape.departures).toHaveLength(1);
    expect(tape.departures[0]).toMatchObject({
      letter: "E1",
      found: "1.9 mm",
      catalogue: "1.75 ±0.1 mm",
      origin: { line: 9, column: 5 },
    });
  });
  test("offers a unit its letters to be built for, and of the film what it gives itself", () => {
    const { pocket } = read(`${coil}  width: 9.3 mm\n`);
    expect(Object.keys(pocket).sort()).toEqual(["A0", "B0", "B1", "K0", "P1", "T", "T1", "T2", "b"].sort());
    expect(Object.keys(read(chip, new GivenStore(), "chip").pocket)).not.toContain("b");
  });
});

describe("a tape file read again", () => {
  test("with lines above keeps every number, also those that follow from others, and only their places move", () => {
    const store = new GivenStore();
    const before = read(coil, store).tape;
    const line = (before.letters.K0 as Given & { origin: { line: number } }).origin.line;
    const after = read(`# one\n# two\n${coil}`, store).tape;
    for (const letter of Object.keys(before.letters) as (keyof typeof before.letters)[])
      expect(after.letters[letter], letter).toBe(before.letters[letter]);
    expect(after.film.seal).toBe(before.film.seal);
    expect([after.camber, after.tenPitch, after.films]).toEqual([before.camber, before.tenPitch, before.films]);
    expect(after.tenPitch).toBe(before.tenPitch);
    expect(after.films).toBe(before.films);
    expect((after.letters.K0 as typeof after.letters.K0 & { origin: { line: number } }).origin.line).toBe(line + 2);
  });
  test("with its K0 changed has a new K0, a new T2, and nothing else new", () => {
    const store = new GivenStore();
    const before = read(coil.replace("T2: K0 + 0.36 mm\n", ""), store).tape.letters;
    const after = read(coil.replace("T2: K0 + 0.36 mm\n", "").replace("K0: 2.1 mm", "K0: 2.2 mm"), store).tape.letters;
    const changed = (Object.keys(before) as (keyof typeof before)[]).filter(
      (letter) => before[letter] !== after[letter],
    );
    expect(changed.sort()).toEqual(["K0", "T2"]);
  });
});

test("every tape of the example is read, without a word", () => {
  const paths = [...example.keys()].filter((path) => path.startsWith("tapes/"));
  expect(paths.length).toBeGreaterThan(5);
  for (const path of paths) {
    const { tape } = read(example.get(path)!, new GivenStore(), path.slice(6, -5));
    expect(`tapes/${tape.name}.yaml`).toBe(path);
    for (const q of Object.values(tape.letters)) expect(Number.isFinite(value(q))).toBe(true);
  }
});
