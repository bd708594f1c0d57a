import { expect, test } from "vitest";
import { sayMeasure } from "./dimension.ts";
import {
  aloud,
  mmShort,
  sayAddress,
  sayGuess,
  sayMargin,
  sayShare,
  sayVerdict,
  shortName,
  stoppingSide,
} from "./say.ts";
import { cutTo, textWidth } from "./text-width.ts";

test.each([
  [1, "100 %"],
  [0.9999, "over 99 %"],
  [0.95, "95 %"],
  [0.9479, "94 %"],
  [0.0512, "6 %"],
  [0.05, "5 %"],
  [0.002, "under 1 %"],
  [0, "0 %"],
])("a share of %d is said as %s: never rounded across what decides", (share, said) => {
  expect(sayShare(share)).toBe(said);
});
test("only a verdict that depends says its share", () => {
  expect([sayVerdict("depends", 0.41), sayVerdict("feeds", 0.99), sayVerdict("n/a", null)]).toEqual([
    "depends 41 %",
    "feeds",
    "not applicable",
  ]);
});
test("a margin says what it stands on, without a tilde that would read as a minus", () => {
  expect(sayMargin({ margin: 3.21, marginBy: "first order" })).toBe("about 3.2");
  expect(sayMargin({ margin: -1.26, marginBy: "drawn" })).toBe("−1.3");
  expect(sayMargin({ margin: 6, marginBy: "cannot fail as drawn" })).toBe("cannot fail as drawn");
  expect(sayMargin({ margin: null, marginBy: null })).toBe("none");
});
test.each([
  ["plover/film.friction", "film friction"],
  ["assume/film wander", "film wander"],
  ["catalogue/seal kind", "seal kind"],
  ["tapes/dpak-16/T", "T of dpak-16"],
  ["tapes/coil-12/film.width", "film width of coil-12"],
  ["plover/film.guides.shoulder.through.2", "shoulder, across the tape"],
  ["plover/film.guides.back edge.through.1", "back edge, along the travel"],
  ["plover/part nip, z", "nip, up and down"],
  ["plover/per width.24.nip.preload", "nip preload at 24 mm"],
  ["plain", "plain"],
])("the address %s is read as %j", (address, said) => {
  expect(sayAddress(address)).toBe(said);
});
test("the last part of a check's id is its short name", () => {
  expect([shortName("film.mismatch"), shortName("nip.takes-up")]).toEqual(["mismatch", "takes up"]);
});
const friction = {
  address: "plover/film.friction",
  symbol: "mu",
  tipping: 0.34,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 1,
};
test("the stopping side is the one that the middle of the guess is not on, where it holds at the middle", () => {
  // Middle of 0.18 to 0.35 on a logarithmic scale is 0.251, below 0.34. [derived]
  expect(stoppingSide(friction)).toBe("above");
  expect(stoppingSide({ ...friction, shareIfMeasured: 0.1 })).toBe("below");
  expect(stoppingSide({ ...friction, tipping: 0.2, shareIfMeasured: 1 })).toBe("below");
});
test("nothing tips outside the guess, without a value, or between two words", () => {
  expect([
    stoppingSide({ ...friction, tipping: 0.5 }),
    stoppingSide({ ...friction, tipping: null }),
    stoppingSide({ ...friction, words: ["free", "clamped"] }),
  ]).toEqual([undefined, undefined, undefined]);
});
test("a guess names its unit once", () => {
  expect(sayGuess({ ...friction, shownIn: "mm", guess: { low: 0.2e-3, high: 0.4e-3 } })).toBe("0.20 to 0.40 mm");
  expect(sayGuess({ ...friction, words: ["free", "clamped"] })).toBe("free or clamped");
});
test.each([
  [9e-3, "9.0"],
  [24.45e-3, "24.45"],
  [0.075e-3, "0.08"],
  [-0.5e-3, "−0.5"],
  [-1e-12, "0.0"],
  [157e-3, "157.0"],
])("%d m is printed %s mm", (v, printed) => {
  expect(mmShort(v)).toBe(printed);
});
test.each([
  [{ value: 24.45e-3, limits: [-0.1e-3, 0.1e-3] as const }, "24.45 ±0.1"],
  [{ value: 1.1e-3, limits: [0, 0.05e-3] as const }, "1.1 +0.05/0"],
  [{ value: 1.1e-3, limits: [-0.2e-3, 0.05e-3] as const }, "1.1 +0.05/−0.2"],
  [{ value: 2e-3 }, "2.0"],
])("a measure is printed as on a drawing: %o is %s", (measure, printed) => {
  expect(sayMeasure(measure)).toBe(printed);
});
test("a minus is said, not skipped", () => {
  expect(aloud("from −3.2 to −0.14 mm")).toBe("from minus 3.2 to minus 0.14 mm");
});
// Measured in a browser with the embedded font at 100 px: 787.6 px. [measured]
test("a line of text is as wide as the font makes it", () => {
  expect(textWidth("peel motor, in front", 100)).toBeCloseTo(793, -1);
});
test("words are cut to their room with an ellipsis", () => {
  const cut = cutTo("a long name of a check", 10, 40);
  expect(cut.endsWith("…")).toBe(true);
  expect(textWidth(cut, 10)).toBeLessThanOrEqual(40);
  expect(cutTo("short", 10, 400)).toBe("short");
});
