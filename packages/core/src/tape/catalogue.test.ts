import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { unitOf } from "../quantity/units.ts";
import {
  citation,
  everyTape,
  figured,
  frictionOfClass,
  nearestWidth,
  rowFigure,
  rowLetter,
  rowOf,
  sealClass,
  widthsOf,
} from "./catalogue.ts";
import { nominalOf } from "./served.ts";

const embossedWidths = [8, 12, 16, 24, 32, 44, 56, 72, 88, 104, 120, 136, 152, 168, 184, 200];

// The widths of EIA-481-D Tables 2 and 3, p. 13 and 15 [read]; punched 8 mm [read]; 4 mm, punched 12 mm, pressed 8 mm [memory].
test("the catalogue holds seventeen embossed widths, two punched and one pressed", () => {
  expect(widthsOf("embossed")).toEqual([4, ...embossedWidths]);
  expect(widthsOf("punched")).toEqual([8, 12]);
  expect(widthsOf("pressed")).toEqual([8]);
  expect(rowOf("embossed", 13)).toBeUndefined();
  expect(rowOf("pressed", 12)).toBeUndefined();
});

describe("a letter on a reel", () => {
  // EIA-481-D p. 13 and p. 15, typed by hand, mm. [read]
  test.each([
    ["W", 24, 24, -0.3, 0.3],
    ["W", 44, 44, -0.3, 0.3],
    ["F", 8, 3.5, -0.05, 0.05],
    ["F", 24, 11.5, -0.1, 0.1],
    ["E1", 12, 1.75, -0.1, 0.1],
    ["D0", 12, 1.5, 0, 0.1],
    ["P0", 32, 4, -0.1, 0.1],
    ["P2", 72, 2, -0.2, 0.2],
    ["S0", 44, 40.4, -0.1, 0.1],
  ])("%s at %i mm is %f mm, %f to %f, scattered between reels", (letter, width, value, from, to) => {
    const g = rowFigure("embossed", width, letter)!;
    expect(nominalOf(g) * 1e3).toBeCloseTo(value, 9);
    expect(g.scatters).toHaveLength(1);
    const [scatter] = g.scatters;
    expect(scatter).toMatchObject({ level: "reel", law: "uniform" });
    if (scatter?.law === "uniform")
      expect([+(scatter.from * 1e3).toFixed(9), +(scatter.to * 1e3).toFixed(9)].map((v) => v + 0)).toEqual([from, to]);
    expect(g.letter).toBe("d");
  });
  test("that a narrow row leaves out is not there", () => {
    expect(rowFigure("embossed", 12, "S0")).toBeUndefined();
    expect(rowFigure("punched", 12, "P2")).toBeUndefined();
    expect(rowFigure("embossed", 12, "Q9")).toBeUndefined();
  });
  test("is one and the same number for two tapes of a row", () => {
    expect(rowFigure("embossed", 12, "F")).toBe(rowFigure("embossed", 12, "F"));
  });
});

describe("a letter of a unit's drawing", () => {
  test("is the row's nominal value and never scatters with the reel", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...embossedWidths),
        fc.constantFrom("W", "E1", "F", "D0", "P0", "P2", "R"),
        (width, letter) => {
          const drawn = rowLetter("embossed", width, letter)!;
          expect(nominalOf(drawn)).toBeCloseTo(nominalOf(rowFigure("embossed", width, letter)!), 15);
          expect(drawn.scatters).toEqual([]);
          expect(drawn.unknown).toBeUndefined();
        },
      ),
      { seed: 181, numRuns: 120 },
    );
  });
  test("is the middle of a guess, and marked as one, where no figure is read", () => {
    // Carrier 0.2 to 0.4 mm: the median of a logarithmic guess is sqrt(0.08) = 0.2828 mm. By hand. [derived]
    const drawn = rowLetter("embossed", 12, "T")!;
    expect(nominalOf(drawn) * 1e3).toBeCloseTo(0.2828, 9);
    expect(drawn.letter).toBe("g");
  });
});

