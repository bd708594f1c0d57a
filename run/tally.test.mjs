import { expect, test } from "vitest";
import { tally } from "./tally.mjs";

/** @param {string} status @param {string[]} tests */
const file = (status, ...tests) => ({ status, assertionResults: tests.map((result) => ({ status: result })) });

test("skipped tests are neither passed nor failed", () => {
  const report = { testResults: [file("passed", "passed", "skipped", "pending", "todo")] };
  expect(tally(report, 0)).toEqual({ passed: 1, failed: 0 });
});
test("a file that does not load is one failure", () => {
  expect(tally({ testResults: [file("failed"), file("passed", "passed")] }, 1)).toEqual({ passed: 1, failed: 1 });
});
test("a file with failed tests counts those tests alone", () => {
  expect(tally({ testResults: [file("failed", "failed", "failed", "passed")] }, 1)).toEqual({ passed: 1, failed: 2 });
});
test("a run that goes wrong outside any test is one failure", () => {
  expect(tally({ testResults: [file("passed", "passed")] }, 1)).toEqual({ passed: 1, failed: 1 });
  expect(tally(undefined, 1)).toEqual({ passed: 0, failed: 1 });
});
