import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, overhead, punchedTape, scene, sideCrossing } from "../scene.fixture.ts";
import {
  filmPath,
  type Guide,
  guideNames,
  norm,
  path,
  pathLength,
  peelAngle,
  plus,
  type Vector,
  wrapOverBars,
} from "./path.ts";
import { fibreLength } from "./strip.ts";

const degrees = (rad: number) => (rad * 180) / Math.PI;
const bar = (through: Vector, along: Vector, rolls = false): Guide => ({ through, along, rolls });

// The invented side crossing of validation/independent/film.py, mm.
const height: Readonly<Record<number, number>> = { 8: 2.5, 12: 6.5, 16: 8, 24: 12, 32: 12 };
const crossing = (W: number, L = 35, side: 1 | -1 = -1) => {
  const mm = 1e-3;
  const out = (W / 2 + 2) * side * mm;
  const H = (height[W]! + 4) * mm;
  return filmPath(
    [0, 0, mm],
    [bar([-L * mm, out, -H / 2], [0, 0, -side]), bar([-2 * L * mm, 0, -H - 2 * mm], [0, -1, 0])],
  );
};

describe("a film folded straight back", () => {
  // A triangle of 3, 4 and 5 cm: the film climbs 4 over 3 backwards, so it leaves at acos(-3/5). [derived]
  const back = filmPath([0, 0, 0], [bar([-0.03, 0, 0.04], [0, 1, 0])]);
  test("leaves the tape at 126.87 degrees and is 5 cm long", () => {
    expect(degrees(back.peelAngle)).toBeCloseTo(126.8699, 4);
    expect(back.length).toBeCloseTo(0.05, 15);
  });
  test("neither twists nor leans, and all its fibres are equal", () => {
    expect(back.spans[0]!.twist).toBeCloseTo(0, 7);
    expect(back.leans).toEqual([0, 0]);
    expect(back.spans[0]!.fan).toEqual([0, 0, 0]);
  });
  test("is the same film when the nip's line is said the other way round: nobody threads a half turn", () => {
    const other = filmPath([0, 0, 0], [bar([-0.03, 0, 0.04], [0, -1, 0])]);
    expect(other.spans[0]!.fan.map((v) => v + 0)).toEqual([0, 0, 0]);
    expect(other.spans[0]!.twist).toBeCloseTo(0, 7);
  });
});

describe("a bar at 45 degrees", () => {
  // Reflection: spans of L1 - y and s + y, so every fibre is equally long though one span differs by the whole width. [derived]
  const turned = filmPath([0, 0, 0], [bar([-0.04, 0, 0], [1, 1, 0]), bar([-0.04, -0.05, 0], [1, 0, 0])]);
  const half = 0.01;
  test("leaves all fibres equally long", () => {
    expect(fibreLength(turned, half) - fibreLength(turned, -half)).toBeCloseTo(0, 15);
    expect(fibreLength(turned, half)).toBeCloseTo(0.09, 15);
  });
  test("makes one span differ by the whole width of the film", () => {
    const { run, fan } = turned.spans[0]!;
    expect(norm(plus(run, fan, -half)) - norm(plus(run, fan, half))).toBeCloseTo(0.02, 15);
  });
  test("is covered over sqrt(2) of the film's width", () => {
    const { fan } = turned.spans[0]!;
    expect(norm(plus(fan, [0, 1, 0]))).toBeCloseTo(Math.SQRT2, 12);
  });
  test("leaves no kink: the film keeps its component along the bar", () => {
    expect(turned.leans[1]).toBeCloseTo(0, 12);
  });
});

describe("a free quarter turn", () => {
  const turned = (along: Vector) => filmPath([0, 0, 0], [bar([-0.05, 0, 0], along)]);
  test("twists by 90 degrees either way", () => {
    expect(degrees(turned([0, 0, 1]).spans[0]!.twist)).toBeCloseTo(90, 10);
    expect(degrees(turned([0, 0, -1]).spans[0]!.twist)).toBeCloseTo(90, 10);
  });
  test("does not turn to the left when it is said to turn to the right", () => {
    expect(turned([0, 0, 1]).spans[0]!.fan).toEqual([0, -1, 1]);
    expect(turned([0, 0, -1]).spans[0]!.fan).toEqual([0, -1, -1]);
  });
  test("of 130 degrees stays 130; one of 140 is taken as 40 the other way", () => {
    const at = (angle: number) =>
      degrees(turned([0, Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)]).spans[0]!.twist);
    expect(at(130)).toBeCloseTo(130, 9);
    expect(at(140)).toBeCloseTo(40, 9);
  });
});

