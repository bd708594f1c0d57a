import { entry, method, set } from "./made.ts";

/** Play at a pitch line, by a pointer that rocks. */
export const rockingPointer = method({
  id: "rocking-pointer",
  title: "play at the pitch line",
  picture: "rock",
  symbol: "j",
  unit: "m",
  shownIn: "mm",
  equation: "(x_1 - x_2)*r/l",
  order: [{ more: "x_1", less: "x_2", hint: "Call the far end of the play the first reading." }],
  entries: [
    entry("x_1", "pointer pressed one way", "mm", 0.1, {}),
    entry("x_2", "pointer pressed the other way", "mm", 0.1, {}),
  ],
  settings: [set("l", "length of the pointer", "mm", 120, 1), set("r", "radius of the pitch line", "mm", 15.28, 0.05)],
  per: "unit",
  pieces: 5,
  repeats: 4,
  minutes: 20,
  cost: "nothing to buy",
  needs: [
    "a straw or stiff wire of 120 mm fixed to the wheel as a pointer",
    "rule or graph paper at its end",
    "two rubber bands or a weight of 20 g for both ways",
  ],
  steps: [
    "Hold the motor's side still. Press the wheel lightly one way with the band; read the pointer.",
    "Press it as lightly the other way; read again. Only play counts, not bending: use little force.",
    "Four places round the wheel, then the next unit.",
  ],
  cautions: ["pinch"],
  source: { cite: "lever of the pointer; common practice", how: "derived" },
  shows: (j, { r, l }) => ({ x_1: 20e-3 + (j * l!) / r!, x_2: 20e-3 }),
  typical: { value: 0.09, pieces: 0.15, readings: 0.1 },
  example: { rows: [[20.7, 20]], gives: 0.08913 },
});
/** Torsional stiffness: a weight on an arm, a pointer on another. */
export const twist = method({
  ...rockingPointer,
  id: "twist",
  title: "stiffness in torsion",
  symbol: "K",
  unit: "N*m",
  shownIn: "N*m",
  equation: "(F_2 - F_1)*r*l/x",
  order: [{ more: "F_2", less: "F_1", hint: "The second load is the larger one." }],
  entries: [
    entry("F_1", "first load on the arm", "gf", 2, {}),
    entry("F_2", "second load on the arm", "gf", 2, {}),
    entry("x", "how far the pointer moves between them", "mm", 0.02, {}),
  ],
  settings: [set("r", "axis to where the load hangs", "mm", 30, 0.2), set("l", "length of the pointer", "mm", 120, 1)],
  pieces: 4,
  needs: [
    "an arm clamped on the shaft, a pointer of 120 mm",
    "two weights, kitchen scale",
    "dial gauge at the pointer, 0.02 mm steps",
  ],
  steps: [
    "Hold the motor's side fast. The first load takes the play out.",
    "Add the second load; read the gauge after five seconds.",
    "Four places round the wheel, then the next unit.",
  ],
  cautions: ["weight", "pinch"],
  shows: (K, { r, l }) => ({ F_1: 1, F_2: 6, x: (5 * r! * l!) / K }),
  typical: { value: 60, pieces: 0.08, readings: 0.05 },
  example: { rows: [[100, 600, 0.3]], gives: 58.84 },
});
/** Torque by a lever and a scale. */
export const lever = method({
  ...rockingPointer,
  id: "lever",
  title: "torque",
  picture: "drum",
  symbol: "M",
  unit: "N*m",
  shownIn: "N*mm",
  equation: "F*r",
  order: [],
  entries: [entry("F", "pull at the end of the lever", "gf", 2, { zero: 1, scale: 0.01 })],
  settings: [set("r", "axis to where the scale pulls", "mm", 40, 0.3)],
  pieces: 4,
  needs: ["a lever of 40 mm clamped on the shaft", "luggage scale, 2 g steps", "calipers"],
  steps: [
    "Clamp the lever on the shaft. Pull across it, never along it.",
    "Read while it turns steadily; for a stall the greatest reading before it gives, 2 seconds at most.",
    "Four places round the shaft, then the next unit.",
  ],
  cautions: ["pinch", "eyes", "heat"],
  shows: (M, { r }) => ({ F: M / r! }),
  typical: { value: 22, pieces: 0.08, readings: 0.05 },
  example: { rows: [[56]], gives: 21.97 },
});
/** Share of a torque that comes through, weight against weight on two drums. */
export const torqueRatio = method({
  ...lever,
  id: "torque-ratio",
  title: "share of the torque that comes through",
  symbol: "e",
  unit: "1",
  shownIn: "",
  equation: "F_2*r_2/(F_1*r_1*i)",
  entries: [
    entry("F_1", "weight on the driving drum that lifts steadily", "gf", 1, {}),
    entry("F_2", "weight lifted on the driven drum", "gf", 5, {}),
  ],
  settings: [
    set("r_1", "radius of the driving drum", "mm", 10, 0.05),
    set("r_2", "radius of the driven drum", "mm", 12, 0.05),
    set("i", "turns of the driving for one of the driven", "", 2.5, 0),
  ],
  minutes: 30,
  needs: [
    "the gears in their frame, the motor taken off",
    "two drums and thread",
    "kitchen scale, 1 g steps",
    "calipers",
  ],
  steps: [
    "Hang a load from the driven drum. Add weight to the driving one until it lifts the load steadily once it is started.",
    "Weigh both. Four times, a quarter turn further each; then the next unit.",
  ],
  cautions: ["weight", "pinch"],
  shows: (e, { r_1, r_2, i }) => ({ F_2: 8, F_1: (8 * r_2!) / (e * r_1! * i!) }),
  typical: { value: 0.88, pieces: 0.03, readings: 0.03 },
  example: { rows: [[448, 800]], gives: 0.8571 },
});
/** Share of the torque through a gear head that can't be opened: torque out by a lever, torque in by the current. */
export const torqueByCurrent = method({
  ...lever,
  id: "torque-by-current",
  title: "share of the torque that comes through",
  picture: "probe",
  symbol: "e",
  unit: "1",
  shownIn: "",
  equation: "F*r/(k*(I - I_0)*i)",
  order: [{ more: "I", less: "I_0", hint: "Under load the current must be above that without a load." }],
  entries: [
    entry("F", "weight lifted steadily", "gf", 5, {}),
    entry("I", "current meanwhile", "mA", 1, { scale: 0.01 }),
    entry("I_0", "current without a load", "mA", 1, { scale: 0.01 }),
  ],
  settings: [
    set("r", "radius of the drum", "mm", 10, 0.05),
    set("k", "torque of the rotor by current", "mN*m/A", 3, 0.06),
    set("i", "turns of the motor for one of the shaft", "", 75.81, 0),
  ],
  minutes: 30,
  cost: "an instrument to borrow",
  needs: [
    "current-limited supply, its current shown to 1 mA",
    "a drum, thread, a weight of 500 g",
    "kitchen scale, calipers",
  ],
  steps: [
    "Run the motor without a load at its rated volts. Read the current.",
    "Let it lift the weight steadily. Read the current again, within five seconds.",
    "Four times, then the next unit. Know the motor's constant first.",
  ],
  cautions: ["power", "heat", "weight", "pinch"],
  shows: (e, { r, k, i }) => {
    const I_0 = 0.05;
    const F = 5;
    return { F, I_0, I: I_0 + (F * r!) / (e * k! * i!) };
  },
  typical: { value: 0.6, pieces: 0.06, readings: 0.04 },
  example: { rows: [[510, 420, 50]], gives: 0.5943 },
});
/** Moment of inertia, from how long a rotor spins on against a known friction. */
export const spoolDown = method({
  ...lever,
  id: "spool-down",
  title: "moment of inertia",
  picture: "probe",
  symbol: "J",
  unit: "m^2*kg",
  shownIn: "g*mm^2",
  equation: "T*t/w",
  entries: [entry("t", "time to standstill", "ms", 1, {}), entry("w", "speed when it was switched off", "rpm", 10, {})],
  settings: [set("T", "friction torque at the rotor", "mN*m", 0.15, 0.006)],
  minutes: 30,
  cost: "an instrument to borrow",
  needs: [
    "the motor without its gear head",
    "a scope or a sound recorder on the motor's leads: its voltage tells its speed",
    "the motor's constant and friction, known first",
  ],
  steps: [
    "Run the motor without a load, then open its leads; do not short them.",
    "Read on the scope the speed at the start (volts over the constant) and the time to standstill.",
    "Four times, then the next motor.",
  ],
  per: "motor",
  cautions: ["power", "pinch"],
  source: { cite: "J dw/dt = -T with a friction that does not change; derived", how: "derived" },
  shows: (J, { T }) => {
    const w = 800;
    return { w, t: (J * w) / T! };
  },
  typical: { value: 10, pieces: 0.08, readings: 0.05 },
  example: { rows: [[53, 7640]], gives: 9.937 },
});
