import { describe, expect, test } from "vitest";
import type { EmbossedWidth } from "./embossed.ts";
import { embossed, embossedWidths } from "./embossed.ts";
import { advisedS1, camber, E1, olderForm, T1, tenPitchError } from "./every-width.ts";
import { allowedPitches } from "./pitch.ts";

const narrow = [8, 12, 16, 24] as const;
const wide = embossedWidths.filter((width) => width >= 32);

test("there is a row for each of the sixteen widths, in order, and it carries its own width", () => {
  expect(embossedWidths).toEqual(Object.keys(embossed).map(Number));
  expect(embossedWidths).toHaveLength(16);
  for (const width of embossedWidths) expect(embossed[width].W.value).toBe(width);
});

describe("relations that any row must keep if it was copied right [derived from the geometry of the tape]", () => {
  test.each(narrow)("%i mm: E2 min = W - 1.75, F = W/2 - 0.5, Wmax = W + 0.3", (width) => {
    expect(embossed[width].E2?.value).toBeCloseTo(width - 1.75, 12);
    expect(embossed[width].F.value).toBeCloseTo(width / 2 - 0.5, 12);
    expect(embossed[width].Wmax?.value).toBeCloseTo(width + 0.3, 12);
  });
  test.each(narrow)("%i mm: the K0 limit of the older form is T2 max less 0.1", (width) => {
    expect(embossed[width].K0old?.value).toBeCloseTo(embossed[width].T2.value - 0.1, 12);
  });
  test.each(wide)("%i mm: F = S0/2 and W = E1 + S0 + 1.85", (width) => {
    const S0 = embossed[width].S0?.value ?? Number.NaN;
    expect(embossed[width].F.value).toBeCloseTo(S0 / 2, 12);
    expect(E1.value + S0 + 1.85).toBeCloseTo(width, 12);
  });
  test("a wider tape never has a lower T2, B1, R or D1, nor a tighter F", () => {
    for (let i = 1; i < embossedWidths.length; i++) {
      const [less, more] = [
        embossed[embossedWidths[i - 1] as EmbossedWidth],
        embossed[embossedWidths[i] as EmbossedWidth],
      ];
      for (const letter of ["T2", "B1", "R", "D1"] as const)
        expect(more[letter].value).toBeGreaterThanOrEqual(less[letter].value);
      expect(more.F.tol?.[1]).toBeGreaterThanOrEqual(less.F.tol?.[1] ?? 0);
    }
  });
  test("every pitch is a whole number of half hole pitches", () => {
    for (const width of embossedWidths)
      for (const { value } of allowedPitches(embossed[width].P1)) expect(value % 2).toBe(0);
  });
});

// Typed by hand. EIA-481-D p. 13, Table 2 (8 to 24 mm) and p. 15, Table 3 (32 to 200 mm). [read]
const rows: readonly [
  W: EmbossedWidth,
  F: number,
  Ftol: number,
  P2tol: number,
  B1: number,
  T2: number,
  R: number,
  D1: number,
  last: number,
][] = [
  [8, 3.5, 0.05, 0.05, 4.35, 2.5, 25, 1.0, 4],
  [12, 5.5, 0.05, 0.05, 8.2, 6.5, 30, 1.5, 8],
  [16, 7.5, 0.1, 0.1, 12.1, 8.0, 30, 1.5, 12],
  [24, 11.5, 0.1, 0.1, 20.1, 12.0, 30, 1.5, 20],
  [32, 14.2, 0.1, 0.1, 23.0, 12.0, 50, 2.0, 32],
  [44, 20.2, 0.15, 0.15, 35.0, 16.0, 50, 2.0, 44],
  [56, 26.2, 0.15, 0.15, 46.0, 20.0, 50, 2.0, 56],
  [72, 34.2, 0.3, 0.2, 60.0, 30.0, 75, 2.0, 72],
  [88, 42.2, 0.3, 0.2, 76.0, 30.0, 75, 2.0, 72],
  [104, 50.2, 0.35, 0.2, 91.0, 35.0, 75, 2.0, 72],
  [120, 58.2, 0.35, 0.2, 107.0, 40.0, 75, 2.0, 72],
  [136, 66.2, 0.4, 0.2, 123.0, 40.0, 75, 2.0, 72],
  [152, 74.2, 0.4, 0.2, 139.0, 40.0, 75, 2.0, 72],
  [168, 82.2, 0.45, 0.2, 153.0, 40.0, 75, 2.0, 72],
  [184, 90.2, 0.45, 0.2, 169.0, 40.0, 75, 2.0, 72],
  [200, 98.2, 0.5, 0.2, 185.0, 40.0, 75, 2.0, 72],
];
test.each(rows)("the %i mm row is the printed one", (W, F, Ftol, P2tol, B1, T2, R, D1, last) => {
  const row = embossed[W];
  expect(row.F).toMatchObject({ value: F, tol: [-Ftol, Ftol], how: "read" });
  expect(row.P2).toMatchObject({ value: 2, tol: [-P2tol, P2tol], how: "read" });
  expect(row.B1).toMatchObject({ value: B1, limit: "max" });
  expect(row.T2).toMatchObject({ value: T2, limit: "max" });
  expect(row.R).toMatchObject({ value: R, limit: "ref" });
  expect(row.D1).toMatchObject({ value: D1, limit: "min" });
  expect(allowedPitches(row.P1).at(-1)?.value).toBe(last);
});

