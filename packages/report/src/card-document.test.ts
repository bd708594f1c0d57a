import { allCards, type CardDecides, cardFor, localRules } from "@tapeworthy/core";
import { escaped, unitsInPrint } from "@tapeworthy/drawing";
import { describe, expect, test } from "vitest";
import { type CardContext, cardDocument } from "./card-document.ts";
import { elementsOf } from "./report.fixture.ts";

const decides: CardDecides = {
  unit: "Plover",
  tape: "so20-24",
  check: "nip.pulls",
  decisive: {
    address: "plover/film.friction",
    symbol: "mu",
    tipping: 0.34,
    guess: { low: 0.18, high: 0.35 },
    unit: "1",
    shownIn: "",
    shareIfMeasured: 0.99,
  },
};
const context: CardContext = {
  project: "Saltgrass",
  version: "0",
  revision: "C",
  font: (file) => `data:font/woff2;base64,${file.length}`,
  frozen: { "plover/film.friction": { hash: "7c1e22aa99bb", date: "2026-11-25", predicted: "0.26, 0.18 to 0.35" } },
};
const friction = cardFor("plover/film.friction", decides)!;
const one = cardDocument([friction], context);
const all = cardDocument(allCards(), context);
const pages = (page: string): string[] => page.split("<article").slice(1);

test("the same cards give the same bytes, without a number that is none", () => {
  expect(cardDocument([friction], context)).toBe(one);
  expect(all).not.toMatch(/NaN|undefined|Infinity|\[object|without end/);
});
test("one card is one page", () => {
  expect(pages(one)).toHaveLength(1);
  expect(pages(all)).toHaveLength(allCards().length);
  expect(all).toMatch(/@page\{size:A4/);
  expect(all).toMatch(/\.page\{[^}]*break-after:page/);
});
test("tags match, no id is there twice, there is one first heading, and headings go down a level at a time", () => {
  for (const page of [one, all]) {
    const elements = elementsOf(page);
    const ids = elements.flatMap((e) => (e.attributes.id === undefined ? [] : [e.attributes.id]));
    expect(new Set(ids).size).toBe(ids.length);
    const levels = elements.flatMap((e) => (/^h[1-6]$/.test(e.name) ? [Number(e.name[1])] : []));
    expect(levels.filter((l) => l === 1)).toHaveLength(1);
    expect(levels.filter((l, i) => l - (levels[i - 1] ?? 0) > 1)).toEqual([]);
    expect(elements.filter((e) => e.name === "th" && e.attributes.scope === undefined)).toEqual([]);
  }
});
describe("every page holds all that its card says", () => {
  const cards = allCards();
  const split = pages(all);
  test.each(cards.map((c, i) => [c.id, c, i] as const))("%s", (_, card, i) => {
    const page = split[i]!;
    for (const caution of card.cautions) expect(page).toContain(escaped(unitsInPrint(caution)));
    for (const step of card.steps) expect(page).toContain(escaped(unitsInPrint(step)));
    expect(page).toContain(escaped(localRules));
    expect(page).toContain("<svg");
    expect(page).toContain("<math");
    expect(page).toContain(`${i + 1} of ${cards.length}`);
    // A blank for every reading that the card asks for.
    const blanks = page.match(/<td><\/td>/g)?.length ?? 0;
    const { pieces, repeats, entries } = card.method;
    expect(blanks).toBeGreaterThanOrEqual(pieces * repeats * entries.length);
  });
});
test("a card for a finding has its lead, its axis, and the prediction as it was frozen", () => {
  expect(one).toContain("Above 0.34 the check nip.pulls of Plover stops on so20-24.");
  expect(one).toContain("Mark your mean here");
  expect(one).toContain("2026-11-25, 7c1e22aa");
  expect(one).toContain("0.26, 0.18 to 0.35");
  expect(one).toContain("Plover rev C, nip.pulls");
});
test("a card without a frozen prediction says so, and draws no axis without a finding", () => {
  const plain = cardDocument([cardFor("assume/tape friction")!], context);
  expect(plain).toContain("not frozen");
  expect(plain).not.toContain("Mark your mean here");
});
test("names out of files end no tag", () => {
  const nasty = `</style></script><img src=x onerror=alert(1)>"'&`;
  const page = cardDocument([cardFor("plover/film.friction", { ...decides, unit: nasty, tape: nasty })!], {
    ...context,
    project: nasty,
  });
  expect(elementsOf(page).some((e) => e.name === "img")).toBe(false);
});
test("nothing is fetched, and nobody's mark stands on a card", () => {
  const addresses = new Set([...all.matchAll(/\b(?:https?|ftp):[^"'\s)<]*/g)].map(([a]) => a));
  expect([...addresses].filter((a) => a !== "http://www.w3.org/2000/svg")).toEqual([]);
  expect(all).not.toMatch(/[®™]|\b(?:Inc|Ltd|GmbH|Corp)\b/);
});
