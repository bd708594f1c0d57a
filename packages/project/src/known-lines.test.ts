import type { KnownChances } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { knownLines } from "./known-lines.ts";
import type { KnownRecord } from "./project.ts";

const record = (result: KnownRecord["result"], run?: number): KnownRecord => ({
  unit: "u",
  tape: "t",
  result,
  reelsRun: run,
  reelsRefused: undefined,
  note: undefined,
});
const chances = (share: number, checks: readonly (readonly [string, number])[]): KnownChances => ({
  share,
  checks: checks.map(([id, one]) => ({ id, share: one, chance: new Float64Array(1) })),
  values: {},
});
test("a record stands beside what the checks say without it, with the checks that stop what runs", () => {
  const [runs, fails] = knownLines(
    [record("runs", 40), record("fails")],
    [
      chances(0.02, [
        ["a", 0.02],
        ["b", 0.6],
      ]),
      chances(0.4, [["a", 0.01]]),
    ],
  );
  expect(runs).toMatchObject({ verdict: "stops", standing: "contradicted", checks: ["a"], reelsRun: 40 });
  expect(fails).toMatchObject({ verdict: "depends", standing: "open", checks: [], reelsRun: null });
});
