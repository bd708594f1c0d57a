import type { DecisiveFinding, TapeResult } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { firstStops, questionsOf } from "./questions.ts";
import { example, judgedAsWritten } from "./report.fixture.ts";

const [plover] = judgedAsWritten(example, new Map([["plover", ["sensor-8"]]])).units;
const base = plover!.tapes[0]!;
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
): TapeResult => ({
  ...base,
  tape,
  verdict,
  share: verdict === "depends" ? 0.5 : verdict === "stops" ? 0 : 1,
  first: verdict === "feeds" ? [] : ["nip.pulls"],
  findings: base.findings.map(({ decisive: _, ...f }) =>
    f.check === "nip.pulls" ? { ...f, verdict, ...(asks ? { decisive: asks } : {}) } : f,
  ),
  ...more,
});

test("the unknown on which most tapes hang is asked first", () => {
  const rows = [
    row("a", "depends", {}, decisive("plover/one", 0.99)),
    row("b", "depends", {}, decisive("plover/two", 0.6)),
    row("c", "depends", {}, decisive("plover/two", 0.6)),
  ];
  expect(questionsOf(rows)).toEqual([
    { address: "plover/two", tapes: ["b", "c"] },
    { address: "plover/one", tapes: ["a"] },
  ]);
});
test("of two with as many tapes the one that gains most comes first", () => {
  const rows = [
    row("a", "depends", {}, decisive("plover/one", 0.6)),
    row("b", "depends", {}, decisive("plover/two", 0.99)),
  ];
  expect(questionsOf(rows).map((q) => q.address)).toEqual(["plover/two", "plover/one"]);
});
test("what stops or feeds asks nothing", () => {
  expect(questionsOf([row("a", "stops", {}, decisive("plover/one", 0.9)), row("b", "feeds")])).toEqual([]);
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
