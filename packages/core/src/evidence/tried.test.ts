import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { beliefColumn, beliefDraws, valueAt } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { takenIn } from "./taken.ts";
import { foretold, triedEvidence } from "./tried.ts";

const deviates = new Deviates(5);
const even = alike(beliefDraws);
const scene = plainScene();
const force = number("u/force", "1..2 guess");
const strength = number("u/strength", "1.6 sd 0.1");
const pulled = closed("F", { F: force });
const holds = check("test.holds", { value: closed("R", { R: strength }), atLeast: pulled });
const values = Float64Array.from(beliefColumn(deviates, force), (z) => valueAt(force, z));
const meanOf = (w: Float64Array): number => values.reduce((sum, v, k) => sum + v * w[k]!, 0);

describe("pieces tried for a check", () => {
  // strength N(1.6, 0.1) against a force that is one number: Phi((1.6 - F)/0.1). [derived]
  test("hold with the chance that scatter gives, so 10 that held weigh draws by its tenth power", () => {
    const { log } = triedEvidence(
      { trial: "T", scene, check: holds, outcome: { kind: "pieces", failed: 0, run: 10, error: 0 } },
      deviates,
    );
    for (const k of [3, 77, 500]) {
      const p = phi((1.6 - values[k]!) / 0.1);
      // Index scatter is none here, so the gap as written is the gap; its sd is by first differences.
      expect(log[k]!).toBeCloseTo(Math.max(-1e9, 10 * Math.log(p)), 3);
    }
  });
  test("that all held lower the belief in a force that breaks them", () => {
    const one = takenIn(even, [
      triedEvidence(
        { trial: "T", scene, check: holds, outcome: { kind: "pieces", failed: 0, run: 6, error: 0 } },
        deviates,
      ),
    ]);
    expect(one.standings[0]!.state).toBe("taken");
    expect(meanOf(one.weights)).toBeLessThan(meanOf(even));
  });
  test("of which most failed where nearly all of belief holds contradict the check", () => {
    const sure = check("test.sure", { value: closed("R", { R: number("u/big", "9 sd 0.1") }), atLeast: pulled });
    const { standings } = takenIn(even, [
      triedEvidence(
        { trial: "T", scene, check: sure, outcome: { kind: "pieces", failed: 5, run: 6, error: 0 } },
        deviates,
      ),
    ]);
    expect(standings[0]).toMatchObject({ state: "contradicts", blames: "the model of test.sure" });
  });
  test("whose trial has an error of its own leave more belief in a force that breaks them", () => {
    const asOf = (error: number) =>
      takenIn(even, [
        triedEvidence(
          { trial: "T", scene, check: holds, outcome: { kind: "pieces", failed: 0, run: 6, error } },
          deviates,
        ),
      ]);
    const tooStrong = (w: Float64Array): number => values.reduce((sum, v, k) => sum + (v > 1.65 ? w[k]! : 0), 0);
    expect(tooStrong(asOf(0.5).weights)).toBeGreaterThan(tooStrong(asOf(0).weights));
  });
  test("must be whole numbers", () => {
    expect(() =>
      triedEvidence(
        { trial: "T", scene, check: holds, outcome: { kind: "pieces", failed: 3, run: 2, error: 0 } },
        deviates,
      ),
    ).toThrow("no greater");
  });
});

describe("a reading of a check's value", () => {
  const value = closed("F*c", { F: force, c: number("u/c", "2 sd 0.1") });
  const reads = check("test.reads", { value, atMost: closed("L", { L: number("u/limit", "5") }) });
  // d(F c)/dc sd = F . 0.1, over F c: 5 %. [derived]
  test("scatters by 5 % where one factor does", () => {
    expect(foretold(scene, reads, deviates).share).toBeCloseTo(0.05, 9);
  });
  test("moves belief to what gives it", () => {
    const { weights, standings } = takenIn(even, [
      triedEvidence(
        { trial: "T", scene, check: reads, outcome: { kind: "value", readings: [3.2, 3.4, 3.3], error: 0.1 } },
        deviates,
      ),
    ]);
    expect(standings[0]!.state).toBe("taken");
    expect(meanOf(weights)).toBeCloseTo(1.65, 1);
  });
  test("that no value of the unknowns gives contradicts the model, and nothing is moved", () => {
    const { weights, standings } = takenIn(even, [
      triedEvidence(
        { trial: "T", scene, check: reads, outcome: { kind: "value", readings: [9, 9.1, 8.9], error: 0.1 } },
        deviates,
      ),
    ]);
    expect(standings[0]).toMatchObject({ state: "contradicts", blames: "the model of test.reads" });
    expect(weights).toEqual(even);
  });
  test("that is very sharp but lies where belief does contradicts nothing", () => {
    const { standings, blunt } = takenIn(even, [
      triedEvidence(
        {
          trial: "T",
          scene,
          check: check("test.sharp", {
            value: closed("F", { F: force }),
            atMost: closed("L", { L: number("u/limit", "5") }),
          }),
          outcome: { kind: "value", readings: [1.5], error: 0.002 },
        },
        deviates,
      ),
    ]);
    expect(standings[0]!.state).toBe("taken");
    expect(blunt).toBeLessThan(1);
  });
  test("without any error is refused: nothing would say how far it may differ", () => {
    expect(() =>
      triedEvidence(
        {
          trial: "T",
          scene,
          check: check("test.bare", {
            value: closed("F", { F: force }),
            atMost: closed("L", { L: number("u/limit", "5") }),
          }),
          outcome: { kind: "value", readings: [1.5], error: 0 },
        },
        deviates,
      ),
    ).toThrow("how far they may differ");
  });
});
