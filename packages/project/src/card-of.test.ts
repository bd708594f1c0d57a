import { allCards, type Finding, type TapeResult } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { isRefused } from "./bench.ts";
import { cardOf, cardSays, decidedBy, readingsTyped } from "./card-of.ts";
import { example } from "./example.fixture.ts";
import { readProject } from "./project.ts";

const project = readProject(example).project!;
const capstan = allCards().find((c) => c.id === "film-friction")!;

test("of all findings that hang on an unknown the card names the one it decides", () => {
  const finding = (check: string, tipping: number): Finding =>
    ({
      check,
      decisive: { address: "assume/tape friction", tipping, guess: { low: 0.3, high: 0.7 }, shareIfMeasured: 0.9 },
    }) as Finding;
  const row = (tape: string, verdict: TapeResult["verdict"], first: string[], ...findings: Finding[]) =>
    ({ unit: "plover", tape, verdict, first, findings }) as unknown as TapeResult;
  const rows = [
    row("a", "feeds", [], finding("outside", 0.9)),
    row("b", "stops", ["other"], finding("inside", 0.6)),
    row("c", "depends", ["first"], finding("first", 0.5)),
  ];
  expect(decidedBy(rows, "assume/tape friction")).toMatchObject({ row: { tape: "c" }, check: "first" });
  expect(decidedBy(rows.slice(0, 2), "assume/tape friction")).toMatchObject({ row: { tape: "b" }, check: "inside" });
  expect(decidedBy(rows.slice(0, 1), "assume/tape friction")?.check).toBe("outside");
  expect(decidedBy(rows, "assume/film friction")).toBeUndefined();
});

describe("readings on one line", () => {
  test("are grouped by semicolons into reels and by the card into readings", () => {
    expect(readingsTyped(capstan, "1,2, 3,4; 5 6", ["theta = 170"])).toEqual({
      pieces: [
        [
          [1, 2],
          [3, 4],
        ],
        [[5, 6]],
      ],
      settings: { theta: 170 },
    });
  });
  test("that are too few for a reading are refused with the names of what is read", () => {
    expect(readingsTyped(capstan, "420,95,430")).toEqual({
      why: expect.stringContaining("reel 1 has 3 numbers, not 2 a reading"),
    });
  });
});
describe("a card", () => {
  const finding = {
    check: "nip.pulls",
    decisive: {
      address: "plover/film.friction",
      tipping: 0.3,
      guess: { low: 0.18, high: 0.35 },
      shareIfMeasured: 0.9,
      shownIn: "",
    },
  } as unknown as Finding;
  const rows = [
    { unit: "plover", tape: "so20-24", verdict: "depends", share: 0.6, first: ["nip.pulls"], findings: [finding] },
  ] as unknown as TapeResult[];
  test("is made out for what it decides, by name and revision of the unit", () => {
    const found = cardOf("plover/film.friction", project, rows);
    if (isRefused(found)) throw new Error(found.why);
    expect(found.card.decides).toMatchObject({
      unit: project.units.get("plover")!.name,
      tape: "so20-24",
      check: "nip.pulls",
    });
    expect(found.revision).toBe([...project.units.get("plover")!.variants.values()][0]!.revision);
  });
  test("is that of its address or of its own id; else refused with the way out", () => {
    expect(cardOf("film-friction", project)).toMatchObject({ card: { id: "film-friction" } });
    expect(cardOf("plover/film.frictoin", project)).toEqual({ why: expect.stringContaining("plover/film.friction") });
    expect(cardOf(undefined, project, [])).toEqual({ why: expect.stringContaining("no question to measure") });
  });
  test("says where its value stands: against the tipping value, without one against the guess", () => {
    const pieces = [[[420, 95]], [[440, 95]], [[430, 95]]];
    const decided = cardOf("plover/film.friction", project, rows);
    const plain = cardOf("plover/film.friction", project);
    if (isRefused(decided) || isRefused(plain)) throw new Error("no card");
    // ln(430/95)/(2 pi) = 0.2403, below 0.3 by more than its uncertainty. [derived]
    expect(cardSays(decided.card, { pieces }, project)).toMatchObject({
      stand: { says: expect.stringContaining("It lies below the tipping value 0.30") },
    });
    expect(cardSays(plain.card, { pieces }, project)).toMatchObject({
      stand: { says: "It lies inside your guess of 0.18 to 0.35." },
    });
    expect(cardSays(plain.card, { pieces: [[[95, 420]]] }, project)).toEqual({
      why: expect.stringContaining("is not above"),
    });
  });
});
