import { D0, E1, P0, T1, tenPitchError } from "./every-width.ts";
import type { Figure } from "./figure.ts";
import { max, memory, min, most, pm, read } from "./figure.ts";
import type { Pitches } from "./pitch.ts";
import { memoryPitches, readPitches } from "./pitch.ts";

/**
 * Punched (paper) carrier tape: the pocket is a window through the full thickness T, closed by films above and below.
 * Lengths in mm, rotation in degrees. EIA-481-D covers 8 and 12 mm, but its punched table was not read: 8 mm is read in
 * makers' sheets, 12 mm is memory.
 */
export type PunchedWidth = 8 | 12;

export interface PunchedRow {
  readonly W: Figure;
  readonly Wmax: Figure;
  readonly Wmakers?: readonly Figure[];
  readonly D0: Figure;
  readonly E1: Figure;
  readonly E2: Figure;
  readonly F: Figure;
  readonly P0: Figure;
  readonly P1: Pitches;
  readonly P2?: Figure;
  /** Flat from hole edge or tape edge to the pocket (least). */
  readonly G?: Figure;
  readonly R: Figure;
  readonly T: Figure;
  /** Thicknesses on sale. */
  readonly Ttypical?: readonly Figure[];
  readonly T1: Figure;
  readonly rotation?: Figure;
  readonly lateral?: Figure;
  readonly tenPitchError: Figure;
}

export const punched: Readonly<Record<PunchedWidth, PunchedRow>> = {
  8: {
    W: read(8, ["IEC 286-3 sheet", "28704", "tantalum guide", "MLCC packaging page"], { note: "nominal" }),
    Wmax: read(8.3, ["capacitor table 7"], max),
    Wmakers: [
      read(8, ["IEC 286-3 sheet"], { tol: pm(0.2), note: "tape for 0402" }),
      read(8, ["IEC 286-3 sheet"], { tol: pm(0.3), note: "tape for 0603 to 1206" }),
      read(8, ["28704", "tantalum guide", "MLCC packaging page"], { tol: pm(0.2) }),
    ],
    D0: read(1.5, ["capacitor table 7", "IEC 286-3 sheet", "28704"], { tol: [0, 0.1] }),
    E1: read(1.75, ["capacitor table 7", "IEC 286-3 sheet"], { tol: pm(0.1) }),
    E2: read(6.25, ["capacitor table 7"], min),
    F: read(3.5, ["capacitor table 7", "IEC 286-3 sheet", "28704", "tantalum guide", "MLCC packaging page"], {
      tol: pm(0.05),
    }),
    P0: read(4, ["capacitor table 7", "IEC 286-3 sheet", "28704"], { tol: pm(0.1) }),
    P1: readPitches(
      { 2: 0.05, 4: 0.1 },
      ["capacitor table 7", "28704"],
      "the sheet after IEC 286-3 has 2 ±0.1 for the 0402 tape",
    ),
    P2: read(2, ["capacitor table 7", "IEC 286-3 sheet", "28704", "tantalum guide"], {
      tol: pm(0.05),
      note: "the sheet after IEC 286-3 has 2 or 0 at a pitch of 2 mm",
    }),
    G: read(0.75, ["capacitor table 7"], min),
    R: read(25, ["capacitor table 7"], { limit: "ref" }),
    T: read(
      1.1,
      ["capacitor table 7", "MLCC packaging page"],
      most("the inch figure printed beside it (0.098) does not match"),
    ),
    Ttypical: [
      read(0.43, ["28704"], { tol: pm(0.05) }),
      read(0.6, ["IEC 286-3 sheet", "28704"], { tol: pm(0.05), note: "0402 and 0603 in the sheet after IEC 286-3" }),
      read(0.75, ["IEC 286-3 sheet", "28704"], { tol: pm(0.05), note: "0805 and 1206" }),
      read(0.95, ["tantalum guide"], { tol: pm(0.05) }),
    ],
    T1: read(
      0.1,
      ["capacitor table 7"],
      most("upper and lower film; the sheet after IEC 286-3 has 0.050 ±0.010 for both"),
    ),
    rotation: read(20, ["capacitor table 7"], max),
    lateral: read(0.5, ["capacitor table 7"], max),
    tenPitchError: read(0.2, ["capacitor table 7", "IEC 286-3 sheet"], {
      limit: "max",
      note: "largest error either way over any 10 sprocket pitches (40 mm)",
    }),
  },
  12: {
    W: memory(12, { confidence: "medium", note: "nominal, from the name of the width" }),
    Wmax: memory(12.3, { limit: "max", confidence: "medium" }),
    D0,
    E1,
    E2: memory(10.25, { limit: "min", confidence: "medium" }),
    F: memory(5.5, { tol: pm(0.05), confidence: "medium" }),
    P0,
    P1: memoryPitches([2, 4, 8], "medium"),
    R: memory(30, { limit: "ref", confidence: "low" }),
    T: memory(1.1, { limit: "max", confidence: "medium" }),
    T1,
    tenPitchError,
  },
};

export const punchedWidths: readonly PunchedWidth[] = [8, 12];
