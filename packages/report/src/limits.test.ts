import { expect, test } from "vitest";
import { limitsOf } from "./limits.ts";
import { example, fewWanted, inputOf, judgedAsWritten } from "./report.fixture.ts";
import type { Judged } from "./report-input.ts";
import { unitParts } from "./unit-part.ts";

const judged = judgedAsWritten(example, fewWanted);
const limits = (of: Judged): string => limitsOf(unitParts(inputOf(example, of))[0]!).join("\n");
/** The same results with something changed in every finding. */
const changed = (change: (f: Judged["units"][number]["tapes"][number]["findings"][number]) => object): Judged => ({
  ...judged,
  units: judged.units.map((u) => ({
    ...u,
    tapes: u.tapes.map((t) => ({ ...t, findings: t.findings.map((f) => ({ ...f, ...change(f) })) })),
  })),
});

test("it says that only tests promise, before all else", () => {
  expect(limits(judged)).toMatch(/^A tape that feeds passes the checks on this page, no more\./);
});
test("stations that no check looks at are named", () => {
  const noNip = {
    ...judged,
    units: judged.units.map((u) => ({
      ...u,
      tapes: u.tapes.map((t) => ({ ...t, findings: t.findings.filter((f) => f.station !== 7) })),
    })),
  };
  expect(limits(noNip)).toMatch(/No check looks yet at: .*nip/);
  expect(limits(judged)).not.toMatch(/No check looks yet at: .*nip/);
});
test("a check without an answer on every tape is named, one with an answer somewhere is not", () => {
  expect(limits(judged)).toMatch(/no such member: .*bend/);
  expect(limits(judged)).not.toMatch(/no such member: .*mismatch/);
});
test("checks outside range, contradicted, of judgement, and first-order margins are told where there are any", () => {
  const outside = limits(changed((f) => (f.check === "film.pull" ? { status: "outside range" } : {})));
  expect(outside).toMatch(/outside the range .*: pull\./);
  const against = limits(changed((f) => (f.check === "film.pull" ? { contradicted: true } : {})));
  expect(against).toMatch(/Contradicted by the record .*: pull\./);
  expect(limits(judged)).not.toMatch(/outside the range|Contradicted|first order/);
  expect(limits(changed(() => ({ marginBy: "first order" })))).toMatch(/Margins marked ~ are first order/);
  expect(limits(judged)).toMatch(/bound that is a judgement: .*mismatch/);
});
test("widths that are drawn but judged on no tape are named", () => {
  expect(limits(judged)).toContain("Drawn, but judged on no tape: 12, 16 and 32 mm.");
});
