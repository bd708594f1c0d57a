import { describe, expect, test } from "vitest";
import { driveAnchor, driveLines, sayDrive } from "./drive-parts.ts";
import { driveShapes, motorOf } from "./drive-shape.ts";
import { pairs, sceneOf, shapeOf } from "./example.fixture.ts";
import { unitShape } from "./unit-shape.ts";

const plover = shapeOf("plover", "so16-16");
const [feed, peel] = plover.drives;

test("a worm wheel turns with the tape's wheel, the other with the nip's lower roller", () => {
  expect(feed!.axis).toEqual(plover.sprocket!.axis);
  expect(peel!.axis).toEqual([plover.nip!.axis[0], plover.nip!.axis[1] - plover.nip!.lower]);
});
test("pitch radii follow from module, teeth, starts and lead angle", () => {
  // m z/2 = 0.5 mm x 40/2; m n/(2 tan lambda) = 0.5 mm/(2 tan 4.5 deg). [derived]
  expect(feed!.wheel).toBeCloseTo(10e-3, 12);
  expect(feed!.worm!.radius).toBeCloseTo(3.1766e-3, 6);
});
test("the worm sits on its motor's axis, under the wheel", () => {
  const motor = motorOf(plover.bodies, "feed")!;
  const { from, to } = motor.outline as Extract<typeof motor.outline, { kind: "box" }>;
  expect(feed!.worm!.at).toEqual([feed!.axis[0], (from[1] + to[1]) / 2]);
});
test("a motor whose axis does not pass the wheel gets no worm drawn in the air", () => {
  const [overhead] = shapeOf("dunlin", "so20-24").drives.filter((d) => d.name === "peel");
  expect(overhead!.worm).toBeUndefined();
  expect(overhead!.motor).toBeDefined();
  expect(driveAnchor(overhead!)).toEqual(overhead!.motor);
});
test("all of the gearing is said: head, worm and what is behind them", () => {
  expect(sayDrive(feed!)).toBe("worm, 240 to 1");
});
test("a unit without drives draws none, one whose motors are no bodies only its worm wheels", () => {
  const scene = sceneOf("plover", "so16-16");
  const { "feed drive": _f, "peel drive": _p, ...rest } = scene.unit;
  expect(unitShape({ ...scene, unit: rest }).drives).toEqual([]);
  const bare = unitShape({ ...scene, unit: { ...scene.unit, bodies: [] } });
  expect(bare.drives.map((d) => [d.worm, d.motor])).toEqual([
    [undefined, undefined],
    [undefined, undefined],
  ]);
  expect(driveLines(bare, { scale: 4, origin: [0, 0] })).toHaveLength(2);
  expect(driveShapes(scene, () => 1, [], { feed: undefined, peel: undefined })).toEqual([]);
});
describe.each(pairs)("%s on %s", (unit, tape) => {
  test("has both its drives", () => {
    expect(shapeOf(unit, tape).drives.map((d) => d.name)).toEqual(["feed", "peel"]);
  });
});
