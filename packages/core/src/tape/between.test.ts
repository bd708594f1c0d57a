import { describe, expect, test } from "vitest";
import { frictionOn } from "../film/friction.ts";
import type { Given } from "../quantity/given.ts";
import type { Quantity } from "../quantity/model.ts";
import { nominal, scene, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import { letterBetween, shareOf, tapeBetween, widerAbove } from "./between.ts";
import { rowFigure, widthsOf } from "./catalogue.ts";
import type { Tape, TapeKind } from "./tape.ts";

const own = (letter: string, text: string) => written(`own/${letter}`, letter, text, "mm", {}, "reel");
const mm = (tape: Tape, q: Quantity) => nominal(scene(sideCrossing(12), tape), q) * 1e3;
const half = (q: Quantity): number => {
  const s = (q as Given).scatters[0];
  return s?.law === "uniform" ? +((s.to - s.from) * 500).toFixed(9) : 0;
};

describe("a letter of a unit file between two rows", () => {
  const at = (rows: readonly [number, number], W: number, letter: string) => {
    const q = letterBetween(rows, W, letter);
    return q && +(nominal(scene(sideCrossing(12), tapeWith(12, {})), q) * 1e3).toFixed(9);
  };
  // EIA-481-D p. 13, p. 15: F 5.5 and 7.5 at 12 and 16, 11.5 and 14.2 at 24 and 32 [read]; half way by hand. [derived]
  test.each([
    ["W", [12, 16], 14, 14],
    ["F", [12, 16], 14, 6.5],
    ["F", [24, 32], 28, 12.85],
    ["F", [32, 44], 38, 17.2],
    ["E1", [12, 16], 14, 1.75],
    ["P2", [24, 32], 28, 2],
    ["P0", [24, 32], 28, 4],
    ["D0", [24, 32], 28, 1.5],
  ] as const)("%s between %o at %i mm is %f mm", (letter, rows, W, expected) => {
    expect(at(rows, W, letter)).toBe(expected);
  });
  // R 25 at 8, 30 from 12 to 24, 50 from 32. [read]
  test("R is the row above's, not something between", () => {
    expect([at([8, 12], 8.1, "R"), at([12, 16], 14, "R"), at([24, 32], 24.1, "R")]).toEqual([30, 30, 50]);
  });
  test("is missing where one of the two rows has none", () => {
    expect(letterBetween([24, 32], 28, "S0")).toBeUndefined();
    expect(at([32, 44], 38, "S0")).toBeCloseTo(34.4, 9);
  });
});

describe("a tape between one of 12 and one of 16 mm", () => {
  const tape = (width: number, A0: string, P1: string, more = {}) =>
    tapeWith(width, { A0: own(`A0 ${width}`, A0), P1: own(`P1 ${width}`, P1), ...more });
  const [a, b] = [tape(12, "4.3 mm", "4 mm"), tape(16, "6.5 mm", "12 mm")];
  const half12 = tapeBetween(a, b, 14, [12, 16]);
  test("has a pocket between theirs, the pitch of the wider, and is of its own width", () => {
    expect(mm(half12, half12.letters.A0)).toBeCloseTo(5.4, 12);
    expect(mm(half12, half12.letters.P1)).toBe(12);
    expect(mm(half12, half12.letters.W)).toBeCloseTo(14, 12);
    expect([half12.row, half12.kind]).toEqual([14, "embossed"]);
  });
  // EIA-481-D p. 13: F ±0.05 at 12, ±0.1 at 16. [read]
  test("takes the wider of the two rows' tolerances", () => {
    expect(half(half12.letters.F)).toBe(0.1);
    expect(half(tapeBetween(a, b, 12, [12, 16]).letters.F)).toBe(0.1);
    expect(half(half12.letters.W)).toBe(0.3);
  });
  test("follows its own letters where both tapes do: its height is its own depth, carrier and film", () => {
    const { T2, K0, T, T1 } = half12.letters;
    expect((T2 as Given).reads({} as never)).toEqual({ K0, T, T1 });
  });
  // 7.62 at 16 is 0.12 beyond the catalogue: half of that at 14. By hand. [derived]
  test("departs from the catalogue by half of what one of them does", () => {
    const beyond = tape(16, "6.5 mm", "12 mm", { F: own("F", "7.62 ±0.03 mm") });
    const q = tapeBetween(a, beyond, 14, [12, 16]).letters.F;
    expect(mm(half12, q)).toBeCloseTo(6.56, 12);
    expect(half(q)).toBeCloseTo(0.04, 12);
  });
  test("at the wider end is that tape, number for number", () => {
    const end = tapeBetween(a, b, 16, [12, 16]);
    for (const letter of Object.keys(b.letters) as (keyof Tape["letters"])[]) {
      expect([letter, mm(end, end.letters[letter])]).toEqual([letter, mm(b, b.letters[letter])]);
      expect([letter, half(end.letters[letter])]).toEqual([letter, half(b.letters[letter])]);
    }
  });
});

describe("a tape between one of 16 and one of 32 mm, with a row between them", () => {
  const [a, b] = [tapeWith(16, {}), tapeWith(32, {})];
  // F is 11.5 at 24 [read]; straight from 7.5 to 14.2 it would be 10.85. [derived]
  test("has the row's hole line at 24 mm, not that of a straight line past it", () => {
    expect(mm(a, tapeBetween(a, b, 24, [16, 24]).letters.F)).toBeCloseTo(11.5, 12);
    expect(mm(a, tapeBetween(a, b, 24, [24, 32]).letters.F)).toBeCloseTo(11.5, 12);
    expect(mm(a, tapeBetween(a, b, 20, [16, 24]).letters.F)).toBeCloseTo(9.5, 12);
  });
  test("keeps half of a departure at half way, on top of the row", () => {
    const beyond = tapeWith(32, { F: own("F", "14.3 mm") });
    expect(mm(a, tapeBetween(a, beyond, 24, [16, 24]).letters.F)).toBeCloseTo(11.55, 12);
  });
  // Film of 24 mm tape is 21.3 wide [read]; straight from 13.25 (13 to 13.5) to 25.5 (25 to 26) it would be 19.375. [derived]
  test("has a film about as wide as the row's", () => {
    const { width } = tapeBetween(a, b, 24, [16, 24]).film;
    const u = (width as Given).unknown!;
    expect(u.law === "switch" ? 0 : ((u.low + u.high) / 2) * 1e3).toBeCloseTo(21.3, 6);
  });
});

describe("friction measured on one of two tapes", () => {
  const measured = written("own/mu", "mu", "0.24", "", {}, "reel");
  const guess = written("unit/friction", "mu", "0.18..0.35 guess", "");
  const [plain, known] = [tapeWith(12, {}), tapeWith(16, {})];
  const half12 = tapeBetween(plain, { ...known, film: { ...known.film, friction: { petg: measured } } }, 14, [12, 16]);
  const at = (fromUnit: Quantity | undefined) => frictionOn(scene(sideCrossing(12), half12), "PETG", fromUnit);
  test("counts half, half way, with what the unit gives without it", () => {
    expect((at(guess) as Given).unknown).toMatchObject({
      low: expect.closeTo(0.21, 12),
      high: expect.closeTo(0.295, 12),
    });
  });
  test("is one number wherever it is asked for, so that its draws are", () => expect(at(guess)).toBe(at(guess)));
  test("counts with the material's class where the unit gives nothing", () => {
    expect((at(undefined) as Given).unknown).toMatchObject({ low: expect.closeTo(0.22, 12) });
  });
});

test("nothing lies between an embossed and a punched tape", () => {
  const punched = { ...tapeWith(8, {}), kind: "punched" as const };
  expect(() => tapeBetween(punched, tapeWith(12, {}), 10, [8, 12])).toThrow("nothing lies between them");
});

// If a row had a narrower tolerance than the one below it, a step would stand below a catalogue width, and none is looked for there.
test("no tolerance of the catalogue is narrower on a row than on the row below", () => {
  for (const kind of ["embossed", "punched"] as const satisfies readonly TapeKind[]) {
    const rows = widthsOf(kind);
    for (const letter of ["W", "E1", "F", "P2"])
      rows.slice(1).forEach((row, i) => {
        const [a, b] = [rows[i]!, row].map((one) => rowFigure(kind, one, letter));
        if (a && b) expect([kind, row, letter, half(b) >= half(a) - 1e-12]).toEqual([kind, row, letter, true]);
      });
  }
});
// EIA-481-D: F ±0.05 to ±0.1 above 12, to ±0.15 above 32; P2 likewise. [read]
test("where the next row has a wider tolerance there is a step, in words", () => {
  expect(widerAbove("embossed", 12)).toEqual([
    { letter: "F", from: "±0.05", to: "±0.1 mm" },
    { letter: "P2", from: "±0.05", to: "±0.1 mm" },
  ]);
  expect(widerAbove("embossed", 16)).toEqual([]);
  expect(widerAbove("embossed", 200)).toEqual([]);
});
test("a share of the way is nought at the one end and all at the other", () => {
  expect([shareOf(12, [12, 16]), shareOf(14, [12, 16]), shareOf(16, [12, 16]), shareOf(12, [12, 12])]).toEqual([
    0, 0.5, 1, 1,
  ]);
});
