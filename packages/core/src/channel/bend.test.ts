import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  oneSeal,
  outside,
  overhead,
  punchedTape,
  scene,
  sideCrossing,
  withBends,
} from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { checkBend, checkPockets, leastRadius, meetingRadius, neededRadius, pocketGap } from "./bend.ts";

const down = (radius: number, number = 1) => ({ radius, turn: -0.5, number });
const up = (radius: number, number = 1) => ({ radius, turn: 0.5, number });

// Package-materials sheets, nominal pockets with walls of 0.2 mm and T 0.3 mm [read]; drop/(1 - L/P1) by hand. [derived]
const pockets = [
  ["SOIC-16 wide", 2.6, 11.15, 12, 36.7, 36.813],
  ["SOIC-20 wide", 2.6, 11.2, 12, 39.0, 39.112],
  ["TO-252", 2.6, 7.3, 8, 29.7, 29.83],
  ["SOT-223", 1.8, 7.45, 8, 26.2, 26.302],
] as const;
describe("neighbouring pockets meet inside a bend", () => {
  test.each(pockets)("%s: drop %f, length %f, pitch %f mm, at %f mm", (_, drop, L, P1, r) => {
    expect(meetingRadius(drop, L, P1)).toBeCloseTo(r, 1);
    const x = { P_1: P1, drop, L };
    expect(pocketGap.value({ ...x, arcs: [down(meetingRadius(drop, L, P1))] })).toBeCloseTo(0, 12);
  });
  // Rigid boxes on a circle, pitch kept in the middle of the carrier: validation/independent/pockets.py. [derived]
  test.each(pockets)("%s: within half a per cent of rigid boxes", (_, drop, L, P1, _r, boxes) => {
    expect(Math.abs(meetingRadius(drop, L, P1) / boxes - 1)).toBeLessThan(0.005);
  });
  test("later in a gentler bend, and never outside one", () => {
    const length = fc.double({ min: 1, max: 20, noNaN: true });
    fc.assert(
      fc.property(length, length, length, length, (drop, L, land, more) => {
        const x = { P_1: L + land, drop, L };
        const r = meetingRadius(drop, L, L + land);
        expect(pocketGap.value({ ...x, arcs: [down(r + more)] })).toBeGreaterThan(0);
        expect(pocketGap.value({ ...x, arcs: [up(r / 2), down(r + more, 2)] })).toBeGreaterThan(0);
        expect(pocketGap.value({ ...x, arcs: [up(r / 2)] })).toBeCloseTo(land, 9);
      }),
      { seed: 131, numRuns: 200 },
    );
  });
  test("on the flat already where a pocket is as long as its pitch", () => {
    expect(meetingRadius(2, 8, 8)).toBe(Number.POSITIVE_INFINITY);
  });
});

// Neutral line of a carrier 0.3 mm thick: half of that in or out. [derived]
test("a bend upwards is sharper for the middle of the carrier than for its underside, a bend downwards gentler", () => {
  expect(leastRadius.value({ arcs: [up(30e-3)], T: 0.3e-3 })).toBeCloseTo(29.85e-3, 12);
  expect(leastRadius.value({ arcs: [down(30e-3)], T: 0.3e-3 })).toBeCloseTo(30.15e-3, 12);
  expect(leastRadius.value({ arcs: [down(30e-3), up(30.1e-3, 2)], T: 0.3e-3 })).toBeCloseTo(29.95e-3, 12);
});
// T/(2 r) = 1 % at r 15 mm for 0.3 mm, as the page on tape stiffness works out. [derived]
test("0.3 mm of carrier on 15 mm strains by 1 %, so at that elastic limit the standard's 25 mm rules, and 15 mm without it", () => {
  expect(neededRadius.value({ R: 0, T: 0.3e-3, e_y: 0.01 })).toBeCloseTo(15e-3, 12);
  expect(neededRadius.value({ R: 25e-3, T: 0.3e-3, e_y: 0.01 })).toBe(25e-3);
});
// 1.1 mm of paper at 1.3 %: 42.3 mm, by hand. [derived]
test("the thickest punched tape wants 42.3 mm, more than its R of 25 mm", () => {
  expect(neededRadius.value({ R: 25e-3, T: 1.1e-3, e_y: 0.013 }) * 1e3).toBeCloseTo(42.3, 1);
});

describe("in a scene", () => {
  const bent = scene(withBends(16), embossedTape(16));
  // R + 5 = 35 mm upwards, T 0.28 mm at its median: 34.86 mm; R + 25 downwards. Hand: 35 - 0.14. [derived]
  test("the sharper of two bends is found and named", () => {
    expect(nominal(bent, leastRadius)).toBeCloseTo(35e-3 - nominal(bent, bent.tape.letters.T) / 2, 12);
    const inputs = new Realiser(bent, [leastRadius]).run(asWritten).inputsOf(leastRadius, bent);
    expect(leastRadius.where!(inputs)).toBe("bend 2 of the route");
  });
  test("the bend with the pockets inside is named, not the sharper one outside", () => {
    const inputs = new Realiser(bent, [pocketGap]).run(asWritten).inputsOf(pocketGap, bent);
    expect(pocketGap.where!(inputs)).toBe("bend 1, radius 55.0 mm");
    expect(pocketGap.where!({ ...inputs, arcs: [up(35e-3)] })).toBe("no bend has the pockets inside");
  });
  test("a straight route bends nothing, and punched tape has no pockets to meet", () => {
    expect(checkBend.absent(scene(sideCrossing(12), embossedTape(12)))).toBe("the route has no bend");
    expect(leastRadius.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
    expect(checkPockets.absent(scene(withBends(8), punchedTape()))).toBe(
      "punched tape has no pockets below its underside",
    );
    expect(checkPockets.absent(scene(overhead(24), embossedTape(24)))).toBeUndefined();
  });
  test("a carrier of 2 mm is outside the range", () =>
    expect(outside(neededRadius, { R: 25e-3, T: 2e-3, e_y: 0.01 })).toEqual(["T"]));
});
