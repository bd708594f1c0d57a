import { type DataOf, group, list, map, optional, quantity, railFields, text, word } from "@tapeworthy/core";

const days = (means: string, example: string) => quantity("d", means, { least: 0.01, most: 1000, example });
const chance = (means: string, example: string) => quantity("", means, { least: 0.001, most: 1, example });
const pieceCosts = (means: string, example: string) =>
  optional(
    group(means, {
      days: optional(days("working days to make and run it", example)),
      catches: optional(chance("chance that it shows what fails", "90 %")),
      "passes good": optional(chance("chance that it passes what holds", "95 %")),
    }),
  );
const byPart = {
  printed: optional(days("a part that the shop prints or cuts", "15 d")),
  bought: optional(days("a part that is bought", "18 d")),
  board: optional(days("the board", "25 d")),
};
/** What trials and mistakes cost in this shop. */
const benchCosts = group(
  "working days that trials and mistakes cost in this shop; what is left out has a usual value",
  {
    "working day": optional(quantity("h", "hours of a working day", { least: 0.5, most: 24, example: "8 h" })),
    "trial piece": pieceCosts("a trial piece cut out of a unit", "1 d"),
    "whole prototype": pieceCosts("a whole prototype", "12 d"),
    "found late": optional(
      group("working days lost where a fault is found in the finished unit, by what must be made anew", {
        ...byPart,
        "further pair": optional(days("each further wanted pair of the unit that fails with it", "2 d")),
      }),
    ),
    "false alarm": optional(group("working days lost where a good design is changed for nothing", byPart)),
  },
);

/** project.yaml: what is asked of the units, and which tapes are wanted. */
export const projectFields = group("a project", {
  format: word("version of this notation", "1"),
  project: text("name of the project"),
  note: optional(text("anything worth knowing, in words")),
  requirement: optional(
    group("what is asked of every unit", {
      "allow pairs": optional(
        quantity("", "share of unit-reel pairs that may break a window", { least: 0.0005, most: 0.4, example: "2 %" }),
      ),
      "misfeed allowance": optional(
        quantity("", "share of indexes that may fail", { least: 0, most: 0.1, example: "0.00001" }),
      ),
      "index time": optional(quantity("ms", "time for one index", { least: 1, example: "100 ms" })),
      "index rate": optional(
        quantity("1/s", "indexes a second, mean over a run; without it the unit indexes without a pause", {
          least: 0.001,
          most: 100,
          example: "2.5 /s",
        }),
      ),
      life: optional(quantity("", "indexes that a unit should last", { least: 1000, most: 1e10, example: "5000000" })),
      ambient: optional(
        quantity("degC", "temperature of the air around the units", { least: -20, most: 80, example: "28 degC" }),
      ),
      "pick force": optional(
        quantity("N", "force with which the pick tool pushes a part", { least: 0, most: 50, example: "1.5 N" }),
      ),
      "pick travel": optional(
        quantity("mm", "how far the pick tool's spring gives", { least: 0, most: 20, example: "1.0 mm" }),
      ),
      "pick tool": optional(quantity("mm", "radius the pick tool forgives", { least: 0.001, example: "0.12 mm" })),
      "pick share": optional(
        quantity("", "share of indexes that the pick radius holds; 99.7 % where it is left out", {
          least: 0.5,
          most: 0.9999999,
          example: "99.7 %",
        }),
      ),
      calibration: optional(
        word(
          "how a unit's pick place is taught: not at all, once with another reel of the same tape, or cold and warm",
          "none",
          "one point",
          "two points",
        ),
      ),
      "pick families": optional(
        list(
          group("a package family", {
            family: text("its name"),
            radius: quantity("mm", "how far from a part's middle the tool still takes it", {
              least: 0.001,
              most: 20,
              example: "0.15 mm",
            }),
            turn: optional(
              quantity("deg", "how far a part may have turned", { least: 0.01, most: 180, example: "10 deg" }),
            ),
          }),
          "what the tool forgives of each package family; without it a list of common ones",
        ),
      ),
    }),
  ),
  "film speed": optional(
    quantity("mm/s", "mean speed of the film while it peels", { least: 0.1, most: 2000, example: "80 mm/s" }),
  ),
  supply: optional(railFields),
  safety: optional(
    group("safeties", {
      "film break": optional(
        quantity("", "break of the film over the pull on it", { least: 1, most: 10, example: "1.5" }),
      ),
    }),
  ),
  wanted: map(
    list(word("name of a tape file, without .yaml"), "tapes it should feed"),
    "for every unit, by its file's name, the tapes it should feed",
  ),
  ladder: optional(list(word("name of a tape file"), "one tape a width for the ladder")),
  "goes together": optional(
    list(
      group("numbers whose scatter goes together", {
        of: list(word("address of a number, such as plover/nip.preload or tapes/coil-12/K0"), "two numbers or more"),
        by: quantity("", "correlation of their normal scores, between -1 and 1", {
          least: -0.999,
          most: 0.999,
          example: "0.6",
        }),
        per: optional(
          word("between what they scatter together, where one scatters in two ways", "reel", "unit", "index"),
        ),
      }),
      "scatters that are not independent",
    ),
  ),
  volume: optional(quantity("", "units a year", { least: 0, example: "400" })),
  "bench costs": optional(benchCosts),
  assume: optional(
    map(
      quantity("any", "a judgement or figure that no file gives", { example: "1.8..2.2 % guess" }),
      "your own values for what is otherwise assumed",
    ),
  ),
});
export type ProjectData = DataOf<typeof projectFields>;

/** known.yaml: units that run or fail on a tape. */
export const knownFields = group("what units are known to do", {
  format: word("version of this notation", "1"),
  known: list(
    group("one unit on one tape", {
      unit: word("file name of the unit, without .yaml"),
      tape: word("file name of the tape, without .yaml"),
      result: word("what it does", "runs", "fails", "not good enough"),
      "reels run": optional(quantity("", "reels run", { least: 0, most: 1e6, example: "310" })),
      "reels refused": optional(quantity("", "reels it would not feed", { least: 0, most: 1e6, example: "2" })),
      note: optional(text("anything worth knowing, in words")),
    }),
    "the record",
  ),
});
export type KnownData = DataOf<typeof knownFields>;
