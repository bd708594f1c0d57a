import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { power } from "./power.ts";

describe("a power", () => {
  test("is the language's own to some units in the last place", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        (x, y) => {
          expect(Math.abs(power(x, y) / x ** y - 1)).toBeLessThan(3e-14);
        },
      ),
    );
    fc.assert(
      fc.property(fc.double({ min: -100, max: 100, noNaN: true }), fc.integer({ min: -9, max: 9 }), (x, y) => {
        fc.pre(Math.abs(x) > 1e-9);
        expect(Math.abs(power(x, y) / x ** y - 1)).toBeLessThan(1e-14);
      }),
    );
  });
  test("of nought, of one, of what is negative, without end, and no number at all", () => {
    expect([power(0, 0), power(0, 3), power(0, 0.3), power(5, 0), power(1, 0.7)]).toEqual([1, 0, 0, 1, 1]);
    expect([power(0, -1), power(0, -0.5), power(Number.POSITIVE_INFINITY, 0.3)]).toEqual([
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
    ]);
    expect(power(-8, 3)).toBe(-512);
    expect([power(-8, 1 / 3), power(Number.NaN, 2), power(2, Number.NaN)]).toEqual([
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ]);
  });
  test("is what core uses wherever the language's own might differ: all but squares, and powers of two", () => {
    const root = new URL("../", import.meta.url).pathname;
    const found = readdirSync(root, { recursive: true, encoding: "utf8" })
      .filter((path) => /^[^.]+\.ts$/.test(path))
      .flatMap((path) =>
        readFileSync(join(root, path), "utf8")
          .replace(/\/\*[\s\S]*?\*\/|\/\/.*$|"[^"\n]*"/gm, "")
          .split("\n")
          .filter((line) => /(?<!(?<![\w.)\]])2) \*\* (?!2\b)|Math\.(?:pow|tanh)\b/.test(line))
          .map((line) => `${path}: ${line.trim()}`),
      );
    expect(found).toEqual([]);
  });
});
