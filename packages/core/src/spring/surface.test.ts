import { expect, test } from "vitest";
import { Beam } from "./beam.ts";
import { Driver } from "./drive.ts";
import { Surface } from "./surface.ts";

function onFlat(height: number, drag = 0): { beam: Beam; face: Surface } {
  const n = 20;
  const beam = new Beam(n, 1, { x: 0, y: 0, angle: 0 }, new Float64Array(n));
  beam.EI.fill(1);
  beam.EA.fill(1e5);
  beam.GA.fill(12 * n * n);
  beam.stiffnessesChanged();
  const face = new Surface(beam, { at: [0, height], direction: [0, 1] }, 0, 1, drag, 1);
  beam.contacts = [face];
  return { beam, face };
}
test("a tip that is pressed onto a flat rests on it with what the leaf leaves of the load", () => {
  const { beam, face } = onFlat(-0.01);
  beam.load[3 * 20 + 1] = -0.1;
  expect(beam.solve()).toBe("stable");
  const touches = face.touches(beam).filter((t) => t.force > 1e-3);
  expect(touches.map((t) => t.s)).toEqual([1]);
  // 3 EI d/L^3 of it bends the leaf by hand. [derived]
  expect(touches[0]!.force).toBeCloseTo(0.1 - 3 * 0.01, 3);
  expect(beam.X[3 * 20 + 1]!).toBeCloseTo(-0.01, 6);
});
test("no node of a leaf pressed hard sinks in by more than a thousandth of its length", () => {
  const { beam } = onFlat(-0.01);
  const { arrived } = new Driver(beam).run((share) => {
    for (let i = 1; i <= 20; i++) beam.load[3 * i + 1] = -2 * share;
  });
  expect(arrived).toBe(true);
  for (let i = 1; i <= 20; i++) expect(beam.X[3 * i + 1]!).toBeGreaterThan(-0.011);
});
test("a face a hundredth of the length away pushes with less than a millionth of EI/L^2", () => {
  const { beam, face } = onFlat(-0.01);
  expect(beam.solve()).toBe("stable");
  beam.R.fill(0);
  face.push(beam);
  expect(Math.max(...beam.R)).toBeLessThan(1e-6);
});
test("friction drags each node along the face by its share of the press", () => {
  const { beam, face } = onFlat(-0.01, 0.25);
  beam.load[3 * 20 + 1] = -0.1;
  expect(beam.solve()).toBe("stable");
  for (const { force, x, y } of face.touches(beam)) {
    expect(x / force).toBeCloseTo(0.25, 9);
    expect(y / force).toBeCloseTo(1, 9);
  }
});
