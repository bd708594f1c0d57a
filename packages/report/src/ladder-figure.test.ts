import { Shared } from "@tapeworthy/drawing";
import { expect, test } from "vitest";
import { ladderHtml } from "./ladder-figure.ts";
import { climbed, elementsOf, example, few, inputOf, judgedAsWritten } from "./report.fixture.ts";
import { reportHtml } from "./report.ts";
import { unitParts } from "./unit-part.ts";

const [part] = unitParts(inputOf(example, judgedAsWritten(example, new Map([["plover", ["so20-24"]]]))));

test("the ladder is drawn, said in a sentence, and every check that turns has its row", () => {
  const html = ladderHtml(part!, climbed, "u1", new Shared("shared"));
  elementsOf(html);
  expect(html).toContain("<b>Plover feeds to 13.4, depends above</b>, at 8 to 24 mm");
  expect(html).toContain('role="img"');
  expect(html.match(/<tr><th scope="row">/g)).toHaveLength(1);
  expect(html).toContain("depends between 12 and 16 (about 13.4)");
});
test("where nothing turns that is told instead of a table", () => {
  const calm = { ...climbed, lines: climbed.lines.slice(1) };
  expect(ladderHtml(part!, calm, "u1", new Shared("shared"))).toContain("No hard check turns");
});
test("a page without ladders has no section for them, one with them has it for their units", () => {
  expect(reportHtml(few())).not.toContain('id="ladder/plover"');
  const page = reportHtml(few({ ladders: [climbed] }));
  expect(page).toContain('id="ladder/plover"');
  expect(page).not.toContain('id="ladder/dunlin"');
});
