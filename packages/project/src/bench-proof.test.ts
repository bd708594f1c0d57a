import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { clean, deviates, oneCell } from "./bench.fixture.ts";
import { isRefused } from "./bench.ts";
import { believedOf } from "./bench-belief.ts";
import { benchResults } from "./bench-evidence.ts";
import { type ProofAsked, proofOf, sayProgress, saySequential, statementsOf } from "./bench-proof.ts";
import { weighedBelief } from "./taken-trials.ts";

const proof = (files: Readonly<Record<string, string>>, more: Partial<ProofAsked> = {}, unit = "dunlin") => {
  const { project } = oneCell(files);
  const results = benchResults(project, project.trials.values(), project.ledger, deviates);
  return finished(proofOf({ project }, unit, { results, ...more }));
};
const counted = { "bench/T-02.yaml": clean };

describe("what counted cycles may promise", () => {
  test("is said three ways, each rounded down to 1, 2 or 5, with how far it is", () => {
    const found = proof(counted);
    if (!found || isRefused(found)) throw new Error(found?.why);
    // Six thousand cycles without a failure: 3/6000 at 95 % is 1 in 2003, said as 1 in 2000. [derived]
    expect(statementsOf(found).map((s) => s.oneIn)).toEqual([2000, expect.any(Number), undefined]);
    expect(statementsOf(found)[1].oneIn!).toBeLessThan(2000);
    expect(statementsOf(found)[0].says).toBe("by test alone, were all units alike");
    expect(found.promised.sentence).toContain("were all units alike");
    // ln(0.05)/ln(1 - 1e-4) = 29 955.8. [derived]
    expect(sayProgress(found)).toContain("6 000 of 29 956 cycles");
    expect(saySequential(found)).toContain("1 in 10 000 good against 1 in 1 000 bad");
  });
  test("with the model names its rate and its tape, where it gives one", () => {
    const found = proof(counted);
    if (!found || isRefused(found)) throw new Error(found?.why);
    const withModel = { ...found.promised, withModel: { rate: 1e-5, oneIn: 100_000 } };
    expect(statementsOf({ ...found, promised: withModel, model: { rate: 2e-5, tape: "radio-44" } })[2]).toMatchObject({
      says: "with the model (1 in 50 000, radio-44)",
      oneIn: 100_000,
    });
    expect(statementsOf({ ...found, promised: withModel, model: undefined })[2].oneIn).toBeUndefined();
  });
  test("rests on nothing that is kept apart", () => {
    const ledger = "format: 1\nledger:\n  - {apart: T-02, reason: the reels were damp}\n";
    expect(proof({ ...counted, "ledger.yaml": ledger })).toBeUndefined();
  });
  test("is nothing of a unit whose cycles nobody counted", () => {
    expect(proof(counted, {}, "plover")).toBeUndefined();
  });
  test.each([
    [{ good: 0.001 }, "--good and --bad go together."],
    [{ good: 0.01, bad: 0.001 }, "The good rate 0.01 is not below the bad one 0.001."],
  ])("with rates %o is refused", (rates, why) => {
    expect(proof(counted, rates)).toEqual({ why });
  });
  test("does not count a trial twice that is taken into belief: the model leans on what is believed without it", () => {
    const ledger = "format: 1\nledger:\n  - {taken: T-02, date: 2026-03-02}\n";
    const leaning = (files: Readonly<Record<string, string>>) => {
      const weighed = weighedBelief(oneCell(files).project, undefined, deviates);
      const { weights: base, byKnown } = weighed;
      const found = proof(files, { believed: believedOf({ deviates, base, weighed, byKnown }) });
      if (!found || isRefused(found)) throw new Error(found?.why);
      return { base, model: found.model };
    };
    const [waits, taken] = [leaning(counted), leaning({ ...counted, "ledger.yaml": ledger })];
    expect(taken.base).not.toEqual(waits.base);
    expect(taken.model).toBeDefined();
    expect(taken.model).toEqual(waits.model);
  });
});
