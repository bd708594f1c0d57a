import { availableParallelism } from "node:os";
import { defaultClientConditions, defaultServerConditions } from "vite";
import { defineConfig } from "vitest/config";
import DearestFirst from "./run/dearest-first.mjs";

/** Tests that drive a browser, among those that do not. */
const inBrowser = [
  "packages/report/src/browser.test.ts",
  "packages/web/src/bench/bench-states.test.ts",
  "packages/web/src/log/log-page.test.ts",
];
const pure = [
  "packages/{core,project,drawing,report}/src/**/*.test.ts",
  "packages/web/src/{bench,log,over,sheet,text}/**/*.test.ts",
];
/** Small ones in folders whose other tests are not pure. */
const small = [
  "packages/web/src/engine/{changed,gesture,http-transport,local-desk,merge,protocol,put,texts,views}.test.ts",
  "packages/cli/src/{first-unit,paint,progress,show-check,show-ladder}.test.ts",
  "validation/src/{cover,drive,fit,reliability}.test.ts",
];

// Tests run the sources, not dist: the "source" condition of each package's exports comes first.
export default defineConfig({
  resolve: { conditions: ["source", ...defaultClientConditions] },
  ssr: { resolve: { conditions: ["source", ...defaultServerConditions] } },
  test: {
    pool: "forks",
    maxWorkers: Math.max(2, availableParallelism() - 1),
    // What is waited for comes when the machine has time for it: only what never comes is a failure.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
    sequence: { sequencer: DearestFirst },
    projects: [
      // What is pure shares its modules from file to file: reading them anew for each would take as long as the tests. Files that take minutes are not
      // among them: these are dealt out to the workers beforehand, and one would wait for the other.
      {
        extends: true,
        test: {
          name: "pure",
          isolate: false,
          include: [...pure, ...small],
          exclude: inBrowser,
        },
      },
      {
        extends: true,
        test: {
          name: "whole",
          include: [
            "packages/cli/src/**/*.test.ts",
            "packages/web/src/*.test.ts",
            "packages/web/src/{ask,engine}/**/*.test.ts",
            ...inBrowser,
            "validation/src/**/*.test.ts",
            "speed/src/**/*.test.ts",
            "run/**/*.test.mjs",
          ],
          exclude: small,
        },
      },
    ],
  },
});
