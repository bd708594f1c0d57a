import { describe, expect, test } from "vitest";
import { driveRows } from "./drive.ts";

describe("every figure on motors, worms, heat, supply and parts holds", () => {
  test.each(driveRows().map((r) => [r.id, r] as const))("%s", (_, r) => {
    expect(r.ok, `${r.got} for ${r.expected} ±${r.tolerance}`).toBe(true);
    expect(r.source).not.toMatch(/http|www\./);
  });
});
test("no two of them are called alike, and each is far enough from nothing to be wrong", () => {
  const rows = driveRows();
  expect(new Set(rows.map((r) => r.id)).size).toBe(rows.length);
  for (const r of rows) expect(r.tolerance, r.id).toBeLessThan(0.2 * Math.abs(r.expected));
});
