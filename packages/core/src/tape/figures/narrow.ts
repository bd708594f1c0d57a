import type { Figure, Range } from "./figure.ts";
import { derived, derivedRange, max, memory, pm } from "./figure.ts";
import type { Pitches } from "./pitch.ts";

/**
 * Embossed plastic tape 4 mm wide, for parts below half a millimetre. Lengths in mm. Nothing of it was read in any source that was found:
 * every figure is memory of low confidence, or is taken over from 8 mm tape, and its note says so. Holes, pitches and hole row differ
 * from those of 8 mm and wider: a wheel for those does not fit.
 */
export interface NarrowRow {
  readonly W: Figure;
  /** Width tolerance stands with W; kept so that every row is read alike. */
  readonly Wmax?: Figure;
  readonly D0: Figure;
  readonly E1: Figure;
  readonly F: Figure;
  readonly P0: Figure;
  readonly P1: Pitches;
  readonly P2: Figure;
  readonly R: Figure;
  readonly T: Figure;
  readonly T1: Figure;
  /** Cover film width. */
  readonly b: Range;
  readonly tenPitchError: Figure;
}

const low = { confidence: "low" } as const;
const from8 = "taken over from 8 mm tape; none was found for 4 mm";

export const narrow: NarrowRow = {
  W: memory(4, { tol: pm(0.08), ...low }),
  D0: memory(0.8, { tol: pm(0.04), ...low }),
  E1: memory(0.9, { tol: pm(0.05), ...low }),
  F: memory(1.8, { tol: pm(0.02), ...low }),
  P0: memory(2, { tol: pm(0.04), ...low, note: "half that of wider tape" }),
  P1: { list: [{ value: 1, tol: pm(0.02) }], how: "memory", sources: ["memory"], ...low },
  P2: memory(1, { tol: pm(0.02), ...low }),
  R: derived(25, { limit: "ref", ...low, note: from8 }),
  T: derived(0.6, { ...max, ...low, note: from8 }),
  T1: derived(0.1, { ...max, ...low, note: from8 }),
  b: derivedRange(2.2, 2.6, { ...low, note: "holes left bare: at most 4 - 0.9 - 0.8/2 = 2.7" }),
  tenPitchError: derived(0.1, {
    ...max,
    ...low,
    note: "half of 0.2, as the pitch is half of 4; none was found for 4 mm",
  }),
};
