import { D0, E1, P0, T1, tenPitchError } from "./every-width.ts";
import type { Figure } from "./figure.ts";
import { max, memory, min, most, pm } from "./figure.ts";
import type { Pitches } from "./pitch.ts";

/**
 * Pressed (paper) carrier tape: the pocket is pressed into the board and has a floor, so it needs no film below and nothing hangs under the
 * tape. Lengths in mm. For the smallest chips, 8 mm wide. No table of it was read: what it shares with every tape of 8 mm and more is read,
 * the rest is memory.
 */
export type PressedWidth = 8;

export interface PressedRow {
  readonly W: Figure;
  readonly Wmax: Figure;
  readonly D0: Figure;
  readonly E1: Figure;
  readonly E2: Figure;
  readonly F: Figure;
  readonly P0: Figure;
  readonly P1: Pitches;
  readonly P2: Figure;
  readonly R: Figure;
  readonly T: Figure;
  readonly T1: Figure;
  readonly tenPitchError: Figure;
}

export const pressed: Readonly<Record<PressedWidth, PressedRow>> = {
  8: {
    W: memory(8, { confidence: "medium", note: "nominal, from the name of the width" }),
    Wmax: memory(8.3, { ...max, confidence: "medium" }),
    D0,
    E1,
    E2: memory(6.25, { ...min, confidence: "medium" }),
    F: memory(3.5, { tol: pm(0.05), confidence: "medium" }),
    P0,
    P1: { list: [{ value: 2, tol: pm(0.05) }], how: "memory", sources: ["memory"], confidence: "medium" },
    P2: memory(2, { tol: pm(0.05), confidence: "medium" }),
    R: memory(25, { limit: "ref", confidence: "low", note: "as punched tape of that width" }),
    T: memory(0.5, { ...most("boards of 0.3 to 0.5; the pocket is shallower than its board"), confidence: "low" }),
    T1,
    tenPitchError,
  },
};

export const pressedWidths: readonly PressedWidth[] = [8];
