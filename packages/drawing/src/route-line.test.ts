import { asWritten, type Given, type Model, type Piece, poseAt, Realiser, tabled } from "@tapeworthy/core";
import fc from "fast-check";
import { expect, test } from "vitest";
import { sceneOf, shapeOf } from "./example.fixture.ts";
import { between, laidDown, off, poseOn } from "./route-line.ts";

const piece = fc.oneof(
  fc.record({ line: fc.double({ min: 0.5e-3, max: 80e-3, noNaN: true }) }),
  fc.record({
    radius: fc.double({ min: 5e-3, max: 80e-3, noNaN: true }),
    turn: fc.double({ min: 0.02, max: 1.2, noNaN: true }).chain((t) => fc.constantFrom(t, -t)),
  }),
);
const route = fc.array(piece, { minLength: 1, maxLength: 6 });
const placed = { x: 3e-3, z: -2e-3, heading: 0.1, s: 3e-3 };

test("a place on the drawn route is the place the models compute", () => {
  for (const [unit, tape] of [
    ["plover", "so8-12"],
    ["dunlin", "dpak-16"],
    ["dunlin", "socket-32"],
  ] as const) {
    const scene = sceneOf(unit, tape);
    const drawn = shapeOf(unit, tape).route;
    for (const at of ["-120 mm", "-61 mm", "-9 mm", "0 mm", "13.7 mm", "31 mm", "47 mm", "90 mm"]) {
      const s: Given = tabled(`test/${at}`, "s", at, [1, 0, 0, 0, 0], { cite: "invented", how: "judgement" });
      const model = poseAt(scene.unit.tape, s);
      const run = new Realiser(scene, [model as Model<unknown>, s]).run(asWritten);
      const pose = run.column(model as unknown as Model) as unknown as { x: number; z: number; heading: number };
      const ours = poseOn(drawn, run.number(s));
      expect(Math.abs(ours.x - pose.x) + Math.abs(ours.z - pose.z)).toBeLessThan(1e-12);
      expect(ours.heading).toBeCloseTo(pose.heading, 12);
    }
  }
});
test("neighbouring places lie no farther apart than the tape between them is long", () => {
  fc.assert(
    fc.property(
      route,
      fc.nat(5),
      fc.double({ min: -0.1, max: 0.5, noNaN: true }),
      fc.double({ min: 1e-5, max: 1e-3, noNaN: true }),
      (pieces, split, s, ds) => {
        const line = laidDown(placed, pieces.slice(0, split) as Piece[], pieces.slice(split) as Piece[]);
        const [a, b] = [poseOn(line, s), poseOn(line, s + ds)];
        const apart = Math.hypot(a.x - b.x, a.z - b.z);
        expect(apart).toBeLessThanOrEqual(ds * (1 + 1e-9));
        expect(apart).toBeGreaterThan(ds * 0.99);
      },
    ),
    { seed: 11 },
  );
});
test("the placed pose lies on the route, wherever the route is cut in two", () => {
  fc.assert(
    fc.property(route, fc.nat(5), (pieces, split) => {
      const at = poseOn(laidDown(placed, pieces.slice(0, split) as Piece[], pieces.slice(split) as Piece[]), placed.s);
      expect(Math.hypot(at.x - placed.x, at.z - placed.z)).toBeLessThan(1e-12);
    }),
    { seed: 12 },
  );
});
test("pieces cut out between two places are as long as the way between them", () => {
  fc.assert(
    fc.property(
      route,
      fc.double({ min: -0.05, max: 0.3, noNaN: true }),
      fc.double({ min: 0, max: 0.3, noNaN: true }),
      (pieces, s0, long) => {
        const cut = between(laidDown(placed, [], pieces as Piece[]), s0, s0 + long);
        const sum = cut.reduce(
          (total, { piece: p }) => total + ("line" in p ? p.line : p.radius * Math.abs(p.turn)),
          0,
        );
        expect(sum).toBeCloseTo(long, 10);
      },
    ),
    { seed: 13 },
  );
});
test("a point off the underside lies square to the travel, towards the film where the height is positive", () => {
  const pose = { x: 0, z: 0, heading: Math.PI / 6, s: 0 };
  const [x, z] = off(pose, 1e-3);
  expect(x).toBeCloseTo(-0.5e-3, 12);
  expect(z).toBeCloseTo(Math.sqrt(3) * 0.5e-3, 12);
});
