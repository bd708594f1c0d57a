import { type Trial, type TrialOption, trialWorth, usualCosts } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { marked } from "./marked.fixture.ts";
import {
  type AskedQuestion,
  chanceBar,
  guessWords,
  type QuestionsInput,
  questionRows,
  sayDays,
} from "./question-rows.ts";
import { toSvg } from "./scene.ts";

const option = (fails: number, more: Partial<TrialOption> = {}): TrialOption => {
  const trial: Trial = { fails, catches: 0.9, passesGood: 0.95, late: 20, falseAlarm: 4, cost: 0.05, ...more };
  const worth = trialWorth(trial);
  return {
    ...trial,
    kind: "card",
    worth,
    standing: worth.verdict,
    information: { perfect: 1, trial: 0.5 },
    changeAtOnce: false,
    name: "capstan",
    minutes: 25,
    ...more,
  };
};
const hang = (tape: string, check = "film.pull", unit = "plover") =>
  ({ unit, tape, W: 24, check, station: 4, fails: 0.35, tipping: 0.31, stops: "above" }) as const;
/** Invented. */
const question = (address: string, more: Partial<AskedQuestion> = {}): AskedQuestion => ({
  address,
  symbol: "mu",
  asks: "How does film rub on a printed edge?",
  hangs: [hang("so20-24"), hang("pin-32")],
  fails: 0.35,
  from: "draws",
  guess: { low: 0.18, high: 0.35 },
  shownIn: "",
  trials: [option(0.35)],
  needs: [],
  ...more,
});
const input = (more: Partial<QuestionsInput> = {}): QuestionsInput => ({
  ranked: [question("plover/film.friction"), question("assume/wound density")],
  open: [],
  dropped: [],
  settled: [
    { unit: "plover", tape: "a", verdict: "feeds" },
    { unit: "plover", tape: "b", verdict: "stops" },
  ],
  because: "by days saved over days spent",
  ...more,
});

// saved = P a L - (1 - P)(1 - b) R - c = .35*.9*20 - .65*.05*4 - .05 = 6.12; at P/2 2.93, at 2P 12.49. [derived]
test("a row tells the days the best way saves, and over half and twice the chance", () => {
  const [row] = questionRows(input()).ranked;
  expect(row).toMatchObject({
    number: 1,
    standing: "ranked",
    of: "film friction",
    decides: "film.pull on so20-24 and pin-32",
    chance: 0.35,
    chanceWords: "35 %",
    saved: "6.1",
    range: "2.9 to 12",
    by: { kind: "card", words: "card capstan", takes: "25 min" },
    why: null,
  });
  expect(row!.spoken).toBe(
    "Question 1: How does film rub on a printed edge? Decides film.pull on so20-24 and pin-32; something fails in 35 % of belief; saves 6.1 days, 2.9 to 12; by card capstan, 25 min.",
  );
});
test("what must come first is named by its number, or by its name where it is not ranked", () => {
  const needs = [
    { address: "plover/film.friction", because: "its card needs it" },
    { address: "tapes/dpak-16/T", because: "they fail together" },
  ];
  const { ranked } = questionRows(
    input({ ranked: [question("plover/film.friction"), question("assume/x", { needs })] }),
  );
  expect(ranked[1]!.after.map((a) => a.words)).toEqual([
    "after question 1: its card needs it",
    "after T of dpak-16: they fail together",
  ]);
});
test("an open question says from when on it pays, and has no number", () => {
  const worth = { ...option(0.02).worth, range: [-0.4, 2.1] as const };
  const open = [question("assume/x", { trials: [option(0.02, { worth })], noCard: "nobody measures it" })];
  const [row] = questionRows(input({ open })).open;
  expect(row).toMatchObject({
    number: null,
    standing: "open",
    why: "saves 2.1 days were the chance twice as large, loses 0.4 were it half; no card: nobody measures it",
  });
});
test("a dropped question says what it costs and what it saves", () => {
  const cost = usualCosts.prototype.days;
  const dear = option(0.05, { kind: "whole prototype", name: "all", minutes: null, passesGood: 0.9, cost });
  const dropped = [question("assume/x", { fails: 0.05, trials: [dear] })];
  const [row] = questionRows(input({ dropped })).dropped;
  expect(row!.why).toMatch(/^it costs 12 days and saves 0\.5/);
  expect(row!.by).toMatchObject({ words: "a whole prototype", takes: "12 days" });
});
test("many tapes are counted, not listed, and units are named where there are two", () => {
  const hangs = [...["a", "b", "c", "d", "e"].map((t) => hang(t)), hang("f", "nip.even", "dunlin")];
  const [row] = questionRows(input({ ranked: [question("assume/x", { hangs })] })).ranked;
  expect(row!.decides).toBe("film.pull of plover on a, b and 3 more; nip.even of dunlin on f");
});
test("where nothing is open the lead says so, and settled pairs are counted", () => {
  const rows = questionRows(input({ ranked: [] }));
  expect(rows.lead).toBe("Nothing is open: no wanted verdict hangs on a number that nobody has measured.");
  expect(rows.settled).toBe("1 wanted pair feeds and 1 stops whatever these turn out to be");
});
test("what is believed of the unknown is told with where it tips", () => {
  expect(guessWords(question("x"))).toBe("guess 0.18 to 0.35, tips at 0.31");
  expect(guessWords(question("x", { words: ["free", "clamped"] }))).toBe("it is free or clamped");
});
test("days have two figures and a real minus", () => {
  expect([4.23, -0.4, 12.4, 0.034, -0.001].map(sayDays)).toEqual(["4.2", "−0.4", "12", "0.03", "0.00"]);
});
test("the bar is as long as the chance, and says it aloud", () => {
  const half = chanceBar(0.5, { width: 101 });
  const [bar] = marked(half.shapes, "chance");
  expect(bar?.kind === "box" && bar.width).toBe(50);
  expect(half.desc).toContain("50 % of belief");
  expect(marked(chanceBar(0).shapes, "chance")).toEqual([]);
  for (const v of [-1, 2, Number.NaN]) expect(toSvg(chanceBar(v), { prefix: "c" })).toContain("<svg");
});
