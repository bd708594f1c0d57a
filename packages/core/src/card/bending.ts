import { power } from "../quantity/power.ts";
import { entry, method, set } from "./made.ts";
import { slopeOfLogarithms } from "./slope.ts";

/** Young's modulus of a flat strip on two supports. */
export const threePoints = method({
  id: "three-points",
  title: "Young's modulus",
  picture: "bend",
  symbol: "E",
  unit: "Pa",
  shownIn: "GPa",
  equation: "F*L^3/(4*b*t^3*x)",
  entries: [
    entry("F", "weight hung on the middle", "gf", 0.1, { zero: 0.05 }),
    entry("x", "how far the middle goes down", "mm", 0.01, { scale: 0.01 }),
  ],
  settings: [
    set("L", "distance of the supports", "mm", 30, 0.2),
    set("b", "width of the strip", "mm", 8, 0.05),
    set("t", "thickness of the strip", "mm", 0.3, 0.004),
  ],
  per: "reel",
  pieces: 4,
  repeats: 3,
  minutes: 30,
  cost: "nothing to buy",
  needs: [
    "two round bars as supports",
    "small weights, letter scale of 0.1 g steps",
    "depth gauge or dial gauge, 0.01 mm steps",
    "micrometer",
    "flat strips, cut where there are no pockets",
  ],
  steps: [
    "Measure width and thickness of the strip at five places; thickness counts by its third power.",
    "Lay it over the supports, the weight's loop at the middle. Read the height without weight.",
    "Hang the weight; read after ten seconds: the stiffness fades. The middle goes down by a tenth of the span at most.",
    "Three times, turned over each time; then a strip off the next reel.",
  ],
  cautions: ["edges"],
  source: { cite: "three-point bending, ISO 178", how: "memory" },
  shows: (E, { L, b, t }) => {
    const x = 1.5e-3;
    return { F: (E * 4 * b! * power(t!, 3) * x) / power(L!, 3), x };
  },
  typical: { value: 2.1, pieces: 0.06, readings: 0.03 },
  example: { rows: [[10, 1.5]], gives: 2.043 },
});
/** Stiffness of one bar over another's, by how far both bend under the same weight. */
export const twoBars = method({
  ...threePoints,
  id: "two-bars",
  title: "stiffness over that of a solid bar",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "x_s/x",
  entries: [
    entry("x_s", "how far the solid bar goes down", "mm", 0.01, {}),
    entry("x", "how far the bar as printed goes down", "mm", 0.01, {}),
  ],
  settings: [],
  per: "print",
  needs: [
    "a bar printed as the frame is and one printed solid, 100 x 10 x 6 mm",
    "two supports, a weight of 2 kg",
    "dial gauge, 0.01 mm steps",
  ],
  steps: [
    "Lay the solid bar over supports 80 mm apart, hang the weight, read after ten seconds.",
    "The same with the bar as printed.",
    "Three pairs, then bars of the next print.",
  ],
  cautions: ["weight"],
  source: { cite: "bending of two bars of one section; derived", how: "derived" },
  shows: (q) => ({ x_s: 0.8e-3, x: 0.8e-3 / q }),
  typical: { value: 0.45, pieces: 0.08, readings: 0.04 },
  example: { rows: [[0.8, 1.6]], gives: 0.5 },
});
/** Bending stiffness of tape with its pockets, from the droop of a free end. */
export const overhang = method({
  ...threePoints,
  id: "overhang",
  title: "bending stiffness",
  picture: "bars",
  symbol: "K",
  unit: "m^3*kg/s^2",
  shownIn: "N*mm^2",
  equation: "F*l^3/(3*x)",
  entries: [
    entry("F", "weight on the free end", "gf", 0.1, { zero: 0.05 }),
    entry("x", "how much further the end goes down", "mm", 0.2, {}),
  ],
  settings: [set("l", "free length past the table's edge", "mm", 60, 0.5)],
  needs: [
    "table with a sharp edge, a block to hold the tape down",
    "paper clips, letter scale of 0.1 g steps",
    "rule with a lens",
    "200 mm of empty tape off each reel",
  ],
  steps: [
    "Hold the tape down to the table's very edge; let 60 mm hang over. Read the height of its end.",
    "Hang clips on the end until it goes down by 4 to 6 mm more. Read after ten seconds.",
    "Three times, then the tape turned over, then the next reel: a set from the hub drops out over both faces.",
  ],
  source: { cite: "cantilever with an end load; ASTM D1388 for fabrics works alike", how: "memory" },
  shows: (K, { l }) => {
    const x = 5e-3;
    return { F: (3 * K * x) / power(l!, 3), x };
  },
  typical: { value: 450, pieces: 0.08, readings: 0.06 },
  example: { rows: [[3.2, 5]], gives: 451.9 },
});
/** Where a tape's stiffness lies between the two bounds that the sheet gives for its pockets. */
export const wallShare = method({
  ...overhang,
  form: "closed",
  id: "wall-share",
  title: "how far pockets stiffen the tape",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "(F*l^3/(3*x) - K_1)/(K_2 - K_1)",
  settings: [
    set("l", "free length past the table's edge", "mm", 60, 0.5),
    set("K_1", "stiffness where the pockets give way", "N*mm^2", 300, 10),
    set("K_2", "stiffness where they don't", "N*mm^2", 900, 30),
  ],
  steps: [...overhang.steps, "Take the two bounds for this tape from the sheet's finding on the bend."],
  shows: (q, { l, K_1, K_2 }) => {
    const x = 5e-3;
    return { F: (3 * (K_1! + q * (K_2! - K_1!)) * x) / power(l!, 3), x };
  },
  typical: { value: 0.4, pieces: 0.1, readings: 0.08 },
  example: { rows: [[3.2, 5]], gives: 0.2532 },
});
/** Radius of a coil from a chord and its rise. */
export const coilRadius = method({
  ...threePoints,
  id: "coil-radius",
  title: "radius of the coil",
  picture: "coil",
  symbol: "R",
  unit: "m",
  shownIn: "mm",
  equation: "c^2/(8*h) + h/2",
  entries: [entry("c", "chord", "mm", 0.5, {}), entry("h", "rise over the chord", "mm", 0.2, { zero: 0.1 })],
  settings: [],
  minutes: 20,
  needs: ["a smooth table, talc on it", "steel rule", "200 mm of tape off each reel, off the hub"],
  steps: [
    "Cut 200 mm off, lay it on its edge on the table and let it curl freely for a minute; tap the table.",
    "Measure a chord between two of its points and the rise over the middle of the chord.",
    "Three places, then the next reel. Write how long after unwinding.",
  ],
  source: { cite: "chord and rise of a circle; geometry", how: "derived" },
  shows: (R) => {
    const c = Math.min(0.08, 1.2 * R);
    return { c, h: R - Math.sqrt(R * R - (c * c) / 4) };
  },
  typical: { value: 90, pieces: 0.08, readings: 0.04 },
  example: { rows: [[80, 9.4]], gives: 89.81 },
});
/** The same as a curvature, for film that curls either way. */
export const coilCurvature = method({
  ...coilRadius,
  id: "coil-curvature",
  title: "curvature",
  symbol: "k",
  unit: "1/m",
  shownIn: "1/m",
  equation: "8*h/(c^2 + 4*h^2)",
  entries: [
    entry("c", "chord", "mm", 0.5, {}),
    entry("h", "rise over the chord, minus where it curls the other way", "mm", 0.2, { zero: 0.1, signed: true }),
  ],
  needs: ["a smooth table, talc on it", "steel rule", "100 mm of film off each reel, peeled over the unit's edge"],
  shows: (k) => {
    const c = 0.03;
    return { c, h: (1 - Math.sqrt(1 - (k * c) ** 2 / 4)) / k };
  },
  typical: { value: 20, pieces: 0.1, readings: 0.06 },
  example: { rows: [[30, 2.5]], gives: 21.62 },
});
/** Share of the hub's curvature that stays. */
export const coilShare = method({
  ...coilRadius,
  id: "coil-share",
  title: "share of the hub's curvature that stays",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "r/(c^2/(8*h) + h/2)",
  settings: [set("r", "radius at which it lay on the hub", "mm", 30, 0.5)],
  shows: (q, { r }) => {
    const R = r! / q;
    const c = Math.min(0.15, 1.2 * R);
    return { c, h: R - Math.sqrt(R * R - (c * c) / 4) };
  },
  typical: { value: 0.15, pieces: 0.1, readings: 0.06 },
  example: { rows: [[150, 15]], gives: 0.1538 },
});
/** Exponent of time with which a force fades, from readings over decades of time. */
export const fading = method({
  ...threePoints,
  form: "solved",
  id: "fading",
  title: "exponent of fading",
  picture: "bend",
  symbol: "n",
  unit: "1",
  shownIn: "",
  equation: "F/F_0 = (t_0/t)^n",
  ofPiece: (rows) => -slopeOfLogarithms(rows.map((r) => [r.t!, r.F!])),
  entries: [entry("t", "time since it was bent", "min", 0.1), entry("F", "force it still gives", "gf", 1, {})],
  settings: [],
  per: "part",
  pieces: 3,
  repeats: 6,
  minutes: 30,
  needs: [
    "a frame that keeps the part bent and lifts it by a hair to read",
    "kitchen scale, 1 g steps, or luggage scale",
    "a calendar: a day to a week, a few minutes each time",
  ],
  steps: [
    "Bend the part as far as it stands in the unit and keep it so. Start the clock.",
    "Read the force after 1, 10, 100 minutes and after a day; touch the bend as little as you can.",
    "Six readings over that time, the room as warm throughout; three parts side by side.",
    "Steel fades so little that a week hardly shows it: there the card only tells that the exponent is small.",
  ],
  cautions: ["spring"],
  source: { cite: "stress relaxation at constant strain as a power of time; ASTM E328 works alike", how: "memory" },
  shows: (n, _, k) => {
    const t = [60, 600, 6000, 86_400, 60, 86_400][k % 6]!;
    return { t, F: 10 * power(60 / t, n) };
  },
  typical: { value: 0.05, pieces: 0.12, readings: 0.06 },
  example: {
    rows: [
      [1, 1000],
      [1000, 700],
    ],
    gives: 0.05163,
  },
});
/** Young's modulus of film or of a flat strip that is stretched. */
export const stretch = method({
  ...threePoints,
  id: "stretch",
  title: "Young's modulus by stretching",
  picture: "pull",
  equation: "(F_2 - F_1)*L/(b*t*x)",
  order: [{ more: "F_2", less: "F_1", hint: "The second pull stretches more and must be the larger one." }],
  entries: [
    entry("F_1", "first pull", "gf", 5, {}),
    entry("F_2", "second pull", "gf", 5, {}),
    entry("x", "further stretch between the marks", "mm", 0.05, { scale: 0.005 }),
  ],
  settings: [
    set("L", "distance of the marks", "mm", 500, 1),
    set("b", "width of what carries", "mm", 9.3, 0.1),
    set("t", "thickness of what carries", "um", 16, 0.5),
  ],
  needs: [
    "luggage scale, 5 g steps",
    "two round bars to wrap the ends on",
    "steel rule with a lens, a pen",
    "700 mm of film off each reel",
  ],
  steps: [
    "Wrap the ends on bars; mark 500 mm in between. Take the slack out with a first pull of about 100 g.",
    "Pull further until the marks have gone apart by 2 mm: no further, or it stays longer.",
    "Three times, then the next reel.",
  ],
  cautions: ["eyes", "edges"],
  source: { cite: "tensile modulus of film, ASTM D882 works alike", how: "memory" },
  shows: (E, { L, b, t }) => ({ F_1: 1, F_2: 1 + (E * b! * t! * 2e-3) / L!, x: 2e-3 }),
  typical: { value: 4.5, pieces: 0.06, readings: 0.04 },
  example: { rows: [[100, 380, 2]], gives: 4.613 },
});
/** Modulus of a film's soft layer: what the whole film bears more than its stretched layer. */
export const softLayer = method({
  ...stretch,
  form: "closed",
  id: "soft-layer",
  title: "modulus of the sealing layer",
  equation: "((F_2 - F_1)*L/(b*x) - E_1*h_1)/h_2",
  settings: [
    set("L", "distance of the marks", "mm", 500, 1),
    set("b", "width of the film", "mm", 9.3, 0.1),
    set("E_1", "modulus of the stretched layer", "GPa", 4.5, 0.05),
    set("h_1", "thickness of the stretched layer", "um", 16, 0.1),
    set("h_2", "thickness of the sealing layer", "um", 38, 1),
  ],
  pieces: 5,
  steps: [
    ...stretch.steps,
    "The stretched layer's share is taken off, so its modulus and thickness must be known well: strip it first.",
  ],
  shows: (E, { L, b, E_1, h_1, h_2 }) => ({ F_1: 1, F_2: 1 + ((E_1! * h_1! + E * h_2!) * b! * 2e-3) / L!, x: 2e-3 }),
  typical: { value: 0.3, pieces: 0.12, readings: 0.12 },
  example: { rows: [[100, 400, 1.9]], gives: 0.296 },
});
/** Strain to which something springs back, caught between a stretch that comes back and one that stays. */
export const springBack = method({
  ...stretch,
  form: "closed",
  id: "spring-back",
  title: "strain to which it springs back",
  symbol: "e",
  unit: "1",
  shownIn: "%",
  equation: "(x_1 + x_2)/(2*L)",
  between: ["x_1", "x_2"],
  order: [{ more: "x_2", less: "x_1", hint: "The stretch that stays must be the larger one." }],
  entries: [
    entry("x_1", "largest stretch that comes back", "mm", 0.5),
    entry("x_2", "smallest stretch that stays", "mm", 0.5),
  ],
  settings: [set("L", "distance of the marks", "mm", 300, 0.5)],
  pieces: 5,
  repeats: 1,
  needs: [
    "two clips with round jaws, one on a screw or a stop that moves by 0.5 mm",
    "steel rule with a lens, a fine pen",
    "400 mm of film, or a strip of carrier cut beside the pockets",
  ],
  steps: [
    "Mark 300 mm. Stretch by 0.5 mm more each time, hold 10 seconds, let go, wait a minute, look at the marks.",
    "Write the last stretch after which the marks are back and the first after which they stay apart by a hair's width.",
    "One strip a reel, five reels.",
  ],
  source: { cite: "permanent set after a held strain; common practice, no source", how: "judgement" },
  shows: (e, { L }) => ({ x_1: e * L!, x_2: e * L! }),
  typical: { value: 1.8, pieces: 0.1, readings: 0 },
  example: { rows: [[5, 5.5]], gives: 1.75 },
});
/**
 * Share of the bending energy that is lost in a bend and back. A swing to and fro goes through two of them, and energy goes by the square of the
 * width: so the n-th root of the widths' ratio over n swings.
 */
