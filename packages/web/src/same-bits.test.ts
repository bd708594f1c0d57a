import { createHash } from "node:crypto";
import { resolve } from "node:path";
import { build, defaultClientConditions } from "vite";
import { describe, expect, test } from "vitest";
import { isWanted, launched } from "./browser.fixture.ts";
import { example } from "./engine/project.fixture.ts";
import { sure } from "./same-bits.fixture.ts";

const hash = (text: string): string => createHash("sha256").update(text).digest("hex");

describe.runIf(isWanted)("error at the pick and misfeeds, with the same seed", () => {
  test("are the same bits in Node and in a browser", async () => {
    const built = await build({
      configFile: false,
      logLevel: "error",
      resolve: { conditions: ["source", ...defaultClientConditions] },
      build: {
        write: false,
        minify: false,
        lib: { entry: resolve(import.meta.dirname, "same-bits.fixture.ts"), formats: ["iife"], name: "bits" },
      },
    });
    const [{ output }] = built as unknown as [{ readonly output: readonly [{ readonly code: string }] }];
    const browser = await launched();
    try {
      const page = await browser.newPage();
      const texts = [...example];
      const there = await page.evaluate<string>(`${output[0].code}; bits.sure(${JSON.stringify(texts)})`);
      const here = sure(texts);
      expect(hash(there)).toBe(hash(here));
      expect(JSON.parse(here).accuracy.how).toBe("drawn");
    } finally {
      await browser.close();
    }
  }, 540_000);
});
