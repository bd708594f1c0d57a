import type { Confidence, How, Sources } from "./figure.ts";
import { pm } from "./figure.ts";

/** One allowed pocket pitch, mm. No tolerance where none was found. */
export interface Pitch {
  readonly value: number;
  readonly tol?: readonly [minus: number, plus: number];
}

interface Known {
  readonly how: How;
  readonly sources: Sources;
  readonly confidence?: Confidence;
  readonly note?: string;
}

/** The pitches P1 that a width may have: named one by one, or every step from one to another. mm. */
export type Pitches =
  | (Known & { readonly list: readonly Pitch[] })
  | (Known & {
      readonly from: number;
      readonly to: number;
      readonly step: number;
      readonly tol: readonly [minus: number, plus: number];
    });

/** Pitches as read, each with its plus-or-minus: { 2: 0.05, 4: 0.1 }; or remembered, without one. */
export const readPitches = (offsets: Readonly<Record<number, number>>, sources: Sources, note?: string): Pitches => ({
  list: Object.entries(offsets).map(([pitch, offset]) => ({ value: Number(pitch), tol: pm(offset) })),
  how: "read",
  sources,
  ...(note === undefined ? {} : { note }),
});
export const readSteps = (from: number, to: number, step: number, offset: number, sources: Sources): Pitches => ({
  from,
  to,
  step,
  tol: pm(offset),
  how: "read",
  sources,
});
export const memoryPitches = (list: readonly number[], confidence: Confidence): Pitches => ({
  list: list.map((value) => ({ value })),
  how: "memory",
  sources: ["memory"],
  confidence,
});

/** The pitches of a row, written out. */
export function allowedPitches(pitches: Pitches): readonly Pitch[] {
  if ("list" in pitches) return pitches.list;
  const { from, to, step, tol } = pitches;
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => ({ value: from + i * step, tol }));
}
