import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { version } from "./version.ts";

test("the page freezes predictions under the version of its package", () => {
  const text = readFileSync(new URL("../package.json", import.meta.url), "utf8");
  expect(version).toBe((JSON.parse(text) as { version: string }).version);
});
