import { cpSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { allCards } from "@tapeworthy/core";
import { newTrial, readTrial } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
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
});
describe("readings typed for a trial", () => {
  const typed = ["--value", "420,95; 440,95; 430,95", "--trial", "T-09"];
  test("are written into it only where that is asked for", () =>
    inNewFolder((top) => {
      const folder = join(top, "shop");
      cpSync(exampleFolder, folder, { recursive: true });
      const file = join(folder, "bench/T-09.yaml");
      const call = (...more: string[]) => tapeworthy(["card", folder, ...friction, ...typed, ...more]);
      expect(call().err).toContain("There is no trial T-09 yet. Say what it tries: --unit");
      const begun = newTrial({ trial: "T-09", unit: "plover", tape: "so20-24", question: "plover/film.friction" });
      writeFileSync(file, begun);
      expect(call().out).toContain("bench/T-09.yaml would have the readings: add --write.");
      expect(readFileSync(file, "utf8")).toBe(begun);
      expect(call("--date", "2026-03-04", "--write").out).toContain("bench/T-09.yaml has the readings.");
      const { trial, errors } = readTrial("bench/T-09.yaml", readFileSync(file, "utf8"));
      expect(errors).toEqual([]);
      expect(trial!.date).toBe("2026-03-04");
      expect(trial!.readings.map((r) => [r.reel, r.card, r.entries])).toEqual([
        ["A", "film-friction", [420, 95]],
        ["B", "film-friction", [440, 95]],
        ["C", "film-friction", [430, 95]],
      ]);
    }));
  test("of another question are refused", () => {
    const { code, err } = card(...friction, "--value", "420,95", "--trial", "T-02");
    expect(code).toBe(2);
    expect(err).toContain("T-02 tries the check reel.jerks: a card answers an unknown");
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
