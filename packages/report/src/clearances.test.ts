import { pairGaps } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { clearanceTable } from "./clearance-table.ts";
import { clearancesOf } from "./clearances.ts";
import { elementsOf, example, inputOf, judgedAsWritten, sceneIn } from "./report.fixture.ts";
import { unitParts } from "./unit-part.ts";

const wanted = new Map([["plover", ["sensor-8", "so20-24"]]]);
const judged = judgedAsWritten(example, wanted);
const scene = sceneIn(example);
const { pairs, without } = clearancesOf(judged.units[0]!, scene);

test("each pair stands once, on the tape that leaves it least room", () => {
  const all = ["sensor-8", "so20-24"].flatMap((tape) => pairGaps(scene("plover", tape)).map((p) => ({ ...p, tape })));
  const names = new Set(all.map((p) => `${p.check} ${p.a} / ${p.b}`));
  expect(pairs.length + without.length).toBe(names.size);
  for (const one of pairs) {
    const rooms = all.flatMap((p) => (!("trouble" in p) && `${p.a} / ${p.b}` === one.pair ? [p.gap - p.wanted] : []));
    expect(rooms.some((room) => Math.abs(room - (one.least - one.wanted)) < 1e-12)).toBe(true);
  }
});
test("the tightest pair leads", () => {
  const rooms = pairs.map((p) => p.least - p.wanted);
  expect(rooms.length).toBeGreaterThan(3);
  expect([...rooms].sort((a, b) => a - b)).toEqual(rooms);
});
test("a pair that is too near says so in words", () => {
  const [part] = unitParts(inputOf(example, judged));
  const near = { pair: "film / frame", least: 0.2e-3, wanted: 0.5e-3, where: "at the nip", tape: "so20-24" };
  const html = clearanceTable(part!, {
    pairs: [near, { ...near, pair: "tape / <b>", least: 0.9e-3 }],
    without: [{ pair: "a / b", trouble: "no answer" }],
  });
  elementsOf(html);
  expect(html.match(/too near/g)).toHaveLength(1);
  expect(html).toContain("−0.30 mm too near");
  expect(html).toContain("a / b: no answer");
  expect(clearanceTable(part!, { pairs: [], without: [] })).toContain("No two things");
});
