import { entry, method, set } from "./made.ts";

const zeroHanging = "Set the scale to nought hanging free.";

/** Friction from a strip round a fixed pin: pulled up and let down, so that the weight drops out. Euler and Eytelwein. */
export const capstan = method({
  id: "capstan",
  title: "friction",
  picture: "capstan",
  symbol: "mu",
  unit: "1",
  shownIn: "",
  form: "solved",
  equation: "F_up/F_down = exp(2*mu*theta)",
  ofReading: ({ F_up, F_down }, { theta }) => Math.log(F_up! / F_down!) / (2 * theta!),
  order: [
    {
      more: "F_up",
      less: "F_down",
      hint: "Pulling up must take more than letting down. Look whether the two stand in each other's place.",
    },
  ],
  entries: [
    entry("F_up", "pull while it moves up", "gf", 5, { zero: 2 }),
    entry("F_down", "pull while it is let down", "gf", 5, { zero: 2 }),
  ],
  settings: [set("theta", "angle of wrap", "deg", 180, 3)],
  per: "reel",
  pieces: 3,
  repeats: 5,
  minutes: 25,
  cost: "nothing to buy",
  needs: [
    "a pin of 12 mm of the same material, made the same way",
    "a vice",
    "luggage scale, 5 g steps",
    "a weight of 200 g with a clip",
    "a strip of 400 mm off each reel",
  ],
  steps: [
    "Clamp the pin level. Wipe it; don't sand it.",
    `Lay the strip half round the pin, the rubbing side as in the unit. Clip the weight to one end, hook the scale to the other. ${zeroHanging}`,
    "Up: pull down slowly, 2 seconds for 100 mm. Read while it moves, not the start.",
    "Down: let it creep back just as slowly. Read again.",
    "Five pairs, then the next reel and a fresh stretch of pin.",
  ],
  cautions: ["eyes", "edges", "weight"],
  source: { cite: "Euler and Eytelwein, belt round a drum; ASTM D3108 for yarn works alike", how: "memory" },
  shows: (mu, { theta }) => {
    const hang = 0.2 * 9.80665;
    return { F_up: hang * Math.exp(mu * theta!), F_down: hang * Math.exp(-mu * theta!) };
  },
  typical: { value: 0.25, pieces: 0.08, readings: 0.06 },
  example: {
    rows: [
      [420, 95],
      [420, 95],
    ],
    gives: 0.2366,
  },
});

/** Friction from the angle at which a sledge slides on. */
export const tiltBoard = method({
  id: "tilt-board",
  title: "friction",
  picture: "tilt",
  symbol: "mu",
  unit: "1",
  shownIn: "",
  equation: "h/l",
  entries: [
    entry("h", "height of the raised end", "mm", 1, { zero: 0.5 }),
    entry("l", "level distance from the pivot to that height", "mm", 1),
  ],
  settings: [],
  per: "reel",
  pieces: 3,
  repeats: 5,
  minutes: 15,
  cost: "nothing to buy",
  needs: [
    "a flat board of 400 mm with the counter-face on it, as it is in the unit",
    "a sledge: three short pieces under a block of 50 g",
    "a steel rule, 1 mm steps",
  ],
  steps: [
    "Stick the pieces under the block so that they touch with the face that rubs in the unit.",
    "Lay the sledge on the board. Raise one end slowly and tap the board lightly all the while.",
    "Stop where the sledge keeps sliding without speeding up. Read height and level distance.",
    "Five times, each on a fresh stretch; then pieces off the next reel.",
  ],
  cautions: ["edges"],
  source: { cite: "incline of friction, TAPPI T 815 works alike", how: "memory" },
  shows: (mu) => ({ h: mu * 0.3, l: 0.3 }),
  typical: { value: 0.28, pieces: 0.08, readings: 0.06 },
  example: { rows: [[84, 300]], gives: 0.28 },
});

/** Friction on one roller of a nip: the other turns freely, the strip is pulled through. */
export const rollerGrip = method({
  id: "roller-grip",
  title: "friction on a roller",
  picture: "nip",
  symbol: "mu",
  unit: "1",
  shownIn: "",
  equation: "F/N",
  entries: [
    entry("F", "pull at which the film slips steadily", "gf", 5, { zero: 3 }),
    entry("N", "force that presses the rollers", "gf", 10, { scale: 0.01 }),
  ],
  settings: [],
  per: "reel",
  pieces: 3,
  repeats: 4,
  minutes: 30,
  cost: "nothing to buy",
  needs: [
    "the nip on a plate, its drive off",
    "luggage scale, 5 g steps",
    "a known weight on the carrier in place of the spring",
    "300 mm of film off each reel",
  ],
  steps: [
    "Hold the roller in question still; the other one turns freely on its shaft.",
    "Load the carrier with a known weight in place of the spring. Write its force at the nip: weight by the lever's arms.",
    `${zeroHanging} Pull the film straight out at 50 mm/s. Read while it slides.`,
    "Four pulls; fresh film each time. Then the next reel, then the other roller on a card of its own.",
  ],
  cautions: ["pinch", "edges"],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (mu) => ({ F: mu * 6, N: 6 }),
  typical: { value: 0.7, pieces: 0.09, readings: 0.05 },
  example: { rows: [[430, 610]], gives: 0.7049 },
});

