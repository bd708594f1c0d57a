import { expect, test } from "vitest";
import { failures, tally } from "./tally.mjs";

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
test("what failed is told by file and test, and a file that does not load by its own words", () => {
  const report = {
    testResults: [
      file("passed", "passed"),
      { status: "failed", name: "/r/b.test.ts", message: "no such module", assertionResults: [] },
      {
        status: "failed",
        name: "/r/a/c.test.ts",
        assertionResults: [
          {
            status: "failed",
            fullName: "adds up",
            failureMessages: [
              "\u001b[31mfound 3\u001b[39m\n    at f (/r/a/c.ts:1:2)\n    at g (/r/node_modules/x.js:1:2)",
            ],
          },
        ],
      },
    ],
  };
  expect(failures(report, "/r")).toEqual([
    "b.test.ts\n  no such module",
    "a/c.test.ts: adds up\n  found 3\n      at f (/r/a/c.ts:1:2)",
  ]);
});
