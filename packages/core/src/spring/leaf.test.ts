import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Counterface, Leaf, type LeafShape, type Pressed, type Solved } from "./leaf.ts";

const solved = (pressed: Pressed): Solved => {
  if (pressed.outcome !== "solved") throw new Error(pressed.because);
  return pressed;
};
const mm = 1e-3;
/** Length 1, EI 1, without stretch. */
const elastica = (elements = 40): Leaf =>
  new Leaf({ length: 1, thickness: 0.01, width: 12, E: 1e6, nu: 0, bends: "beam", slender: true, elements });
const narrow: LeafShape = {
  length: 20 * mm,
  thickness: 0.2 * mm,
  width: 5 * mm,
  E: 200e9,
  nu: 0,
  bends: "beam",
  slender: true,
};
const strip: LeafShape = { length: 24 * mm, thickness: 0.15 * mm, width: 5 * mm, E: 185e9, nu: 0.3 };
const up = { kind: "nose", normal: [0, 1] } as const;

// Elliptic integrals: validation/independent/spring.py; Bisshopp and Drucker 1945 print the first digits (memory). [derived]
describe("the tip of a cantilever under a load across it stands, of the length,", () => {
  test.each([
    [1, 0.3017207738, 0.05643323628, 0.46135194971],
    [2, 0.4934574804, 0.16064172083, 0.78174983156],
    [10, 0.81060902488, 0.55499559775, 1.43028553881],
  ])("at P L^2/EI %i: %f aside, %f back, %f turned", (a, side, back, turn) => {
    const { tip } = solved(elastica().load({ y: -a }));
    expect(Math.abs(-tip.y - side)).toBeLessThan(1e-6);
    expect(Math.abs(1 - tip.x - back)).toBeLessThan(1e-6);
    expect(Math.abs(-tip.angle - turn)).toBeLessThan(1e-6);
  });
  test("and with four times fewer elements it errs 200 times more, not 16 times", () => {
    const off = (n: number): number => Math.abs(solved(elastica(n).load({ y: -2 })).tip.angle + 0.7817498315565);
    expect(off(5) / off(20)).toBeGreaterThan(150);
    expect(off(10)).toBeLessThan(4e-5);
  });
});
test("a moment of a full turn closes the leaf to a circle; part of one bends it to an arc", () => {
  const full = solved(elastica().load({ moment: 2 * Math.PI })).tip;
  expect(Math.hypot(full.x, full.y)).toBeLessThan(1e-9);
  for (const n of [3, 7, 20]) {
    const a = 0.3 * n;
    const { tip } = solved(elastica(n).load({ moment: a }));
    const miss = Math.hypot(tip.x - Math.sin(a) / a, tip.y - (1 - Math.cos(a)) / a);
    expect(miss).toBeLessThan(1e-8);
    expect(tip.angle).toBeCloseTo(a, 9);
  }
});
// K and E of elliptic integrals: validation/independent/spring.py. [derived]
test("a column bent to 140 degrees is found, from a nudge that is then taken away", () => {
  const column = elastica();
  const P = (2.542258369559 * Math.PI ** 2) / 4;
  column.load({ x: -P, y: 0.05 });
  const { tip } = solved(column.load({ x: -P }));
  expect(tip.x).toBeCloseTo(-0.1069232376, 6);
  expect(tip.y).toBeCloseTo(0.7503883661, 6);
});
test("a straight column above its buckling load is no equilibrium, below it is", () => {
  const critical = Math.PI ** 2 / 4;
  expect(elastica().load({ x: -0.999 * critical }).outcome).toBe("solved");
  const refused = elastica().load({ x: -1.001 * critical });
  expect(refused).toMatchObject({
    outcome: "no equilibrium",
    because: "the leaf snaps through: no state near the last one holds",
  });
});

