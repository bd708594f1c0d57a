import { checks, openQuestions, type TapeResult } from "@tapeworthy/core";
import type { Project } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { paintFor } from "./paint.ts";
import type { NextResult } from "./run-next.ts";
import { days, showNext } from "./show-next.ts";

const project = { name: "Curlew", givens: new Map() } as unknown as Project;
function result(share: number): NextResult {
  const check = checks.find((c) => c.id === "nip.pulls")!;
  const decisive = {
    address: "assume/film friction",
    symbol: "mu",
    tipping: 0.3,
    guess: { low: 0.18, high: 0.35 },
    unit: "1",
    shownIn: "",
    shareIfMeasured: 0.9,
  };
  const row = (tape: string, s: number) =>
    ({
      unit: "curlew",
      tape,
      W: 24,
      verdict: s > 0.95 ? "feeds" : "depends",
      share: s,
      first: s > 0.95 ? [] : [check.id],
      findings: [{ check: check.id, station: 7, severity: "S", verdict: "depends", share: s, decisive }],
    }) as unknown as TapeResult;
  const found = openQuestions([{ result: row("coil-12", share) }, { result: row("chip-8", 1) }]);
  const withPiece = (list: typeof found.ranked) => list.map((q) => ({ ...q, piece: null }));
  return {
    ...found,
    ranked: withPiece(found.ranked),
    open: withPiece(found.open),
    dropped: withPiece(found.dropped),
    seed: 1,
    units: ["curlew"],
    known: { weighed: false, effective: 1000, draws: 1000 },
  };
}
const said = (share: number) => showNext(result(share), project, paintFor({}), 100);

describe("what is said of the next question", () => {
  test("the verdict it changes, its chance with where that comes from, and the cheapest card with its minutes", () => {
    const text = said(0.7);
    expect(text).toContain("1 How does cover film rub on a printed edge or bar? assume/film friction");
    expect(text).toContain("  changes nip.pulls of curlew on coil-12 (fails in 30 %)");
    expect(text).toContain("it fails in 30 % of belief: the shares of its findings; guess 0.18 to 0.35, tips at 0.30");
    expect(text).toContain("by card film-friction, 25 minutes; or ");
  });
  test("what changing the design at once would cost less than going on", () => {
    expect(said(0.3)).toContain("going on untested would cost more than changing the design at once");
    expect(said(0.93)).not.toContain("going on untested");
  });
  test("pairs on which nothing is open are counted as settled", () => {
    expect(said(0.7)).toContain("1 wanted pair feeds and 0 stop whatever these turn out to be.");
  });
  test("a project in which nothing is open says so", () => {
    expect(said(1)).toContain("Nothing is open");
  });
});
test("days are said with two figures and a true minus", () => {
  expect([4.23, -0.4, 12.3, 0.04, -0.001].map(days)).toEqual(["4.2", "−0.4", "12", "0.04", "0.00"]);
});
