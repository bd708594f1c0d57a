import { expect, test } from "vitest";
import { rateWithModel } from "./with-model.ts";

// A grid of its own, 400 001 points, validation/independent/counts.py. [derived]
test.each([
  [0, 6.29133751e-6, 4.12778577e-5],
  [2, 5.20873773e-5, 1.61953497e-4],
])("a model's 1 in 100 000 after %i failures in 20 000", (failed, median, atMost) => {
  const got = rateWithModel({ median: 1e-5 }, { failed, run: 20_000 });
  expect(got.median / median).toBeCloseTo(1, 4);
  expect(got.atMost / atMost).toBeCloseTo(1, 4);
});
test("much evidence drowns the model, little leaves it", () => {
  expect(rateWithModel({ median: 1e-5 }, { failed: 4000, run: 400_000 }).median).toBeCloseTo(0.01, 3);
  expect(rateWithModel({ median: 1e-5 }, { failed: 0, run: 1 }).median / 1e-5).toBeCloseTo(1, 3);
});
test("a model sure of no rate, or of none below 1, is refused", () => {
  expect(() => rateWithModel({ median: 0 }, { failed: 0, run: 1 })).toThrow("between 0 and 1");
  expect(() => rateWithModel({ median: 0.1, sd: 0 }, { failed: 0, run: 1 })).toThrow("log sd of 0");
  expect(() => rateWithModel({ median: 0.1 }, { failed: 2, run: 1 })).toThrow("from 0 to 1");
});
