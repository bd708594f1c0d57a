import type { Trial } from "@tapeworthy/project";
import { expect, test } from "vitest";
import { exampleFolder } from "./cli.fixture.ts";
import { readFolder } from "./folder.ts";
import { load } from "./load.ts";
import { paintFor } from "./paint.ts";
import type { CheckResult } from "./run-check.ts";
import { showCheck, showDecisive } from "./show-check.ts";

const decisive = {
  address: "a/b",
  symbol: "mu",
  tipping: 0.34,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 0.98,
};
test("the decisive unknown names its tipping value, its guess and what measuring would give", () => {
  expect(showDecisive(decisive)).toBe(
    "hangs on a/b: tips at 0.34 (guess 0.18 to 0.35); 98 % if it were measured at its median",
  );
});
test("an unknown that tips nothing alone says so", () => {
  expect(showDecisive({ ...decisive, tipping: null })).toBe(
    "hangs on a/b most, though on no number alone (guess 0.18 to 0.35); 98 % if it were measured at its median",
  );
});
test("a belief switch names its two words", () => {
  expect(showDecisive({ ...decisive, tipping: 1, words: ["free", "clamped"] })).toBe(
    "hangs on a/b: free or clamped; 98 % if it were known to be free",
  );
});
test("what trials wait for is said at the end, of units on the list alone; what contradicts is said with it", () => {
  const project = load(readFolder(exampleFolder));
  const trials = new Map<string, Trial>(project.trials);
  trials.set("T-09", { ...project.trials.get("T-01")!, name: "T-09", unit: "plover" });
  const standing = {
    chance: 0.3,
    effective: 600,
    blames: "the model of nip.slips",
    says: "taken in; its chance was 0.3",
  };
  const known = { of: 0, reproduced: 0, open: 0, contradicted: [], contradictedChecks: [], lines: [], weighed: false };
  const result: CheckResult = {
    seed: 1,
    units: [{ unit: "dunlin", name: "Dunlin", revision: "", tapes: [] }],
    known: {
      ...known,
      effective: 1000,
      taken: [
        { ...standing, trial: "T-04", state: "taken" },
        { ...standing, trial: "T-05", state: "contradicts", says: "the result contradicts the model of nip.slips" },
      ],
      retired: [{ trial: "T-06", says: "retired, for the design is another one: a/b was 1 mm, is 2 mm" }],
    },
    records: [],
    waiting: [
      { trial: "T-01", question: "tapes/dpak-16/T", into: "design", says: "20 readings not taken into the design" },
      { trial: "T-09", question: "tapes/dpak-16/T", into: "design", says: "20 readings not taken into the design" },
    ],
  };
  const text = showCheck(result, { ...project, trials }, paintFor({}), {
    width: 110,
  });
  expect(text.split("\n").slice(-5, -1)).toEqual([
    "Taken into belief: T-04.",
    "T-05 is taken, and the result contradicts the model of nip.slips.",
    "T-06 was taken and is retired, for the design is another one: a/b was 1 mm, is 2 mm.",
    "T-01 waits: 20 readings not taken into the design.",
  ]);
});