describe("a face that presses", () => {
  // Shooting with the place of contact unknown: validation/independent/spring.py. [derived]
  test("is a pin lifted by 10 mm under a leaf of 20 mm: 3.064 and 2.443 N at 17.72 mm", () => {
    const pin = { kind: "pin", at: [15 * mm, -1.1 * mm], radius: mm, side: "below", direction: [0, 1] } as const;
    const [face] = solved(new Leaf(narrow).press(pin, 10 * mm)).faces;
    expect(Math.abs(face!.x / -3.063959765 - 1)).toBeLessThan(2e-4);
    expect(Math.abs(face!.y / 2.443130051 - 1)).toBeLessThan(2e-4);
    expect(Math.abs(face!.touches[0]!.s / 17.719273e-3 - 1)).toBeLessThan(2e-4);
  });
  test("carries friction in the sense that is asked for, and the other one otherwise", () => {
    const pin = {
      kind: "pin",
      at: [15 * mm, -1.1 * mm],
      radius: mm,
      side: "below",
      direction: [0, 1],
      friction: 0.25,
    } as const;
    const [toTip] = solved(new Leaf(narrow).press({ ...pin, slip: "to tip" }, 6 * mm)).faces;
    const [toClamp] = solved(new Leaf(narrow).press({ ...pin, slip: "to clamp" }, 6 * mm)).faces;
    expect(toTip!.x).toBeCloseTo(-1.0158101, 4);
    expect(toTip!.y).toBeCloseTo(2.9689003, 3);
    expect(toClamp!.x).toBeLessThan(toTip!.x - 1);
  });
  test("is a nose whose force, laid on as a dead load, brings back the same stroke", () => {
    const leaf = new Leaf(strip);
    const pressed = solved(leaf.press(up, 6 * mm));
    const force = pressed.faces[0]!.normal;
    expect(new Leaf(strip).strokeFor(up, force)! / (6 * mm)).toBeCloseTo(1, 4);
    expect(-pressed.root.y / force).toBeCloseTo(1, 6);
  });
  test("drags a nose by its friction, and turns it by the radius it touches at", () => {
    const face = { ...up, friction: 0.3, slip: "to tip", radius: 1 * mm } as const;
    const { faces, root, tip } = solved(new Leaf(strip).press(face, 4 * mm));
    const { x, y, normal } = faces[0]!;
    expect(x / normal).toBeCloseTo(0.3, 9);
    expect(y / normal).toBeCloseTo(1, 9);
    // Moments about the clamp: the force at the tip, and its friction 1 mm below.
    expect(root.moment).toBeCloseTo(-(tip.x * y - (tip.y - 1 * mm) * x), 9);
  });
  test("is a flat under a bowed leaf: two places touch, forces are in balance, nothing pierces it", () => {
    const leaf = new Leaf({ ...strip, curvature: -40 });
    const flat = { kind: "flat", at: [0, -1.075 * mm], normal: [0, 1], from: 4 * mm } as const;
    const pressed = solved(leaf.press(flat, 2 * mm));
    const [face] = pressed.faces;
    expect(face!.touches.map(({ s }) => Math.round(s / (0.6 * mm)))).toEqual([7, 40]);
    expect(face!.touches.reduce((sum, { force }) => sum + force, 0)).toBeCloseTo(face!.normal, 9);
    expect(-pressed.root.y / face!.y).toBeCloseTo(1, 4);
    for (const y of pressed.shape.y.slice(7)) expect(y).toBeGreaterThan(1 * mm - 1e-6);
  });
  test("that has slid off the tip is no equilibrium, and says so", () => {
    const pin = { kind: "pin", at: [23 * mm, -1.1 * mm], radius: mm, side: "below", direction: [0, 1] } as const;
    const refused = new Leaf(strip).press(pin, 20 * mm);
    expect(refused.outcome).toBe("no equilibrium");
    expect(refused.outcome !== "solved" && refused.because).toMatch(/^the tip slid off the pin/);
  });
  test("that stands clear of the leaf does nothing", () => {
    const pin = { kind: "pin", at: [15 * mm, -5 * mm], radius: mm, side: "below", direction: [0, 1] } as const;
    const still = solved(new Leaf(strip).press(pin, 1 * mm));
    expect(still.faces[0]).toMatchObject({ normal: 0, touches: [] });
    expect(still.stress).toBeLessThan(1);
  });
});

