import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Method, Readings } from "./method.ts";
import { pieceValue, readOff, settingsOf } from "./read-off.ts";
import {
  bow,
  calipers,
  discMass,
  edgeTrace,
  feelerEnds,
  feelerSquare,
  growth,
  neutralWrap,
  photo,
  protractor,
  roomShare,
  stack,
  twoSizes,
  warmLength,
  weigh,
  woundMass,
} from "./sizing.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const answered = (m: Method, rows: readonly (readonly number[])[], settings: Readings["settings"] = {}) => {
  const a = readOff(m, { pieces: [rows], settings });
  if (a.kind !== "answer") throw new Error(`${a.found}. ${a.wayOut}`);
  return a;
};
const refused = (m: Method, row: readonly number[]): string => {
  const r = readOff(m, { pieces: [[row]] });
  if (r.kind !== "refusal") throw new Error("was taken");
  return `${r.found}. ${r.wayOut}`;
};

describe("a layer in a stack", () => {
  test("is as thick as the stack over its layers, however many are laid", () => {
    expect(answered(stack, [[540]]).value).toBeCloseTo(54e-6, 15);
    expect(answered(stack, [[1080]], { n: 20 }).value).toBeCloseTo(54e-6, 15);
  });
  // Ten layers: half a step 0.05 um, nought 0.1 um; over root 3 0.0289 and 0.0577, root sum 0.06455 um. Shares of it to the fourth
  // power 0.04 + 0.64 = 0.68, so 1.96 (1 - 0.16 0.68^2) = 1.815 times it. [derived]
  test("of ten that read alike is known to 0.117 um, and of twenty to half of it", () => {
    const ten = answered(stack, [[540], [540]]).within;
    expect(ten * 1e6).toBeCloseTo(0.11716, 4);
    expect(answered(stack, [[1080], [1080]], { n: 20 }).within / ten).toBeCloseTo(0.5, 9);
  });
});
// Ten pieces of 24.2 g: half a step 0.05 g, nought 0.1 g and 0.2 % of 24.2 g, each over ten and root 3. [derived]
test("a light piece weighed by tens has a tenth of the scale's errors", () => {
  const a = answered(weigh, [[24.2], [24.2]]);
  expect(a.value).toBeCloseTo(2.42e-3, 12);
  const u = (name: string): number => a.parts.find((p) => p.name === name)!.u * Math.sqrt(3) * 1e3;
  expect(u("resolution")).toBeCloseTo(0.005, 9);
  expect(u("nought")).toBeCloseTo(0.01, 9);
  expect(u("scale")).toBeCloseTo(0.00484, 9);
});
describe("in a photograph", () => {
  test("a length is the same from near and from far: only its share of the rule counts", () => {
    const set = settingsOf(photo);
    for (const pixels of [400, 2000, 9000])
      expect(pieceValue(photo, [{ a: 0.072 * pixels, p: pixels }], set)).toBeCloseTo(0.72e-3, 12);
  });
  test("an edge that swings by 0.35 mm about wherever it stands wanders by 0.35 mm", () => {
    for (const middle of [100, 700]) {
      const places = Array.from({ length: 400 }, (_, i) => middle + 0.035 * 2000 * Math.sin((2 * Math.PI * i) / 400));
      const row = { y_1: Math.max(...places), y_2: Math.min(...places), p: 2000 };
      expect(pieceValue(edgeTrace, [row], { L: 10e-3 })).toBeCloseTo(0.35e-3, 9);
    }
  });
});
test("what goes from one end of its room to the other uses all of it, and half as much of a room twice as wide", () => {
  const row = { x_1: 3.5e-3, x_2: 3e-3 };
  expect(pieceValue(roomShare, [row], { w: 0.5e-3 })).toBeCloseTo(1, 12);
  expect(pieceValue(roomShare, [row], { w: 1e-3 })).toBeCloseTo(0.5, 12);
});
// Rise R - sqrt(R^2 - c^2/4) over a chord c; over 250 mm of a circle of 20 m 0.391 mm. [derived]
test("a circle's bow over whichever length it is measured is that over the standard's", () => {
  const rise = (R: number, c: number): number => R - Math.sqrt(R * R - (c * c) / 4);
  expect(rise(20, 0.25) * 1e3).toBeCloseTo(0.391, 3);
  fc.assert(
    fc.property(between(5, 50), between(0.2, 1), (R, c) => {
      const k = pieceValue(bow, [{ h: rise(R, c) }], { c, L_0: 0.25 });
      expect(Math.abs(k / rise(R, 0.25) - 1)).toBeLessThan(3e-3);
    }),
    { seed: 101, numRuns: 100 },
  );
});
describe("angles", () => {
  test("are typed in degrees and come out in radians; one that leans the other way is less than nothing", () => {
    expect(answered(protractor, [[-90]]).value).toBeCloseTo(-Math.PI / 2, 12);
    expect(answered(protractor, [[0]]).value).toBe(0);
  });
  // A blade at d gapes by l tan(d). [derived]
  test("come back from feelers, however long the blade and however far two rollers are held apart", () => {
    for (const l of [20e-3, 80e-3])
      expect(pieceValue(feelerSquare, [{ g: l * Math.tan(0.01) }], { l }) / 0.01).toBeCloseTo(1, 4);
    for (const apart of [0.05e-3, 0.4e-3])
      expect(pieceValue(feelerEnds, [{ g_1: apart + 0.12e-3, g_2: apart }], { l: 24e-3 })).toBeCloseTo(5e-3, 12);
  });
});
describe("mass and where it sits", () => {
  test("what is wound, added up turn by turn, weighs its density", () => {
    const [r_0, r_1, w, density] = [0.03, 0.09, 0.016, 420];
    const turns = 500;
    const thick = (r_1 - r_0) / turns;
    let M = 0.15;
    for (let i = 0; i < turns; i++) M += density * 2 * Math.PI * (r_0 + (i + 0.5) * thick) * thick * w;
    expect(pieceValue(woundMass, [{ M, M_0: 0.15, D: 2 * r_1, d: 2 * r_0, w }], {})).toBeCloseTo(density, 5);
  });
  test("a disc, added up ring by ring as mass by radius squared, has the inertia that the card says", () => {
    const [M, R] = [4e-3, 15e-3];
    const rings = 2000;
    let J = 0;
    for (let i = 0; i < rings; i++) {
      const r = ((i + 0.5) * R) / rings;
      J += ((M * 2 * r) / (R * R)) * (R / rings) * r * r;
    }
    expect(pieceValue(discMass, [{ M, D: 2 * R }], {}) / J).toBeCloseTo(1, 6);
  });
});
test("growth is a share: bars of any length grow by the same, with damp and with each kelvin", () => {
  for (const l of [0.08, 0.15]) {
    expect(pieceValue(growth, [{ x_1: l * 1.0003, x_2: l }], {})).toBeCloseTo(3e-4, 12);
    const warm = { x_1: l * (1 + 6.5e-5 * 20), x_2: l, T_1: 45, T_2: 25 };
    expect(pieceValue(warmLength, [warm], {})).toBeCloseTo(6.5e-5, 12);
  }
});
describe("a carrier's neutral line", () => {
  // n pitches wound on a drum span the angle n P over the radius of the line that keeps its length. [derived]
  test("comes back on a drum of any radius, which drops out", () => {
    const set = settingsOf(neutralWrap);
    fc.assert(
      fc.property(between(0, 1), between(0.02, 0.06), (u, r) => {
        const at = (from: number): number => (set.n! * set.P!) / (r + from * set.T!);
        expect(pieceValue(neutralWrap, [{ a_1: at(u), a_2: at(1 - u) }], set)).toBeCloseTo(u, 9);
      }),
      { seed: 102, numRuns: 100 },
    );
  });
  // du = n P/(2 T) da/a^2: 266.7 by 0.05 deg over (5.3 rad)^2 is 0.0083 for either angle; root sum 0.0117, over root 3. [derived]
  test("is blurred by 0.0068 where angles are read to 0.1 deg", () => {
    const parts = answered(neutralWrap, [[303.7, 304.3]]).parts;
    expect(parts.find((p) => p.name === "resolution")!.u).toBeCloseTo(0.00675, 5);
  });
});
describe("readings that stand in each other's place are refused with what to do", () => {
  test("the gaps at a nip's ends, also where both are alike", () =>
    expect(refused(feelerEnds, [0.1, 0.1])).toBe(
      "Reading 1 of print 1: gap at the wider end (0.1) is not above gap at the narrower end (0.1). " +
        "Call the wider end the first. Where both ends take the same feeler, write the next thicker one that just does not go in.",
    ));
  test("each pair by itself: lengths, masses, diameters, temperatures", () => {
    expect(refused(twoSizes, [0.29, 0.38])).toContain("The first length must be the larger one.");
    expect(refused(woundMass, [120, 203, 160, 60, 12])).toContain("The full reel must weigh more than the empty one.");
    expect(refused(woundMass, [203, 120, 60, 160, 12])).toContain("The wound diameter must be above the hub's.");
    expect(refused(warmLength, [150.2, 150, 22, 44])).toContain("The first temperature is the warm one.");
  });
  test("but a length by calipers may be nought or less, as an offset is; a stack's may not", () => {
    expect(answered(calipers, [[-0.12]]).value).toBeCloseTo(-0.12e-3, 12);
    expect(refused(stack, [-540])).toContain("thickness of the stack is -540 um, less than nothing");
  });
});
