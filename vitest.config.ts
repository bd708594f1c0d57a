import { availableParallelism } from "node:os";
import { defaultClientConditions, defaultServerConditions } from "vite";
import { defineConfig } from "vitest/config";

// Tests run the sources, not dist: the "source" condition of each package's exports comes first.
export default defineConfig({
  resolve: { conditions: ["source", ...defaultClientConditions] },
  ssr: { resolve: { conditions: ["source", ...defaultServerConditions] } },
  test: {
    include: [
      "packages/*/src/**/*.test.ts",
      "validation/src/**/*.test.ts",
      "speed/src/**/*.test.ts",
      "run/**/*.test.mjs",
    ],
    pool: "forks",
    maxWorkers: Math.max(2, availableParallelism() - 1),
    testTimeout: 90_000,
  },
});
