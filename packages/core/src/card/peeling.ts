import { power } from "../quantity/power.ts";
import { entry, method, set } from "./made.ts";
import { slopeOfLogarithms } from "./slope.ts";

const slide = [
  "a slide: the tape stuck down on a board that is drawn along by hand",
  "luggage scale that holds its mean, 2 g steps",
  "300 mm of tape off each reel, never peeled",
];
const openEnd = "Open 20 mm of film by hand and clip the scale to it.";

/** Peel force of the whole seal, brought to the angle of the standard's test. */
export const peelSlide = method({
  id: "peel-slide",
  title: "peel force",
  picture: "peel",
  symbol: "P",
  unit: "N",
  shownIn: "N",
  equation: "F*(1 - cos(theta))/(1 - cos(theta_t))",
  entries: [entry("F", "mean pull over the plateau", "gf", 1, { zero: 1 })],
  settings: [
    set("theta", "angle between film and tape", "deg", 170, 5),
    set("theta_t", "angle of the standard's test", "deg", 170, 0),
  ],
  per: "reel",
  pieces: 5,
  repeats: 3,
  minutes: 20,
  cost: "nothing to buy",
  needs: slide,
  steps: [
    openEnd,
    "Fold the film back along the tape, 165 to 175 degrees, and keep that angle.",
    "Draw the tape at 5 mm/s: 100 mm in 20 seconds. Leave out the first and the last 20 mm.",
    "Write the mean; note the least and the greatest beside it. Three pieces a reel, five reels.",
  ],
  cautions: ["edges", "static"],
  source: { cite: "peel test of cover tape by EIA-481 and IEC 60286-3: 165 to 180 degrees, 300 mm/min", how: "memory" },
  shows: (P, { theta, theta_t }) => ({ F: (P * (1 - Math.cos(theta_t!))) / (1 - Math.cos(theta!)) }),
  typical: { value: 0.45, pieces: 0.15, readings: 0.06 },
  example: { rows: [[46], [48]], gives: 0.4609 },
});
/** Peel force of one seal track over the other's: the film is slit between them. */
export const trackPeel = method({
  ...peelSlide,
  form: "closed",
  id: "track-peel",
  title: "ratio of the two seal tracks",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "F_1/F_2",
  entries: [
    entry("F_1", "mean pull on the stronger track", "gf", 1, { zero: 0.5 }),
    entry("F_2", "mean pull on the weaker track", "gf", 1, { zero: 0.5 }),
  ],
  settings: [],
  minutes: 30,
  needs: [...slide, "a blade and a rule"],
  steps: [
    "Slit the film along its middle, over the pockets, without cutting the tape. Take the parts out first.",
    `${openEnd} Peel one track over 100 mm at 5 mm/s, then the other on the same piece.`,
    "Decide once which track is called the stronger, by the mean of all; keep it for every reel.",
    "Three pieces a reel, five reels.",
  ],
  cautions: ["blade", "edges", "static"],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (q) => ({ F_1: 0.25 * q, F_2: 0.25 }),
  typical: { value: 1.25, pieces: 0.12, readings: 0.06 },
  example: { rows: [[28, 22]], gives: 1.2727 },
});
/** How the peel force grows with speed: the slope of its logarithm on that of the speed. */
export const peelSpeeds = method({
  ...peelSlide,
  form: "solved",
  id: "peel-speeds",
  title: "rate exponent",
  symbol: "n",
  unit: "1",
  shownIn: "",
  equation: "F/F_0 = (t_0/t)^n",
  ofPiece: (rows) => -slopeOfLogarithms(rows.map((r) => [r.t!, r.F!])),
  entries: [
    entry("t", "time for 200 mm of film", "s", 0.01),
    entry("F", "mean pull at that speed", "gf", 1, { zero: 0.5 }),
  ],
  settings: [],
  pieces: 4,
  repeats: 6,
  minutes: 35,
  needs: [...slide, "stopwatch or film of the scale"],
  steps: [
    openEnd,
    "Peel 200 mm slowly, in about 40 seconds. Write time and mean pull.",
    "Again in about 10, 2 and 0.5 seconds; film the scale and read it from the film.",
    "Six pulls a reel over that range, four reels. The slowest and the fastest decide: repeat those.",
  ],
  source: { cite: "power law of peel on speed; common practice", how: "memory" },
  shows: (n, _, k) => {
    const t = [40, 0.5, 10, 2, 40, 0.5][k % 6]!;
    return { t, F: 0.5 * power(40 / t, n) };
  },
  typical: { value: 0.12, pieces: 0.15, readings: 0.12 },
  example: {
    rows: [
      [40, 40],
      [0.4, 80],
    ],
    gives: 0.1505,
  },
});
/** The speed from which a seal parts in jerks, caught between a smooth pull and a jerky one. */
export const jerkSpeed = method({
  ...peelSlide,
  form: "closed",
  id: "jerk-speed",
  title: "speed at which jerks begin",
  symbol: "v",
  unit: "m/s",
  shownIn: "mm/s",
  equation: "(v_1 + v_2)/2",
  between: ["v_1", "v_2"],
  order: [
    {
      more: "v_2",
      less: "v_1",
      hint: "The jerky speed must be above the smooth one; where all pulls are smooth, this seal has no such speed in the range.",
    },
  ],
  entries: [
    entry("v_1", "fastest speed that is smooth", "mm/s", 2),
    entry("v_2", "slowest speed that jerks", "mm/s", 2),
  ],
  settings: [],
  pieces: 5,
  repeats: 1,
  minutes: 30,
  steps: [
    openEnd,
    "Peel at rising speeds, 2 mm/s more each time, 100 mm each; listen, and feel the clip.",
    "Write the last speed that is smooth and the first that crackles or jerks.",
    "One row a reel, five reels.",
  ],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (v) => ({ v_1: v, v_2: v }),
  typical: { value: 10, pieces: 0.25, readings: 0 },
  example: { rows: [[8, 10]], gives: 9 },
});
/** Energy that a peeled seal takes to be lifted off a surface again. */
export const tackPeel = method({
  ...peelSlide,
  form: "closed",
  id: "tack-peel",
  title: "tack",
  symbol: "G",
  unit: "J/m^2",
  shownIn: "J/m^2",
  equation: "F*(1 - cos(theta))/w",
  entries: [entry("F", "weight that just keeps lifting", "gf", 0.1, { zero: 0.05 })],
  settings: [
    set("theta", "angle between film and surface", "deg", 90, 5),
    set("w", "width of the two seal tracks together", "mm", 1.4, 0.1),
  ],
  minutes: 40,
  needs: [
    "a roller or plate of the same face",
    "paper clips and a letter scale, 0.1 g steps",
    "200 mm of film off each reel, just peeled",
  ],
  steps: [
    "Press the peeled film, seal side down, on the face with the force of the nip.",
    "Turn the face over and hang paper clips from the end until the film keeps lifting at right angles.",
    "Weigh what hangs. Three times a reel, five reels; wipe the face between reels.",
  ],
  cautions: ["edges", "static"],
  source: { cite: "energy of an inextensible peel, Rivlin 1944", how: "memory" },
  shows: (G, { theta, w }) => ({ F: (G * w!) / (1 - Math.cos(theta!)) }),
  typical: { value: 10, pieces: 0.2, readings: 0.08 },
  example: { rows: [[1.6]], gives: 11.21 },
});
/** Charge by area of freshly peeled film dropped into a screened pail. */
export const chargePail = method({
  ...peelSlide,
  form: "closed",
  id: "charge-pail",
  title: "charge by area",
  symbol: "s",
  unit: "s*A/m^2",
  shownIn: "mA*ms/m^2",
  equation: "C*V/(b*l)",
  entries: [entry("V", "rise of the pail's voltage", "V", 0.01, { zero: 0.02 })],
  settings: [
    set("C", "capacity of pail and meter", "nF", 10, 0.2),
    set("b", "width of the film", "mm", 9.3, 0.1),
    set("l", "length of the film that was dropped in", "mm", 200, 2),
  ],
  minutes: 40,
  cost: "an instrument to borrow",
  needs: [
    "two tins, one insulated inside the other",
    "a 10 nF film capacitor",
    "a meter with an input that draws nothing",
    "200 mm of film off each reel",
  ],
  steps: [
    "Connect the inner tin to the meter over the capacitor; short it to nought.",
    "Peel 200 mm at the unit's speed and drop it into the inner tin at once, without touching the tin.",
    "Read the voltage within two seconds. Short it again. Three times a reel, five reels; write the humidity.",
  ],
  cautions: ["static", "edges"],
  source: { cite: "Faraday's pail, common practice", how: "memory" },
  shows: (s, { C, b, l }) => ({ V: (s * b! * l!) / C! }),
  typical: { value: 8, pieces: 0.15, readings: 0.08 },
  example: { rows: [[1.5]], gives: 8.0645 },
});
