/**
 * Passed and failed tests in a Vitest JSON report. A file that failed without a failed test of its own, because it did
 * not load or its set-up broke, counts as one failed; so does a run that went wrong and left no trace in the report.
 * @typedef {{ status: string, assertionResults: { status: string }[] }} FileResult
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
