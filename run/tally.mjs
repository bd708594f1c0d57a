import { relative } from "node:path";
import { stripVTControlCharacters } from "node:util";

/**
 * Passed and failed tests in a Vitest JSON report. A file that failed without a failed test of its own, because it did
 * not load or its set-up broke, counts as one failed; so does a run that went wrong and left no trace in the report.
 * @typedef {{ status: string, fullName?: string, failureMessages?: string[] }} TestResult
 * @typedef {{ status: string, name?: string, message?: string, assertionResults: TestResult[] }} FileResult
 * @param {{ testResults: FileResult[] } | undefined} report undefined when none was written
 * @param {number} exitCode of the run
 */
export function tally(report, exitCode) {
  let passed = 0;
  let failed = 0;
  for (const file of report?.testResults ?? []) {
    const failedHere = file.assertionResults.filter((result) => result.status === "failed").length;
    passed += file.assertionResults.filter((result) => result.status === "passed").length;
    failed += failedHere || (file.status === "failed" ? 1 : 0);
  }
  if (exitCode !== 0 && failed === 0) failed = 1;
  return { passed, failed };
}

/**
 * What failed, a paragraph each: file, test, the first lines of what it said. A log that is cut keeps its end.
 * @param {{ testResults: FileResult[] } | undefined} report
 * @param {string} root to which files are named
 */
export function failures(report, root) {
  return (report?.testResults ?? []).flatMap(({ status, name = "", message, assertionResults }) => {
    const file = relative(root, name);
    const failed = assertionResults.filter((result) => result.status === "failed");
    if (failed.length === 0) return status === "failed" ? [`${file}\n${opening(message)}`] : [];
    return failed.map(
      ({ fullName, failureMessages }) => `${file}: ${fullName}\n${opening(failureMessages?.join("\n"))}`,
    );
  });
}

const opening = (said = "") => {
  const lines = stripVTControlCharacters(said).split("\n");
  return lines
    .filter((line) => !/^\s+at .*node_modules/.test(line))
    .slice(0, 12)
    .map((line) => `  ${line.slice(0, 200)}`)
    .join("\n");
};
