import { expect, test } from "vitest";
import { allowedPitches, readPitches, readSteps } from "./pitch.ts";

// EIA-481-D p. 15: 4.0 to 32.0 in steps of 4.0, each +-0.1. [derived: written out by hand]
test("a rule from 4 to 32 in steps of 4 writes out eight pitches with their tolerance", () => {
  const pitches = allowedPitches(readSteps(4, 32, 4, 0.1, ["EIA-481-D p15"]));
  expect(pitches.map(({ value }) => value)).toEqual([4, 8, 12, 16, 20, 24, 28, 32]);
  expect(pitches.every(({ tol }) => tol?.[0] === -0.1 && tol[1] === 0.1)).toBe(true);
});

test("a list keeps each pitch with its own tolerance", () => {
  expect(allowedPitches(readPitches({ 2: 0.05, 4: 0.1 }, ["EIA-481-D p13"]))).toEqual([
    { value: 2, tol: [-0.05, 0.05] },
    { value: 4, tol: [-0.1, 0.1] },
  ]);
});
