import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { number, plainScene } from "../study/plain.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { movedText } from "./moved.ts";

const W = number("W", "24 mm", { unit: "mm" });
const length = (text: string) => number("x", text, { unit: "mm", names: { W, nipz: W } });

describe("the text of a moved number", () => {
  test.each([
    ["7 mm", 1e-3, "8 mm"],
    ["W + 2.2 mm", 1e-3, "W + 3.2 mm"],
    ["W + 0.45 ±0.10 mm", 0.1e-3, "W + 0.55 ±0.10 mm"],
    ["W + 0.45 ±0.10 mm", -0.45e-3, "W + 0 ±0.10 mm"],
    ["W - 7 mm", 2e-3, "W - 5 mm"],
    ["W - 7 mm", 8e-3, "W + 1 mm"],
    ["W + 1 mm", -1e-3, "W"],
    ["0.3*W", -1.25e-3, "0.3*W - 1.25 mm"],
    ["1.25*W+2.2mm", 0.05e-3, "1.25*W+2.25mm"],
    ["W-(7 mm) ±0.1 mm", 8e-3, "W+1 mm ±0.1 mm"],
    ["(7 mm)", 1e-3, "8 mm"],
    ["-2 mm", 0.5e-3, "-1.5 mm"],
    ["-2 mm", 2.5e-3, "0.5 mm"],
    ["nipz", -0.05e-3, "nipz - 0.05 mm"],
    ["-(W + 10.5 mm)", -1e-3, "-(W + 10.5 mm) - 1 mm"],
    ["4.5 ±0.5 mm measured", 0.7e-3, "5.2 ±0.5 mm measured"],
    ["2 cm", 1e-3, "2.1 cm"],
    ["9.0 per unit sd 0.2 mm", 1e-3, "10 per unit sd 0.2 mm"],
  ])("%s moved by %d m is %s", (text, by, moved) => {
    expect(movedText(length(text), by)).toBe(moved);
  });
  test("stands off by as much, whatever it says, and scatters as it did", () => {
    const scene = plainScene();
    const text = fc.constantFrom(
      "7 mm",
      "W + 2.2 ±0.1 mm",
      "W - 7 mm",
      "W/2 + 0.5*W",
      "-(W - 3 mm)",
      "-2 mm",
      "max(W, 3 mm) sd 0.1 mm",
      "2*(W + 1 mm)",
    );
    fc.assert(
      fc.property(text, fc.integer({ min: -40_000, max: 40_000 }), (one, microns) => {
        const before = length(one);
        const after = length(movedText(before, microns * 1e-6));
        const run = new Realiser(scene, [before, after]).run(asWritten);
        expect(run.number(after) - run.number(before)).toBeCloseTo(microns * 1e-6, 10);
        expect(after.scatters).toEqual(before.scatters);
      }),
    );
  });
  test("a range has no centre", () => {
    expect(() => movedText(length("1..2 mm guess"), 1e-3)).toThrow("x is a range and has no centre to move");
  });
});
