import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import { expectClear, expectSound, letteringOf } from "./pick-lettering.fixture.ts";
import { type PickPlanInput, pickEnlargement, pickPlan, pickPlanWords } from "./pick-plan.ts";
import { toSvg } from "./scene.ts";

const input: PickPlanInput = {
  unit: "plover",
  tape: "soic-16",
  pocket: { A0: 7.4e-3, B0: 12.6e-3 },
  part: { along: 5e-3, across: 9.8e-3 },
  tool: { diameter: 4.2e-3 },
  takes: 0.18e-3,
  share: 0.997,
  radii: [
    { name: "any index of any unit", radius: 0.108e-3, low: 0.091e-3, high: 0.141e-3 },
    { name: "a known unit and reel, calibrated", radius: 0.072e-3, low: 0.06e-3, high: 0.09e-3 },
    { name: "mean of a unit", radius: 0.05e-3 },
  ],
  offset: [16e-6, -10e-6],
  spread: { x: 41e-6, y: 25e-6 },
  turn: { mean: 0.002, sd: 0.007 },
  points: { x: [0, 41e-6, Number.NaN], y: [0, -25e-6, 0], of: 200_000 },
};
const svgOf = (one: PickPlanInput, width = 720) => toSvg(pickPlan(one, { width }), { prefix: "p" });
const elements = (one: PickPlanInput, width = 720) => elementsOf(svgOf(one, width));
const withData = (one: PickPlanInput, key: string, value: string) =>
  elements(one).filter((e) => e.attributes[`data-${key}`] === value);
/** Pixels for each metre to scale, and for each metre of error, as the bar under the plan says. */
const scales = (one: PickPlanInput) => {
  const all = elements(one);
  const of = (key: string) => Number(all.find((e) => e.attributes[key] !== undefined)!.attributes[key]);
  return { plain: of("data-scale"), errors: of("data-errors") };
};

describe("how much larger errors are drawn", () => {
  // 0.56 of 7.4 mm is 4.14 mm, 23 times 0.18 mm: the step below is 20. [derived]
  test("is twenty times where the tool takes 0.18 mm in a pocket of 7.4 mm", () => {
    expect(pickEnlargement(input)).toBe(20);
  });
  test("is once where errors are as large as the pocket", () => {
    expect(pickEnlargement({ ...input, takes: 8e-3 })).toBe(1);
  });
  test("is a step of 1, 2, 5 that keeps within the pocket, and the next step would not", () => {
    const length = fc.double({ min: 1e-6, max: 0.02, noNaN: true });
    fc.assert(
      fc.property(length, length, length, (A0, B0, takes) => {
        const k = pickEnlargement({
          ...input,
          pocket: { A0, B0 },
          takes,
          radii: [],
          offset: [0, 0],
          spread: { x: 0, y: 0 },
        });
        const room = 0.56 * Math.min(A0, B0);
        expect([1, 2, 5, 10]).toContain(Number((k / 10 ** Math.floor(Math.log10(k) + 1e-9)).toPrecision(6)));
        if (k > 1) expect(k * takes).toBeLessThanOrEqual(room * (1 + 1e-9));
        if (k < 1e4) expect(2.5 * k * takes).toBeGreaterThan(room * (1 - 1e-9));
      }),
    );
  });
});

