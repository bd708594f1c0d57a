import { checkNamed, explain } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { absent, elementsOf, findingWith, resultWith, sceneOf } from "./example.fixture.ts";
import { findingHtml, headline } from "./finding.ts";

const friction = {
  address: "plover/film.friction",
  symbol: "mu",
  tipping: 0.34,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 0.99,
};
const open = findingWith({
  check: "nip.pulls",
  station: 7,
  verdict: "depends",
  share: 0.41,
  shareAlone: 0.3,
  value: 2.86,
  unit: "N",
  bounds: { least: 2.5 },
  ratio: 1.14,
  margin: 0.4,
  letter: "g",
  because: "The nip grips with 2.9 N; the film needs 2.5 N <to> peel.",
  corners: { best: 1.2, worst: -0.3 },
  decisive: friction,
  nearest: { unit: "plover", tape: "so16-16", ratio: 1.16 },
});
const result = resultWith("carrier-24", 24, [open], { verdict: "depends", share: 0.41, first: ["nip.pulls"] });
const explained = explain(checkNamed("nip.pulls")!, sceneOf("plover", "carrier-24"))!;
const html = findingHtml({
  finding: open,
  result,
  title: "the nip pulls the film off",
  shownIn: "N",
  explained,
  trials: {
    check: "nip.pulls",
    agreed: 5,
    trials: 6,
    strokes: [true, true, false, true, true, true].map((agreed, i) => ({ trial: `T-0${i + 1}`, agreed })),
  },
  zone: "B3",
  ways: [
    {
      what: "Preload",
      kind: "move",
      note: "then even 0.35 feeds",
      change: "2.4 → 2.5 N",
      address: "plover/nip.preload",
    },
  ],
});

