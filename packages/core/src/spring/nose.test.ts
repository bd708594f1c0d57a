import { expect, test } from "vitest";
import { place } from "./banded.ts";
import { Beam } from "./beam.ts";
import { NoseOnFlat } from "./nose.ts";

function nosed(normal: readonly [number, number], drag: number, radius = 0): { beam: Beam; nose: NoseOnFlat } {
  const beam = new Beam(4, 1, { x: 0, y: 0, angle: 0 }, new Float64Array(4));
  beam.EI.fill(1);
  beam.EA.fill(1e5);
  beam.GA.fill(192);
  beam.stiffnessesChanged();
  const nose = new NoseOnFlat(beam, normal, drag, 1, radius);
  beam.contacts = [nose];
  return { beam, nose };
}
// 3 EI d/L^3. [derived, by hand]
test("a flat moved up by a thousandth of the length presses with 0.003 EI/L^2", () => {
  const { beam, nose } = nosed([0, 1], 0);
  nose.moveTo(1e-3);
  expect(beam.solve()).toBe("stable");
  expect(nose.pressure(beam)).toBeCloseTo(0.003, 5);
});
test("a flat moved away leaves the leaf alone", () => {
  const { beam, nose } = nosed([0, 1], 0.3);
  nose.moveTo(-1e-3);
  expect(beam.solve()).toBe("stable");
  expect(nose.pressure(beam)).toBeLessThan(0);
  expect(beam.X[13]!).toBeCloseTo(0, 12);
});
test("its stiffness is minus the derivative of its force, friction and moment included", () => {
  const { beam, nose } = nosed([0.6, 0.8], 0.2, 0.05);
  nose.moveTo(1e-3);
  beam.A.fill(0);
  beam.R.fill(0);
  nose.assemble(beam, false, false);
  const forces = (): Float64Array => {
    beam.R.fill(0);
    nose.push(beam);
    return beam.R.slice(12, 15);
  };
  for (const j of [12, 13, 14]) {
    const here = beam.X[j]!;
    beam.X[j] = here + 1e-6;
    const more = forces();
    beam.X[j] = here - 1e-6;
    const less = forces();
    beam.X[j] = here;
    for (const i of [12, 13, 14]) expect(beam.A[place(i, j)]!).toBeCloseTo(-(more[i - 12]! - less[i - 12]!) / 2e-6, 3);
  }
});
