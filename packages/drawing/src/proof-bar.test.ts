import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { marked } from "./marked.fixture.ts";
import { expectClear, expectSound } from "./pick-lettering.fixture.ts";
import { type ProofInput, proofBar, proofSteps, proofWords } from "./proof-bar.ts";

const input = (run: number, failed = 0, more: Partial<ProofInput> = {}): ProofInput => ({
  unit: "plover",
  run,
  failed,
  ...more,
});

// n = ln(1 - C)/ln(1 - p): 299 at 1 in 100, 2 995 at 1 in 1 000, both at 95 %. [derived; algebra of the binomial law]
test.each([
  [100, 299],
  [1000, 2995],
])("1 in %i takes %i clean indexes", (oneIn, cycles) => {
  expect(proofSteps(input(cycles)).find((s) => s.oneIn === oneIn)).toEqual({ oneIn, cycles, reached: true });
  expect(proofSteps(input(cycles - 1)).find((s) => s.oneIn === oneIn)?.reached).toBe(false);
});
test("steps are 1, 2 or 5 times a power of ten, each takes more than the one before, and those reached come first", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2_000_000 }), fc.integer({ min: 0, max: 6 }), (run, failed) => {
      const steps = proofSteps(input(Math.max(run, failed), failed));
      expect(steps.length).toBeGreaterThanOrEqual(3);
      for (const { oneIn } of steps) expect(`${oneIn}`).toMatch(/^[125]0*$/);
      for (let i = 1; i < steps.length; i++) expect(steps[i]!.cycles).toBeGreaterThan(steps[i - 1]!.cycles);
      expect(steps.map((s) => s.reached)).toEqual(
        [...steps.map((s) => s.reached)].sort((a, b) => Number(b) - Number(a)),
      );
      expect(steps.some((s) => !s.reached)).toBe(true);
    }),
    { numRuns: 60 },
  );
});
test("a misfeed sets the proof back", () => {
  const cycles = (failed: number): number => proofSteps(input(70_000, failed)).find((s) => s.oneIn === 20_000)!.cycles;
  expect(cycles(0)).toBeLessThan(70_000);
  expect(cycles(1)).toBeGreaterThan(70_000);
});
describe.each([220, 340, 440])("at %i px", (width) => {
  test.each([
    ["none", input(0)],
    ["none, with an allowance", input(0, 0, { allowed: 1e-4 })],
    ["few", input(240, 0, { allowed: 1e-5 })],
    ["many", input(108_000, 0)],
    ["misfeeds", input(108_000, 2, { allowed: 1e-4 })],
    ["an allowance between two steps", input(20_000, 0, { allowed: 1 / 7000 })],
    ["an allowance long shown", input(5_000_000, 0, { allowed: 1e-3 })],
  ])("%s: no word hides another or leaves the paper", (_, one) => {
    const d = proofBar(one, { width });
    expectClear(d);
    expectSound(d);
  });
});
test("the bar is as long as its share of the next step", () => {
  const d = proofBar(input(149_786 / 2), { width: 340 });
  const [run] = marked(d.shapes, "run");
  const next = proofSteps(input(149_786 / 2)).find((s) => !s.reached)!;
  expect(run?.kind === "box" && run.width).toBeCloseTo(((149_786 / 2) * 324) / (next.cycles * 1.04), 3);
});
test("what was counted, what may be said and what is missing are told", () => {
  expect(proofWords(input(20_000, 0, { tapes: ["radio-44"], allowed: 1e-4 }))).toBe(
    "20 000 indexes of plover on radio-44, no misfeed. Were all units alike, fewer than 1 in 5 000 may be said at 95 %. 1 in 10 000 takes 29 956, 9 956 more without a misfeed. Allowed is 1 in 10 000: 29 956 indexes.",
  );
  expect(proofWords(input(0))).toContain("Nothing may be said of it yet.");
});
