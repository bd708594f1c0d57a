import { asWritten, pressedLeaf, Realiser, type Scene } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { elementsOf, sceneOf, shapeOf } from "./example.fixture.ts";
import { holdDownShapes } from "./hold-parts.ts";
import { bentLeaf, heightOfLeaf, holdPlace } from "./hold-shape.ts";
import { group, toSvg } from "./scene.ts";
import { unitShape } from "./unit-shape.ts";

const plover = shapeOf("plover", "so16-16");
const dunlin = shapeOf("dunlin", "so20-24");
const view = { scale: 10, origin: [400, 200] as const };
const drawn = (shape: typeof plover) =>
  elementsOf(
    toSvg(
      { title: "t", desc: "d", width: 900, height: 400, shapes: [group(holdDownShapes(shape, view))] },
      { prefix: "h" },
    ),
  );
/** The example's scene with another hold-down. */
const heldBy = (hold: Scene["unit"]["hold-down"]): Scene => {
  const scene = sceneOf("plover", "so16-16");
  return { ...scene, unit: { ...scene.unit, "hold-down": { ...scene.unit["hold-down"]!, ...hold } } };
};

describe("a leaf", () => {
  const { bent } = plover.holdDown!;
  test("is as long along its curve as its file says, to a thousandth", () => {
    const long = bent!.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - bent![i]![0], p[1] - bent![i]![1]), 0);
    expect(Math.abs(long / plover.holdDown!.long!.value - 1)).toBeLessThan(1e-3);
  });
  test("touches the tape with its nose and nowhere dips below it", () => {
    expect(bent!.at(-1)).toEqual([0, 0]);
    expect(Math.min(...bent!.map((p) => p[1]))).toBeGreaterThan(-1e-9);
  });
  const standOff = (scene: Scene): number => {
    const run = new Realiser(scene, [pressedLeaf]).run(asWritten);
    return bentLeaf(scene, run)![0]![1] / pressedLeaf.value(run.inputsOf(pressedLeaf, scene) as never).stroke;
  };
  test("without a window stands off at its clamp by about half its stroke, as a cantilever turned until its nose lies flat", () => {
    // Cantilever with a load at its end: tip slope 3 x/(2 L), so its clamp rises by 3 x/2 - x. [derived]
    const { opening: _, ...blind } = sceneOf("plover", "so16-16").unit["hold-down"]!;
    const scene = sceneOf("plover", "so16-16");
    const whole = { ...scene, unit: { ...scene.unit, "hold-down": blind } };
    expect(standOff(whole)).toBeGreaterThan(0.45);
    expect(standOff(whole)).toBeLessThan(0.55);
  });
  // Strips in series: slope L (B L^2/2 + A (u^2 - v^2)/2), way B L^3/3 + A (u^3 - v^3)/3, B = 5/17.3, A = 1 - B, arms from 20.25 to 7.75 mm of 24. [by hand]
  test("bends most in the arms beside its window, so it stands off by 0.563 of its stroke", () => {
    expect(standOff(sceneOf("plover", "so16-16"))).toBeCloseTo(0.563, 2);
  });
  test("that presses harder is bent more", () => {
    const harder = heldBy({ kind: "leaf", preload: { ...sceneOf("plover", "so16-16").unit.nip!.preload! } });
    const run = new Realiser(harder, [pressedLeaf]).run(asWritten);
    expect(bentLeaf(harder, run)![0]![1]).toBeGreaterThan(bent![0]![1]);
  });
  test("its height is read between its nodes, and is nought at its nose", () => {
    expect(heightOfLeaf(bent!, 0)).toBeCloseTo(0, 12);
    const [p, q] = [bent![3]!, bent![4]!];
    expect(heightOfLeaf(bent!, (p[0] + q[0]) / 2)).toBeCloseTo((p[1] + q[1]) / 2, 12);
  });
  test("is drawn dashed over its window and whole beside it", () => {
    const classes = drawn(plover).map((e) => e.attributes.class);
    expect(classes).toContain("steel-line fine");
    expect(classes).toContain("steel-line");
  });
  test("whose material nobody knows is drawn as its chord", () => {
    const shape = unitShape(heldBy({ kind: "leaf", material: "unobtainium" }));
    expect(shape.holdDown!.bent).toBeUndefined();
    expect(drawn(shape).length).toBeGreaterThan(0);
  });
});
describe("a rib", () => {
  test("stands over the tape by its gap, where its file says", () => {
    const { holdDown } = dunlin;
    expect(holdDown!.height).toBeCloseTo(holdDown!.gap!.value, 12);
    expect(holdDown!.height).toBeGreaterThan(dunlin.letters.T);
    const rim = drawn(dunlin).find((e) => e.attributes["data-what"] === "hold-down")!;
    expect(rim.attributes.class).toBe("outline");
    // Its lower face, on paper: the route is level there.
    expect(rim.attributes.d).toContain(`${Number((200 - holdDown!.height * 1e4).toFixed(2))}`);
  });
  test("that no file places stands over the wheel", () => {
    const { from: _, to: __, ...open } = sceneOf("dunlin", "so20-24").unit["hold-down"]!;
    const scene = sceneOf("dunlin", "so20-24");
    const shape = unitShape({ ...scene, unit: { ...scene.unit, "hold-down": open } });
    expect((shape.holdDown!.from + shape.holdDown!.to) / 2).toBeCloseTo(shape.sprocket!.s, 9);
    expect(holdPlace(shape.holdDown!, shape.route).s).toBeCloseTo(shape.sprocket!.s, 9);
  });
});
test("a run-off bend is a guide that presses the tape down where its file says", () => {
  const length = sceneOf("plover", "so16-16").unit["hold-down"]!.thickness!;
  const shape = unitShape(
    heldBy({
      kind: "run-off bend",
      reach: sceneOf("plover", "so16-16").unit["hold-down"]!["free length"]!,
      push: length,
    }),
  );
  expect(shape.holdDown!.to - shape.sprocket!.s).toBeCloseTo(24e-3, 9);
  const [bent] = drawn(shape).filter((e) => e.name === "path");
  expect(bent!.attributes.class).toBe("steel-line fine");
});
