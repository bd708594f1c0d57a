// The JSON of the commands that a bench needs: what to measure next, cards, logs, and trials from their prediction to the design.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { openQuestions, type TapeResult } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { exampleFolder, inNewFolder } from "./cli.fixture.ts";
import {
  bothWays,
  called,
  edited,
  fewPairs,
  type Group,
  isGroup,
  type Json,
  objectsAt,
  parsed,
} from "./json.fixture.ts";

describe("next --json", () => {
  /** Open and dropped questions have the form of the ranked ones. */
  const together = (answer: Json): Json => {
    if (!isGroup(answer)) throw new Error("no answer");
    const lists = [answer.ranked, answer.open, answer.dropped] as readonly (readonly Json[])[];
    return { ...answer, ranked: lists.flat(), open: [], dropped: [] };
  };
  /** A pair that hangs on one unknown, made up. */
  const hanging = (check: string, address: string, more: object = {}) => {
    const decisive = { address, symbol: "x", tipping: 0.25, guess: { low: 0.18, high: 0.35 }, unit: "1", shownIn: "" };
    const finding = { check, station: 7, severity: "S", verdict: "depends", share: 0.6 };
    const findings = [{ ...finding, decisive: { ...decisive, shareIfMeasured: 0.9, ...more } }];
    const result = { unit: "plover", tape: "coil-12", W: 12, verdict: "depends", share: 0.6, first: [check], findings };
    return { result: result as unknown as TapeResult };
  };
  test("has the fields that are documented, each of its type, and no others", () => {
    inNewFolder((folder) => {
      fewPairs(folder, "{dunlin: [so20-24]}");
      const answer = together(called("next", folder, "--no-known"));
      // What no pair of the example asks: a choice, what nobody measures, and a film that is pulled before one knows where it breaks.
      const made = openQuestions([
        hanging("nip.slips", "plover/nip.friction"),
        hanging("nip.breaks", "catalogue/film break"),
        hanging("film.pull", "plover/index.hold"),
        hanging("film.peel", "catalogue/seal kind", {
          words: ["heat", "pressure"],
          tipping: null,
          guess: { low: 0, high: 1 },
        }),
      ]);
      const plain = together(parsed(JSON.stringify(made)));
      const questions = objectsAt(plain, "ranked[]").map((q) => ({ ...q, piece: null }));
      bothWays("`next --json`", [{ ...(answer as Group), ranked: [...objectsAt(answer, "ranked[]"), ...questions] }]);
    });
  }, 360_000);
});

describe("card --json", () => {
  test("of every card, of readings, what it decides and where they are put: the fields that are documented, and no others", () => {
    const list = called("card", exampleFolder, "--list");
    bothWays("`card --list --json`", [list]);
    const every = objectsAt(list, "cards[]").map((card): Json => ({ version: "", card, answer: null, stand: null }));
    expect(every.length).toBeGreaterThan(100);
    const friction = ["--unknown", "plover/film.friction", "--value", "420,95; 440,95; 430,95"];
    const of = ["--unknown", "tapes/dpak-16/T", "--unit", "dunlin", "--tape", "dpak-16", "--no-known"];
    const into = ["--trial", "T-09", "--value", "250; 260; 255"];
    const kept = inNewFolder((folder) => {
      fewPairs(folder, "{dunlin: [dpak-16]}");
      return called("card", folder, ...of, ...into);
    });
    bothWays("`card --json`", [...every, called("card", exampleFolder, ...friction), kept]);
  }, 360_000);
});

describe("read --json", () => {
  const log = (name: string) => join(exampleFolder, "bench", name);
  const own = ["--unit", "dunlin", "--tape", "so20-24", "--question", "film.pull", "--date", "2026-03-01"];
  test("of readings, counts and traces, dry and written: the fields that are documented, and no others", () => {
    inNewFolder((folder) => {
      fewPairs(folder, "{dunlin: [so20-24]}");
      const dry = ["T-01", "T-02"].map((name) => called("read", folder, log(`${name}.csv`), "--trial", name, "--dry"));
      const written = called("read", folder, log("T-03-B.csv"), "--trial", "T-09", ...own);
      bothWays("`read --json`", [...dry, written]);
      expect([...dry, written].map((answer) => (answer as Group).kind)).toEqual(["readings", "counts", "trace"]);
      bothWays("`read --run --json`", [
        called("read", folder, "--trial", "T-09", "--run", "1", "--plateau", "40..180 mm", "--dry"),
      ]);
      bothWays("`read --set-aside --json`", [
        called("read", folder, log("T-03-B.csv"), "--trial", "T-09", "--set-aside", "the edge was lost", "--dry"),
      ]);
    });
  }, 180_000);
});

describe("the bench's commands", () => {
  /** The trials of the example, T-02 of another brake than the unit has now, and one without a prediction. */
  function benchOf(folder: string): void {
    fewPairs(folder, "{dunlin: [dpak-16]}");
    edited(folder, "units/dunlin.yaml", (text) => text.replace("drag: 0.20 ±0.05 N", "drag: 0.22 ±0.05 N"));
    const counts = ["D1", "D2", "D3"].map((unit, i) => `  - {unit: ${unit}, reel: ${i}, indexes: 3000, misfeeds: 0}\n`);
    writeFileSync(
      join(folder, "bench/T-04.yaml"),
      `format: 1\ntrial: T-04\nunit: dunlin\ntape: dpak-16\nquestion: entry.pockets\ncounts:\n${counts.join("")}`,
    );
  }
  test("freeze --json has the fields that are documented, each of its type, and no others", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      const asked = (question: string) =>
        called(
          "freeze",
          folder,
          "T-09",
          ...["--date", "2026-12-01", "--unit", "dunlin", "--tape", "dpak-16", "--no-known", "--dry"],
          ...["--question", question],
        );
      bothWays("`freeze --json`", [asked("tapes/dpak-16/T"), asked("entry.pockets")]);
    });
  }, 360_000);
  test("take --json likewise, of a number, of one whose design has changed, and of one kept apart", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      bothWays(
        "`take --json`",
        ["T-01", "T-02"].map((trial) => called("take", folder, trial, "--dry")),
      );
      bothWays("`take --apart --json`", [called("take", folder, "T-01", "--apart", "not zeroed", "--dry")]);
    });
  }, 540_000);
  test("score --json likewise, with the map and without", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      bothWays("`score --json`", [called("score", folder, "--dry"), called("score", folder, "--no-cells", "--dry")]);
    });
  }, 540_000);
  test("proof --json likewise, with the model and without", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      const dunlin = ["--unit", "dunlin", "--no-known"];
      bothWays("`proof --json`", [
        called("proof", folder, ...dunlin),
        called("proof", folder, ...dunlin, "--no-model"),
      ]);
    });
  }, 540_000);
});
