import { expect, test } from "vitest";
import { embossed } from "./embossed.ts";
import { families } from "./families.ts";
import { allowedPitches } from "./pitch.ts";
import { punched } from "./punched.ts";

const catalogue = { embossed, punched } as Readonly<
  Record<string, Readonly<Record<number, { readonly P1: Parameters<typeof allowedPitches>[0] }>>>
>;

test("there are 94 families, 53 read and 41 remembered, and no name twice", () => {
  expect(families).toHaveLength(94);
  expect(families.filter(({ how }) => how === "read")).toHaveLength(53);
  expect(families.filter(({ how }) => how === "memory")).toHaveLength(41);
  expect(new Set(families.map(({ family }) => family)).size).toBe(94);
});

test("the tape of every family is in the catalogue", () => {
  for (const { family, kind, W } of families) expect(catalogue[kind]?.[W], family).toBeDefined();
});

// EIA-481-D p. 13 lists the pitches. One of the three that break it was read in package sheets: makers go beyond it.
test("three families have a pitch that their width does not list", () => {
  const odd = families.filter(({ kind, W, P1 }) => {
    const row = catalogue[kind]?.[W];
    return row === undefined || !allowedPitches(row.P1).some(({ value }) => value === P1);
  });
  expect(odd.map(({ family, W, P1, how }) => [family, W, P1, how])).toEqual([
    ["isolator SO-4 wide", 12, 12, "read"],
    ["LQFP 14x14", 24, 24, "memory"],
    ["can 5 dia x 5.4", 12, 12, "memory"],
  ]);
});

// Geometry. [derived]
test("a pocket is shorter than its pitch and within B1 of its width", () => {
  for (const { family, kind, W, P1, A0, B0 } of families) {
    if (A0 !== undefined) expect(A0, family).toBeLessThan(P1);
    if (B0 !== undefined && kind === "embossed") expect(B0, family).toBeLessThanOrEqual(embossed[W].B1.value);
  }
});
test("the three cans whose depth does not fit under T2 say so", () => {
  const deep = families.filter(({ W, K0 }) => K0 !== undefined && K0 + 0.4 > embossed[W].T2.value);
  expect(deep.map(({ family }) => family)).toEqual(["can 6.3 dia x 7.7", "can 12.5 dia x 13.5", "can 16 dia x 16.5"]);
  for (const { note } of deep) expect(note).toContain("exceeds T2 max");
});

test("a remembered family says how far to trust it, and a read one names a source that is not memory first", () => {
  for (const { family, how, confidence, sources } of families) {
    expect(confidence !== undefined, family).toBe(how === "memory");
    expect(sources[0] === "memory", family).toBe(how === "memory");
  }
});

// Typed by hand: package sheets, packaging pages, sheet 28704, sheet after IEC 286-3 [read]; the last four memory.
test.each([
  ["chip R 0402", 8, 2, 0.7, 1.2, undefined, 10000, 178],
  ["chip C 0805 thin", 8, 4, 1.65, 2.4, undefined, 4000, 178],
  ["chip C 1808", 12, 4, undefined, undefined, undefined, undefined, 178],
  ["MELF 0207", 12, 4, 2.4, 6.0, undefined, 2000, 178],
  ["SOT-23-3", 8, 4, 3.15, 2.77, 1.22, 3000, 178],
  ["SOT-223", 12, 8, 7.05, 7.4, 1.9, 2500, 330],
  ["TO-252", 16, 8, 6.9, 10.5, 2.7, 2500, 330],
  ["SOIC-8", 12, 8, 6.4, 5.2, 2.1, 2500, 330],
  ["SOIC-20 wide", 24, 12, 10.8, 13.3, 2.7, 2000, 330],
  ["TSSOP-20", 16, 8, 6.95, 7.1, 1.6, 2000, 330],
  ["QFN 5x5", 12, 8, 5.3, 5.3, 1.1, 3000, 330],
  ["wafer-level 0.84x1.25", 8, 4, 0.84, 1.25, 0.5, 3000, 180],
  ["wireless module 18x25.5", 44, 24, 18.5, 26.0, 3.6, 650, 330],
  ["QFN 7x7", 16, 12, 7.3, 7.3, 1.1, 2500, 330],
  ["can 16 dia x 16.5", 44, 28, 17.5, 17.5, 17.5, 125, 330],
  ["coin-cell holder", 44, 32, 17.0, 29.0, 5.5, 300, 330],
  ["RJ45 jack", 56, 28, 17.0, 23.0, 14.0, 120, 330],
] as const)("%s is the row that was noted", (family, W, P1, A0, B0, K0, quantity, reel) => {
  const row = families.find((each) => each.family === family);
  expect([row?.W, row?.P1, row?.A0, row?.B0, row?.K0, row?.quantity, row?.reel]).toEqual([
    W,
    P1,
    A0,
    B0,
    K0,
    quantity,
    reel,
  ]);
});

// Added up over the notes the table was copied from, apart from it. [derived]
test.each([
  ["W", 94, 1576],
  ["P1", 94, 956],
  ["A0", 91, 581.42],
  ["B0", 91, 733.83],
  ["K0", 77, 263.64],
  ["T", 5, 3.12],
  ["T2max", 6, 12.15],
  ["quantity", 90, 198945],
  ["reel", 93, 26448],
] as const)("the column %s holds %i numbers that add up to %d", (column, count, sum) => {
  const numbers = families.flatMap((row) => row[column] ?? []);
  expect(numbers).toHaveLength(count);
  expect(numbers.reduce((total, each) => total + each, 0)).toBeCloseTo(sum, 6);
});
