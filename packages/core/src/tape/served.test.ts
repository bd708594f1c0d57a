import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, punchedTape, scene, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { rowFigure } from "./catalogue.ts";
import { nominalOf, servedTape } from "./served.ts";
import type { Tape, TapeKind } from "./tape.ts";

const mm = (tape: Tape, letter: keyof Tape["letters"]) =>
  nominal(scene(sideCrossing(12), tape), tape.letters[letter]) * 1e3;
const own = (letter: string, text: string) => written(`own/${letter}`, letter, text, "mm", {}, "reel");

describe("what a tape file leaves out", () => {
  const tape = tapeWith(12, { T: own("T", "0.30 mm") });
  // Walls as the carrier: B0 + 2 T = 5.8, K0 + T + T1 with a film of 58 um (the median of 0.045 to 0.075). By hand. [derived]
  test("follows from what it gives: walls, outside width, height", () => {
    expect(mm(tape, "wall")).toBeCloseTo(0.3, 12);
    expect(mm(tape, "B1")).toBeCloseTo(5.8, 12);
    expect(mm(tape, "T2")).toBeCloseTo(2.1 + 0.3 + Math.sqrt(0.045 * 0.075), 9);
  });
  // EIA-481-D p. 13: E1 1.75, F 5.5, D0 1.5, P0 4, P2 2, R 30. [read]
  test("is the catalogue's where a row has it", () => {
    expect(
      [mm(tape, "E1"), mm(tape, "F"), mm(tape, "D0"), mm(tape, "P0"), mm(tape, "P2"), mm(tape, "R")].map(
        (v) => +v.toFixed(9),
      ),
    ).toEqual([1.75, 5.5, 1.5, 4, 2, 30]);
  });
  test("is a guess, marked as one, where no table has it", () => {
    expect(tapeWith(12, {}).letters.T).toMatchObject({ kind: "given", letter: "g" });
    expect(tape.film.seal).toMatchObject({ kind: "given", letter: "g" });
  });
  test("of punched tape: as thick as its hole is deep, two films, both counted in its height", () => {
    const paper = punchedTape();
    expect(mm(paper, "T")).toBeCloseTo(0.75, 12);
    expect(mm(paper, "T2")).toBeCloseTo(0.75 + 2 * Math.sqrt(0.045 * 0.075), 9);
    expect(mm(paper, "B1")).toBeCloseTo(2.3, 12);
    expect(nominalOf(paper.films)).toBe(2);
    expect(nominalOf(embossedTape().films)).toBe(1);
  });
  // Board 0.42 with one film of 58 um on it, the pocket's own width outside: a pressed pocket ends within the board. By hand. [derived]
  test("of pressed tape: nothing below the board, one film on it", () => {
    const pressed = tapeWith(8, { K0: own("K0", "0.30 mm"), T: own("T", "0.42 mm") }, "pressed");
    expect(mm(pressed, "T2")).toBeCloseTo(0.42 + Math.sqrt(0.045 * 0.075), 9);
    expect(mm(pressed, "B1")).toBeCloseTo(2.3, 12);
    expect(nominalOf(pressed.films)).toBe(1);
    expect(pressed.row).toBe(8);
    expect(tapeWith(8, { K0: own("K0", "0.30 mm") }, "pressed").letters.T).toMatchObject({
      kind: "given",
      letter: "g",
    });
  });
  // 4 mm tape: E1 0.9, F 1.8, holes 0.8 every 2 mm [memory]; 0.1 mm over ten of them, half of what wider tape may. [derived]
  test("of 4 mm tape is its own row's, with its own error over ten pitches", () => {
    const small = {
      W: own("W", "4.0 ±0.08 mm"),
      A0: own("A0", "0.3 mm"),
      B0: own("B0", "0.5 mm"),
      K0: own("K0", "0.25 mm"),
    };
    const narrow = tapeWith(8, { ...small, P1: own("P1", "1 mm") });
    expect(narrow.row).toBe(4);
    expect(["E1", "F", "D0", "P0", "P2"].map((l) => +mm(narrow, l as "E1").toFixed(9))).toEqual([0.9, 1.8, 0.8, 2, 1]);
    expect([nominalOf(narrow.tenPitch), nominalOf(tape.tenPitch)]).toEqual([0.1e-3, 0.2e-3]);
    expect(narrow.tenPitch).not.toBe(tape.tenPitch);
    expect(embossedTape(24).tenPitch).toBe(tape.tenPitch);
    expect(narrow.departures.map((d) => d.letter)).toEqual([]);
  });
  test("never overrules what it gives", () => {
    const length = fc.integer({ min: 1, max: 2000 });
    fc.assert(
      fc.property(length, length, length, (wall, B1, T2) => {
        const whole = tapeWith(12, {
          wall: own("wall", `${wall} um`),
          B1: own("B1", `${B1} um`),
          T2: own("T2", `${T2} um`),
        });
        expect(mm(whole, "wall")).toBeCloseTo(wall / 1e3, 9);
        expect(mm(whole, "B1")).toBeCloseTo(B1 / 1e3, 9);
        expect(mm(whole, "T2")).toBeCloseTo(T2 / 1e3, 9);
      }),
      { seed: 171, numRuns: 30 },
    );
  });
});

describe("the row a tape belongs to", () => {
  test.each([
    ["12.05 mm", 12],
    ["13.9 mm", 12],
    ["14.1 mm", 16],
    ["201 mm", 200],
  ])("%s wide is the nearest: %i mm", (W, row) => expect(tapeWith(12, { W: own("W", W) }).row).toBe(row));
  test("of punched tape is 8 or 12 mm, nothing else", () => {
    expect(tapeWith(24, { W: own("W", "24 mm"), T: own("T", "0.6 mm") }, "punched").row).toBe(12);
  });
});

