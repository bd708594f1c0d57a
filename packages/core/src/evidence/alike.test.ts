import { expect, test } from "vitest";
import { gammaRate, pooled, pooledAtMost } from "./alike.ts";

test("units alike make one pool", () => {
  expect(
    pooled([
      { failed: 1, run: 10 },
      { failed: 0, run: 5 },
    ]),
  ).toEqual({ failed: 1, run: 15 });
  // 1 - 0.05^(1/20000). [derived]
  expect(
    pooledAtMost([
      { failed: 0, run: 5000 },
      { failed: 0, run: 15_000 },
    ]),
  ).toBeCloseTo(1.4977539622e-4, 13);
});
// 1.5/32000; its 95 % point by scipy. [derived]
test("a belief worth half a failure in 2000 cycles, after 1 in 30 000", () => {
  const got = gammaRate({ shape: 0.5, cycles: 2000 }, { failed: 1, run: 30_000 });
  expect(got.mean).toBeCloseTo(4.6875e-5, 15);
  expect(got.atMost / 0.00012210512348829967).toBeCloseTo(1, 11);
});
test("no unit, no cycles and a belief worth nothing are refused", () => {
  expect(() => pooled([])).toThrow("no unit was run");
  expect(() => pooled([{ failed: 0, run: 0 }])).toThrow("above 0");
  expect(() => gammaRate({ shape: 0, cycles: 1 }, { failed: 0, run: 1 })).toThrow("above 0");
});