describe("the same leaf seen otherwise bears the same forces:", () => {
  const bow = { ...strip, curvature: -20 };
  const rub = { friction: 0.2, slip: "to tip" } as const;
  const under = [
    ["nose", { kind: "nose", normal: [0, 1], radius: 1 * mm, ...rub }, 2 * mm],
    ["pin", { kind: "pin", at: [14 * mm, -4 * mm], radius: 1 * mm, side: "below", direction: [0, 1], ...rub }, 4 * mm],
    ["flat", { kind: "flat", at: [0, -3 * mm], normal: [0, 1], from: 4 * mm, ...rub }, 1 * mm],
    [
      "cylinder",
      {
        kind: "cylinder",
        at: [15 * mm, -33 * mm],
        radius: 30 * mm,
        side: "below",
        direction: [0, 1],
        from: 4 * mm,
        ...rub,
      },
      2 * mm,
    ],
  ] as const satisfies readonly (readonly [string, Counterface, number])[];
  const forceOf = (
    shape: LeafShape,
    face: Counterface,
    stroke: number,
  ): { normal: number; stress: number; tip: number } => {
    const { faces, stress, tip } = solved(new Leaf(shape).press(face, stroke));
    return { normal: faces[0]!.normal, stress, tip: Math.hypot(tip.x, tip.y) };
  };
  const turned = (
    face: Counterface,
    by: (v: readonly [number, number]) => readonly [number, number],
    flip: boolean,
  ): Counterface =>
    Object.fromEntries(
      Object.entries(face).map(([name, v]) =>
        Array.isArray(v)
          ? [name, by(v as unknown as readonly [number, number])]
          : name === "side" && flip
            ? [name, "above"]
            : [name, v],
      ),
    ) as unknown as Counterface;
  test.each(under)("%s, in a mirror", (_, face, stroke) => {
    const plain = forceOf(bow, face, stroke);
    const mirrored = forceOf(
      { ...bow, curvature: 20 },
      turned(face, ([x, y]) => [x, -y], true),
      stroke,
    );
    expect(plain.normal).toBeGreaterThan(0.01);
    for (const key of ["normal", "stress", "tip"] as const) expect(mirrored[key] / plain[key]).toBeCloseTo(1, 5);
  });
  test.each(under)("%s, turned by 130 degrees", (_, face, stroke) => {
    const [c, s] = [Math.cos(2.27), Math.sin(2.27)];
    const plain = forceOf(bow, face, stroke);
    const clamp = { x: 0, y: 0, angle: 2.27 };
    const other = forceOf(
      { ...bow, clamp },
      turned(face, ([x, y]) => [c * x - s * y, s * x + c * y], false),
      stroke,
    );
    for (const key of ["normal", "stress", "tip"] as const) expect(other[key] / plain[key]).toBeCloseTo(1, 5);
  });
  test.each(under)(
    "%s, a thousand times as long, as thick and as wide, pressed with a million times the force",
    (_, face, stroke) => {
      const plain = forceOf(bow, face, stroke);
      const big = { ...bow, length: 24, thickness: 0.15, width: 5, curvature: -0.02 };
      const large = Object.fromEntries(
        Object.entries(face).map(([name, v]) =>
          name === "at"
            ? [name, (v as readonly number[]).map((x) => 1000 * x)]
            : name === "radius" || name === "from"
              ? [name, 1000 * (v as number)]
              : [name, v],
        ),
      ) as unknown as Counterface;
      const other = forceOf(big, large, 1000 * stroke);
      expect(other.normal / (1e6 * plain.normal)).toBeCloseTo(1, 5);
      expect(other.stress / plain.stress).toBeCloseTo(1, 5);
    },
  );
});
test("a pin is moved until it presses with the force that is asked for", () => {
  const pin = { kind: "pin", at: [16 * mm, -1.1 * mm], radius: 1 * mm, side: "below", direction: [0, 1] } as const;
  const pressed = solved(new Leaf(strip).pressWith(pin, 0.5));
  expect(pressed.faces[0]!.normal).toBeCloseTo(0.5, 4);
  expect(solved(new Leaf(strip).press(pin, pressed.stroke)).faces[0]!.normal).toBeCloseTo(0.5, 4);
  expect(new Leaf(strip).strokeFor(pin, 1e4)).toBeUndefined();
});

