import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, scene, sideCrossing, withBends, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { after, arcsOf, before, markNames, markPosition, type Piece, type Pose, poseAt } from "./pose.ts";

const start: Pose = { x: 0, z: 0, heading: 0, s: 0 };
const quarter = Math.PI / 2;
const close = (a: Pose, b: Partial<Pose>) => {
  for (const [key, v] of Object.entries(b)) expect(a[key as keyof Pose]).toBeCloseTo(v as number, 12);
};

// Plane geometry of a circle, by hand. [derived]
describe("the end of a piece", () => {
  test("of a line 50 mm long at 30 degrees is 43.3 mm on and 25 mm up", () => {
    close(after({ ...start, heading: Math.PI / 6 }, { line: 50 }), {
      x: 25 * Math.sqrt(3),
      z: 25,
      s: 50,
      heading: Math.PI / 6,
    });
  });
  test("of a quarter circle upwards of radius 10 is 10 on, 10 up, straight up", () => {
    close(after(start, { radius: 10, turn: quarter }), { x: 10, z: 10, heading: quarter, s: 5 * Math.PI });
  });
  test("of a quarter circle downwards is 10 on, 10 down", () => {
    close(after(start, { radius: 10, turn: -quarter }), { x: 10, z: -10, heading: -quarter, s: 5 * Math.PI });
  });
  test("of a half circle from a heading of 90 degrees is 20 behind, at the same height", () => {
    close(after({ ...start, heading: quarter }, { radius: 10, turn: Math.PI }), { x: -20, z: 0, s: 10 * Math.PI });
  });
  test("of a bend that does not turn is where it began", () => close(after(start, { radius: 10, turn: 0 }), start));
  test("two bends of 30 degrees each way come out level, 2 r (1 - cos 30) lower", () => {
    const end = after(after(start, { radius: 40, turn: -Math.PI / 6 }), { radius: 40, turn: Math.PI / 6 });
    close(end, { x: 40, z: -80 * (1 - Math.cos(Math.PI / 6)), heading: 0 });
  });
});

const length = fc.double({ min: 0.001, max: 1, noNaN: true });
const piece: fc.Arbitrary<Piece> = fc.oneof(
  fc.record({ line: length }),
  fc.record({ radius: length, turn: fc.double({ min: -4, max: 4, noNaN: true }) }),
);
const pose = fc.record({ x: length, z: length, heading: fc.double({ min: -3, max: 3, noNaN: true }), s: length });
test("any piece travelled back ends where it began", () => {
  fc.assert(
    fc.property(pose, piece, (from, one) => {
      close(before(after(from, one), one), from);
    }),
    { seed: 191, numRuns: 300 },
  );
});
test("no piece carries the tape farther than its own length", () => {
  fc.assert(
    fc.property(pose, piece, (from, one) => {
      const end = after(from, one);
      expect(Math.hypot(end.x - from.x, end.z - from.z)).toBeLessThanOrEqual(end.s - from.s + 1e-12);
    }),
    { seed: 192, numRuns: 300 },
  );
});

describe("marks of a route", () => {
  const unit = withBends(16);
  const one = scene(unit, embossedTape(16));
  test("are found by name, in order", () => {
    expect(markNames(unit.tape.route)).toEqual(["peel", "pick"]);
    expect(arcsOf(unit.tape.route)).toHaveLength(2);
  });
  // The peel line stands 10 mm before the pick, which is placed at 0. [derived]
  test("lie where the pieces between them and the placed mark put them", () => {
    expect(nominal(one, markPosition(unit.tape, "peel", "x")!) * 1e3).toBeCloseTo(-10, 12);
    expect(nominal(one, markPosition(unit.tape, "peel", "route")!) * 1e3).toBeCloseTo(-10, 12);
    expect(nominal(one, markPosition(unit.tape, "pick", "x")!)).toBe(0);
  });
  // Past a bend of 40 mm through -90 degrees: 40 mm on, 40 mm down, 20 pi along. Straight line of 10 mm first. [derived]
  test("beyond a bend are nearer in x than along the tape", () => {
    const at = (symbol: string, text: string, u = "mm") => written(`route/${symbol}`, symbol, text, u);
    const bent = {
      ...unit.tape,
      route: [
        { mark: "pick" },
        { line: at("l", "10 mm") },
        { arc: { radius: at("r", "40 mm"), turn: at("turn", "-90 deg", "deg") } },
        { mark: "out" },
      ],
    } as unknown as typeof unit.tape;
    expect(nominal(one, markPosition(bent, "out", "x")!) * 1e3).toBeCloseTo(50, 9);
    expect(nominal(one, markPosition(bent, "out", "route")!) * 1e3).toBeCloseTo(10 + 20 * Math.PI, 9);
  });
  test("carry the tolerance of the line between", () => {
    const crossing = sideCrossing(12);
    const { pieces } = markPosition(crossing.tape, "peel", "x")!.reads(one)! as {
      pieces: readonly { line: { text: string } }[];
    };
    expect(pieces.map((p) => p.line.text)).toEqual(["9.0 ±0.2 mm"]);
  });
  test("that nobody put down are nowhere", () => {
    expect(markPosition(unit.tape, "sensor", "x")).toBeUndefined();
    expect(
      markPosition({ ...unit.tape, place: { ...unit.tape.place, mark: "elsewhere" } }, "peel", "x"),
    ).toBeUndefined();
  });
});

describe("the pose at a place along the tape", () => {
  const at = (symbol: string, text: string, u = "mm") => written(`bent/${symbol}`, symbol, text, u);
  const unit = sideCrossing(12);
  const one = scene(unit, embossedTape(12));
  const bent = {
    ...unit.tape,
    route: [
      { line: at("before", "20 mm") },
      { arc: { radius: at("r up", "40 mm"), turn: at("up", "90 deg", "deg") } },
      { mark: "pick" },
      { line: at("l", "10 mm") },
      { arc: { radius: at("r down", "40 mm"), turn: at("down", "-90 deg", "deg") } },
    ],
  } as unknown as typeof unit.tape;
  const poseOf = (s: string): Pose => {
    const model = poseAt(bent, at("s", s));
    const values = new Realiser(one, [model]).run(asWritten).inputsOf(model, one);
    return model.value(values);
  };
  // Half of a quarter circle of 40 mm: 10 pi mm along it, 40 sin 45 on and 40 (1 - cos 45) down. [derived]
  test("half way round a bend is half turned", () => {
    close(poseOf("10 mm + 31.41592653589793 mm"), {
      x: 0.01 + 0.04 * Math.SQRT1_2,
      z: -0.04 * (1 - Math.SQRT1_2),
      heading: -Math.PI / 4,
    });
  });
  // The bend before the pick came up to it level: half a bend back the tape still climbs by 45 degrees, from below. [derived]
  test("before the placed mark lies on the pieces travelled to get there", () => {
    close(poseOf("-31.41592653589793 mm"), {
      x: -0.04 * Math.SQRT1_2,
      z: 0.04 * (1 - Math.SQRT1_2),
      heading: -Math.PI / 4,
    });
  });
  test("past the drawn end goes on straight", () => {
    const end = 10 + 20 * Math.PI;
    close(poseOf(`${end + 5} mm`), { x: 0.05, z: -0.045, heading: -quarter });
  });
  test("at the placed mark is that mark's own", () => close(poseOf("0 mm"), { x: 0, z: 0, heading: 0, s: 0 }));
});
