import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { allCards, type Finding, type TapeResult } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { decidedBy, readingsIn } from "./card-command.ts";
import { exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";

const card = (...more: string[]) => tapeworthy(["card", exampleFolder, ...more]);
const friction = ["--unknown", "plover/film.friction"];

describe("card of an unknown", () => {
  test("tells what is needed, the steps, what to type and what to mind", () => {
    const { code, out, err } = card(...friction);
    expect(err).toBe("");
    expect(code).toBe(0);
    const parts = [
      "How does cover film rub",
      "You need",
      "Steps",
      "  1. Clamp the pin level.",
      "Readings",
      "From readings to the friction",
      "  ! Local rules",
      "It answers",
    ];
    const places = parts.map((p) => out.indexOf(p));
    expect(places.every((p) => p >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(Math.max(...out.split("\n").map((l) => l.length))).toBeLessThanOrEqual(110);
  });
  test("is found by its own id as well", () => {
    expect(card("--unknown", "film-friction").out).toContain("How does cover film rub");
  });
  test("is written as a sheet that needs nothing beside it", () =>
    inNewFolder((folder) => {
      const file = join(folder, "card.html");
      const { code, err } = card(...friction, "--html", file);
      expect([code, err]).toEqual([0, `Card: ${file}. Print it on A4.\n`]);
      const page = readFileSync(file, "utf8");
      expect(page).toContain("data:font/woff2;base64,");
      expect(page).toContain("Clamp the pin level.");
    }));
  test("is printed as JSON without its functions", () => {
    const got = JSON.parse(card(...friction, "--json").out);
    expect(got.card).toMatchObject({
      id: "film-friction",
      address: "plover/film.friction",
      method: { id: "capstan", form: "solved" },
    });
    expect([got.answer, got.stand]).toEqual([null, null]);
  });
  test("says what it decides where unit and tape are named, or names both ways out", () => {
    const { code, err } = card(...friction, "--unit", "plover");
    expect(code).toBe(2);
    expect(err).toBe("A card says what it decides for a unit on a tape: name both --unit and --tape, or neither.\n");
  });
});
describe("typed readings", () => {
  // ln(420/95)/(2 pi) = 0.2366, ln(440/95)/(2 pi) = 0.2440, ln(430/95)/(2 pi) = 0.2403; mean 0.2403. [derived]
  const typed = "420,95; 440,95; 430,95";
  test("give a value with its uncertainty, what it is made of, and where it stands", () => {
    const { code, out } = card(...friction, "--value", typed);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^friction: 0\.240 ±0\.0\d+ at 95 %\n {2}reels: 0\.237, 0\.244, 0\.240; they scatter by 1\.5 %\n/,
    );
    expect(out).toContain("angle of wrap within 3 deg");
    expect(out).toContain("It lies inside your guess of 0.18 to 0.35.");
  });
  test("take another set-up than the card's", () => {
    const got = JSON.parse(card(...friction, "--value", typed, "--set", "theta=90", "--json").out);
    expect(got.answer.value).toBeCloseTo(0.4806, 3);
    expect(got.stand.says).toContain("above your guess");
  });
  test.each([
    ["420,95,430", "reel 1 has 3 numbers, not 2 a reading"],
    ["95,420", "is not above pull while it is let down (420)"],
    ["420,0", "The instrument shows no step of it"],
    ["420,many", "is no number"],
    ["", "There are no readings yet"],
  ])("%s is refused with the way out", (value, says) => {
    const { code, out, err } = card(...friction, "--value", value);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain(says);
  });
  test("are grouped by semicolons into reels and by the card into readings", () => {
    const capstan = allCards().find((c) => c.id === "film-friction")!;
    expect(readingsIn(capstan, "1,2, 3,4; 5 6", ["theta = 170"])).toEqual({
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
});
test("--list names every card with what it answers", () => {
  const { code, out } = tapeworthy(["card", "--list"]);
  expect(code).toBe(0);
  for (const c of allCards()) expect(out).toContain(c.asks);
  expect(JSON.parse(tapeworthy(["card", "--list", "--json"]).out).cards).toHaveLength(allCards().length);
});
describe("a card that is not there ends with 2 and the way out", () => {
  test.each([
    ["plover/film.frictoin", 'Did you mean "plover/film.friction"?'],
    ["plover/clearances.default", "Nobody measures plover/clearances.default: a wanted gap is chosen."],
    ["nonsense", "See tapeworthy card --list."],
  ])("%s", (address, says) => {
    const { code, err } = card("--unknown", address);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });
  test("and a folder is no file for the sheet", () =>
    inNewFolder((folder) => {
      expect(card(...friction, "--html", folder).err).toContain("is a folder");
      writeFileSync(join(folder, "kept"), "");
      expect(existsSync(join(folder, "kept"))).toBe(true);
    }));
});

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
