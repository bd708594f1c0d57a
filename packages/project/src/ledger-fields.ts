import { type DataOf, group, list, map, optional, quantity, text, tuple, word } from "@tapeworthy/core";

const sayDay = "the day, as 2026-03-01";
const restsOn = map(text("what stood there"), "numbers and words of the design that the trial rests on, by address");

/** ledger.yaml: predictions frozen before their trials, and how they came out. Entries are added at its end and never changed. */
export const ledgerFields = group("the ledger", {
  format: word("version of this notation", "1"),
  ledger: list(
    group("one entry: a frozen prediction, a score, a trial taken or kept apart, or what a trial rests on", {
      frozen: optional(word("its own name, such as L-01: a prediction made before its trial")),
      scored: optional(word("the name of the prediction that is held against a trial")),
      taken: optional(word("the trial of a check whose result is taken into belief")),
      apart: optional(word("the trial that is not taken into belief")),
      keyed: optional(word("a trial that was not foretold: what it rests on, noted afterwards")),
      trial: optional(word("name of the trial, as its file's: T-01")),
      question: optional(text("address of the unknown that the trial measures, or the check that it tries")),
      unit: optional(word("file name of the unit, without .yaml")),
      tape: optional(word("file name of the tape, without .yaml")),
      predicted: optional(
        tuple(
          "what is foretold: middle, and the two ends that hold it in 95 %",
          quantity("any", "the middle", { example: "0.28 mm" }),
          quantity("any", "the lower end", { example: "0.20 mm" }),
          quantity("any", "the upper end", { example: "0.40 mm" }),
        ),
      ),
      fails: optional(
        tuple(
          "chance that one piece fails: middle, and the two ends that hold it in 95 % of belief",
          quantity("", "the middle", { least: 0, most: 1, example: "0.02" }),
          quantity("", "the lower end", { least: 0, most: 1, example: "0.001" }),
          quantity("", "the upper end", { least: 0, most: 1, example: "0.3" }),
        ),
      ),
      share: optional(
        quantity("", "share of belief in which it feeds, or in which the check holds", {
          least: 0,
          most: 1,
          example: "0.77",
        }),
      ),
      date: optional(word(sayDay)),
      seed: optional(quantity("", "seed of the draws", { least: 0, most: 4294967295, example: "1" })),
      version: optional(word("version of the program")),
      sha: optional(word("SHA-256 of the project's texts, hexadecimal")),
      came: optional(quantity("any", "what came out", { example: "0.24 mm" })),
      uncertainty: optional(quantity("any", "its standard uncertainty", { example: "0.004 mm" })),
      pieces: optional(quantity("", "pieces tried: units on reels", { least: 1, most: 1e6, example: "6" })),
      failed: optional(quantity("", "pieces among them that failed", { least: 0, most: 1e6, example: "0" })),
      result: optional(word("how it stands to the prediction", "agreed", "missed")),
      late: optional(text("why the prediction does not count as made before")),
      reason: optional(text("why the trial is kept apart")),
      "rests on": optional(restsOn),
    }),
    "entries, in the order they were made",
  ),
});
export type LedgerData = DataOf<typeof ledgerFields>;
export type LedgerLine = LedgerData["ledger"][number];
