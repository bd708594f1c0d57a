import { entry, method } from "./made.ts";

/** A limit of judgement, caught between a case that runs and one that fails. A trial judges it; no instrument reads it. */
export const trial = method({
  id: "trial",
  title: "limit between runs and fails",
  picture: "camera",
  symbol: "x",
  unit: "1",
  shownIn: "",
  equation: "(x_1 + x_2)/2",
  between: ["x_1", "x_2"],
  order: [
    {
      more: "x_2",
      less: "x_1",
      hint: "The case that fails must lie above the one that runs. Where a larger one runs, the limit is not this number alone: look what else differs.",
    },
  ],
  entries: [entry("x_1", "largest value that runs", "", 0.01), entry("x_2", "smallest value that fails", "", 0.01)],
  settings: [],
  per: "reel",
  pieces: 5,
  repeats: 1,
  minutes: 120,
  cost: "a few coins",
  needs: [
    "a trial piece in which this number can be set, or three of them",
    "five reels",
    "what the sheet says the number is in each of them",
  ],
  steps: [
    "Agree before you begin what counts as running: 200 mm or 50 indexes without the fault.",
    "Begin at the kind end of the guess. Raise the number by an even step until the fault shows.",
    "Write the last value that ran and the first that failed. One row a reel, five reels.",
  ],
  cautions: ["pinch", "edges", "power"],
  source: { cite: "bracketing of a limit; common practice, no source", how: "judgement" },
  shows: (x) => ({ x_1: x, x_2: x }),
  typical: { value: 0.1, pieces: 0.2, readings: 0 },
  example: { rows: [[0.1, 0.12]], gives: 0.11 },
});
const inPercent = {
  entries: [entry("x_1", "largest value that runs", "%", 0.2), entry("x_2", "smallest value that fails", "%", 0.2)],
};
export const trialOfStrain = method({
  ...trial,
  ...inPercent,
  form: "closed",
  id: "trial-of-strain",
  shownIn: "%",
  typical: { value: 1.9, pieces: 0.15, readings: 0 },
  example: { rows: [[1.8, 2]], gives: 1.9 },
});
/** A temperature, judged by a trial. */
export const trialOfHeat = method({
  ...trial,
  form: "closed",
  id: "trial-of-heat",
  unit: "kelvin",
  shownIn: "degC",
  entries: [
    entry("x_1", "highest temperature that leaves it sound", "degC", 5),
    entry("x_2", "lowest temperature that harms it", "degC", 5),
  ],
  per: "motor",
  needs: [
    "five motors that may be ruined",
    "an oven of its own with a thermostat, 5 degree steps, under an extractor",
    "a meter for resistance to the case",
  ],
  steps: [
    "Read the data sheet first: a class of insulation written there settles it without a test.",
    "Warm a motor for an hour, 5 degrees more each time, cool it, and look: resistance to the case, current without a load, its sound.",
    "Write the last temperature that left it sound and the first that did not. Five motors.",
  ],
  cautions: ["heat", "power"],
  typical: { value: 105, pieces: 0.08, readings: 0 },
  example: { rows: [[100, 105]], gives: 102.5 },
});
const { between: _, ...plain } = trial;
/** Which of two things is the case: seen, not read. */
export const look = method({
  ...plain,
  form: "solved",
  id: "look",
  title: "which of two",
  equation: "x = y - 1",
  ofReading: (row) => (row.y! > 1.5 ? 1 : 0),
  order: [],
  entries: [entry("y", "1 for the first answer, 2 for the second", "", 1, { whole: true, most: 2 })],
  pieces: 5,
  repeats: 2,
  minutes: 15,
  cost: "nothing to buy",
  needs: ["good light, a lens, a phone in slow motion"],
  steps: [
    "Look twice at each reel, the second time without knowing the first.",
    "Write 1 or 2. Where two looks differ, the card cannot tell: say so.",
  ],
  cautions: ["edges"],
  shows: (x) => ({ y: 1 + x }),
  typical: { value: 1, pieces: 0, readings: 0 },
  example: { rows: [[2], [2]], gives: 1 },
});
