import { describe, expect, test } from "vitest";
import { benchOf, clean, deviates, even, oneCell, thickness } from "./bench.fixture.ts";
import { type Bench, isRefused } from "./bench.ts";
import { freezing, trialBegun } from "./bench-freeze.ts";
import { recordsOf, sayScore, scoring } from "./bench-score.ts";
import { applied } from "./edit.ts";

/** Frozen on the first of March, with these results read afterwards. */
function frozenThen(name: string, question: string, file: string, date = "2026-03-01"): Bench {
  const bench = oneCell();
  const begun = trialBegun(bench, name, { unit: "dunlin", tape: "dpak-16", question });
  if (isRefused(begun)) throw new Error(begun.why);
  const found = freezing(
    bench,
    begun,
    { deviates, weights: even.weights, contradicted: [], byKnown: even },
    { date, version: "0.1.0" },
  );
  if (isRefused(found)) throw new Error(found.why);
  const texts = new Map(bench.texts);
  for (const edit of found.edits) texts.set(edit.file, applied(edit, texts.get(edit.file) ?? ""));
  return benchOf(texts.set(`bench/${name}.yaml`, file));
}
const scored = (bench: Bench) => scoring(bench, [...bench.project.trials.values()], "2026-03-06");
const after = (bench: Bench): Bench => {
  const { edit } = scored(bench);
  return benchOf(new Map(bench.texts).set("ledger.yaml", applied(edit!, bench.texts.get("ledger.yaml") ?? "")));
};

describe("a prediction held against its trial", () => {
  test("is scored once: what stands in the ledger already is not written again", () => {
    const bench = frozenThen("T-01", "tapes/dpak-16/T", thickness);
    const { lines } = scored(bench);
    expect(lines).toMatchObject([{ trial: "T-01", score: { agreed: true, inside: true }, changed: false }]);
    expect(sayScore(lines[0]!)).toMatch(/^T-01 {2}tapes\/dpak-16\/T: came out 0\.251 mm, inside what was foretold;/);
    expect(scored(after(bench)).edit).toBeUndefined();
  });
  test("counts in the record of its check; a measuring card tries none", () => {
    const tried = after(frozenThen("T-02", "entry.pockets", clean));
    expect([...recordsOf(tried.project.ledger).keys()]).toEqual(["entry.pockets"]);
    const read = after(frozenThen("T-01", "tapes/dpak-16/T", thickness));
    expect(recordsOf(read.project.ledger).size).toBe(0);
  });
  test("made after the trial is shown, and said not to count", () => {
    const bench = frozenThen("T-02", "entry.pockets", clean, "2026-03-09");
    expect(sayScore(scored(bench).lines[0]!)).toContain("It does not count: L-01 is dated 2026-03-09");
    expect(recordsOf(after(bench).project.ledger).size).toBe(0);
  });
});
test("a trial that nobody froze has what it rests on noted, so that a changed dimension retires it", () => {
  const bench = oneCell({ "bench/T-02.yaml": clean });
  expect(scored(bench).lines[0]!.why).toBe("nobody froze a prediction before it");
  expect(after(bench).project.ledger.keys.get("T-02")!.size).toBeGreaterThan(3);
});
