import fc from "fast-check";
import { expect, test } from "vitest";
import { elementsOf, findingWith } from "./example.fixture.ts";
import { toSvg } from "./scene.ts";
import { type WindowInput, windowDrawing, windowOf, windowWords } from "./window.ts";

const draw = (input: WindowInput) => {
  const svg = toSvg(windowDrawing(input, { width: 340 }), { prefix: "w" });
  return { svg, elements: elementsOf(svg) };
};
const x = (elements: ReturnType<typeof elementsOf>, name: string): number =>
  Number(
    elements.find((e) => e.attributes[`data-${name}`] !== undefined)!.attributes[
      name === "bound" ? "data-at" : `data-${name}`
    ],
  );

test("a value inside its window stands between the brackets, on one scale", () => {
  const { elements } = draw({ title: "room", shownIn: "mm", value: 0.4e-3, least: 0.2e-3, most: 0.9e-3 });
  const bounds = elements
    .filter((e) => e.attributes["data-bound"] !== undefined)
    .map((e) => Number(e.attributes["data-at"]));
  const at = x(elements, "value");
  expect((at - bounds[0]!) / (bounds[1]! - bounds[0]!)).toBeCloseTo((0.4 - 0.2) / (0.9 - 0.2), 6);
});
test("a value beyond its bound is marked by form: it stands in what is hatched as outside", () => {
  const { elements, svg } = draw({ title: "mismatch", shownIn: "%", value: 0.036, most: 0.019 });
  expect(x(elements, "value")).toBeGreaterThan(x(elements, "bound"));
  expect(svg).toContain("url(#w-outside)");
  expect(svg).toContain("at most 1.9 %");
  expect(svg).toContain(">3.6 %<");
});
test("scatter is a bell, belief a stripe and never a bell", () => {
  const only = draw({ title: "a", shownIn: "N", value: 2, most: 3, belief: { kind: 1.6, unkind: 2.5 } });
  expect(only.elements.filter((e) => e.attributes["data-belief"] !== undefined)).toHaveLength(1);
  const bells = (svg: string): number =>
    (svg.match(/<path class="(outline|thin bell-kind)" d="M[^"]{400,}"/g) ?? []).length;
  expect(bells(only.svg)).toBe(0);
  expect(
    bells(draw({ title: "a", shownIn: "N", value: 2, most: 3, belief: { kind: 1.6, unkind: 2.5 }, scatter: 0.1 }).svg),
  ).toBe(2);
  expect(bells(draw({ title: "a", shownIn: "N", value: 2, most: 3, scatter: 0.1 }).svg)).toBe(1);
});
test("the tipping value stands on the axis of the unknown, with the side that stops", () => {
  const decisive = {
    address: "plover/film.friction",
    symbol: "mu",
    tipping: 0.34,
    guess: { low: 0.18, high: 0.35 },
    unit: "1",
    shownIn: "",
    shareIfMeasured: 1,
  };
  const { elements, svg } = draw({ title: "pull", shownIn: "N", value: 2, most: 3, decisive });
  const guess = elements.find((e) => e.attributes["data-guess"] !== undefined)!.attributes;
  const [from, to] = [Number(guess.x), Number(guess.x) + Number(guess.width)];
  expect((x(elements, "tipping") - from) / (to - from)).toBeCloseTo((0.34 - 0.18) / (0.35 - 0.18), 3);
  expect(svg).toContain("stops above 0.34");
});
test("two words a belief may choose between have no axis", () => {
  const decisive = {
    address: "assume/peel front",
    symbol: "s_f",
    tipping: 1,
    guess: { low: 0, high: 1 },
    unit: "1",
    shownIn: "",
    shareIfMeasured: 1,
    words: ["free", "clamped"] as const,
  };
  expect(draw({ title: "a", shownIn: "", value: 0, most: 1, decisive }).svg).not.toContain("data-guess");
});
test("a finding's corners become the values they leave with the bound as written", () => {
  // Room under a most: value = bound - gap. [derived]
  const most = windowOf(
    findingWith({
      check: "film.mismatch",
      value: 0.036,
      bounds: { most: 0.019 },
      corners: { best: -0.011, worst: -0.021 },
    }),
    "%",
  )!;
  expect(most.belief).toEqual({ kind: expect.closeTo(0.03, 12), unkind: expect.closeTo(0.04, 12) });
  const least = windowOf(
    findingWith({
      check: "entry.pockets",
      value: 0.09e-3,
      bounds: { least: 0 },
      corners: { best: 0.25e-3, worst: -0.14e-3 },
    }),
    "mm",
  )!;
  expect(least.belief).toEqual({ kind: 0.25e-3, unkind: -0.14e-3 });
});
test("where it is the bound that moves, the room up to it is shown", () => {
  // 3.6 N under a break of 5.8 N that may be 10: the gap of 6.4 N would leave a pull of -0.6 N. [derived]
  const slips = windowOf(
    findingWith({ check: "nip.slips", value: 3.6, bounds: { most: 5.8 }, corners: { best: 6.4, worst: -0.2 } }),
    "N",
  )!;
  expect(slips).toMatchObject({
    title: "room of nip.slips",
    value: expect.closeTo(2.2, 12),
    least: 0,
    belief: { kind: 6.4, unkind: -0.2 },
  });
  expect(slips.most).toBeUndefined();
});
test("a finding without a value or bound has no window", () => {
  expect(windowOf(findingWith({ check: "a.b", value: null }), "")).toBeUndefined();
  expect(windowOf(findingWith({ check: "a.b", bounds: {} }), "")).toBeUndefined();
});
test("corners that agree are no belief at all", () => {
  expect(windowOf(findingWith({ check: "a.b", corners: { best: 0.01, worst: 0.01 } }), "")!.belief).toBeUndefined();
});
test("the words tell value, bounds, scatter, belief and what it hangs on", () => {
  const decisive = {
    address: "tapes/dpak-16/T",
    symbol: "T",
    tipping: 0.33e-3,
    guess: { low: 0.2e-3, high: 0.4e-3 },
    unit: "m",
    shownIn: "mm",
    shareIfMeasured: 1,
  };
  expect(
    windowWords({
      title: "pockets",
      shownIn: "mm",
      value: 0.09e-3,
      least: 0,
      scatter: 0.01e-3,
      belief: { kind: 0.25e-3, unkind: -0.14e-3 },
      decisive,
    }),
  ).toBe(
    "Pockets is 0.090 mm; it must be at least 0 mm. It scatters with a standard deviation of 0.010 mm. What is not known puts it between 0.25 mm at the kind end and minus 0.14 mm at the unkind end. " +
      "It hangs on T of dpak-16: 0.20 to 0.40 mm, middle 0.28 mm. It stops above 0.33 mm.",
  );
});
test("any window draws, without a number that is none", () => {
  const v = fc.double({ min: -1, max: 1, noNaN: true });
  fc.assert(
    fc.property(
      v,
      fc.option(v),
      fc.option(v),
      fc.option(fc.record({ kind: v, unkind: v })),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (value, least, most, belief, scatter) => {
        const { svg } = draw({
          title: "a",
          shownIn: "mm",
          value,
          ...(least === null ? {} : { least }),
          ...(most === null ? {} : { most }),
          ...(belief ? { belief } : {}),
          scatter,
        });
        expect(svg).not.toMatch(/NaN|Infinity/);
      },
    ),
    { seed: 21, numRuns: 200 },
  );
});
