import type { Figure, Range } from "./figure.ts";
import { derived, fact, max, memory, memoryRange, min, pm, read, readRange } from "./figure.ts";

/**
 * Reels that carrier tape comes on, with its leader and trailer. Lengths in mm. A outer diameter, N hub, C arbor hole, D key, B slot; W1 inside
 * width at the hub, W2 whole width there (most), W3 inside and outside at the rim, bent flanges included. No page of a standard on reels was
 * read: figures are makers' sheets and memory. No mass of an empty reel was found.
 */
export type ReelWidth = 8 | 12 | 16 | 24 | 32 | 44 | 56 | 72;

export interface Reel {
  readonly W1: Figure;
  /** What makers print beside it. */
  readonly W1makers?: readonly Figure[];
  readonly W2: Figure;
  readonly W2makers?: readonly Figure[];
  readonly W3?: Range;
}

export const reelA: readonly Figure[] = [
  read(
    178,
    ["SMT trimmer sheet", "MLCC packaging page", "chip capacitor sheet", "SOD-123 taping sheet", "packing tutorial"],
    {
      tol: pm(2),
      note: "7 in; 177.8 and 180 are printed too; the tutorial gives no tolerance",
    },
  ),
  read(330, ["SOT-23 rev C", "logic package sheets", "28-pin SOP 2008", "chip capacitor sheet", "packing tutorial"], {
    note: "13 in",
  }),
  read(360, ["packing tutorial"]),
  read(100, ["tantalum taping 2014"], { note: "4 in: such reels exist" }),
  memory(609, { ...max, confidence: "low", note: "the largest of 178, 360 and 609" }),
];

export const reelN: readonly Figure[] = [
  read(50, ["MLCC packaging page", "chip capacitor sheet", "SMA taping sheet"], {
    ...min,
    note: "one sheet prints it as nominal",
  }),
  read(55, ["SOT-23 rev C"], { note: "178 mm reel, 8 mm tape" }),
  read(60, ["SMT trimmer sheet"], { ...min, note: "178 mm reel" }),
  read(80, ["SOD-123 taping sheet"], { note: "178 mm reel" }),
  read(100, ["SOT-23 rev C", "28-pin SOP 2008"], { note: "330 mm reel" }),
];
export const reelC: Figure = read(13, ["SOT-23 rev C", "28-pin SOP 2008"], {
  tol: [-0.2, 0.5],
  note: "±0.2 and ±0.5 are printed too; IEC 60286-3:2022 revised it, figure not read",
});
export const reelD: Figure = read(20.2, ["SOT-23 rev C"], { ...min, note: "another sheet prints 21 ±0.8" });
export const reelB: Figure = read(1.5, ["SOT-23 rev C"], { ...min, note: "two sheets print 2.0 ±0.5" });

const byPattern = (value: number, confidence: "low" | "medium" | "high"): Figure =>
  memory(value, { ...max, confidence, note: "fits W1 + 6, as the rows read do" });
const plus = (confidence: "low" | "medium") => ({ confidence, note: "fits W + 0.4, as the rows read do" }) as const;

export const reels: Readonly<Record<ReelWidth, Reel>> = {
  8: {
    W1: read(8.4, ["SOT-23 rev C", "chip capacitor sheet", "logic package sheets"], { tol: [0, 1.5] }),
    W1makers: [read(8.4, ["SMT trimmer sheet"], { tol: [0, 2] }), read(10, ["MLCC packaging page"], { tol: pm(1.5) })],
    W2: read(14.4, ["SOT-23 rev C", "SMT trimmer sheet"], max),
    W2makers: [read(14.9, ["MLCC packaging page"], max)],
    W3: readRange(7.9, 10.9, ["SOT-23 rev C"]),
  },
  12: {
    W1: read(12.4, ["SMT trimmer sheet", "chip capacitor sheet", "logic package sheets"], { tol: [0, 2] }),
    W2: read(18.4, ["SMT trimmer sheet"], max),
    W3: memoryRange(11.9, 15.4, { confidence: "high" }),
  },
  16: {
    W1: read(16.4, ["logic package sheets"], { note: "nominal; +2/-0 from memory" }),
    W2: byPattern(22.4, "high"),
    W3: memoryRange(15.9, 19.4, { confidence: "high" }),
  },
  24: {
    W1: read(24.4, ["logic package sheets"], { note: "nominal" }),
    W1makers: [read(24.8, ["28-pin SOP 2008"], { tol: [-0.2, 0.3] })],
    W2: byPattern(30.4, "high"),
    W2makers: [read(30.2, ["28-pin SOP 2008"], { tol: pm(0.2) })],
    W3: memoryRange(23.9, 27.4, { confidence: "high" }),
  },
  32: {
    W1: read(32.4, ["logic package sheets"], { note: "nominal" }),
    W2: byPattern(38.4, "medium"),
    W3: memoryRange(31.9, 35.4, { confidence: "medium" }),
  },
  44: {
    W1: memory(44.4, plus("medium")),
    W2: byPattern(50.4, "medium"),
    W3: memoryRange(43.9, 47.4, { confidence: "medium" }),
  },
  56: {
    W1: memory(56.4, plus("medium")),
    W2: byPattern(62.4, "medium"),
    W3: memoryRange(55.9, 59.4, { confidence: "medium" }),
  },
  72: { W1: memory(72.4, plus("low")), W2: byPattern(78.4, "low") },
};
export const reelWidths: readonly ReelWidth[] = [8, 12, 16, 24, 32, 44, 56, 72];

/** Tape before the first part and behind the last. */
export const leader = {
  /** Whole leader, with at least so much of empty sealed pockets; empty sealed trailer. */
  total: read(400, ["28704"], { ...min, note: "IEC 60286-3 form; EIA-481-D the same as remembered" }),
  empty: read(160, ["28704"], min),
  trailer: read(160, ["28704"], min),
  carrierEIA: memory(100, { ...min, confidence: "medium", note: "carrier part of the leader; the page was not found" }),
  moduleFilm: read(250, ["module sheet 2020"], { ...min, note: "film alone" }),
  moduleEmpty: read(150, ["module sheet 2020"], min),
  moduleTail: readRange(40, 200, ["module sheet 2020"]),
  trimmerPitches: read(5, ["SMT trimmer sheet"], { ...min, note: "pitches at each end, and more" }),
} as const;

/** Hub that bends the tape no harder than R: twice R. */
export const hubForBend = (R: number): Figure =>
  derived(2 * R, { ...min, note: "twice R; a hub near its minimum may want a longer trailer instead" });

export const reelFacts = [
  fact(
    "The trailer may have to be longer so that the tape keeps its bend radius where the hub is near its minimum (12 mm tape).",
    ["SS-241", "40074", "capacitor appendix B"],
  ),
  fact("An optional drive hole is added to the reel.", ["IEC 60286-3:2022 abstract"]),
] as const;