export const ringDown = method({
  ...threePoints,
  id: "ring-down",
  title: "share of bending energy lost",
  picture: "bars",
  symbol: "q",
  unit: "1",
  shownIn: "",
  equation: "1 - (a_2/a_1)^(1/n)",
  order: [{ more: "a_1", less: "a_2", hint: "The swing must die down: the first width is the larger one." }],
  entries: [
    entry("a_1", "width of the first swing counted", "mm", 0.2, {}),
    entry("a_2", "width n swings later", "mm", 0.2, {}),
  ],
  settings: [set("n", "swings to and fro between the two", "", 8, 0)],
  minutes: 25,
  needs: [
    "phone camera, slow motion",
    "a block that clamps a strip 60 mm long at the table's edge",
    "rule behind the strip",
  ],
  steps: [
    "Clamp a strip with its face upright, so that it swings level. Pluck it and film it before the rule.",
    "Begin where the swing is below a tenth of the strip's length. Write its width and the width 8 swings later.",
    "Three plucks, then the next reel. Air takes a little too: a short strip shows less of it.",
  ],
  source: { cite: "logarithmic decrement; half a cycle's loss, derived", how: "derived" },
  shows: (q, { n }) => ({ a_1: 20e-3, a_2: 20e-3 * power(1 - q, n!) }),
  typical: { value: 0.08, pieces: 0.12, readings: 0.08 },
  example: { rows: [[20, 13]], gives: 0.05242 },
});
