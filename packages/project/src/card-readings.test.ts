import {
  allCards,
  type Card,
  type CardReadings,
  cardFor,
  sameDimension,
  simulateBench,
  unitOf,
} from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { isRefused } from "./bench.ts";
import { pieceReadings } from "./bench-evidence.ts";
import { type CardToKeep, cardReadings } from "./card-readings.ts";
import { applied } from "./edit.ts";
import { readTrial, type Trial } from "./log/trial.ts";
import { newTrial } from "./log/trial-edit.ts";

const path = "bench/T-04.yaml";
const trialOf = (text: string): Trial => {
  const { trial, errors } = readTrial(path, text);
  if (!trial) throw new Error(errors[0]!.message);
  return trial;
};
const begun = (question: string) =>
  newTrial({ trial: "T-04", unit: "plover", tape: "so20-24", question, built: undefined });
function kept(card: Card, readings: CardReadings, question: string, more: Partial<CardToKeep> = {}) {
  const text = more.text ?? begun(question);
  const found = cardReadings({ card, readings, trial: trialOf(text), before: text, text, ...more });
  if (isRefused(found)) throw new Error(found.why);
  return { ...found, text: applied(found.edit, text) };
}
const friction = "plover/film.friction";
const capstan = cardFor(friction)!;
const three: CardReadings = {
  pieces: [
    [
      [420, 95],
      [422, 95],
    ],
    [[440, 95]],
    [[430, 95]],
  ],
};

describe("a filled card", () => {
  test("becomes one reading a reel, with the numbers as they were typed", () => {
    const { text } = kept(capstan, three, friction, { by: "Ada", date: "2026-03-04" });
    const trial = trialOf(text);
    expect(trial.date).toBe("2026-03-04");
    expect(trial.readings.map((r) => [r.reel, r.card, r.entries, r.by])).toEqual([
      ["A", "film-friction", [420, 95, 422, 95], "Ada"],
      ["B", "film-friction", [440, 95], "Ada"],
      ["C", "film-friction", [430, 95], "Ada"],
    ]);
    // ln(440/95)/(2 pi) = 0.2440. [derived]
    expect(trial.readings[1]!.value).toBeCloseTo(0.244, 4);
    expect(trial.readings[1]!.settings).toBeUndefined();
  });
  test("counts reels and not samples, and what all of them share goes with each", () => {
    const { text, answer } = kept(capstan, three, friction);
    const read = pieceReadings(trialOf(text), "")!;
    expect([read.values.length, read.per, read.reels]).toEqual([3, "reel", 3]);
    const shared = Math.hypot(...answer.parts.filter((p) => p.name !== "repeat").map((p) => p.u));
    expect(shared).toBeGreaterThan(0);
    // Two figures stand in the file.
    expect(Math.abs(read.shared / shared - 1)).toBeLessThan(0.05);
  });
  test("keeps a set-up that is not the card's, and the names of its reels", () => {
    const { text } = kept(capstan, { ...three, settings: { theta: 90 } }, friction, { names: ["X1", "X2", "X7"] });
    const { readings } = trialOf(text);
    expect(readings.map((r) => r.reel)).toEqual(["X1", "X2", "X7"]);
    expect(readings[0]!.settings).toEqual({ theta: 90 });
  });
  test("leaves everything else of the trial as it was, comments and all", () => {
    const own = `${begun(friction)}# wet day\nreadings:\n  - {reel: Q, value: 0.25}   # by hand\n`;
    const { text } = kept(capstan, three, friction, { text: own, date: "2026-03-04" });
    expect(text).toContain("date: 2026-03-04\n");
    expect(text).toContain("# wet day\nreadings:\n  - {reel: Q, value: 0.25}   # by hand\n");
    expect(trialOf(text).readings).toHaveLength(4);
  });
  test("begins a trial's file that was not there", () => {
    const text = begun(friction);
    const found = cardReadings({ card: capstan, readings: three, trial: trialOf(text), before: undefined, text });
    if (isRefused(found)) throw new Error(found.why);
    expect(trialOf(applied(found.edit, "")).readings).toHaveLength(3);
  });
  test.each(allCards().map((c) => [c.id, c] as const))("of %s is read again as it was meant", (_, card) => {
    const question = card.answers[0]!.replace("unit/", "plover/")
      .replace("tape/", "tapes/so20-24/")
      .replaceAll("*", "x");
    const named = cardFor(question);
    expect(named?.id).toBe(card.id);
    const { readings } = simulateBench(card.method, { seed: 3 });
    const { text, answer } = kept(named!, readings, question);
    const trial = trialOf(text);
    expect(trial.readings).toHaveLength(readings.pieces.length);
    for (const [j, r] of trial.readings.entries()) {
      expect(r.value / answer.pieces[j]!).toBeCloseTo(1, 4);
      expect(r.entries).toEqual(readings.pieces[j]!.flat());
      expect(sameDimension(r.given.dimension, unitOf(card.method.unit).dimension)).toBe(true);
    }
  });
});
describe("a card is refused", () => {
  const refusal = (question: string, more: Partial<CardToKeep> = {}) => {
    const text = begun(question);
    return cardReadings({ card: capstan, readings: three, trial: trialOf(text), before: text, text, ...more });
  };
  test.each([
    ["by a trial that asks another thing", "tapes/so20-24/T1", {}, "which the card film-friction does not answer"],
    ["by a trial of a check", "nip.pulls", {}, "a card answers an unknown"],
    ["with two reels of one name", friction, { names: ["A", "A", "B"] }, "name each of them once"],
    ["with readings that say nothing", friction, { readings: { pieces: [[[95, 420]]] } }, "is not above"],
  ])("%s", (_, question, more, why) => {
    expect(refusal(question, more)).toEqual({ why: expect.stringContaining(why) });
  });
});
