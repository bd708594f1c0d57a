import type { Finding, TapeResult } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { overlaid, quickPair } from "./protocol.ts";

const finding = (check: string, more: Partial<Finding> = {}): Finding => ({
  check,
  station: 1,
  severity: "S",
  verdict: "feeds",
  share: 1,
  shareAlone: 1,
  value: 2,
  unit: "m",
  bounds: { least: 1 },
  ratio: 2,
  margin: 3,
  marginBy: "drawn",
  letter: "d",
  more: 0,
  status: "established",
  because: `why ${check}`,
  beside: [],
  contradicted: false,
  allowanceError: 0,
  ...more,
});
const drawn: TapeResult = {
  unit: "u",
  tape: "t",
  W: 8,
  verdict: "feeds",
  share: 1,
  shareAlone: 1,
  verdictAlone: "feeds",
  first: [],
  findings: [finding("a"), finding("b"), finding("c")],
};
const moved: TapeResult = {
  ...drawn,
  verdict: "depends",
  share: 0.4,
  first: ["b"],
  findings: [
    finding("a"),
    finding("b", { verdict: "depends", share: 0.4, value: 1.1, because: "now b", corners: { best: 1, worst: -1 } }),
    finding("c", { share: 0.99, because: "now c" }),
  ],
};

describe("quick numbers on their way to the page", () => {
  test("hold the checks that rest on what is dragged, and the sentence of the one on screen", () => {
    const quick = quickPair(moved, new Set(["b", "c"]), "b");
    expect(quick.findings.map((f) => [f.check, f.because])).toEqual([
      ["b", "now b"],
      ["c", undefined],
    ]);
  });
  test("laid over what was drawn give what moved, with the sentences that were not said anew", () => {
    const shown = overlaid(drawn, quickPair(moved, new Set(["b", "c"]), "b"));
    expect(shown).toEqual({
      ...moved,
      findings: [drawn.findings[0], moved.findings[1], { ...moved.findings[2], because: "why c" }],
    });
    expect(drawn.findings[1]!.share).toBe(1);
  });
});
