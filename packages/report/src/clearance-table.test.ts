import { expect, test } from "vitest";
import { clearanceTable } from "./clearance-table.ts";
import { elementsOf, example, inputOf, judgedAsWritten } from "./report.fixture.ts";
import { unitParts } from "./unit-part.ts";

const judged = judgedAsWritten(example, new Map([["plover", ["sensor-8"]]]));

test("a pair that is too near says so in words", () => {
  const [part] = unitParts(inputOf(example, judged));
  const near = {
    check: "clear.film",
    a: "film",
    b: "frame",
    gap: 0.2e-3,
    wanted: 0.5e-3,
    spot: { x: 0, y: 0, z: 0 },
    place: "at the nip",
    tape: "so20-24",
  } as const;
  const html = clearanceTable(part!, {
    pairs: [near, { ...near, a: "tape", b: "<b>", gap: 0.9e-3 }],
    without: [{ check: "clear.film", a: "a", b: "b", trouble: "no answer" }],
  });
  elementsOf(html);
  expect(html.match(/too near/g)).toHaveLength(1);
  expect(html).toContain("−0.30 mm too near");
  expect(html).toContain("a / b: no answer");
  expect(clearanceTable(part!, { pairs: [], without: [] })).toContain("No two things");
});
