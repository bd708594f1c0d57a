import { type DataOf, group, list, map, optional, quantity, railFields, text, word } from "@tapeworthy/core";

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
  volume: optional(quantity("", "units a year", { least: 0, example: "400" })),
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