// EIA-481 limits, typed by hand. [read]
test("a catalogue maximum alone is an unknown below it, not a tolerance: T at most 0.6 mm, 1.1 mm punched", () => {
  const [embossed, punched] = [rowFigure("embossed", 8, "T")!, rowFigure("punched", 8, "T")!];
  expect(embossed.scatters).toEqual([]);
  expect(embossed.unknown).toMatchObject({ low: 0.2e-3, high: 0.4e-3 });
  expect(punched.unknown).toMatchObject({ high: 1.1e-3 });
  expect("cite" in embossed.origin && embossed.origin.cite).toContain("0.6 mm at most");
});
// Remembered, typed by hand: hole row 0.9, pocket 1.8, holes 0.8 every 2 mm. [memory]
test("4 mm tape has letters of its own, all of them guesses, and the bend of 8 mm tape", () => {
  const mm = (letter: string) => +(nominalOf(rowFigure("embossed", 4, letter)!) * 1e3).toFixed(6);
  expect(["W", "E1", "F", "D0", "P0", "P2"].map(mm)).toEqual([4, 0.9, 1.8, 0.8, 2, 1]);
  expect(mm("R")).toBe(nominalOf(rowFigure("embossed", 8, "R")!) * 1e3);
  for (const letter of ["W", "E1", "F", "D0", "P0", "P2", "T"])
    expect(rowFigure("embossed", 4, letter)!.letter, letter).toBe("g");
  expect(rowFigure("embossed", 4, "b")!.unknown).toMatchObject({
    low: expect.closeTo(2.2e-3, 12),
    high: expect.closeTo(2.6e-3, 12),
  });
  expect(rowFigure("embossed", 4, "S0")).toBeUndefined();
});
test("pressed board is thinner than punched board may be", () => {
  const [punched, pressed] = (["punched", "pressed"] as const).map((kind) => rowFigure(kind, 8, "T")!.unknown);
  expect(pressed).toMatchObject({ low: 0.3e-3, high: 0.5e-3 });
  expect(punched).toMatchObject({ low: 0.4e-3 });
  expect(nominalOf(rowFigure("pressed", 8, "b")!)).toBe(nominalOf(rowFigure("embossed", 8, "b")!));
});
// Film widths: 5.2 ±0.3 at 8 mm, 21.3 ±0.1 at 24 mm [read]; 9.2 to 9.5 at 12 mm [memory].
test("the film of 8 mm tape is 5.2 mm, that of 24 mm tape 21.3 mm, that of 12 mm tape a guess", () => {
  expect(nominalOf(rowFigure("embossed", 8, "b")!) * 1e3).toBeCloseTo(5.2, 9);
  expect(nominalOf(rowFigure("embossed", 24, "b")!) * 1e3).toBeCloseTo(21.3, 9);
  expect(rowFigure("embossed", 12, "b")!.unknown).toMatchObject({
    low: expect.closeTo(9.2e-3, 12),
    high: expect.closeTo(9.5e-3, 12),
  });
});
// Sheet 28704: 300 ±10 mm/min; sheet after IEC 286-3: 165 to 180 degrees. [read]
test("the peel test runs at 5 mm/s within 0.17, at 165 to 180 degrees", () => {
  expect(nominalOf(everyTape.testSpeed)).toBeCloseTo(0.3 / 60, 12);
  expect(everyTape.testSpeed.scatters[0]).toMatchObject({ to: expect.closeTo(0.01 / 60, 5) });
  expect(everyTape.testAngle.unknown).toMatchObject({
    low: expect.closeTo((165 * Math.PI) / 180, 12),
    high: expect.closeTo(Math.PI, 12),
  });
});
// Carrier maker's practice 20 to 80 gf [read]: 0.196 to 0.785 N by standard gravity. [derived]
test("the seal is believed within 0.2 and 0.8 N, as makers practise it, not at the standard's limit", () => {
  expect(everyTape.seal.unknown).toMatchObject({ low: 0.2, high: 0.8 });
  expect(20 * unitOf("gf").factor).toBeCloseTo(0.2, 2);
  expect(80 * unitOf("gf").factor).toBeCloseTo(0.8, 1);
});
test("pressure-sensitive seals are stickier and quicker than heat-activated ones, over their whole ranges", () => {
  for (const what of ["rate", "tack"] as const) {
    const [heat, pressure] = [sealClass.heat[what].unknown!, sealClass.pressure[what].unknown!];
    expect("low" in heat && "low" in pressure && pressure.low > heat.low && pressure.high > heat.high).toBe(true);
  }
  expect(Object.keys(frictionOfClass)).toEqual(["steel", "pom", "petg", "pla", "nbr", "silicone", "urethane"]);
});

describe("a citation", () => {
  test("names title, number and page", () => {
    expect(citation(["EIA-481-D p13"])).toBe(
      "Embossed carrier tape, 8 to 24 mm (bilingual copy), EIA-481-D, p. 13, Table 2 and note 1(a) to (c)",
    );
  });
  test("stands behind every figure of every row", () => {
    for (const width of embossedWidths)
      for (const letter of ["W", "E1", "F", "D0", "P0", "P2", "R", "T", "T1", "b"]) {
        const { origin } = rowFigure("embossed", width, letter)!;
        expect("cite" in origin && origin.cite.length).toBeGreaterThan(10);
      }
  });
});
test("a one-sided tolerance stays one-sided", () => {
  const g = figured("t/D0", "D0", { value: 1.5, tol: [0, 0.1], how: "read", sources: ["EIA-481-D p13"] });
  expect(g.text).toBe("1.5 +0.1/-0 mm");
});
test("the nearest width is found from either side, and beyond both ends", () => {
  expect([
    nearestWidth("embossed", 9.9),
    nearestWidth("embossed", 10.1),
    nearestWidth("embossed", 3),
    nearestWidth("punched", 300),
    nearestWidth("pressed", 12),
  ]).toEqual([8, 12, 4, 12, 8]);
});
