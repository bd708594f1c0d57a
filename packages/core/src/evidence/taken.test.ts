import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike } from "../study/plain.fixture.ts";
import { effectiveDraws } from "./known.ts";
import { type Evidence, takenIn } from "./taken.ts";

const even = alike(beliefDraws);
const z = new Deviates(11).normal("x", beliefDraws);
/** A reading y of z with an error e, both of one coordinate that is N(0, 1) before. */
const reading = (y: number, e: number, sharp = true, trial = "T"): Evidence => ({
  trial,
  log: z.map((x) => -0.5 * ((y - x) / e) ** 2),
  atMost: z.map((x) => phi((y - x) / e)),
  atLeast: z.map((x) => phi((x - y) / e)),
  sharp: () => sharp,
  blames: "the model of x",
});
const meanOf = (w: Float64Array): number => z.reduce((sum, x, k) => sum + x * w[k]!, 0);
const sdOf = (w: Float64Array): number => Math.sqrt(z.reduce((sum, x, k) => sum + (x - meanOf(w)) ** 2 * w[k]!, 0));

describe("a result taken into belief", () => {
  // N(0, 1) and a reading 1 with error 1: N(0.5, 0.5). [derived: algebra of normal laws]
  test("of a normal law is the normal law after the reading", () => {
    const { weights, blunt, standings } = takenIn(even, [reading(1, 1)]);
    expect(meanOf(weights)).toBeCloseTo(0.5, 1);
    expect(sdOf(weights)).toBeCloseTo(Math.SQRT1_2, 1);
    expect(blunt).toBe(1);
    expect(standings[0]!.state).toBe("taken");
  });
  // Before it the reading is N(0, 1 + e^2): both tails beyond 2 of sqrt(2). [derived]
  test("had the chance that the law before it gives", () => {
    expect(takenIn(even, [reading(2, 1)]).standings[0]!.chance).toBeCloseTo(2 * phi(-2 / Math.SQRT2), 1);
  });
  test("of two readings is the same in either order", () => {
    const [a, b] = [reading(0.5, 1, true, "A"), reading(-0.2, 0.8, true, "B")];
    const [one, other] = [takenIn(even, [a, b]).weights, takenIn(even, [b, a]).weights];
    one.forEach((w, k) => {
      expect(w).toBeCloseTo(other[k]!, 12);
    });
  });
  test("that is sharper than the draws carry is blunted until 200 are left, not dropped", () => {
    const { weights, effective, blunt } = takenIn(even, [reading(0.3, 0.02)]);
    expect(blunt).toBeLessThan(1);
    expect(effective).toBeCloseTo(200, 0);
    expect(effectiveDraws(weights)).toBeCloseTo(effective, 9);
    // A normal likelihood to the power b is one with its error over sqrt(b): belief is wider than the reading says.
    expect(sdOf(weights)).toBeGreaterThan(0.02);
    expect(meanOf(weights)).toBeCloseTo(0.3, 1);
  });
  test("that had a chance below 1 in 100 is a finding and moves nothing", () => {
    const { weights, standings } = takenIn(even, [reading(6, 1)]);
    expect(standings[0]).toMatchObject({ state: "contradicts", blames: "the model of x" });
    expect(standings[0]!.says).toContain("contradicts the model of x");
    expect(weights).toEqual(even);
  });
  test("that too few draws account for is a finding where draws made for it stay too few", () => {
    expect(takenIn(even, [reading(0.3, 0.02, false)]).standings[0]!.state).toBe("contradicts");
  });
  test("is held against what earlier ones leave: two that exclude each other are not both taken", () => {
    const { standings } = takenIn(even, [reading(1.5, 0.3, true, "A"), reading(-1.5, 0.3, true, "B")]);
    expect(standings.map((s) => s.state)).toEqual(["taken", "contradicts"]);
  });
  test("starts from the weights of known units and asks for no more draws than those leave", () => {
    const base = z.map((x) => Math.exp(-0.5 * (x / 0.1) ** 2));
    const total = base.reduce((a, b) => a + b, 0);
    const known = base.map((w) => w / total);
    const { standings, weights } = takenIn(known, [reading(0.1, 1)]);
    expect(effectiveDraws(known)).toBeLessThan(200);
    expect(standings[0]!.state).toBe("taken");
    expect(weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  });
});
