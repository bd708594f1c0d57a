import { power } from "../quantity/power.ts";
import { entry, method, set } from "./made.ts";
import { slopeOfLogarithms } from "./slope.ts";

/** A time by the clock, or by the label. */
export const clock = method({
  id: "clock",
  title: "time",
  picture: "camera",
  symbol: "t",
  unit: "s",
  shownIn: "s",
  equation: "t",
  entries: [entry("t", "time", "s", 1, { zero: 1 })],
  settings: [],
  per: "reel",
  pieces: 5,
  repeats: 2,
  minutes: 15,
  cost: "nothing to buy",
  needs: ["a clock, or the date on the label and in the book"],
  steps: [
    "Write when it begins and when it ends; from labels, the dates of winding and of use.",
    "Twice where it can be repeated, then the next one. Times of a shop differ: take usual ones, not the best.",
  ],
  cautions: [],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (t) => ({ t }),
  typical: { value: 600, pieces: 0.2, readings: 0.05 },
  example: { rows: [[620], [580]], gives: 600 },
});
/** The same where it is long. */
export const minutes = method({
  ...clock,
  form: "closed",
  id: "minutes",
  shownIn: "min",
  entries: [entry("t", "time", "min", 0.1, { zero: 0.05 })],
  typical: { value: 30, pieces: 0.2, readings: 0.05 },
  example: { rows: [[28], [32]], gives: 30 },
});
export const hours = method({
  ...clock,
  form: "closed",
  id: "hours",
  shownIn: "h",
  entries: [entry("t", "time", "h", 1)],
  typical: { value: 300, pieces: 0.2, readings: 0.02 },
  example: { rows: [[290], [310]], gives: 300 },
});
export const days = method({
  ...clock,
  form: "closed",
  id: "days",
  shownIn: "d",
  entries: [entry("t", "time", "d", 1)],
  typical: { value: 100, pieces: 0.2, readings: 0.02 },
  example: { rows: [[90], [110]], gives: 100 },
});
/** A frequency counted in a film or a recording. */
export const frequency = method({
  ...clock,
  id: "frequency",
  title: "frequency",
  symbol: "f",
  unit: "1/s",
  shownIn: "Hz",
  equation: "n/t",
  entries: [entry("n", "swings counted", "", 1, {}), entry("t", "time of them", "ms", 1, {})],
  pieces: 4,
  repeats: 4,
  needs: ["phone camera in slow motion of 960 pictures a second, or a contact microphone"],
  steps: [
    "Kick the floor of a pocket by one index, the parts taken out, and record it.",
    "Count whole swings until they fade, and the time of them.",
    "Four kicks, then the next reel.",
  ],
  shows: (f) => ({ n: f * 0.06, t: 0.06 }),
  typical: { value: 400, pieces: 0.1, readings: 0.06 },
  example: { rows: [[24, 60]], gives: 400 },
});
/** Change of speed from three places a time step apart. */
export const threeFrames = method({
  ...clock,
  id: "three-frames",
  title: "change of speed",
  symbol: "v",
  unit: "m/s",
  shownIn: "mm/s",
  equation: "(x_3 - x_2)/t - (x_2 - x_1)/t",
  entries: [
    entry("x_1", "place in the first picture", "mm", 0.002, { signed: true }),
    entry("x_2", "place in the next", "mm", 0.002, { signed: true }),
    entry("x_3", "place in the one after", "mm", 0.002, { signed: true }),
  ],
  settings: [set("t", "time from picture to picture", "ms", 1, 0.01)],
  per: "unit",
  pieces: 5,
  repeats: 4,
  minutes: 30,
  cost: "an instrument to borrow",
  needs: ["encoder counts logged every millisecond, or a camera of 1000 pictures a second with a close lens"],
  steps: [
    "Record one index of the tape.",
    "Find the three neighbouring places between which the speed changes most, as a rule where a tooth takes the tape or the brake bites.",
    "Four indexes, then the next unit.",
  ],
  cautions: ["pinch", "power"],
  shows: (v, { t }) => ({ x_1: 0, x_2: 0.04e-3, x_3: 0.08e-3 + v * t! }),
  typical: { value: 20, pieces: 0.2, readings: 0.12 },
  example: { rows: [[0, 0.04, 0.1]], gives: 20 },
});
/** The same as a share of the drive's speed without a load. */
export const shareOfSpeed = method({
  ...threeFrames,
  form: "closed",
  id: "share-of-speed",
  title: "change of speed over the drive's own",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "((x_3 - x_2)/t - (x_2 - x_1)/t)/v",
  settings: [
    set("t", "time from picture to picture", "ms", 1, 0.01),
    set("v", "speed of the drive without a load", "mm/s", 100, 2),
  ],
  shows: (q, { t, v }) => ({ x_1: 0, x_2: 0.04e-3, x_3: 0.08e-3 + q * v! * t! }),
  typical: { value: 0.2, pieces: 0.2, readings: 0.12 },
  example: { rows: [[0, 0.04, 0.1]], gives: 0.2 },
});
/** Share of a change of speed that goes up or down: two movements in one film. */
export const kickShare = method({
  ...threeFrames,
  form: "closed",
  id: "kick-share",
  title: "share that goes up or down",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "z/x",
  order: [],
  entries: [
    entry("z", "how far the floor moves up or down in a picture's time", "um", 1, {}),
    entry("x", "change of the tape's step in that time", "um", 1, {}),
  ],
  settings: [],
  needs: [
    "camera of 1000 pictures a second, close, level with the floor of a pocket",
    "a dot of paint on the floor and on the land",
  ],
  steps: [
    "Film an index from the side, the part taken out.",
    "Take the pictures in which the tape's speed changes most. Write how far the floor's dot goes up or down, and by how much the land's step changes.",
    "Four indexes, then the next unit.",
  ],
  shows: (q) => ({ z: q * 300e-6, x: 300e-6 }),
  typical: { value: 0.08, pieces: 0.15, readings: 0.12 },
  example: { rows: [[24, 300]], gives: 0.08 },
});
/** Share of a knock that turns upward, from how high the part hops. */
export const hop = method({
  ...threeFrames,
  form: "closed",
  id: "hop",
  title: "share of a knock that turns up",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "sqrt(2*9.80665 m/s^2*h)/v",
  entries: [entry("h", "how high the part hops", "mm", 0.02, {}), entry("v", "speed of the knock", "mm/s", 5, {})],
  settings: [],
  needs: [
    "camera of 1000 pictures a second, level with the part",
    "a fine rule in the picture",
    "tape without its film, stopped by hand against a block",
  ],
  steps: [
    "Let the tape run against a stop and film a part in its pocket from the side.",
    "Write how high it hops and the tape's speed just before.",
    "Four knocks, then the next unit.",
  ],
  source: { cite: "free throw, v = sqrt(2 g h)", how: "derived" },
  shows: (q) => ({ v: 0.4, h: (q * 0.4) ** 2 / (2 * 9.80665) }),
  typical: { value: 0.25, pieces: 0.1, readings: 0.08 },
  example: { rows: [[0.5, 400]], gives: 0.2476 },
});
/** Exponent with which life falls as something rises: the slope of the logarithms. */
export const lifeSlope = method({
  ...clock,
  form: "solved",
  id: "life-slope",
  title: "exponent of life",
  picture: "probe",
  symbol: "m",
  unit: "1",
  shownIn: "",
  equation: "t/t_0 = (V_0/V)^m",
  ofPiece: (rows) => -slopeOfLogarithms(rows.map((r) => [r.V!, r.t!])),
  least: { value: 0, hint: "Motors at the higher voltage lived longer: look for two rows in each other's place." },
  entries: [entry("V", "voltage", "V", 0.01, {}), entry("t", "running time to the end", "h", 1, {})],
  per: "motor",
  pieces: 3,
  repeats: 6,
  minutes: 60,
  cost: "a few coins",
  needs: [
    "six motors a batch, loaded alike",
    "supplies at three voltages from the rated one to half as much again",
    "counters that stop when the motor does",
  ],
  steps: [
    "Run two motors of a batch at each of three voltages until they stop.",
    "Write voltage and hours. Three batches: what one batch says does not hold for the next.",
    "It takes weeks, and an hour of yours. Keep it in a metal box away from paper.",
  ],
  cautions: ["power", "heat"],
  source: { cite: "inverse power law of life; common practice", how: "memory" },
  shows: (m, _, k) => {
    const V = [5, 6, 7.5][k % 3]!;
    return { V, t: 400 * 3600 * power(5 / V, m) };
  },
  typical: { value: 5.5, pieces: 0.1, readings: 0.12 },
  example: {
    rows: [
      [5, 640],
      [10, 10],
    ],
    gives: 6,
  },
});
/** A number that is counted. */
export const count = method({
  ...clock,
  id: "count",
  title: "number",
  picture: "calipers",
  symbol: "n",
  unit: "1",
  shownIn: "",
  equation: "n",
  entries: [entry("n", "number counted", "", 1, { whole: true })],
  per: "part",
  pieces: 1,
  repeats: 2,
  minutes: 5,
  needs: ["good light, a pen to mark where you began"],
  steps: [
    "Mark where you begin. Count once round, or once through.",
    "Count again the other way. Two counts that differ are both wrong: count until two agree.",
  ],
  shows: (n) => ({ n: Math.round(n) }),
  typical: { value: 24, pieces: 0, readings: 0 },
  example: { rows: [[24], [24]], gives: 24 },
});
/** Turns of one for a turn of another. */
export const turnsForTurn = method({
  ...count,
  id: "turns-for-turn",
  title: "turns for one turn",
  symbol: "i",
  equation: "n/n_0",
  entries: [entry("n", "turns of the motor, to a quarter", "", 0.25, {})],
  settings: [set("n_0", "turns of the shaft", "", 10, 0)],
  needs: ["a pen to mark motor and shaft", "somebody who counts aloud"],
  steps: [
    "Mark both against the frame, the play taken up the way it drives.",
    "Turn the motor until the shaft has made ten turns to its mark. Count the motor's turns, to a quarter.",
    "Four times, from another tooth each.",
  ],
  repeats: 4,
  cautions: ["pinch"],
  shows: (i, { n_0 }) => ({ n: i * n_0! }),
  typical: { value: 29.7, pieces: 0, readings: 0.0004 },
  example: { rows: [[297], [297.5]], gives: 29.725 },
});
