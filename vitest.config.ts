import { availableParallelism } from "node:os";
import { defaultClientConditions, defaultServerConditions } from "vite";
import { defineConfig } from "vitest/config";

// Tests run the sources, not dist: the "source" condition of each package's exports comes first.
export default defineConfig({
  resolve: { conditions: ["source", ...defaultClientConditions] },
  ssr: { resolve: { conditions: ["source", ...defaultServerConditions] } },
  test: {
    pool: "forks",
    maxWorkers: Math.max(2, availableParallelism() - 1),
    testTimeout: 90_000,
    projects: [
      // What is pure shares its modules from file to file: reading them anew for each would take as long as the tests.
      {
        extends: true,
        test: {
          name: "pure",
          isolate: false,
          include: ["packages/{core,project,drawing}/src/**/*.test.ts"],
        },
      },
      {
        extends: true,
        test: {
          name: "whole",
          include: [
            "packages/{cli,report,web}/src/**/*.test.ts",
            "validation/src/**/*.test.ts",
            "speed/src/**/*.test.ts",
            "run/**/*.test.mjs",
          ],
        },
      },
    ],
  },
});
