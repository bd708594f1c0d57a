import { expect, test } from "vitest";
import type { DecisiveFinding, Finding, TapeResult } from "./finding.ts";
import { firstStops, questionsOf } from "./questions.ts";

const decisive = (address: string, shareIfMeasured: number): DecisiveFinding => ({
  address,
  symbol: "x",
  tipping: 1,
  guess: { low: 0, high: 2 },
  unit: "1",
  shownIn: "",
  shareIfMeasured,
});
const row = (
  tape: string,
  verdict: TapeResult["verdict"],
  more: Partial<TapeResult> = {},
  asks?: DecisiveFinding,
): TapeResult => {
  const share = verdict === "depends" ? 0.5 : verdict === "stops" ? 0 : 1;
  const finding = { check: "nip.pulls", verdict, ...(asks ? { decisive: asks } : {}) } as unknown as Finding;
  const first = verdict === "feeds" ? [] : ["nip.pulls"];
  const alone = { shareAlone: share, verdictAlone: verdict };
  return { unit: "u", tape, W: 12, verdict, share, ...alone, first, findings: [finding], ...more };
};

test("the unknown on which most tapes hang is asked first", () => {
  const rows = [
    row("a", "depends", {}, decisive("u/one", 0.99)),
    row("b", "depends", {}, decisive("u/two", 0.6)),
    row("c", "depends", {}, decisive("u/two", 0.6)),
  ];
  expect(questionsOf(rows)).toEqual([
    { address: "u/two", tapes: ["b", "c"] },
    { address: "u/one", tapes: ["a"] },
  ]);
});
test("of two with as many tapes the one more likely to fail comes first", () => {
  const rows = [
    row("a", "depends", { share: 0.9 }, decisive("u/one", 0.99)),
    row("b", "depends", { share: 0.6 }, decisive("u/two", 0.99)),
  ];
  expect(questionsOf(rows).map((q) => q.address)).toEqual(["u/two", "u/one"]);
});
test("what stops or feeds asks nothing", () => {
  expect(questionsOf([row("a", "stops", {}, decisive("u/one", 0.9)), row("b", "feeds")])).toEqual([]);
});
test("the check that stops most tapes first leads", () => {
  const rows = [
    row("a", "stops", { first: ["groove.lips"] }),
    row("b", "stops"),
    row("c", "stops"),
    row("d", "depends"),
  ];
  expect(firstStops(rows)).toEqual([
    { check: "nip.pulls", tapes: ["b", "c"] },
    { check: "groove.lips", tapes: ["a"] },
  ]);
});
