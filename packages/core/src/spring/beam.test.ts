import { describe, expect, test } from "vitest";
import { Beam } from "./beam.ts";

/** Length 1, EI 1, hardly any stretch. */
function beam(n: number): Beam {
  const made = new Beam(n, 1, { x: 0, y: 0, angle: 0 }, new Float64Array(n));
  made.EI.fill(1);
  made.EA.fill(1e6);
  made.GA.fill(12 * n * n);
  made.stiffnessesChanged();
  return made;
}
const tip = (b: Beam) => ({ x: b.X[3 * b.n]!, y: b.X[3 * b.n + 1]!, angle: b.X[3 * b.n + 2]! });

// P L^3/3 EI and P L^2/2 EI. [derived, by hand]
test("small deflections are exact at the nodes, with one element or with nine", () => {
  for (const n of [1, 2, 9]) {
    const b = beam(n);
    b.load[3 * n + 1] = -1e-4;
    expect(b.solve()).toBe("stable");
    expect(tip(b).y / -1e-4).toBeCloseTo(1 / 3, 6);
    expect(tip(b).angle / -1e-4).toBeCloseTo(1 / 2, 6);
  }
});
test("the clamp bears what is laid on, force and moment", () => {
  const b = beam(40);
  b.load[3 * 40] = 0.7;
  b.load[3 * 40 + 1] = -3;
  b.load[3 * 40 + 2] = 0.4;
  expect(b.solve()).toBe("stable");
  b.balanced(1);
  const { x, y } = tip(b);
  expect(-b.R[0]!).toBeCloseTo(-0.7, 6);
  expect(-b.R[1]!).toBeCloseTo(3, 6);
  expect(-b.R[2]!).toBeCloseTo(-(x * -3 - y * 0.7 + 0.4), 6);
});
test("carried forces find in one step what forces of the strains find in forty, and do not find in one", () => {
  const [carried, plain, led] = [beam(40), beam(40), beam(40)];
  for (const b of [carried, plain]) b.load[3 * 40 + 1] = -5;
  expect(carried.solve()).toBe("stable");
  expect(carried.iterations).toBeLessThan(10);
  expect(plain.solve({ carried: false, most: 40 })).toBe("failed");
  for (let i = 1; i <= 40; i++) {
    led.load[3 * 40 + 1] = -i / 8;
    expect(led.solve({ carried: false, most: 80 })).toBe("stable");
  }
  expect(tip(led).y).toBeCloseTo(tip(carried).y, 6);
  expect(tip(led).angle).toBeCloseTo(tip(carried).angle, 6);
});
describe("a straight column", () => {
  // Euler: pi^2/4. [derived]
  test.each([
    ["stable", 0.99],
    ["unstable", 1.01],
  ] as const)("is %s at %f of its buckling load", (state, share) => {
    const b = beam(40);
    b.load[3 * 40] = (-share * Math.PI ** 2) / 4;
    expect(b.solve()).toBe(state);
  });
});
test("a beam born curved is at rest where it was made, and not elsewhere", () => {
  const k0 = new Float64Array(10).fill(2);
  const b = new Beam(10, 1, { x: 1, y: 2, angle: 0.5 }, k0);
  b.EI.fill(1);
  b.EA.fill(1e4);
  b.GA.fill(1200);
  b.stiffnessesChanged();
  // An arc of radius 0.5 over 2 rad: its chord by hand.
  expect(Math.hypot(tip(b).x - 1, tip(b).y - 2)).toBeCloseTo(2 * 0.5 * Math.sin(1), 9);
  expect(tip(b).angle).toBeCloseTo(2.5, 12);
  expect(b.balanced(1e-4)).toBe(true);
  b.X[3 * 5 + 1] = b.X[3 * 5 + 1]! + 0.01;
  expect(b.balanced(1e-4)).toBe(false);
});
test("a load that is no number is no balance", () => {
  const b = beam(5);
  b.load[16] = Number.NaN;
  expect(b.solve()).toBe("failed");
});
