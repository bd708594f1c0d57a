import { expect, test } from "vitest";
import { endsOfGuess, phi } from "../quantity/law.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { foretellCheck, foretellUnknown } from "./foretell.ts";

const deviates = new Deviates(4);
const even = alike(beliefDraws);

// The ends of a guess hold 95 % of it, its median is their geometric mean; 1000 draws give those within a few per cent. [derived]
test("of a guess its own ends are foretold", () => {
  const { low, median, high } = foretellUnknown(number("u/mu", "0.2..0.4 guess"), deviates, even);
  expect(low / 0.2).toBeCloseTo(1, 1);
  expect(high / 0.4).toBeCloseTo(1, 1);
  expect(median / Math.sqrt(0.08)).toBeCloseTo(1, 1);
});
// Only scatter: 1.6 sd 0.1 against 1.5 fails with Phi(-1); its value within 1.96 . 0.1. [derived]
test("of a check without a guess its scatter alone is foretold", () => {
  const holds = check("t.holds", {
    value: closed("R", { R: number("u/R", "1.6 sd 0.1") }),
    atLeast: closed("F", { F: number("u/F", "1.5") }),
  });
  const { value, fails } = foretellCheck(plainScene(), holds, deviates, even);
  expect(value!.high - value!.median).toBeCloseTo(endsOfGuess * 0.1, 9);
  expect(fails.median).toBeCloseTo(phi(-1), 6);
  expect(fails.high).toBe(fails.low);
});
test("of a number that was given nothing is foretold", () => {
  expect(() => foretellUnknown(number("u/a", "3"), deviates, even)).toThrow("no guess");
});
