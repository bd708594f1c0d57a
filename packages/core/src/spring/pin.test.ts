import { describe, expect, test } from "vitest";
import { place } from "./banded.ts";
import { Beam } from "./beam.ts";
import { Pin } from "./pin.ts";

/** A bent beam with a pin pressed a little into it, about at the share of its length. */
function pressed(share: number, drag = 0): { beam: Beam; pin: Pin } {
  const n = 8;
  const beam = new Beam(
    n,
    1,
    { x: 0, y: 0, angle: 0 },
    Float64Array.from({ length: n }, (_, e) => 0.8 - 0.1 * e),
  );
  beam.EI.fill(1);
  beam.stiffnessesChanged();
  const i = Math.floor(share * n);
  const [x, y, a] = [beam.X[3 * i]!, beam.X[3 * i + 1]!, beam.X[3 * i + 2]!];
  const along = (share * n - i) / n;
  const at = [x + along * Math.cos(a) + 0.198 * Math.sin(a), y + along * Math.sin(a) - 0.198 * Math.cos(a)] as const;
  const pin = new Pin(beam, at, [0, 1], 0.2, 1, drag, true);
  beam.contacts = [pin];
  return { beam, pin };
}
const forces = (beam: Beam, pin: Pin): Float64Array => {
  beam.R.fill(0);
  pin.push(beam);
  return beam.R.slice();
};

describe("the stiffness of a pin is minus the derivative of its force, where it touches", () => {
  test.each([
    ["within an element", 0.55],
    ["near a node", 0.51],
    ["at the tip", 1.02],
  ])("%s", (_, share) => {
    const { beam, pin } = pressed(share);
    beam.A.fill(0);
    beam.R.fill(0);
    pin.assemble(beam, false, false);
    const scale = beam.stiffness;
    for (let j = 0; j < beam.unknowns; j++) {
      const h = 1e-7;
      const here = beam.X[j]!;
      beam.X[j] = here + h;
      const more = forces(beam, pin);
      beam.X[j] = here - h;
      const less = forces(beam, pin);
      beam.X[j] = here;
      for (let i = Math.max(0, j - 5); i <= Math.min(beam.unknowns - 1, j + 5); i++)
        expect(Math.abs(beam.A[place(i, j)]! + (more[i]! - less[i]!) / (2 * h)) / scale).toBeLessThan(2e-4);
    }
  });
});
test("a pin pushes along the normal of the leaf, and rubs along it", () => {
  const { beam, pin } = pressed(0.55, 0.3);
  const [touch] = pin.touches(beam);
  const a = beam.X[3 * 4 + 2]! + 0.05 * 0.4;
  expect(touch!.force).toBeGreaterThan(0);
  expect(touch!.s).toBeCloseTo(0.55, 2);
  expect((touch!.x * Math.cos(a) + touch!.y * Math.sin(a)) / touch!.force).toBeCloseTo(0.3, 1);
  const R = forces(beam, pin);
  const sum = [0, 1].map((k) => R.filter((_, i) => i % 3 === k).reduce((s, v) => s + v, 0));
  expect(sum[0]).toBeCloseTo(touch!.x, 6);
  expect(sum[1]).toBeCloseTo(touch!.y, 6);
});
test("a pin that is moved clear pushes no more", () => {
  const { beam, pin } = pressed(0.55);
  pin.moveTo(-0.01);
  expect(pin.touches(beam)).toEqual([]);
  expect(Math.max(...forces(beam, pin).map(Math.abs))).toBe(0);
});
