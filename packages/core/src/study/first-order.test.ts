import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mirroredInSteps, nearestFailing } from "./first-order.ts";
import { Counted, pointwise } from "./limit-states.ts";
import { finished } from "./steps.ts";

const of = (d: number, g: (z: Float64Array) => number) => pointwise(d, { g });

describe("the nearest failing point", () => {
  // Of b - sum a_i z_i it lies at b a/|a|^2; beta = b/|a|, importances a_i^2/|a|^2. [closed form]
  test("of any plane is the foot of its perpendicular", () => {
    const either = (min: number, max: number) =>
      fc.oneof(fc.double({ min, max, noNaN: true }), fc.double({ min: -max, max: -min, noNaN: true }));
    fc.assert(
      fc.property(fc.array(either(0.3, 3), { minLength: 1, maxLength: 6 }), either(0.05, 8), (a, beta) => {
        const size = Math.hypot(...a);
        const found = nearestFailing(
          of(a.length, (z) => beta * size - a.reduce((s, v, i) => s + v * z[i]!, 0)),
          0,
        );
        expect(found.converged).toBe(true);
        expect(found.beta).toBeCloseTo(beta, 6);
        a.forEach((v, i) => {
          expect(found.importances[i]).toBeCloseTo((v / size) ** 2, 6);
        });
      }),
      { seed: 7, numRuns: 100 },
    );
  });
  test("costs one look for each round: 2 d + 1 points, twice for a plane", () => {
    const counted = new Counted(of(4, (z) => 3 - z[0]! - z[3]!));
    nearestFailing(counted, 0);
    expect(counted.points).toBe(2 * 9);
  });
  // The circle of radius 4 about (1, 0) is 3 from the middle, at (-3, 0).
  test("of a circle off the middle is its nearest point", () => {
    const found = nearestFailing(
      of(2, ([x, y]) => 4 - Math.hypot(x! - 1, y!)),
      0,
    );
    expect(found.beta).toBeCloseTo(3, 4);
    expect(found.point[0]).toBeCloseTo(-3, 3);
  });
  test("is found where whole steps overshoot", () => {
    // exp is so curved that the plain iteration jumps to and fro; fails at a = ln 50 = 3.912.
    const found = nearestFailing(
      of(1, ([a]) => 50 - Math.exp(a!)),
      0,
    );
    expect(found.converged).toBe(true);
    expect(found.beta).toBeCloseTo(Math.log(50), 3);
  });
  // RP110 of the reliability set: the slope at the middle points to 8.5, the limit stands at 4.
  test("is found where an early slope is too flat", () =>
    expect(
      nearestFailing(
        of(1, ([a]) => (a! <= 3.5 ? 0.85 - 0.1 * a! : 4 - a!)),
        0,
      ).beta,
    ).toBeCloseTo(4, 6));
  test("is not claimed where a kink holds it", () =>
    // RP25 of the reliability set.
    expect(
      nearestFailing(
        of(2, ([a, b]) => Math.max(a! ** 2 - 8 * b! + 16, -16 * a! + b! + 32)),
        0,
      ).converged,
    ).toBe(false));
  test("is not claimed where nothing moves the limit state, or it levels off before it fails", () => {
    expect(
      nearestFailing(
        of(2, () => 1),
        0,
      ),
    ).toMatchObject({ converged: false });
    expect(
      nearestFailing(
        of(1, ([a]) => 1.5 - Math.tanh(a!)),
        0,
      ).converged,
    ).toBe(false);
  });
  test("is not claimed where there is no answer", () =>
    expect(
      nearestFailing(
        of(1, () => Number.NaN),
        0,
      ).converged,
    ).toBe(false));
});

describe("mirrors of a failing point", () => {
  test("are the other three corners of 8 - |x y|", () => {
    const corners = of(2, ([a, b]) => 8 - Math.abs(a! * b!));
    const first = nearestFailing(corners, 0, { from: Float64Array.of(2, 2.5) });
    const r = Math.sqrt(8);
    expect(first.point[0]).toBeCloseTo(r, 3);
    const mirrors = finished(mirroredInSteps(corners, 0, first)).map(({ point }) =>
      [...point].map(Math.sign).join(" "),
    );
    expect(mirrors.sort()).toEqual(["-1 -1", "-1 1", "1 -1"]);
  });
  test("are none where the other side holds", () => {
    const plane = of(2, ([a, b]) => 3 - a! - b!);
    expect(finished(mirroredInSteps(plane, 0, nearestFailing(plane, 0)))).toEqual([]);
  });
});
