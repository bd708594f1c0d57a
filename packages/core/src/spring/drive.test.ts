import { expect, test } from "vitest";
import { Beam } from "./beam.ts";
import { Driver } from "./drive.ts";

function beam(n = 20): Beam {
  const made = new Beam(n, 1, { x: 0, y: 0, angle: 0 }, new Float64Array(n));
  made.EI.fill(1);
  made.EA.fill(1e5);
  made.GA.fill(12 * n * n);
  made.stiffnessesChanged();
  return made;
}
test("a way that is easy is gone in one step", () => {
  const b = beam();
  const driven = new Driver(b).run((share) => {
    b.load[3 * 20 + 1] = -2 * share;
  });
  expect(driven).toEqual({ arrived: true, share: 1, steps: 1, unstable: false });
});
// Euler's load is pi^2/4; twice that is asked for. [derived]
test("a column is led to its buckling load and no further, and stands where it last stood", () => {
  const b = beam();
  const driven = new Driver(b).run((share) => {
    b.load[3 * 20] = (-share * Math.PI ** 2) / 2;
  });
  expect(driven.arrived).toBe(false);
  expect(driven.unstable).toBe(true);
  expect(driven.share).toBeGreaterThan(0.49);
  expect(driven.share).toBeLessThanOrEqual(0.5);
  expect(b.balanced(1e-6)).toBe(true);
});
test("what is restored is what was saved", () => {
  const b = beam();
  const driver = new Driver(b);
  b.load[3 * 20 + 1] = -1;
  b.solve();
  const [X, T] = [b.X.slice(), b.T.slice()];
  driver.save();
  b.load[3 * 20 + 1] = -3;
  b.solve();
  expect(b.X).not.toEqual(X);
  driver.restore();
  expect(b.X).toEqual(X);
  expect(b.T).toEqual(T);
});
