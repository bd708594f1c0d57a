// npm test: types and build, style, tests, validation. The last line is "N passed, N failed": every test counts, and
// each of the other three counts as one. What failed is told again before it. Arguments go to Vitest.
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { root, runNode, say, setUp } from "./setup.mjs";
import { failures, tally } from "./tally.mjs";

function testAll() {
  if (!setUp()) return { passed: 0, failed: 1 };
  say("Checking style...");
  const style = runNode("node_modules/@biomejs/biome/bin/biome", "check");
  const tests = runTests(process.argv.slice(2));
  say("Comparing with published figures...");
  const validation = runNode("validation/dist/main.js", "--failed");
  for (const failure of tests.failures) say(`\n${failure}`);
  const others = [0, style, validation];
  return {
    passed: tests.passed + others.filter((code) => code === 0).length,
    failed: tests.failed + others.filter((code) => code !== 0).length,
  };
}

/** @param {string[]} args */
function runTests(args) {
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-tests-"));
  const file = join(folder, "report.json");
  try {
    const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${file}`];
    const exitCode = runNode("node_modules/vitest/vitest.mjs", "run", ...reporters, ...args);
    const report = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : undefined;
    return { ...tally(report, exitCode), failures: failures(report, root) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const { passed, failed } = testAll();
process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exitCode = failed ? 1 : 0;
