import { describe, expect, test } from "vitest";
import { type BeforeAfterInput, beforeAfter, beforeAfterWords } from "./before-after.ts";
import { cardAxis } from "./card-axis.ts";
import { linesOf, marked } from "./marked.fixture.ts";
import { expectClear, expectSound } from "./pick-lettering.fixture.ts";
import { type Shape, toSvg } from "./scene.ts";

/** Invented: a friction that one tape bears up to 0.31. */
const input = (more: Partial<BeforeAfterInput> = {}): BeforeAfterInput => ({
  address: "plover/film.friction",
  shownIn: "",
  guess: { low: 0.18, high: 0.35 },
  tips: [{ at: 0.31, tape: "so20-24", side: "above" }],
  measured: { value: 0.24, low: 0.225, high: 0.262, scatter: { sd: 0.05, log: true, per: "reel" } },
  ...more,
});
const boxOf = (s: Shape | undefined) => (s?.kind === "box" ? s : undefined)!;

describe.each([260, 340, 440])("at %i px", (width) => {
  test.each([
    ["measured", input()],
    ["nothing measured", (({ measured: _, ...rest }) => rest)(input())],
    ["nothing tips", input({ tips: [] })],
    ["stops below", input({ tips: [{ at: 0.2, tape: "so20-24", side: "below" }] })],
    [
      "several tapes",
      input({
        tips: [
          { at: 0.31, tape: "a-24", side: "above" },
          { at: 0.27, tape: "b-32", side: "above" },
          { at: 0.2, tape: "d-12", side: "below" },
        ],
      }),
    ],
    ["one or the other", input({ words: ["free", "clamped"], found: "free" })],
  ])("%s: no word hides another or leaves the paper", (_, one) => {
    const d = beforeAfter(one, { width });
    expectClear(d);
    expectSound(d);
  });
});
test("the guess is striped and the side on which a tape stops is hatched", () => {
  const d = beforeAfter(input(), { width: 340 });
  expect(boxOf(marked(d.shapes, "guess")[0]).fill).toBe("unknown");
  const stops = boxOf(marked(d.shapes, "stops")[0]);
  expect(stops.fill).toBe("fails");
  expect(stops.at[0] + stops.width).toBeCloseTo(332, 6);
});
test("of several tapes the hatch begins where the first of them stops", () => {
  const tip = (s: Shape): number => Number(s.data!.tipping);
  const d = beforeAfter(
    input({
      tips: [
        { at: 0.31, tape: "a-24", side: "above" },
        { at: 0.27, tape: "b-32", side: "above" },
      ],
    }),
    { width: 340 },
  );
  expect(boxOf(marked(d.shapes, "stops")[0]).at[0]).toBeCloseTo(Math.min(...marked(d.shapes, "tipping").map(tip)), 6);
});
test("tapes that tip at one place share one line", () => {
  const tips = ["a-24", "b-32", "c-44"].map((tape) => ({ at: 0.3, tape, side: "above" as const }));
  const d = beforeAfter(input({ tips }), { width: 340 });
  expect(marked(d.shapes, "tipping")).toHaveLength(1);
  expect(linesOf(d)).toContain("a-24 and 2 more feed");
});
test("the bell is the scatter of the next reel and stands only where there is one", () => {
  expect(marked(beforeAfter(input(), { width: 340 }).shapes, "bell")).toHaveLength(1);
  const without = input({ measured: { value: 0.24, low: 0.225, high: 0.262 } });
  expect(marked(beforeAfter(without, { width: 340 }).shapes, "bell")).toEqual([]);
});
test("a card and a result are drawn by one axis: the same guess and tip land on the same pixels", () => {
  const decisive = {
    address: "plover/film.friction",
    symbol: "mu",
    share: 0.6,
    shareIfMeasured: 0.9,
    shownIn: "",
    guess: { low: 0.18, high: 0.35 },
    tipping: 0.31,
  } as unknown as Parameters<typeof cardAxis>[0]["decisive"];
  const card = cardAxis(
    { unit: "plover", tape: "so20-24", check: "film.pull", decisive },
    { width: 340, shownIn: "", answer: { value: 0.24, within: 0.02 } },
  );
  const result = beforeAfter(input({ measured: { value: 0.24, low: 0.22, high: 0.26 } }), { width: 340 });
  for (const key of ["guess", "stops"])
    expect(boxOf(marked(card.shapes, key)[0]).at).toEqual(boxOf(marked(result.shapes, key)[0]).at);
  expect(marked(card.shapes, "mean")[0]!.data).toEqual(marked(result.shapes, "mean")[0]!.data);
});
test("it is told on which side of each tipping value all of the 95 % lies", () => {
  expect(beforeAfterWords(input())).toBe(
    "Film friction: you guess 0.18 to 0.35. so20-24 stops above 0.31. Measured 0.240, 95 % from 0.225 to 0.262. so20-24: on the side that feeds.",
  );
  const across = input({ measured: { value: 0.31, low: 0.3, high: 0.32 } });
  expect(beforeAfterWords(across)).toContain("still on both sides");
  const over = input({ measured: { value: 0.33, low: 0.32, high: 0.34 } });
  expect(beforeAfterWords(over)).toContain("on the side that stops");
});
test("the same result gives the same bytes", () => {
  expect(toSvg(beforeAfter(input(), { width: 340 }), { prefix: "b" })).toBe(
    toSvg(beforeAfter(input(), { width: 340 }), { prefix: "b" }),
  );
});