// Angles between lines and unit vectors by validation/independent/film.py. [derived]
describe("the side crossing leans as an independent script finds", () => {
  test.each([
    [8, -9.658, -1.585, -9.622],
    [24, -21.1762, -1.4291, -21.0372],
  ])("at %i mm: %f, %f and %f degrees", (W, peel, side, nip) => {
    const leans = crossing(W).leans.map(degrees);
    expect(leans[0]).toBeCloseTo(peel, 4);
    expect(leans[1]).toBeCloseTo(side, 4);
    expect(leans[2]).toBeCloseTo(nip, 4);
  });
  test("mirrored to the other side of the channel it has the same spans", () => {
    const [left, right] = [crossing(16, 35, -1), crossing(16, 35, 1)];
    for (const i of [0, 1]) {
      expect(right.spans[i]!.twist).toBeCloseTo(left.spans[i]!.twist, 9);
      expect(right.spans[i]!.length).toBeCloseTo(left.spans[i]!.length, 15);
    }
  });
});

// Peel edge 180 degrees back, a bar 90 down, a bar 90 forward. [derived]
describe("turn over the bars of a planar turn round the end", () => {
  const around = (rolls: boolean) =>
    filmPath(
      [0, 0, 0],
      [bar([-0.03, 0, 0], [0, 1, 0], rolls), bar([-0.03, 0, -0.02], [0, 1, 0]), bar([0, 0, -0.02], [0, 1, 0])],
    );
  test("is 180, 90 and 90 degrees, all of it rubbed over fixed bars", () => {
    expect(around(false).wraps.map((w) => Math.round(degrees(w)))).toEqual([180, 90, 90]);
    expect(degrees(around(false).rubbed)).toBeCloseTo(360, 10);
  });
  test("loses 90 degrees of rubbing where the first bar is a roller", () => {
    expect(degrees(around(true).rubbed)).toBeCloseTo(270, 10);
  });
});

const place = fc.double({ min: -0.2, max: 0.2, noNaN: true });
const vector = fc.tuple(place, place, place);
test("moving the whole unit moves no length, no twist and no lean of the film", () => {
  fc.assert(
    fc.property(vector, vector, vector, fc.tuple(place, place, place), (shift, first, second, along) => {
      fc.pre(norm(first) > 1e-3 && norm(plus(second, first, -1)) > 1e-3 && norm(along) > 1e-2);
      const here = filmPath([0, 0, 0], [bar(first, along), bar(second, [0, 1, 0])]);
      const there = filmPath(shift, [bar(plus(first, shift), along), bar(plus(second, shift), [0, 1, 0])]);
      expect(there.length).toBeCloseTo(here.length, 12);
      expect(there.rubbed).toBeCloseTo(here.rubbed, 9);
      there.leans.forEach((lean, i) => {
        expect(lean).toBeCloseTo(here.leans[i]!, 6);
      });
      expect(here.length).toBeGreaterThanOrEqual(norm(second) - 1e-15);
    }),
    { seed: 11, numRuns: 200 },
  );
});

test("a guide without a direction is refused", () => {
  expect(() => filmPath([0, 0, 0], [bar([-0.02, 0, 0], [0, 0, 0])])).toThrow(
    new RangeError("a guide has no direction: its `along` is 0, 0, 0"),
  );
});
test("two guides at one place are refused", () => {
  expect(() => filmPath([0, 0, 0], [bar([-0.02, 0, 0], [0, 1, 0]), bar([-0.02, 0, 0], [0, 0, 1])])).toThrow(
    new RangeError("two guides of the film stand at the same place"),
  );
});

describe("in a scene", () => {
  const returned = scene(overhead(24), embossedTape(24));
  // Peel line on a tape 0.35 mm thick, nip 20 mm behind and 12 mm up. [derived]
  test("the overhead return is 23.15 mm long and leaves at 149.78 degrees", () => {
    expect(nominal(returned, pathLength)).toBeCloseTo(Math.hypot(20e-3, 11.65e-3), 12);
    expect(degrees(nominal(returned, peelAngle))).toBeCloseTo(180 - degrees(Math.atan2(11.65, 20)), 9);
    expect(nominal(returned, wrapOverBars)).toBe(nominal(returned, peelAngle));
  });
  test("a roller in the crossing rubs nothing", () => {
    const across = scene(sideCrossing(12), embossedTape(12));
    expect(guideNames(across)).toEqual(["peel line", "back edge", "shoulder", "nip"]);
    expect(nominal(across, wrapOverBars)).toBeLessThan(nominal(across, peelAngle) + Math.PI / 2);
  });
  test("a film that is not led has no path", () => {
    expect(path.reads(scene(oneSeal(), punchedTape()))).toBeUndefined();
  });
  // The tape falls by 30 degrees: a film straight back along it would leave at 180; straight back level leaves at 150. [derived]
  test("the angle is taken against the tape's own direction at the peel line", () => {
    const back = filmPath([0, 0, 0], [bar([-0.03, 0, 0], [0, 1, 0])], -Math.PI / 6);
    expect(degrees(back.peelAngle)).toBeCloseTo(150, 9);
    expect(degrees(back.rubbed)).toBeCloseTo(150, 9);
  });
});