test("a warm sweep ends where a cold press ends, with fewer iterations a step", () => {
  const warm = new Leaf(strip);
  let last = solved(warm.press(up, 1 * mm));
  let spent = 0;
  for (let i = 11; i <= 60; i++) {
    last = solved(warm.press(up, i * 0.1 * mm));
    spent += last.iterations;
  }
  const cold = solved(new Leaf(strip).press(up, 6 * mm));
  expect(last.faces[0]!.normal / cold.faces[0]!.normal).toBeCloseTo(1, 5);
  expect(spent / 50).toBeLessThan(cold.iterations);
});
test("a released leaf is stress-free, and remembers nothing of what pressed it", () => {
  const leaf = new Leaf({ ...strip, curvature: 15 });
  const once = solved(leaf.press(up, 3 * mm));
  leaf.release();
  expect(solved(leaf.load({})).stress).toBeLessThan(1);
  const again = solved(leaf.press(up, 3 * mm));
  expect(again.faces[0]!.normal).toBeCloseTo(once.faces[0]!.normal, 9);
});
test("the greatest stress of a tip load is 6 M/(b t^2) at the clamp, wide or narrow", () => {
  for (const width of [2, 5, 30]) {
    const { root, stress, at, tip } = solved(new Leaf({ ...strip, width: width * mm }).load({ y: -0.05 * width }));
    expect(at).toBe(0);
    expect(root.moment / (0.05 * width * tip.x)).toBeCloseTo(1, 5);
    const bending = (6 * Math.abs(root.moment)) / (width * mm * (0.15 * mm) ** 2);
    expect(stress / bending).toBeCloseTo(1, 2);
  }
});
test("a stiffer, thicker or shorter leaf presses harder at the same stroke", () => {
  const force = (shape: Partial<LeafShape>): number =>
    solved(new Leaf({ ...strip, ...shape }).press(up, 1 * mm)).faces[0]!.normal;
  const factor = fc.double({ min: 1.05, max: 1.6, noNaN: true });
  fc.assert(
    fc.property(factor, (f) => {
      const plain = force({});
      expect(force({ E: strip.E * f }) / plain).toBeCloseTo(f, 3);
      expect(force({ thickness: strip.thickness * f }) / plain).toBeGreaterThan(f ** 2.8);
      expect(force({ length: strip.length / f })).toBeGreaterThan(plain * f ** 2.5);
    }),
    { seed: 3, numRuns: 15 },
  );
});
test("a leaf strained beyond 5 % is refused by name, not reported", () => {
  const refused = new Leaf({ ...strip, length: 3 * mm, thickness: 1 * mm }).press(up, 1.3 * mm);
  expect(refused.outcome).toBe("overstrained");
  expect(refused.outcome !== "solved" && refused.because).toMatch(
    /^the leaf would be strained by \d+ %, and the equations end at 5 %$/,
  );
});

describe("a leaf that is none is refused, with the reason:", () => {
  test.each([
    [{ length: 0 }, "the leaf's length is 0 m; it must be above 0"],
    [{ thickness: -1 }, "the leaf's thickness is -1 m; it must be above 0"],
    [{ width: Number.NaN }, "the leaf's width is NaN m; it must be above 0"],
    [{ E: 0 }, "the leaf's modulus is 0 Pa; it must be above 0"],
    [{ nu: 0.7 }, "Poisson's ratio is 0.7; it must lie from 0 to 0.5"],
    [{ elements: 1 }, "1 elements; a leaf needs two or more"],
  ])("%o", (wrong, words) => {
    expect(() => new Leaf({ ...strip, ...wrong })).toThrow(words);
  });
  test("and so are a stroke, a force and a face that are none", () => {
    const leaf = new Leaf(strip);
    expect(() => leaf.press(up, Number.NaN)).toThrow("a stroke of NaN m");
    expect(() => leaf.pressWith(up, -1)).toThrow("a force of -1 N");
    expect(() => leaf.press({ ...up, normal: [0, 0] }, 1 * mm)).toThrow("a direction without length");
    expect(() => leaf.press({ ...up, friction: -0.1 }, 1 * mm)).toThrow("a friction of -0.1");
  });
});
