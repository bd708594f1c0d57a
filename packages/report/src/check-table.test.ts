import { figures, showIn } from "@tapeworthy/core";
import { escaped, Shared } from "@tapeworthy/drawing";
import { expect, test } from "vitest";
import { boundWords, checkTables } from "./check-table.ts";
import { elementsOf, example, inputOf, judgedAsWritten } from "./report.fixture.ts";
import { unitParts } from "./unit-part.ts";

test("bounds are said with their unit; one that is without end is not said", () => {
  expect(boundWords({ bounds: { least: 0.19e-3, most: 0.8e-3 } }, "mm")).toBe("at least 0.19 mm, at most 0.80 mm");
  expect(boundWords({ bounds: { most: 0.019 } }, "%")).toBe("at most 1.9 %");
  expect(boundWords({ bounds: { most: Number.POSITIVE_INFINITY } }, "N")).toBe("");
});

const judged = judgedAsWritten(example, new Map([["plover", ["so20-24"]]]));
const [tape] = judged.units[0]!.tapes;
const input = inputOf(example, judged);
const html = checkTables(unitParts(input)[0]!, input, new Shared("shared"));
const rowOf = (check: string): string => {
  const from = html.indexOf(`id="check/plover/so20-24/${check}"`);
  return html.slice(from, html.indexOf("</tr>", from));
};

test("a check that applies has one row, one that does not is named with its reason", () => {
  elementsOf(html);
  expect(html.match(/<tr id="check\//g)).toHaveLength(tape!.findings.filter((f) => f.verdict !== "n/a").length);
  expect(html).toMatch(/Not applicable, which is no pass: .*entry\.bend \(the route has no bend\)/);
});
test("a row holds value, bounds, ratio, margin, letter, status and sentence", () => {
  const f = tape!.findings.find((one) => one.check === "film.mismatch")!;
  const row = rowOf("film.mismatch");
  for (const part of [
    `>${showIn("%", f.value!)}<`,
    `>at most ${showIn("%", f.bounds.most!)}<`,
    `>${figures(f.ratio!)}<`,
    "−6.0",
    ">g<",
    "+7",
    "judgement",
    escaped(f.because),
  ])
    expect([part, row.includes(part)]).toEqual([part, true]);
});
test("a check that never stops a tape says so, and what it holds is no verdict", () => {
  const row = rowOf("film.kern");
  expect(row).toContain("annoys");
  expect(row).not.toMatch(/>\s*(feeds|stops)\s*</);
});
test("a row leads to its finding where one is written, else to its cell", () => {
  expect(rowOf("film.mismatch")).toContain('href="#finding/plover/so20-24/film.mismatch"');
  expect(rowOf("groove.depth")).toContain('href="#cell/plover/so20-24/groove.depth"');
});
