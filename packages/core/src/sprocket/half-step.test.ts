import { describe, expect, test } from "vitest";
import {
  embossedTape,
  halfPitchTape,
  nominal,
  punchedTape,
  scene,
  sideCrossing,
  withBends,
  withGears,
} from "../scene.fixture.ts";
import { transmissionError } from "./enters.ts";
import { checkHalfStep, halfStepError } from "./half-step.ts";

describe("a step of 2 mm", () => {
  const half = scene(sideCrossing(8), halfPitchTape());
  test("sees the wheel's transmission error, which a step of 4 mm does not", () => {
    expect(checkHalfStep.absent(half)).toBeUndefined();
    expect(nominal(half, halfStepError)).toBeGreaterThan(5e-6);
    expect(nominal(half, halfStepError)).toBeLessThanOrEqual(nominal(half, transmissionError));
    for (const tape of [embossedTape(8), embossedTape(24), punchedTape()])
      expect(checkHalfStep.absent(scene(sideCrossing(8), tape))).toBe("the tape steps whole hole pitches");
    expect(halfStepError.reads(scene(sideCrossing(8), embossedTape(8)))).toBeUndefined();
  });
  test("is truer on an involute wheel", () =>
    expect(nominal(scene(withGears(8), halfPitchTape()), halfStepError)).toBeLessThan(nominal(half, halfStepError)));
  test("is no question without a sprocket", () =>
    expect(checkHalfStep.absent(scene(withBends(8), halfPitchTape()))).toBe("the unit has no sprocket"));
});
