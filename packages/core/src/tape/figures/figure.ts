import type { SourceId } from "./sources.ts";

/** How a figure is known: seen in the named source, remembered, or worked out from the figures its note names. */
export type How = "read" | "memory" | "derived";
/** How far to trust a figure that was not plainly printed. */
export type Confidence = "low" | "medium" | "high";
export type Sources = readonly [SourceId, ...SourceId[]];

/** One published number, in the unit its source prints; the table it stands in names the unit. */
export interface Figure {
  readonly value: number;
  /** Signed offsets as printed: [-0.1, 0.1], or [0, 0.1] for +0.1/-0. */
  readonly tol?: readonly [minus: number, plus: number];
  readonly limit?: "max" | "min" | "ref";
  readonly how: How;
  readonly sources: Sources;
  readonly confidence?: Confidence;
  readonly note?: string;
}

/** A published span: what the source gives as from..to, or several sources together. Not a tolerance. */
export interface Range {
  readonly low: number;
  readonly high: number;
  readonly how: How;
  readonly sources: Sources;
  readonly confidence?: Confidence;
  readonly note?: string;
}

/** Something a source says in words. */
export interface Fact {
  readonly says: string;
  readonly how: How;
  readonly sources: Sources;
}

type RangeMore = Partial<Pick<Range, "confidence" | "note" | "sources">>;
type FigureMore = RangeMore & Partial<Pick<Figure, "tol" | "limit">>;

export const read = (value: number, sources: Sources, more: FigureMore = {}): Figure => ({
  value,
  how: "read",
  sources,
  ...more,
});
export const memory = (value: number, more: FigureMore = {}): Figure => ({
  value,
  how: "memory",
  sources: ["memory"],
  ...more,
});
export const derived = (value: number, more: FigureMore = {}): Figure => ({
  value,
  how: "derived",
  sources: ["derived"],
  ...more,
});

export const readRange = (low: number, high: number, sources: Sources, more: RangeMore = {}): Range => ({
  low,
  high,
  how: "read",
  sources,
  ...more,
});
export const memoryRange = (low: number, high: number, more: RangeMore = {}): Range => ({
  low,
  high,
  how: "memory",
  sources: ["memory"],
  ...more,
});
export const derivedRange = (low: number, high: number, more: RangeMore = {}): Range => ({
  low,
  high,
  how: "derived",
  sources: ["derived"],
  ...more,
});

export const fact = (says: string, sources: Sources, how: How = "read"): Fact => ({ says, how, sources });

/** Plus or minus: the symmetric tolerance. */
export const pm = (offset: number): readonly [minus: number, plus: number] => [-offset, offset];
export const max = { limit: "max" } as const;
export const min = { limit: "min" } as const;
/** The same with a note. */
export const most = (note: string) => ({ limit: "max", note }) as const;
export const least = (note: string) => ({ limit: "min", note }) as const;

export const isRange = (figure: Figure | Range): figure is Range => "low" in figure;
