import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, scene, sideCrossing } from "../scene.fixture.ts";
import { filmPath } from "./path.ts";
import { fibreLength, greatestStrain, slackShare, strip } from "./strip.ts";

const [b, Eh] = [0.0213, 79600];

// One material length by bisection over 200 001 fibres: validation/independent/film.py. [derived]
describe("fibres that bear tension alone", () => {
  test("over a parabola of 700 y^2 strain by 1.0545 % and hang slack over 92.6 %", () => {
    const { greatest, slack, offset } = strip((y) => 1 + 700 * y * y, b, Eh, 0.65, "clamped");
    expect(greatest).toBeCloseTo(0.010545, 4);
    expect(slack).toBeCloseTo(0.92636, 2);
    expect(offset).toBeCloseTo(0, 9);
  });
  // Closed form: taut over w = sqrt(2 P/(Eh s)), greatest strain s w, line of pull at b/2 - w/3. [derived]
  test("over a slope of 0.4 are taut over 6.39 mm, pulled 8.52 mm beside the middle", () => {
    const { greatest, slack, offset } = strip((y) => 1 + 0.4 * y, b, Eh, 0.65, "clamped");
    const w = Math.sqrt((2 * 0.65) / (Eh * 0.4));
    expect(w).toBeCloseTo(6.3898e-3, 6);
    expect((b * (1 - slack)) / w).toBeCloseTo(1, 1.7);
    expect(greatest / (0.4 * w)).toBeCloseTo(1, 1.7);
    expect(offset).toBeCloseTo(b / 2 - w / 3, 4);
  });
  // s = 2 P/(Eh b^2) is where an edge first goes slack; the line of pull then stands at b/6. [derived]
  test("first go slack when the line of pull leaves the middle third", () => {
    const s = (2 * 0.65) / (Eh * b * b);
    const { slack, offset } = strip((y) => 1 + s * y, b, Eh, 0.65, "clamped");
    expect(slack).toBeLessThan(0.005);
    expect(offset / b).toBeCloseTo(1 / 6, 2);
  });
  test("all of one length share the pull evenly: P/(Eh b)", () => {
    const { greatest, slack, offset } = strip(() => 0.07, b, Eh, 0.65, "clamped");
    expect(greatest / (0.65 / (Eh * b))).toBeCloseTo(1, 8);
    expect(slack).toBe(0);
    expect(offset).toBeCloseTo(0, 12);
  });
  // A discrete shell of 8 mm film strains 0.5576 % in a quarter turn of 36.3 mm; straight chords lie below it. [derived]
  test("lie up to a quarter below the shell in a quarter turn of narrow film", () => {
    const turn = filmPath([0, 0, 0], [{ through: [-0.0363, 0, 0], along: [0, 0, 1], rolls: false }]);
    const { greatest } = strip((y) => fibreLength(turn, y), 0.0053, 79600, 0.5, "free");
    expect(greatest / 0.005576260500366886).toBeGreaterThan(0.75);
    expect(greatest / 0.005576260500366886).toBeLessThan(1.05);
    expect(greatest).toBeCloseTo(0.004521, 5);
  });
});

const pull = fc.double({ min: 0.05, max: 5, noNaN: true });
test("a free front takes any skew out, whatever the pull", () => {
  fc.assert(
    fc.property(pull, fc.double({ min: -0.3, max: 0.3, noNaN: true }), (P, skew) => {
      const curve = (y: number) => 0.05 + 3 * y * y;
      const still = strip(curve, b, Eh, P, "free");
      const skewed = strip((y) => curve(y) + skew * y, b, Eh, P, "free");
      expect(skewed.greatest).toBeCloseTo(still.greatest, 9);
      expect(skewed.slack).toBeCloseTo(still.slack, 2);
    }),
    { seed: 31, numRuns: 60 },
  );
});
test("more pull strains more and leaves no more slack", () => {
  fc.assert(
    fc.property(pull, fc.double({ min: 1.01, max: 3, noNaN: true }), (P, times) => {
      const curve = (y: number) => 0.05 + 5 * y * y;
      const [less, more] = [strip(curve, b, Eh, P, "free"), strip(curve, b, Eh, P * times, "free")];
      expect(more.greatest).toBeGreaterThan(less.greatest);
      expect(more.slack).toBeLessThanOrEqual(less.slack);
    }),
    { seed: 32, numRuns: 60 },
  );
});

test("no length of film carries a pull that pushes", () => {
  expect(() => strip(() => 0.05, b, Eh, -0.1, "free")).toThrow(
    "no length of film carries a pull of -0.1 N over this path",
  );
});
describe("in a scene", () => {
  test("a wide film in a crossing hangs partly slack and is strained by its pull alone", () => {
    const across = scene(sideCrossing(24), embossedTape(24));
    expect(nominal(across, slackShare)).toBeGreaterThan(0);
    expect(nominal(across, slackShare)).toBeLessThan(1);
    expect(nominal(across, greatestStrain)).toBeLessThan(0.05);
  });
  test("a film that is not led has no strip", () => {
    const { s } = greatestStrain.reads(scene(oneSeal(), embossedTape(8)))! as { s: typeof greatestStrain };
    expect(s.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
});
