import { describe, expect, test } from "vitest";
import type { Finding, TapeResult } from "./finding.ts";
import { flipsOf } from "./flips.ts";
import type { Verdict } from "./verdict.ts";

const shares = { feeds: 1, depends: 0.5, stops: 0, "n/a": null } as const;
const finding = (
  check: string,
  verdict: Verdict,
  severity: Finding["severity"] = "S",
  share: number | null = shares[verdict],
) => ({ check, verdict, severity, share }) as Finding;
const result = (
  tape: string,
  W: number,
  verdict: Verdict,
  findings: Finding[] = [],
  share: number | null = shares[verdict],
) => ({ unit: "u", tape, W, verdict, share, findings }) as unknown as TapeResult;
const sayings = (pairs: Parameters<typeof flipsOf>[0]) =>
  flipsOf(pairs).map(
    (f) => `${f.tape} ${f.check ?? "itself"} ${f.before.verdict}>${f.after.verdict}${f.worse ? " worse" : ""}`,
  );

describe("what a change moved", () => {
  test("is nothing where no verdict is another, though shares are", () => {
    expect(flipsOf([[result("t", 8, "depends", [], 0.4), result("t", 8, "depends", [], 0.6)]])).toEqual([]);
  });
  test("comes worst first: pairs before checks, the greater loss first, gains last, the least first", () => {
    expect(
      sayings([
        [result("a", 8, "stops"), result("a", 8, "feeds")],
        [result("b", 8, "stops"), result("b", 8, "depends")],
        [result("c", 12, "feeds", [finding("x", "feeds")]), result("c", 12, "depends", [finding("x", "stops")])],
        [result("d", 16, "feeds"), result("d", 16, "stops")],
      ]),
    ).toEqual([
      "d itself feeds>stops worse",
      "c itself feeds>depends worse",
      "c x feeds>stops worse",
      "b itself stops>depends",
      "a itself stops>feeds",
    ]);
  });
  test("puts hard checks before others, and of like losses the one that loses more of belief", () => {
    const pair = (tape: string, after: Finding[]) =>
      [
        result(
          tape,
          8,
          "feeds",
          after.map((f) => finding(f.check, "feeds", f.severity)),
        ),
        result(tape, 8, "feeds", after),
      ] as const;
    expect(
      sayings([
        pair("p", [finding("a", "stops", "A"), finding("b", "depends", "S", 0.7)]),
        pair("q", [finding("c", "depends", "S", 0.3)]),
      ]),
    ).toEqual(["q c feeds>depends worse", "p b feeds>depends worse", "p a feeds>stops worse"]);
  });
  test("of a check that came to apply is worse only where it does not hold", () => {
    const from = [finding("x", "n/a"), finding("y", "n/a")];
    const to = [finding("x", "stops"), finding("y", "feeds")];
    expect(sayings([[result("t", 8, "feeds", from), result("t", 8, "feeds", to)]])).toEqual([
      "t x n/a>stops worse",
      "t y n/a>feeds",
    ]);
    expect(sayings([[result("t", 8, "feeds", to), result("t", 8, "feeds", from)]])).toEqual([
      "t y feeds>n/a",
      "t x stops>n/a",
    ]);
  });
});
