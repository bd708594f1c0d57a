import type { Figure } from "./figure.ts";
import { derived, fact, max, memory, min, most, pm, read } from "./figure.ts";

/** What holds for carrier tape of every width from 8 mm up. Lengths in mm. */

/** Sprocket hole. */
export const D0: Figure = read(
  1.5,
  ["EIA-481-D p13", "EIA-481-D p15", "C1003", "capacitor table 7", "SO8", "IEC 286-3 sheet"],
  { tol: [0, 0.1] },
);
/** From the sprocket edge of the tape to the line of hole centres. */
export const E1: Figure = read(
  1.75,
  ["EIA-481-D p13", "EIA-481-D p15", "C1003", "capacitor table 7", "SO8", "IEC 286-3 sheet"],
  { tol: pm(0.1), note: "the IEC-form sheet 28704 prints 1.72 for cardboard tape: probably a misprint" },
);
/** Sprocket pitch. */
export const P0: Figure = read(
  4,
  ["EIA-481-D p13", "EIA-481-D p15", "C1003", "capacitor table 7", "SO8", "IEC 286-3 sheet"],
  { tol: pm(0.1), note: "8 mm tape and wider; 4 mm tape has holes every 2 mm" },
);
/** Cumulative pitch error. */
export const tenPitchError: Figure = read(
  0.2,
  ["EIA-481-D p15", "C1003", "capacitor table 7", "SO8", "IEC 286-3 sheet"],
  { limit: "max", note: "largest error either way over any 10 sprocket pitches (40 mm)" },
);
/** Cover film thickness. */
export const T1: Figure = read(0.1, ["EIA-481-D p13", "EIA-481-D p15", "C1003", "capacitor table 7"], max);
/** Carrier thickness of embossed tape. */
export const T: Figure = read(
  0.6,
  ["EIA-481-D p13", "EIA-481-D p15", "C1003", "older EIA", "SS-241"],
  most("one maker keeps to 0.40, another below 0.4; drawn tapes are 0.20 to 0.35"),
);

/** S1 below which sealing may suffer, though 0.6 is the stated minimum. */
export const advisedS1: Figure = read(1, ["C1003", "T2020", "EIA-B slides"], {
  note: "below this the land may be too narrow to seal a film well; in sheets on 8 to 16 mm",
});

/** Bow of the tape edge seen from above. */
export const camber = {
  /** mm over 250 mm */
  per250: memory(1, { confidence: "high", note: "EIA-481-D; its drawing was not read" }),
  /** mm over 100 mm */
  per100: read(1, ["older EIA", "TSSOP drawing 1997"], {
    note: "older form; one sheet adds that it must not build up over 250 mm",
  }),
  /** Edge radius if the bow is a circle, m: L^2/(8 s). */
  radius250: derived(7.81, { note: "1 mm over 250 mm" }),
  radius100: derived(1.25, { note: "1 mm over 100 mm" }),
} as const;

/** Older forms (RS-481-A, EIA-481-1) that EIA-481-D no longer prints. mm. */
export const olderForm = {
  /** Play between part and pocket. EIA-481-D asks only for enough within the limits of rotation and lateral shift. */
  leastClearance: read(0.05, ["older EIA", "SS-241", "40074", "capacitor appendix B"], min),
  mostClearance: read(0.5, ["older EIA", "SS-241", "40074", "capacitor appendix B"], max),
  /** Flat from hole edge (G1) and far edge (G2) to the pocket, 8 and 12 mm. EIA-481-D has S1 instead. */
  G: read(0.75, ["SS-241", "capacitor appendix B"], min),
} as const;

export const rules = [
  fact("The part must not stand above the top of the carrier.", ["EIA-481-D p13"]),
  fact("Once uncovered, the part must lift straight out without catching.", ["EIA-481-D p13", "capacitor table 7"]),
  fact("A pocket is placed from its own sprocket hole, whatever the error from hole to hole.", ["C1003", "SS-241"]),
  fact("Tape of 32 mm and wider has a second, elongated row of holes at S0 from the round row.", ["EIA-481-D p15"]),
] as const;