/** Standing over sliding friction, and the like: one force over another, both on one scale. */
export const forceRatio = method({
  id: "two-pulls",
  title: "ratio of two pulls",
  picture: "pull",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "F_1/F_2",
  entries: [entry("F_1", "first pull", "gf", 2, { zero: 1 }), entry("F_2", "second pull", "gf", 2, { zero: 1 })],
  settings: [],
  per: "reel",
  pieces: 5,
  repeats: 3,
  minutes: 20,
  cost: "nothing to buy",
  needs: ["luggage scale that holds its peak, 2 g steps", "what is pulled, as it sits in the unit"],
  steps: [
    zeroHanging,
    "Take the first pull, then the second on the same piece, at the same speed and along the same line.",
    "Three pairs on a piece, then the next reel.",
  ],
  cautions: ["edges", "eyes"],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (q) => ({ F_1: 0.6 * q, F_2: 0.6 }),
  typical: { value: 1.2, pieces: 0.08, readings: 0.05 },
  example: { rows: [[78, 60]], gives: 1.3 },
});
/** Friction of a shaft in its bushes: the weight on a drum that just keeps it turning. */
export const bushBalance = method({
  id: "bush-balance",
  title: "friction in the bushes",
  picture: "drum",
  symbol: "mu",
  unit: "1",
  shownIn: "",
  equation: "F*r_d/(N*r_b)",
  entries: [
    entry("F", "weight that just keeps it turning", "gf", 1, {}),
    entry("N", "weight that presses the shaft into its bushes", "gf", 5, {}),
  ],
  settings: [
    set("r_d", "radius of the drum", "mm", 10, 0.1),
    set("r_b", "radius of the shaft in its bushes", "mm", 2, 0.05),
  ],
  per: "unit",
  pieces: 3,
  repeats: 4,
  minutes: 30,
  cost: "nothing to buy",
  needs: ["the shaft in its bushes, nothing driving it", "thread, a cup, kitchen scale of 1 g steps", "calipers"],
  steps: [
    "Hang the load from the middle of the shaft on a second thread with a loop.",
    "Wind a thread on the drum and hang the cup from it. Add grains until the shaft keeps turning once it is started.",
    "Weigh the cup, then the load with the shaft.",
    "Four times, a quarter turn further each; then the next unit.",
  ],
  cautions: ["weight", "pinch"],
  source: { cite: "moment balance of a shaft, derived", how: "derived" },
  shows: (mu, { r_d, r_b }) => ({ F: (mu * 5 * r_b!) / r_d!, N: 5 }),
  typical: { value: 0.22, pieces: 0.08, readings: 0.05 },
  example: { rows: [[23, 510]], gives: 0.2255 },
});
/** Friction of a worm from its efficiency, torque in against torque out. */
export const wormBalance = method({
  id: "worm-balance",
  title: "friction of worm on wheel",
  picture: "drum",
  symbol: "mu",
  unit: "1",
  shownIn: "",
  equation: "cos(alpha)*tan(lambda)*(1 - F_2*r_2/(F_1*r_1*i))/(F_2*r_2/(F_1*r_1*i) + tan(lambda)^2)",
  entries: [
    entry("F_1", "weight on the worm's drum that lifts steadily", "gf", 1, {}),
    entry("F_2", "weight lifted on the wheel's drum", "gf", 10, {}),
  ],
  least: {
    value: 0,
    hint: "More work came out than went in: look for the two weights typed in each other's place, or a drum's radius.",
  },
  settings: [
    set("r_1", "radius of the worm's drum", "mm", 8, 0.05),
    set("r_2", "radius of the wheel's drum", "mm", 12, 0.05),
    set("i", "turns of the worm for one of the wheel", "", 40, 0),
    set("lambda", "lead angle", "deg", 4.5, 0.05),
    set("alpha", "normal pressure angle", "deg", 20, 0),
  ],
  per: "unit",
  pieces: 4,
  repeats: 4,
  minutes: 40,
  cost: "nothing to buy",
  needs: [
    "worm and wheel in their frame, the motor taken off, greased as in service",
    "two drums and thread",
    "kitchen scale, 1 g steps",
    "calipers",
  ],
  steps: [
    "Fit a drum on the worm's shaft and one on the wheel's. Measure both.",
    "Hang a load from the wheel's drum. Add weight to the worm's until it lifts the load steadily once it is started.",
    "Weigh both. Four times, a quarter turn of the wheel further each; then the next unit.",
  ],
  cautions: ["weight", "pinch"],
  source: { cite: "efficiency of a worm, tan l (cos a - mu tan l)/(cos a tan l + mu), solved for mu", how: "derived" },
  shows: (mu, { r_1, r_2, i, lambda, alpha }) => {
    const [t, c] = [Math.tan(lambda!), Math.cos(alpha!)];
    const e = (t * (c - mu * t)) / (c * t + mu);
    const out = 15;
    return { F_2: out, F_1: (out * r_2!) / (e * r_1! * i!) };
  },
  typical: { value: 0.13, pieces: 0.08, readings: 0.05 },
  example: { rows: [[163, 1500]], gives: 0.1379 },
});
