import { describe, expect, test } from "vitest";
import { embossed } from "./embossed.ts";
import { hubForBend, leader, reelA, reelB, reelC, reelD, reelN, reels, reelWidths } from "./reels.ts";

// SOT-23 tape and reel data, revision C, Figures 3.0 and 4.0; SMT trimmer packaging sheet (2014). [read]
test("reels of 8 and 12 mm tape are the printed ones", () => {
  expect(reels[8].W1).toMatchObject({ value: 8.4, tol: [0, 1.5], how: "read" });
  expect(reels[8].W2).toMatchObject({ value: 14.4, limit: "max", how: "read" });
  expect(reels[8].W3).toMatchObject({ low: 7.9, high: 10.9, how: "read" });
  expect(reels[12].W1).toMatchObject({ value: 12.4, tol: [0, 2], how: "read" });
  expect(reels[12].W2).toMatchObject({ value: 18.4, limit: "max", how: "read" });
});
// 28-pin SOP package information (2008): 24.8 +0.3/-0.2, whole 30.2 ±0.2. [read]
test("the reel of 24 mm tape is read as a maker draws it and fits the standard's form", () => {
  expect(reels[24].W1makers?.[0]).toMatchObject({ value: 24.8, tol: [-0.2, 0.3], how: "read" });
  expect(reels[24].W2makers?.[0]).toMatchObject({ value: 30.2, tol: [-0.2, 0.2], how: "read" });
  expect(reels[24].W2.value).toBeGreaterThanOrEqual(30.2 + 0.2);
});
test("what is memory says so: whole widths from 16 mm up, inside widths from 44 mm up", () => {
  expect(reelWidths.filter((w) => reels[w].W2.how === "memory")).toEqual([16, 24, 32, 44, 56, 72]);
  expect(reelWidths.filter((w) => reels[w].W1.how === "memory")).toEqual([44, 56, 72]);
  for (const w of reelWidths) if (reels[w].W2.how === "memory") expect(reels[w].W2.confidence).toBeDefined();
});

// The pattern that every row read keeps. [derived]
describe.each(reelWidths)("the reel of %i mm tape", (W) => {
  test("is 0.4 mm wider inside than its tape, and 6 mm wider over all", () => {
    expect(reels[W].W1.value).toBeCloseTo(W + 0.4, 12);
    expect(reels[W].W2.value).toBeCloseTo(W + 6.4, 12);
  });
  test("lets the widest tape of the catalogue in", () => {
    const { W: width, Wmax } = embossed[W];
    expect(reels[W].W1.value).toBeGreaterThanOrEqual(Wmax?.value ?? width.value + (width.tol?.[1] ?? 0));
  });
  test("has a rim that reaches from inside its hub's width to outside of it", () => {
    const { W1, W3 } = reels[W];
    if (!W3) return expect(W).toBe(72);
    expect(W3.low).toBeLessThan(W1.value);
    expect(W3.high).toBeGreaterThan(W1.value);
  });
});

// Tutorial on packing types; SOT-23 data: arbor 13 +0.5/-0.2, key 20.2, slot 1.5. [read]
test("diameters, hubs and arbor are the printed ones", () => {
  expect(reelA.filter(({ how }) => how === "read").map(({ value }) => value)).toEqual([178, 330, 360, 100]);
  expect(reelN.map(({ value }) => value)).toEqual([50, 55, 60, 80, 100]);
  expect(reelC).toMatchObject({ value: 13, tol: [-0.2, 0.5] });
  expect([reelD.value, reelB.value]).toEqual([20.2, 1.5]);
});
// Sheet 28704: 400 mm leader with 160 mm of empty pockets, 160 mm trailer. [read]
test("a leader is 400 mm, 160 mm of it empty pockets, and so is the trailer", () => {
  expect([leader.total.value, leader.empty.value, leader.trailer.value]).toEqual([400, 160, 160]);
  expect(leader.carrierEIA.how).toBe("memory");
});
// R 25, 30, 50, 75 mm of EIA-481-D [read]; a hub bends to half its diameter. [derived]
test("a hub of 50 mm bends 8 mm tape to its R and 12 mm tape harder, as three sheets warn", () => {
  expect([8, 12, 32, 72].map((w) => hubForBend(embossed[w as 8].R.value).value)).toEqual([50, 60, 100, 150]);
  const least = Math.min(...reelN.map(({ value }) => value));
  expect(least).toBeGreaterThanOrEqual(hubForBend(embossed[8].R.value).value);
  expect(least).toBeLessThan(hubForBend(embossed[12].R.value).value);
});