// EIA-481-D p. 13 and p. 15. [read]
test("what every width shares is as printed", () => {
  for (const width of embossedWidths) {
    expect(embossed[width].D0).toMatchObject({ value: 1.5, tol: [0, 0.1] });
    expect(embossed[width].E1).toMatchObject({ value: 1.75, tol: [-0.1, 0.1] });
    expect(embossed[width].P0).toMatchObject({ value: 4, tol: [-0.1, 0.1] });
    expect(embossed[width].T).toMatchObject({ value: 0.6, limit: "max" });
    expect(embossed[width].T1).toMatchObject({ value: T1.value, limit: "max" });
    expect(embossed[width].tenPitchError).toBe(tenPitchError);
  }
  expect(T1.value).toBe(0.1);
  expect(tenPitchError).toMatchObject({ value: 0.2, limit: "max" });
});

// EIA-481-D p. 13, note 1(c) [read]; rotation above 24 mm is memory; so is the lateral shift of 16 and 24 mm, which the
// slides of EIA-481-B print as 0.1.
test("rotation and lateral shift say how they are known", () => {
  expect(narrow.map((width) => embossed[width].rotation.value)).toEqual([20, 20, 10, 10]);
  expect(narrow.map((width) => embossed[width].lateral.value)).toEqual([0.5, 0.5, 1, 1]);
  expect(narrow.map((width) => embossed[width].lateral.how)).toEqual(["read", "read", "memory", "memory"]);
  for (const width of wide) {
    expect(embossed[width].rotation).toMatchObject({ value: 10, how: "memory" });
    expect(embossed[width].lateral).toMatchObject({ value: 1, how: "read", sources: ["EIA-481-C fragments"] });
  }
});

// EIA-481-D p. 15, Table 3. [read]
test.each(wide)("%i mm: W is ±0.3 and S0 is ±0.1", (width) => {
  expect(embossed[width].W.tol).toEqual([-0.3, 0.3]);
  expect(embossed[width].S0?.tol).toEqual([-0.1, 0.1]);
});

// Makers' sheets. [read]
test("makers draw the narrow widths with these tolerances", () => {
  const drawn = narrow.map((width) => embossed[width].Wmakers?.map(({ value, tol }) => [value, tol?.[0], tol?.[1]]));
  expect(drawn).toEqual([
    [
      [8, -0.3, 0.3],
      [8, -0.1, 0.3],
    ],
    [[12, -0.3, 0.3]],
    [
      [16, -0.3, 0.3],
      [16, -0.2, 0.2],
    ],
    [
      [24, -0.1, 0.3],
      [24, -0.3, 0.3],
    ],
  ]);
});

// Sheets in the form of RS-481-A and EIA-481-1 [read]; camber over 250 mm memory.
test("the older forms and the camber are as noted", () => {
  expect([olderForm.leastClearance.value, olderForm.mostClearance.value, olderForm.G.value]).toEqual([0.05, 0.5, 0.75]);
  expect([camber.per250.value, camber.per250.how, camber.per100.value, camber.per100.how]).toEqual([
    1,
    "memory",
    1,
    "read",
  ]);
  expect(advisedS1.value).toBe(1);
});

test("the merged T2 cell of 120 mm is marked as doubtful", () => {
  expect(embossed[120].T2.confidence).toBe("low");
  expect(embossed[120].T2.note).toContain("35.0");
});
