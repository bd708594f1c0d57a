import type { CuresWithEffects } from "@tapeworthy/core";
import { Shared } from "@tapeworthy/drawing";
import { expect, test } from "vitest";
import { cureTables } from "./cure-table.ts";
import { elementsOf, example, inputOf, judgedAsWritten } from "./report.fixture.ts";
import { unitParts } from "./unit-part.ts";

const judged = judgedAsWritten(example, new Map([["plover", ["so20-24"]]]));
const lever = {
  check: "film.mismatch",
  address: "plover/film.guides.shoulder.through.1",
  symbol: "x",
  members: [{ address: "plover/film.guides.shoulder.through.1", text: "peel - 61 mm", written: "peel - 82.2 mm" }],
  unit: "m",
  shownIn: "mm",
  from: -0.07,
  to: -0.0912,
  by: -0.0212,
  share: 0.97,
};
const effect = (tape: string, before: "feeds" | "stops", after: "feeds" | "stops") => ({
  tape,
  W: 24,
  before: { verdict: before, share: before === "feeds" ? 1 : 0 },
  after: { verdict: after, share: after === "feeds" ? 1 : 0 },
  checks: [{ check: "nip.pulls", severity: "S" as const, before, after }],
});
const tables = (cures: CuresWithEffects): string => {
  const of = {
    ...judged,
    units: judged.units.map((u) => ({ ...u, tapes: u.tapes.map((t) => ({ ...t, cures: [cures] })) })),
  };
  const html = cureTables(unitParts(inputOf(example, of))[0]!, new Shared("shared"));
  elementsOf(html);
  return html;
};

test("a cure shows lever, from, to, and what else changes", () => {
  const html = tables({
    check: "film.mismatch",
    levers: 3,
    cures: [{ ...lever, effects: [effect("so8-12", "feeds", "stops")] }],
  });
  for (const part of [
    "shoulder, along the travel",
    "−70 mm",
    "−91.2 mm",
    "97 %",
    "peel - 82.2 mm",
    "now peel - 61 mm",
    "<b>so8-12</b>",
    "pulls feeds to stops",
  ])
    expect([part, html.includes(part)]).toEqual([part, true]);
});
test("tapes on which the same happens stand together, and a verdict that turns comes before one that stays", () => {
  const effects = [effect("a", "stops", "stops"), effect("b", "feeds", "stops"), effect("c", "feeds", "stops")];
  const html = tables({ check: "film.mismatch", levers: 3, cures: [{ ...lever, effects }] });
  expect(html).toContain("<b>b and c</b>");
  expect(html.indexOf("<b>b and c</b>")).toBeLessThan(html.indexOf("a: stops as before"));
});
test("where no lever does it, the one that comes nearest is told", () => {
  const html = tables({ check: "film.mismatch", levers: 3, cures: [], nearest: { ...lever, share: 0.3 } });
  expect(html).toContain("No single number of the file cures it.");
  expect(html).toContain("at −91.2 mm it holds in 30 % of belief");
});
test("where the check rests on nothing that could be moved, that is told", () => {
  expect(tables({ check: "film.mismatch", levers: 0, cures: [] })).toContain(
    "rests on no number of the unit's file".replace("'", "&#39;"),
  );
});
test("without cures asked for there is no table", () => {
  expect(cureTables(unitParts(inputOf(example, judged))[0]!, new Shared("shared"))).toBe("");
});
test("tapes that the same cures cure stand over one table", () => {
  const two = judgedAsWritten(example, new Map([["plover", ["so20-24", "carrier-24"]]]));
  const cures: CuresWithEffects[] = [{ check: "film.mismatch", levers: 3, cures: [{ ...lever, effects: [] }] }];
  const of = { ...two, units: two.units.map((u) => ({ ...u, tapes: u.tapes.map((t) => ({ ...t, cures })) })) };
  const html = cureTables(unitParts(inputOf(example, of))[0]!, new Shared("shared"));
  expect(html.match(/<table/g)).toHaveLength(1);
  expect(html).toContain("Cures of film.mismatch on so20-24 and carrier-24");
});