describe("the plan", () => {
  test("draws pocket and part by one scale, errors by another that is as many times larger as it says", () => {
    const { plain, errors } = scales(input);
    expect(errors / plain).toBeCloseTo(20, 6);
    const pocket = withData(input, "what", "pocket")[0]!.attributes;
    expect(Number(pocket.width)).toBeCloseTo(7.4e-3 * plain, 2);
    expect(Number(pocket.height)).toBeCloseTo(12.6e-3 * plain, 2);
    expect(Number(withData(input, "what", "part")[0]!.attributes.height)).toBeCloseTo(9.8e-3 * plain, 2);
    expect(Number(withData(input, "what", "tool")[0]!.attributes.r)).toBeCloseTo(2.1e-3 * plain, 2);
    expect(Number(withData(input, "what", "takes")[0]!.attributes.r)).toBeCloseTo(0.18e-3 * errors, 2);
    expect(withData(input, "what", "holds").map((e) => Number(e.attributes.r))).toEqual(
      [0.05e-3, 0.072e-3, 0.108e-3].map((r) => Math.round(r * errors * 1000) / 1000),
    );
  });
  test("centres radii on the nominal place and ellipses on the mean, up across the tape", () => {
    const { errors } = scales(input);
    const centre = withData(input, "what", "holds")[0]!.attributes;
    const ellipse = pointsOf(withData(input, "sd", "3")[0]!.attributes.d!);
    const [right, , left] = [ellipse[0]!, ellipse[1]!, ellipse[2]!];
    expect(right[0] - Number(centre.cx)).toBeCloseTo((16e-6 + 3 * 41e-6) * errors, 2);
    expect(left[0] - Number(centre.cx)).toBeCloseTo((16e-6 - 3 * 41e-6) * errors, 2);
    expect(Number(centre.cy) - right[1]).toBeCloseTo(-10e-6 * errors, 2);
    expect(ellipse[1]![1] - Number(centre.cy)).toBeCloseTo((10e-6 - 3 * 25e-6) * errors, 2);
  });
  test("leans the ellipse by the correlation: at its right end y is that share of its standard deviations", () => {
    const leant = { ...input, spread: { x: 41e-6, y: 25e-6, correlation: 0.5 } };
    const { errors } = scales(leant);
    const centre = withData(leant, "what", "holds")[0]!.attributes;
    const right = pointsOf(withData(leant, "sd", "2")[0]!.attributes.d!)[0]!;
    expect(Number(centre.cy) - right[1]).toBeCloseTo((-10e-6 + 2 * 0.5 * 25e-6) * errors, 2);
  });
  test("leaves out a point that is no number, and draws no more than 400", () => {
    const dots = (one: PickPlanInput) =>
      elements(one).filter((e) => e.name === "circle" && e.attributes.class === "of-ink2 softly").length;
    expect(dots(input)).toBe(2);
    const many = Float64Array.from({ length: 5000 }, (_, i) => (i % 100) * 1e-6);
    expect(dots({ ...input, points: { x: many, y: many } })).toBe(400);
  });
  test("says in a failing line that the radius is more than the tool takes", () => {
    const words = (one: PickPlanInput) =>
      letteringOf(svgOf(one)).flatMap((l) => (l.cls.includes("is-fail") ? [l.words] : []));
    expect(words(input)).toEqual([]);
    expect(words({ ...input, takes: 0.1e-3 })).toEqual(["99.7 % within 0.11 mm, more than it takes"]);
  });
  test.each([340, 599, 600, 720, 1100])("keeps its words apart and on the sheet at %i px", (width) => {
    for (const one of [input, { ...input, takes: 0.05e-3 }, { ...input, pocket: { A0: 0.7e-3, B0: 1.2e-3 } }])
      expectClear(pickPlan(one, { width }));
    expectClear(pickPlan(input, { width, height: 300 }));
  });
  test("stands as tall as it is asked to, if that is enough", () => {
    expect(pickPlan(input, { width: 720, height: 800 }).height).toBe(800);
    expect(pickPlan(input, { width: 340, height: 100 }).height).toBeGreaterThan(300);
  });
});

describe("the words", () => {
  test("say radius, belief, what the tool takes, offset, scatter and enlargement", () => {
    expect(pickPlanWords(input)).toBe(
      "The pick place of plover with soic-16 from above. 99.7 % of indexes lie within 0.11 mm of the mark, any index of any unit, by belief 0.091 to 0.14 mm; the tool takes 0.18 mm. A known unit and reel, calibrated: 0.072 mm. Mean of a unit: 0.050 mm. The mean is off by 0.016 mm along the travel and minus 0.010 mm across. One standard deviation is 0.041 mm along and 0.025 mm across. Parts are turned by 0.11° in the mean, with a standard deviation of 0.40°. Pocket 7.4 mm by 13 mm, part 5.0 mm by 9.8 mm and nozzle 4.2 mm wide. Errors are drawn 20 times larger than the rest.",
    );
  });
  test("say that no radius is known where none is", () => {
    expect(pickPlanWords({ ...input, radii: [] })).toContain("No radius is known. The tool takes 0.18 mm.");
  });
});

test("any numbers, none, nought or without end, still make a drawing without a number that is none", () => {
  const any = fc.oneof(
    fc.double(),
    fc.constantFrom(0, Number.NaN, Number.POSITIVE_INFINITY, 1e6, 1e-300, 1e300),
    fc.double({ min: 1e-6, max: 1e-2, noNaN: true }),
  );
  fc.assert(
    fc.property(fc.array(any, { minLength: 14, maxLength: 14 }), fc.constantFrom(340, 720), (n, width) => {
      const one: PickPlanInput = {
        ...input,
        pocket: { A0: n[0]!, B0: n[1]! },
        part: { along: n[2]!, across: n[3]! },
        tool: { diameter: n[4]! },
        takes: n[5]!,
        radii: [{ name: "any", radius: n[6]!, low: n[7]!, high: n[8]! }],
        offset: [n[9]!, n[10]!],
        spread: { x: n[11]!, y: n[12]!, correlation: n[13]! },
        points: { x: n, y: [...n].reverse() },
      };
      expect(svgOf(one, width).replace(/<(title|desc)[^>]*>[^<]*/g, "")).not.toMatch(/="[^"]*(NaN|Infinity)/);
    }),
  );
  expectSound(
    pickPlan(
      { unit: "u", tape: "t", pocket: { A0: 0, B0: 0 }, share: 0.997, radii: [], offset: [0, 0] },
      { width: 340 },
    ),
  );
});
