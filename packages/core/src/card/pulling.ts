import { entry, method, set } from "./made.ts";

/** A steady pull read on a scale. */
export const pullThrough = method({
  id: "pull-through",
  title: "pull",
  picture: "pull",
  symbol: "F",
  unit: "N",
  shownIn: "N",
  equation: "F",
  entries: [entry("F", "pull while it moves", "gf", 2, { zero: 1, scale: 0.01 })],
  settings: [],
  per: "reel",
  pieces: 4,
  repeats: 4,
  minutes: 15,
  cost: "nothing to buy",
  needs: ["luggage scale, 2 g steps", "what is pulled, as it sits in the unit, its drive off"],
  steps: [
    "Set the scale to nought lying as it will be pulled.",
    "Pull in the line of travel, slowly and evenly, 100 mm in 4 seconds. Read while it moves.",
    "Four pulls, then the next one.",
  ],
  cautions: ["edges", "pinch"],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (F) => ({ F }),
  typical: { value: 0.45, pieces: 0.12, readings: 0.07 },
  example: { rows: [[45], [47]], gives: 0.4511 },
});
/** The greatest pull before something gives. */
export const pullToBreak = method({
  ...pullThrough,
  id: "pull-to-break",
  title: "pull at which it gives",
  entries: [entry("F", "greatest pull", "gf", 10, { zero: 5, scale: 0.01 })],
  repeats: 3,
  needs: [
    "luggage scale that holds its peak, 10 g steps",
    "two round bars to wrap the ends on",
    "200 mm of it off each reel",
  ],
  steps: [
    "Wrap both ends three turns round a bar and hold them with tape: nothing sharp may press on the piece.",
    "Pull evenly until it gives, in 5 to 10 seconds. Write the peak and where it gave.",
    "Leave out a piece that gave at the bar. Three pieces a reel, four reels.",
  ],
  cautions: ["eyes", "edges"],
  source: { cite: "tensile test of film, ASTM D882 works alike", how: "memory" },
  typical: { value: 12, pieces: 0.1, readings: 0.06 },
  example: { rows: [[1210], [1250]], gives: 12.06 },
});
/** A leaf or rib lifted off its seat: the pull at which a strip of paper under it comes free. */
export const liftOff = method({
  ...pullThrough,
  id: "lift-off",
  title: "preload",
  picture: "pull",
  per: "unit",
  pieces: 4,
  repeats: 5,
  entries: [entry("F", "pull at which the paper comes free", "gf", 5, { zero: 2, scale: 0.01 })],
  needs: ["luggage scale, 5 g steps", "a loop of thread under the nose", "strips of paper", "a piece of the tape"],
  steps: [
    "Lay the tape in place and a strip of paper on it, under the nose.",
    "Hook the scale into the thread close to the nose. Lift in the line of the force and tug the paper lightly.",
    "Read where the paper comes free. Five times, then the next unit.",
  ],
  cautions: ["spring", "edges"],
  typical: { value: 6, pieces: 0.06, readings: 0.04 },
  example: { rows: [[610], [620]], gives: 6.031 },
});
/** The force between two rollers, lifted apart on the carrier's lever. */
export const nipLift = method({
  ...liftOff,
  id: "nip-lift",
  title: "force between the rollers",
  picture: "nip",
  symbol: "N",
  equation: "F*l_1/l_2",
  settings: [
    set("l_1", "pivot to where the scale pulls", "mm", 30, 0.3),
    set("l_2", "pivot to the nip", "mm", 20, 0.3),
  ],
  needs: [
    "luggage scale or kitchen scale, 5 g steps",
    "strips of paper of 80 g/m2",
    "calipers",
    "a loop of thread on the carrier",
  ],
  steps: [
    "Put a strip of paper into the nip. Hook the scale on the carrier and measure both arms from the pivot.",
    "Lift across the arm and tug the paper lightly. Read where it slips out.",
    "Where the carrier slides instead of turning, the two arms are the same.",
    "Five times with fresh paper, then the next unit.",
  ],
  cautions: ["pinch", "spring"],
  shows: (N, { l_1, l_2 }) => ({ F: (N * l_2!) / l_1! }),
  example: { rows: [[410]], gives: 6.031 },
});
/** Force of something that is pressed on a kitchen scale. */
export const kitchenScale = method({
  ...liftOff,
  id: "kitchen-scale",
  title: "force on a scale",
  picture: "nip",
  entries: [entry("F", "reading of the scale", "gf", 1, { zero: 1, scale: 0.005 })],
  needs: ["kitchen scale, 1 g steps", "a rest of the right height"],
  steps: [
    "Set the scale to nought with the rest on it.",
    "Bring the part down on the rest as far as it comes down in service. Read when it stands.",
    "Five times, lifting off each time; then the next unit.",
  ],
  cautions: ["pinch"],
  typical: { value: 1.2, pieces: 0.1, readings: 0.04 },
  example: { rows: [[122], [126]], gives: 1.216 },
});
/** How far a pull swings about its middle within a run. */
export const pullSwing = method({
  ...pullThrough,
  id: "pull-swing",
  title: "swing of a pull",
  symbol: "h",
  unit: "1",
  shownIn: "%",
  equation: "(F_max - F_min)/(F_max + F_min)",
  order: [
    {
      more: "F_max",
      less: "F_min",
      hint: "The greatest pull must be above the least. Leave the start and the end of the run out.",
    },
  ],
  entries: [
    entry("F_max", "greatest pull of the plateau", "gf", 1, { zero: 0.5 }),
    entry("F_min", "least pull of the plateau", "gf", 1, { zero: 0.5 }),
  ],
  steps: [
    "Pull 150 mm at the unit's mean speed and film the scale, or log it.",
    "Leave out the first and the last 20 mm. Write the greatest and the least of what is between.",
    "Four runs a reel, four reels.",
  ],
  shows: (h) => ({ F_max: 0.6 * (1 + h), F_min: 0.6 * (1 - h) }),
  typical: { value: 22, pieces: 0.12, readings: 0.1 },
  example: { rows: [[75, 45]], gives: 25 },
});
/** Share of the film's upward pull that a hold-down feels: what it takes to lift it, with and without film. */
export const liftDifference = method({
  ...liftOff,
  id: "lift-difference",
  title: "share of the film's pull",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "(F_0 - F_1)/P",
  order: [
    {
      more: "F_0",
      less: "F_1",
      hint: "With film pulling up, less must be left to lift. Read once more; where they stay alike, the share is too small for this scale.",
    },
  ],
  entries: [
    entry("F_0", "lift-off pull without film", "gf", 0.5, {}),
    entry("F_1", "lift-off pull with film pulling", "gf", 0.5, {}),
    entry("P", "upward pull on the film", "gf", 5, {}),
  ],
  repeats: 6,
  minutes: 25,
  needs: ["letter scale with a hook, 0.5 g steps", "a weight of 300 g over a pulley on the film", "strips of paper"],
  steps: [
    "Read the pull that frees a strip of paper under the nose, without film.",
    "Let the film pull upward with the weight, at its angle in the unit. Read again.",
    "Six pairs, then the next unit.",
  ],
  shows: (q) => ({ F_0: 2, F_1: 2 - 3 * q, P: 3 }),
  typical: { value: 0.08, pieces: 0.15, readings: 0.12 },
  example: { rows: [[200, 176, 300]], gives: 0.08 },
});
/** Pressure on the wall of a sprocket hole at which the hole has grown by a given share. */
export const holePull = method({
  ...pullToBreak,
  id: "hole-pull",
  title: "strength of a hole's wall",
  picture: "hole",
  symbol: "s",
  unit: "Pa",
  shownIn: "MPa",
  equation: "F/(d*T)",
  entries: [entry("F", "pull at which the hole has grown by 4 %", "gf", 10, { zero: 5, scale: 0.01 })],
  settings: [set("d", "diameter of the pin", "mm", 1.5, 0.01), set("T", "thickness of the carrier", "mm", 0.3, 0.01)],
  repeats: 4,
  minutes: 30,
  needs: [
    "a hardened pin of 1.5 mm in a clamp",
    "luggage scale that holds its peak, 10 g steps",
    "a gauge pin 0.06 mm thicker than the hole",
    "micrometer",
    "60 mm of carrier off each reel",
  ],
  steps: [
    "Measure pin and carrier. Hang one hole on the pin; hold the strip's other end flat between two plates.",
    "Pull along the strip, 50 g more each time, and let go. Try the gauge pin in the hole after each pull.",
    "Write the first pull after which the gauge pin goes in. Four holes a reel, four reels.",
  ],
  source: { cite: "ASTM D953, bearing strength at 4 % growth", how: "read" },
  shows: (s, { d, T }) => ({ F: s * d! * T! }),
  typical: { value: 30, pieces: 0.08, readings: 0.06 },
  example: { rows: [[1380]], gives: 30.07 },
});
/** Force over travel: two pulls and the travel between them. */
export const springRate = method({
  ...pullThrough,
  id: "spring-rate",
  title: "stiffness",
  symbol: "k",
  unit: "N/m",
  shownIn: "N/mm",
  equation: "(F_2 - F_1)/x",
  per: "unit",
  order: [
    { more: "F_2", less: "F_1", hint: "The second pull belongs to the larger travel and must be the larger one." },
  ],
  entries: [
    entry("F_1", "pull at the near mark", "gf", 5, {}),
    entry("F_2", "pull at the far mark", "gf", 5, {}),
    entry("x", "travel between the marks", "mm", 0.05, { scale: 0.005 }),
  ],
  needs: ["luggage scale, 5 g steps", "calipers or a dial gauge"],
  steps: [
    "Take the slack out first: the near mark stands where the pull has begun to rise evenly.",
    "Read the pull at the near mark and at the far one, moving the same way both times.",
    "Four times, then the next unit.",
  ],
  cautions: ["spring", "eyes"],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (k) => ({ F_1: 1, F_2: 1 + k * 3e-3, x: 3e-3 }),
  typical: { value: 2, pieces: 0.08, readings: 0.05 },
  example: { rows: [[100, 700, 3]], gives: 1.9613 },
});
/** Stiffness of a soft roller face by length of the nip. */
export const faceStiffness = method({
  ...springRate,
  id: "face-stiffness",
  title: "stiffness of a soft face",
  picture: "nip",
  unit: "Pa",
  shownIn: "N/mm^2",
  equation: "(F_2 - F_1)/(x*l)",
  entries: [
    entry("F_1", "first load", "gf", 5, {}),
    entry("F_2", "second load", "gf", 5, {}),
    entry("x", "further approach under the second", "mm", 0.01, { scale: 0.01 }),
  ],
  settings: [set("l", "length of the nip", "mm", 10, 0.1)],
  needs: ["the two rollers in a press or on a drill stand", "weights of 200 g and 1 kg", "dial gauge, 0.01 mm steps"],
  steps: [
    "Stand one roller on the other, axes level and parallel.",
    "Put on the first load and set the gauge to nought; put on the second and read it after ten seconds.",
    "Four times, turned by a quarter each; then the next roller.",
  ],
  shows: (k, { l }) => ({ F_1: 2, F_2: 2 + k * 0.2e-3 * l!, x: 0.2e-3 }),
  typical: { value: 5, pieces: 0.08, readings: 0.06 },
  example: { rows: [[200, 1200, 0.2]], gives: 4.903 },
});
/** Pull of a screw, by how much it shortens a spring of known rate. */
export const screwSpring = method({
  ...springRate,
  form: "closed",
  id: "screw-spring",
  title: "pull of a screw",
  picture: "calipers",
  symbol: "F",
  unit: "N",
  shownIn: "N",
  equation: "k*(L_0 - L)",
  order: [{ more: "L_0", less: "L", hint: "The stack must be shorter when the screw is tight." }],
  entries: [
    entry("L_0", "stack under the head, loose", "mm", 0.01, {}),
    entry("L", "stack under the head, tight", "mm", 0.01, {}),
  ],
  settings: [set("k", "rate of the stack of disc springs", "N/mm", 300, 12)],
  per: "part",
  pieces: 5,
  minutes: 25,
  needs: [
    "a stack of disc springs of known rate",
    "the screw in its own plastic",
    "micrometer or calipers, 0.01 mm steps",
  ],
  steps: [
    "Put the stack under the screw's head. Measure it loose.",
    "Tighten by hand as you would in assembly. Measure again.",
    "Four times with fresh holes, by two people; then the next part.",
  ],
  shows: (F, { k }) => ({ L_0: 4e-3, L: 4e-3 - F / k! }),
  typical: { value: 220, pieces: 0.15, readings: 0.1 },
  example: { rows: [[4, 3.2]], gives: 240 },
});
