import { type DataOf, group, list, map, optional, quantity, text, tuple, word } from "@tapeworthy/core";
import { roleNames } from "./mapping.ts";

const whole = (means: string, example: string) => quantity("", means, { least: 0, most: 1e10, example });

/** What the import of a log worked out, of the column that the question is about. */
export const statisticsFields = group("what was worked out when the log was read", {
  of: word("the column these are of", ...roleNames),
  rows: whole("rows between the flags", "170000"),
  mean: quantity("any", "mean over the plateau", { example: "1.92 N" }),
  sd: quantity("any", "standard deviation over the plateau", { example: "0.14 N" }),
  greatest: quantity("any", "greatest value on the plateau", { example: "2.9 N" }),
  least: quantity("any", "least value on the plateau", { example: "1.4 N" }),
  ripple: optional(quantity("", "standard deviation over mean", { example: "7 %" })),
  "ripple at P1": optional(quantity("", "share of the ripple at the pocket pitch", { example: "0.4" })),
  "ripple at P0": optional(quantity("", "share of the ripple at the pitch of the sprocket holes", { example: "0.1" })),
  trend: optional(quantity("", "slope times length over mean", { example: "-3 %" })),
  outliers: whole("rows far above the rest, kept and marked", "1"),
  "lag one": optional(quantity("", "correlation of one index with the next", { example: "0.4" })),
  independent: optional(quantity("", "independent readings that the indexes are worth", { example: "23" })),
  indexes: optional(whole("indexes on the plateau", "42")),
  gaps: whole("rows without a value", "0"),
  "times back": optional(whole("places where time runs backwards", "0")),
});

/** bench/NAME.yaml: one trial, what was built for it and what it said. */
export const trialFields = group("a trial", {
  format: word("version of this notation", "1"),
  trial: word("the trial's name, as its file's: T-01"),
  unit: word("file name of the unit whose design is tried, without .yaml"),
  tape: word("file name of the tape, without .yaml"),
  question: text("address of the unknown that it measures, or the check that it tries"),
  built: optional(text("what was built: the trial piece, what it keeps and leaves out")),
  date: optional(word("the day, as 2026-03-01")),
  conditions: optional(
    group("what it ran under", {
      temperature: optional(quantity("degC", "temperature of the air", { least: -20, most: 80, example: "23 degC" })),
      humidity: optional(quantity("", "relative humidity", { least: 0, most: 1, example: "41 %" })),
      speed: optional(quantity("mm/s", "speed of the film or tape", { least: 0.001, most: 5000, example: "80 mm/s" })),
      angle: optional(quantity("deg", "angle of peel or wrap", { example: "165 deg" })),
      note: optional(text("anything worth knowing, in words")),
    }),
  ),
  readings: optional(
    list(
      group("one typed reading", {
        reel: optional(word("which reel")),
        unit: optional(word("which built unit or piece")),
        value: quantity("any", "the reading", { example: "0.24" }),
        by: optional(word("who read it")),
        note: optional(text("anything worth knowing")),
        card: optional(word("id of the measuring card it was read by")),
        entries: optional(
          list(
            quantity("", "a number as it was typed, in its entry's unit", { example: "431" }),
            "the numbers as they were typed on the card, reading after reading",
          ),
        ),
        settings: optional(
          map(
            quantity("", "a number of the set-up, in its own unit", { example: "90" }),
            "what differs from the set-up that the card draws, by its symbol",
          ),
        ),
        run: optional(whole("number of the log below that it came in", "4")),
        "set aside": optional(text("why it does not count")),
      }),
      "readings, typed",
    ),
  ),
  counts: optional(
    list(
      group("indexes counted on one unit and reel", {
        unit: optional(word("which built unit")),
        reel: optional(word("which reel")),
        indexes: whole("indexes run", "20000"),
        misfeeds: whole("misfeeds among them", "1"),
        mode: optional(word("in which way it misfed")),
        run: optional(whole("number of the log below that it came in", "3")),
        "set aside": optional(text("why it does not count")),
      }),
      "indexes and misfeeds, counted",
    ),
  ),
  mapping: optional(
    list(
      group("how a log with this header is read", {
        name: word("by which runs name it"),
        header: text("names and units of its columns"),
        columns: list(
          group("one column", {
            column: text("its name in the header"),
            is: word("what it is", ...roleNames),
            unit: optional(text("unit of its cells")),
            reversed: optional(word("true where its sign is the other way round", "true", "false")),
            zero: optional(quantity("", "what it shows at zero, in its own unit", { example: "0.02" })),
          }),
          "its columns",
        ),
      }),
      "logs that have been read, by their headers",
    ),
  ),
  runs: optional(
    list(
      group("one log", {
        log: text("name of the file it came in"),
        raw: text("where all its rows are kept: bench/T-01/raw.parquet"),
        sha: word("SHA-256 of the file it came in, hexadecimal"),
        read: optional(word("the day it was read, as 2026-03-01")),
        mapping: word("name of a mapping above"),
        reel: optional(word("which reel")),
        unit: optional(word("which built unit or piece")),
        plateau: optional(
          tuple(
            "from where to where the readings count, along the travel, else in time",
            quantity("any", "its beginning", { example: "20 mm" }),
            quantity("any", "its end", { example: "190 mm" }),
          ),
        ),
        "set aside": optional(text("why it does not count")),
        statistics: optional(statisticsFields),
      }),
      "logs of this trial",
    ),
  ),
});
export type TrialData = DataOf<typeof trialFields>;
