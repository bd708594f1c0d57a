import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { benchOf, clean, deviates, even, oneCell, thickness } from "./bench.fixture.ts";
import type { Bench } from "./bench.ts";
import { isRefused } from "./bench.ts";
import { believedOf, benchBelief } from "./bench-belief.ts";
import { freezing, trialBegun, whyNotFreeze } from "./bench-freeze.ts";
import { applied } from "./edit.ts";

const wish = { unit: "dunlin", tape: "dpak-16", question: "tapes/dpak-16/T" };
const on = { date: "2026-03-01", version: "0.1.0" };
const believed = { deviates, weights: even.weights, contradicted: [], byKnown: even };
const begun = (bench: Bench, name: string, fields: Parameters<typeof trialBegun>[2] = wish) => {
  const found = trialBegun(bench, name, fields);
  if (isRefused(found)) throw new Error(found.why);
  return found;
};
const frozenOf = (bench: Bench, name: string, fields = wish) => {
  const found = freezing(bench, begun(bench, name, fields), believed, on);
  if (isRefused(found)) throw new Error(found.why);
  return found;
};
const after = (bench: Bench, { edits }: ReturnType<typeof frozenOf>): Bench => {
  const texts = new Map(bench.texts);
  for (const edit of edits) texts.set(edit.file, applied(edit, texts.get(edit.file) ?? ""));
  return benchOf(texts);
};

describe("a prediction before its trial", () => {
  const bench = oneCell();
  test("begins the trial's file and stands in the ledger, and both are read again", () => {
    const found = frozenOf(bench, "T-05");
    expect(found.edits.map((e) => e.file)).toEqual(["bench/T-05.yaml", "ledger.yaml"]);
    const { project } = after(bench, found);
    expect(project.trials.get("T-05")).toMatchObject(wish);
    expect(project.ledger.frozen).toMatchObject([{ id: "L-01", trial: "T-05", sha: bench.sha, date: on.date }]);
    // A guess of 0.2 to 0.4 mm whose ends hold 95 %: its middle is their geometric mean. [derived]
    const { predicted } = project.ledger.frozen[0]!;
    expect(predicted!.median / Math.sqrt(2e-4 * 4e-4)).toBeCloseTo(1, 1);
    expect(found.says.join(" ")).toContain("Foretold 0.28 mm, from 0.20 mm to 0.40 mm in 95 %.");
  });
  test("of a check foretells how often a piece fails", () => {
    const found = frozenOf(bench, "T-06", { ...wish, question: "entry.pockets" });
    expect(found.asks).toBe("check");
    expect(found.frozen.fails!.median).toBeGreaterThanOrEqual(found.frozen.fails!.low);
    expect(found.frozen.share).toBeGreaterThan(0);
    expect(found.frozen.share).toBeLessThan(1);
  });
  test("does not hear of results that wait", () => {
    const waiting = oneCell({ "bench/T-01.yaml": thickness });
    const belief = finished(benchBelief(waiting, { deviates, record: even }));
    const said = freezing(waiting, begun(waiting, "T-05"), believedOf(belief), on);
    expect(said).toMatchObject({ frozen: { predicted: frozenOf(bench, "T-05").frozen.predicted } });
  });
  test("is refused a second time, after the trial, and for what is no guess", () => {
    const again = after(bench, frozenOf(bench, "T-05"));
    expect(whyNotFreeze(again, again.project.trials.get("T-05")!, on.date)).toContain("frozen already, as L-01");
    const run = oneCell({ "bench/T-02.yaml": clean });
    expect(whyNotFreeze(run, run.project.trials.get("T-02")!, on.date)).toContain("holds 6 results already");
    const known = begun(bench, "T-07", { ...wish, question: "tapes/dpak-16/W" });
    expect(whyNotFreeze(bench, known.trial, on.date)).toMatch(/is no guess|no check of dunlin/);
    expect(whyNotFreeze(bench, known.trial, "2026-02-30")).toBe('"2026-02-30" is a day that is not.');
  });
});
describe("a trial that is begun", () => {
  test.each([
    ["../T", wish, "is no name for a trial"],
    ["T-05", { unit: "dunlin" }, "There is no trial T-05 yet. Say what it tries"],
    ["T-05", { ...wish, unit: "plover", tape: "radio-44" }, "no variant of plover for radio-44"],
    ["T-05", { ...wish, tape: "dpak-61" }, 'Did you mean "dpak-16"?'],
  ])("as %s with %o is refused with the way out", (name, fields, says) => {
    const found = trialBegun(oneCell(), name, fields);
    expect(isRefused(found) && found.why).toContain(says);
  });
});
