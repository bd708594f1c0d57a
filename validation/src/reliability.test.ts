import { expect, test } from "vitest";
import { reliabilityTable, tried } from "./reliability.ts";
import { reliabilitySet } from "./reliability-set.ts";

test.each(reliabilitySet.filter((p) => !p.excused).map((p) => [p.id, p] as const))(
  "%s is not off by more than a factor of 2 without a word, over three seeds",
  (_, problem) => {
    const t = tried(problem, 3);
    expect(t.silent).toBe(0);
    expect(t.mean).toBeGreaterThan(0.7);
    expect(t.mean).toBeLessThan(1.4);
  },
);
test("the problems that may be off are the two named beforehand", () =>
  expect(reliabilitySet.filter((p) => p.excused).map((p) => p.id)).toEqual(["rel.rp110", "rel.rp111"]));
test("the table has a line a problem, and says at the end whether any is off without a word", () => {
  const lines: string[] = [];
  expect(reliabilityTable((text) => lines.push(text), 1)).toBe(0);
  expect(lines).toHaveLength(1 + reliabilitySet.length + 2);
  expect(lines.at(-2)).toBe("none is off by more than a factor of 2 without saying so");
});
