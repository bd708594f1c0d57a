import type { Frozen, Score } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { ledgerRows, recordTally, tallyInline } from "./record-tally.ts";

const record = (strokes: readonly boolean[]) => ({
  check: "nip.pulls",
  agreed: strokes.filter(Boolean).length,
  trials: strokes.length,
  strokes: strokes.map((agreed, i) => ({ trial: `T-0${i + 1}`, agreed })),
});
/** Invented. */
const frozen = (id: string, trial: string, more: Partial<Frozen> = {}): Frozen => ({
  id,
  trial,
  question: "plover/film.friction",
  unit: "plover",
  tape: "so20-24",
  predicted: { median: 0.25, low: 0.18, high: 0.35 },
  fails: undefined,
  share: 0.6,
  sha: "a".repeat(64),
  date: "2026-03-01",
  seed: 1,
  version: "0.1.0",
  key: new Map(),
  ...more,
});
const score = (id: string, trial: string, more: Partial<Score & { late: string }> = {}) => ({
  frozen: id,
  trial,
  question: "plover/film.friction",
  came: { kind: "value", value: 0.24, uncertainty: 0.01 } as const,
  inside: true,
  error: 0,
  validation: 0.1,
  log: true,
  chance: undefined,
  agreed: true,
  date: "2026-03-04",
  late: undefined,
  ...more,
});

test("one stroke a trial, in their order: up where it agreed, down where it missed", () => {
  const { svg, words } = recordTally(record([true, false, true]));
  const strokes = elementsOf(svg).filter((e) => e.name === "path" && e.attributes.class !== "faint");
  expect(strokes.map((s) => s.attributes.class)).toEqual(["outline", "fail-line", "outline"]);
  expect(words).toBe("agreed with 2 of 3 trials");
});
test("of many trials the last twenty are drawn, and the words count them all", () => {
  const { svg, words } = recordTally(record(Array.from({ length: 31 }, (_, i) => i > 0)));
  expect(elementsOf(svg).filter((e) => /outline|fail/.test(e.attributes.class ?? ""))).toHaveLength(20);
  expect(words).toBe("agreed with 30 of 31 trials");
});
test("a check that nobody tried has words and no strokes", () => {
  expect(recordTally(undefined)).toEqual({ svg: "", words: "no trial yet" });
  expect(tallyInline([])).toBe("");
});
test("where nobody knows the question's unit any more, it is read in the unit that it was written in", () => {
  const of = { ...frozen("L-01", "T-01", { predicted: { median: 2.8e-4, low: 2e-4, high: 4e-4 } }), shownIn: "mm" };
  const came = { kind: "value", value: 2.4e-4, uncertainty: 0 } as const;
  const rows = (shownIn: string | undefined) =>
    ledgerRows({ frozen: [of], scores: [score("L-01", "T-01", { came })], shownIn: () => shownIn })[0];
  expect(rows(undefined)).toMatchObject({ said: "0.200 to 0.400 mm", came: "0.240 mm" });
  expect(rows("")).toMatchObject({ said: "0.200 to 0.400 mm" });
  expect(rows("um")).toMatchObject({ said: "200 to 400 um", came: "240 um" });
});
test("the newest prediction stands first, and waits until it is scored", () => {
  const rows = ledgerRows({
    frozen: [frozen("L-01", "T-01"), frozen("L-02", "T-02")],
    scores: [score("L-01", "T-01")],
    shownIn: () => "",
  });
  expect(rows.map((r) => [r.id, r.standing, r.words])).toEqual([
    ["L-02", "waiting", "no result yet"],
    ["L-01", "agreed", "agreed"],
  ]);
  expect(rows[0]!.came).toBeUndefined();
});
// 1.96 standard uncertainties hold 95 %: 0.01 becomes 0.02. [derived]
test("what was said and what came out stand in the unit of the question", () => {
  const mm = frozen("L-01", "T-01", { predicted: { median: 0.28e-3, low: 0.202e-3, high: 0.396e-3 } });
  const came = { kind: "value", value: 0.253e-3, uncertainty: 0.0016e-3 } as const;
  const [row] = ledgerRows({ frozen: [mm], scores: [score("L-01", "T-01", { came })], shownIn: () => "mm" });
  expect(row).toMatchObject({ said: "0.202 to 0.396 mm", came: "0.253 ±0.0031 mm" });
});
test("pieces are told as pieces, what was foretold of them too", () => {
  const tried = frozen("L-01", "T-01", { question: "reel.jerks", fails: { median: 0.013, low: 0, high: 0.9 } });
  const came = { kind: "pieces", failed: 0, run: 12 } as const;
  const [row] = ledgerRows({ frozen: [tried], scores: [score("L-01", "T-01", { came })], shownIn: () => "N" });
  expect(row!.said).toMatch(/^1 % of pieces fail \(/);
  expect(row!.came).toBe("0 of 12 failed");
});
test("a prediction that came after its trial does not count as agreed", () => {
  const [row] = ledgerRows({
    frozen: [frozen("L-01", "T-01")],
    scores: [score("L-01", "T-01", { late: "L-01 is dated after the trial" })],
    shownIn: () => "",
  });
  expect(row).toMatchObject({ standing: "late", words: "too late", late: "L-01 is dated after the trial" });
});
test("taken and kept apart are told with their date and reason", () => {
  const input = {
    frozen: [frozen("L-01", "T-01"), frozen("L-02", "T-02"), frozen("L-03", "T-03")],
    scores: [],
    taken: new Map([
      ["T-01", "2026-03-05"],
      ["T-03", undefined],
    ]),
    apart: new Map([["T-02", "camera lost the edge"]]),
    shownIn: () => "",
  };
  expect(ledgerRows(input).map((r) => [r.taken, r.apart])).toEqual([
    ["taken", undefined],
    [undefined, "camera lost the edge"],
    ["taken 2026-03-05", undefined],
  ]);
});
