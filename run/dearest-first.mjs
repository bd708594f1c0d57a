// The order of test files: those that take longest first, so that two workers end together. Vitest knows how long a file takes only from
// an earlier run; a fresh clone has none, and would go by size.
import { readFileSync } from "node:fs";
import { BaseSequencer } from "vitest/node";

/**
 * The patience of a file's tests, added up, in milliseconds: a test that may take long says so, as `}, 120_000)` or `timeout: 120_000`.
 * @param {string} text
 */
export function patienceOf(text) {
  const given = text.matchAll(/[})],\s+(\d+_000),?\s*\)|\btimeout: (\d+_000)/g);
  return [...given].reduce((sum, [, after, named]) => sum + Number((after ?? named ?? "").replace("_", "")), 0);
}

/**
 * Files in the order they came in, but those of more patience first.
 * @template T
 * @param {readonly T[]} files
 * @param {(file: T) => number} patience
 */
export function dearestFirst(files, patience) {
  const known = new Map(files.map((file) => [file, patience(file)]));
  return [...files].sort((a, b) => (known.get(b) ?? 0) - (known.get(a) ?? 0));
}

/** Whatever the project: a file of many minutes at the end of the run is one that all wait for. */
export default class DearestFirst extends BaseSequencer {
  /** @override @param {import("vitest/node").TestSpecification[]} files */
  async sort(files) {
    return dearestFirst(await super.sort(files), ({ moduleId }) => patienceOf(readFileSync(moduleId, "utf8")));
  }
}
