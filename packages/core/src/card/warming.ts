import { current } from "./electric.ts";
import { entry, method, set } from "./made.ts";

/** A temperature read on a thermometer. */
export const thermometer = method({
  ...current,
  id: "thermometer",
  title: "temperature",
  picture: "thermometer",
  symbol: "T",
  unit: "kelvin",
  shownIn: "degC",
  equation: "T",
  entries: [entry("T", "temperature", "degC", 0.1, { zero: 0.5, signed: true })],
  settings: [],
  per: "unit",
  repeats: 4,
  minutes: 15,
  cost: "nothing to buy",
  needs: ["thermometer or thermocouple, 0.1 degree steps"],
  steps: [
    "Fix the sensor where the question asks, out of sun and draught.",
    "Wait until it rests. Read at four times of the day.",
    "Then the next place.",
  ],
  cautions: ["heat"],
  source: { cite: "common practice, no source", how: "judgement" },
  shows: (T) => ({ T }),
  typical: { value: 26, pieces: 0.05, readings: 0.03 },
  example: { rows: [[25.4], [26.2]], gives: 25.8 },
});
/** How much warmer something is than something else, or than before. */
export const twoTemperatures = method({
  ...thermometer,
  id: "two-temperatures",
  title: "rise of temperature",
  shownIn: "kelvin",
  equation: "T_1 - T_2",
  order: [{ more: "T_1", less: "T_2", hint: "The first temperature is the warmer one." }],
  entries: [entry("T_1", "warm", "degC", 0.1, { zero: 0.3 }), entry("T_2", "cool", "degC", 0.1, { zero: 0.3 })],
  steps: [
    "Fix the sensor on the frame beside the pick position. Read when the unit's place is set.",
    "Run it for two hours at its usual pace. Read again.",
    "Four runs, then the next unit.",
  ],
  shows: (d) => ({ T_1: 24 + d, T_2: 24 }),
  typical: { value: 11, pieces: 0.1, readings: 0.08 },
  example: { rows: [[35.5, 24]], gives: 11.5 },
});
/** Temperature of a winding by how much its resistance has grown. */
export const hotWinding = method({
  ...thermometer,
  id: "hot-winding",
  title: "temperature of the winding",
  equation: "T_c + (R_h/R_c - 1)/a",
  order: [{ more: "R_h", less: "R_c", hint: "A warm winding has the larger resistance." }],
  entries: [
    entry("R_h", "resistance right after work", "ohm", 0.01, {}),
    entry("R_c", "resistance cold", "ohm", 0.01, {}),
  ],
  settings: [
    set("T_c", "temperature when cold", "degC", 23, 0.5),
    set("a", "rise of copper's resistance by kelvin", "1/kelvin", 0.00393, 0.00004),
  ],
  per: "motor",
  minutes: 45,
  needs: ["a meter with 0.01 ohm steps, four wires", "thermometer"],
  steps: [
    "Read the resistance at rest, the rotor turned until it is least.",
    "Let the motor work as in service for half an hour. Stop, and read within three seconds at the same place.",
    "Four times, cooled down in between; then the next motor.",
  ],
  cautions: ["heat", "power"],
  source: { cite: "resistance of copper with heat, IEC 60034-1 works alike", how: "memory" },
  shows: (T, { T_c, a }) => ({ R_c: 16, R_h: 16 * (1 + a! * (T - T_c!)) }),
  typical: { value: 80, pieces: 0.05, readings: 0.03 },
  example: { rows: [[19.6, 16]], gives: 80.25 },
});
/** Thermal resistance between two places, from their temperatures at rest and the heat that flows. */
export const heatPath = method({
  ...thermometer,
  id: "heat-path",
  title: "thermal resistance",
  symbol: "R",
  unit: "s^3*kelvin/m^2/kg",
  shownIn: "kelvin*s/J",
  equation: "(T_1 - T_2)/(V*I)",
  order: [
    { more: "T_1", less: "T_2", hint: "Heat flows from the warmer place: the first temperature is the higher one." },
  ],
  entries: [
    entry("T_1", "temperature of the warmer place", "degC", 0.1, { zero: 0.3 }),
    entry("T_2", "temperature of the cooler place", "degC", 0.1, { zero: 0.3 }),
    entry("V", "voltage", "V", 0.01, {}),
    entry("I", "current", "mA", 1, { scale: 0.01 }),
  ],
  per: "motor",
  minutes: 60,
  needs: [
    "current-limited supply",
    "thermocouples on winding (by its resistance), case and air",
    "the motor as it is fitted",
  ],
  steps: [
    "Hold the shaft and send a small current through: half a watt.",
    "Wait until both temperatures rest, about half an hour. Read them with volts and current.",
    "The winding's temperature comes from its resistance (card of the hot winding).",
    "Four times, then the next motor.",
  ],
  cautions: ["heat", "power"],
  source: { cite: "heat flow at rest; common practice", how: "memory" },
  shows: (R) => ({ T_1: 24 + R * 0.5, T_2: 24, V: 2.5, I: 0.2 }),
  typical: { value: 45, pieces: 0.08, readings: 0.04 },
  example: { rows: [[46, 24, 2.5, 200]], gives: 44 },
});
/** Heat capacity from how fast it warms at first. */
export const heatUp = method({
  ...heatPath,
  form: "closed",
  id: "heat-up",
  title: "heat capacity",
  symbol: "C",
  unit: "m^2*kg/s^2/kelvin",
  shownIn: "J/kelvin",
  equation: "V*I*t/(T_1 - T_2)",
  entries: [
    entry("T_1", "winding at the end", "degC", 0.1, { zero: 0.5 }),
    entry("T_2", "winding at the start", "degC", 0.1, { zero: 0.5 }),
    entry("V", "voltage", "V", 0.01, {}),
    entry("I", "current", "mA", 1, { scale: 0.01 }),
    entry("t", "time between", "s", 0.1, {}),
  ],
  minutes: 30,
  steps: [
    "Hold the shaft. Read the winding's resistance, then send about 2 W through for 10 seconds.",
    "Read the resistance again at once; both give the winding's temperature.",
    "Keep the time short against the winding's own, some 30 seconds.",
    "Four times, cooled down in between; then the next motor.",
  ],
  shows: (C) => ({ T_1: 24 + 20 / C, T_2: 24, V: 5, I: 0.4, t: 10 }),
  typical: { value: 1.6, pieces: 0.08, readings: 0.05 },
  example: { rows: [[36.5, 24, 5, 400, 10]], gives: 1.6 },
});
/** Share of a magnet's strength that a kelvin takes: the motor's voltage at one speed, cool and warm. */
export const magnetFade = method({
  ...heatPath,
  form: "closed",
  id: "magnet-fade",
  title: "fading of the magnet with heat",
  symbol: "b",
  unit: "1/kelvin",
  shownIn: "1/kelvin",
  equation: "(1 - V_1/V_2)/(T_1 - T_2)",
  order: [
    { more: "V_2", less: "V_1", hint: "The warm motor gives the smaller voltage at the same speed." },
    { more: "T_1", less: "T_2", hint: "The first temperature is the warm one." },
  ],
  entries: [
    entry("V_1", "voltage warm", "V", 0.001, {}),
    entry("V_2", "voltage cool", "V", 0.001, {}),
    entry("T_1", "temperature warm", "degC", 0.1, { zero: 0.5 }),
    entry("T_2", "temperature cool", "degC", 0.1, { zero: 0.5 }),
  ],
  needs: [
    "a second motor that turns it at a steady speed",
    "a meter, 1 mV steps",
    "thermocouple on the case, a warm box of 70 degC",
  ],
  steps: [
    "Turn the cool motor at a steady speed, its leads open. Read the voltage.",
    "Warm it for an hour in the box. Turn it at the same speed and read again within a minute.",
    "Four times, then the next motor.",
  ],
  shows: (b) => ({ V_2: 2, V_1: 2 * (1 - b * 45), T_1: 68, T_2: 23 }),
  typical: { value: 0.0015, pieces: 0.08, readings: 0.06 },
  example: { rows: [[1.865, 2, 68, 23]], gives: 0.0015 },
});