// A film has one kind of seal. Ranges of both classes: catalogue [memory].
describe("a seal of unknown kind", () => {
  const film = (seal?: "heat activated" | "pressure sensitive") => scene(sideCrossing(12), embossedTape(12, seal));
  test("has the rate of one class or the other, never a mean of both", () => {
    const one = film();
    const rates = (["pressure sensitive", "heat activated"] as const).map((seal) =>
      nominal(film(seal), film(seal).tape.film.rate),
    );
    const drawn = new Realiser(one, [one.tape.film.rate]).run({
      n: 2,
      unknown: (g) => (g.unknown?.law === "switch" ? Float64Array.of(3, -3) : 0),
      scatter: () => undefined,
    });
    expect(drawn.number(one.tape.film.rate, 0)).toBeCloseTo(rates[0]!, 12);
    expect(drawn.number(one.tape.film.rate, 1)).toBeCloseTo(rates[1]!, 12);
  });
  test("shares one belief between its rate and its tack", () => {
    const one = film();
    const switches = new Realiser(one, [one.tape.film.rate, one.tape.film.tack]).givens.filter(
      (g) => g.unknown?.law === "switch",
    );
    expect(switches.map((g) => g.address)).toEqual(["catalogue/seal kind"]);
  });
  test("is pressure sensitive in 3 of 10 beliefs", () => {
    const one = film();
    const kind = new Realiser(one, [one.tape.film.rate]).givens.find((g) => g.unknown?.law === "switch");
    expect(kind!.unknown).toMatchObject({ chance: 0.3 });
  });
  test("of a given kind has no belief", () => {
    const { film: cover } = film("heat activated").tape;
    expect(cover.rate).toMatchObject({ kind: "given", text: "0.02..0.15 guess" });
  });
});

describe("departures from the catalogue", () => {
  const departures = (more: Parameters<typeof tapeWith>[1], width = 12, kind: TapeKind = "embossed") =>
    tapeWith(width, more, kind).departures.map(({ letter, found, catalogue }) => `${letter} ${found} (${catalogue})`);
  const T = own("T", "0.30 mm");
  // EIA-481-D p. 13: E1 1.75 ±0.10, T 0.6 at most, pitches 2, 4 and 8 mm at 12 mm. [read]
  test("are listed with the figure and its bounds", () => {
    expect(departures({ T, E1: own("E1", "1.87 mm") })).toEqual(["E1 1.87 mm (1.75 ±0.1 mm)"]);
    expect(departures({ T: own("T", "0.65 mm"), T1: own("T1", "0.12 mm") })).toEqual([
      "T 0.65 mm (0.6 mm at most)",
      "T1 0.12 mm (0.1 mm at most)",
    ]);
    expect(departures({ T, P1: own("P1", "6 mm") })).toEqual(["P1 6 mm (2, 4, 8 mm)"]);
    expect(departures({ T, D0: own("D0", "1.45 mm") })).toEqual(["D0 1.45 mm (1.5 +0.1/0 mm)"]);
  });
  test("are none on the bound itself", () => {
    expect(departures({ T, E1: own("E1", "1.85 mm"), D0: own("D0", "1.6 mm"), W: own("W", "12.3 mm") })).toEqual([]);
    expect(departures({ T, W: own("W", "12.31 mm") })).toEqual([expect.stringMatching(/^W 12\.31 mm \(12 ±0\.3/)]);
  });
  test("of a pocket too deep and too wide name T2 and B1", () => {
    expect(departures({ T, K0: own("K0", "6.3 mm"), T1: own("T1", "0.05 mm"), B0: own("B0", "8 mm") })).toEqual([
      "T2 6.65 mm (6.5 mm at most)",
      "B1 8.6 mm (8.2 mm at most)",
    ]);
  });
  test("of punched tape are held against its own row", () => {
    expect(departures({ K0: own("K0", "1.2 mm"), T1: own("T1", "0.05 mm") }, 8, "punched")).toEqual([
      "T 1.2 mm (1.1 mm at most)",
    ]);
  });
});

// A floor is what tells a pressed pocket from a punched one. [derived]
test("a pressed pocket as deep as its board leaves the catalogue, one a little shallower doesn't", () => {
  const said = (K0: string) =>
    tapeWith(8, { K0: own("K0", K0), T: own("T", "0.42 mm"), P1: own("P1", "2 mm") }, "pressed").departures.map(
      ({ letter, found, catalogue }) => `${letter} ${found} (${catalogue})`,
    );
  expect(said("0.42 mm")).toEqual(["K0 0.42 mm (less than T, 0.42 mm: a pressed pocket has a floor)"]);
  expect(said("0.41 mm")).toEqual([]);
});

test("a tape whose width is no number belongs to no row: it is refused, not served wrongly", () => {
  const data = {
    format: "1" as const,
    tape: "odd",
    W: own("W", "12 mm"),
    A0: own("A0", "1 mm"),
    B0: own("B0", "1 mm"),
    K0: own("K0", "1 mm"),
    P1: own("P1", "4 mm"),
  };
  const hollow = { ...data, W: own("W", "12 mm * (0/0)") };
  expect(Number.isNaN(nominalOf(hollow.W))).toBe(true);
  expect(servedTape("odd", data, new Map(), { cite: "test", how: "judgement" }).row).toBe(12);
  expect(rowFigure("embossed", 13, "W")).toBeUndefined();
  expect(new Realiser(scene(sideCrossing(12), embossedTape(12)), [data.W]).run(asWritten).number(data.W)).toBeCloseTo(
    0.012,
    15,
  );
});