test("it is read in one order: verdict, headline, why, facts, window, ways out, equation", () => {
  const order = [
    'class="kick"',
    '<h1 class="headline">',
    "The nip grips",
    'class="facts"',
    '<h2 class="part">Window',
    'role="img"',
    '<h2 class="part">Ways out',
    '<h2 class="part">Equation',
    '<h2 class="part">At least',
  ].map((part) => html.indexOf(part));
  expect(order.every((at) => at >= 0)).toBe(true);
  expect([...order].sort((a, b) => a - b)).toEqual(order);
});
test("it is well formed, and words of the model stay text", () => {
  elementsOf(html);
  expect(html).toContain("2.5 N &lt;to&gt; peel");
  expect(html).not.toMatch(/NaN|undefined|null/);
});
test("the headline of what depends names the unknown, its tipping value and the guess", () => {
  expect(headline(open, "")).toBe("Depends on film friction: stops above 0.34; you guess 0.18 to 0.35");
});
test("what the tipping value holds beside it is said", () => {
  const when = [{ address: "assume/peel front", word: "clamped" }];
  expect(headline({ ...open, decisive: { ...friction, when } }, "")).toBe(
    "Depends on film friction: stops above 0.34 with peel front clamped; you guess 0.18 to 0.35",
  );
});
test("where nothing tips, the headline says that it hangs on no number alone", () => {
  expect(headline({ ...open, decisive: { ...friction, tipping: null } }, "")).toBe(
    "Depends most on film friction, on no number alone; you guess 0.18 to 0.35",
  );
  expect(headline({ ...open, decisive: { ...friction, words: ["free", "clamped"] } }, "")).toBe(
    "Depends on film friction: free or clamped",
  );
});
test("the headline of what stops holds the value against its bound", () => {
  const stop = findingWith({
    check: "film.mismatch",
    verdict: "stops",
    share: 0,
    value: 0.036,
    bounds: { most: 0.019 },
  });
  expect(headline(stop, "", "%")).toBe("Stops: mismatch is 3.6 %, over the 1.9 % it may be");
  const under = findingWith({
    check: "groove.lips",
    verdict: "stops",
    share: 0,
    value: 0,
    bounds: { least: 0.24e-3, most: 0.8e-3 },
  });
  expect(headline(under, "", "mm")).toBe("Stops: lips is 0 mm, under the 0.24 mm it needs");
  const near = findingWith({ check: "groove.depth", verdict: "stops", share: 0, value: 0.1e-3, bounds: { least: 0 } });
  expect(headline(near, "", "mm")).toBe("Stops: depth is 0.10 mm, too near the 0 mm it needs");
});
test("a check that never stops a tape says so in its headline", () => {
  const kern = findingWith({ check: "film.kern", severity: "N", verdict: "stops", share: 0 });
  expect(headline(kern, "the nip grips the middle of the film")).toBe(
    "Does not hold: the nip grips the middle of the film (annoys, stops nothing)",
  );
});
test("facts hold share, ratio, margin, a known unit and the record", () => {
  for (const words of [
    "41 %",
    "30 % before known units",
    "1.1",
    "0.40",
    "1.2 <span",
    "plover on so16-16",
    "agreed with 5 of 6 trials",
    "guess or memory",
  ])
    expect(html).toContain(words);
  expect(findingHtml({ finding: open, result, title: "", shownIn: "N" })).toContain("no trial yet");
});
test("ways out of what depends are to measure it, or to make it not matter", () => {
  expect(html).toContain("Measure film friction");
  expect(html).toContain("99 % of belief would hold");
  expect(html).toContain('data-address="plover/nip.preload"');
});
test("an unknown of two words has no middle: the share is that of its first word", () => {
  const words = { ...open, decisive: { ...friction, words: ["free", "clamped"] as const } };
  const text = findingHtml({ finding: words, result, title: "", shownIn: "N" });
  expect(text).toContain("known to be free, 99 % of belief would hold");
  expect(text).not.toContain("at its middle");
});
test("a ratio that is nothing but rounding is 0, and is held against no known unit", () => {
  const nought = { ...open, ratio: 4.4e-16, nearest: { unit: "plover", tape: "so16-16", ratio: 3.1e-16 } };
  const text = findingHtml({ finding: nought, result, title: "", shownIn: "N" });
  expect(text).toContain("<dt>ratio to bound</dt><dd>0</dd>");
  expect(text).not.toContain("times a known unit");
});
test("a report that keeps no record of trials does not say so at every finding", () => {
  expect(findingHtml({ finding: open, result, title: "", shownIn: "N", trials: "none kept" })).not.toContain("record");
});
test("what stops is not sent to the bench", () => {
  const stop = findingWith({ check: "film.mismatch", verdict: "stops", share: 0 });
  const text = findingHtml({
    finding: stop,
    result: resultWith("a", 24, [stop], { verdict: "stops", share: 0, first: ["film.mismatch"] }),
    title: "",
    shownIn: "%",
  });
  expect(text).toContain("measuring can't save it");
  expect(text).not.toContain("Measure ");
});
test("a contradicted check says that it only ranks, with a sign", () => {
  const text = findingHtml({ finding: { ...open, contradicted: true }, result, title: "", shownIn: "N" });
  expect(text).toContain("≠");
  expect(text).toContain("it ranks only");
});
test("what does not apply says why and shows nothing else", () => {
  const none = absent("entry.bend");
  const text = findingHtml({
    finding: none,
    result: resultWith("a", 12, [none]),
    title: "the route bends the tape gently",
    shownIn: "mm",
  });
  expect(text).toContain("Not applicable: the route has no bend.");
  expect(text).not.toContain("<svg xmlns");
  elementsOf(text);
});
test("the verdict is told by its mark and its word, not by colour alone", () => {
  expect(html).toMatch(
    /class="verdict depends"><svg[^>]*aria-hidden="true">.*?<\/svg><span class="unseen">depends<\/span>/,
  );
});
test("a page sets its level, its own words in it, and folds its equations", () => {
  const text = findingHtml({
    finding: open,
    result,
    title: "",
    shownIn: "N",
    explained,
    level: 4,
    equation: "folded",
    more: { head: "<a>map</a>", afterReason: "<i>place</i>", end: "<i>end</i>" },
  });
  expect(text.match(/<h(\d)/g)!.slice(0, 2)).toEqual(["<h4", "<h5"]);
  expect(text).not.toContain("<h1");
  expect(text).toMatch(/<a>map<\/a><\/span><\/p>\n<h4/);
  expect(text).toMatch(/<\/p>\n<i>place<\/i>/);
  expect(text).toMatch(/<i>end<\/i><\/article>$/);
  expect(text).toMatch(/<details class="equation"><summary><h5 class="part">Equation/);
  elementsOf(text);
});
