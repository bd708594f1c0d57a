/**
 * What trials and mistakes cost, in working days. Every shop has its own: `bench costs` in project.yaml. What stands here is what a small shop with
 * printers of its own might say: our judgement, no source.
 */
import type { Station } from "../quantity/check.ts";

/** What has to be made anew when a check turns out to fail. */
export const partKinds = ["printed", "bought", "board"] as const;
export type PartKind = (typeof partKinds)[number];
export interface PieceCosts {
  readonly days: number;
  /** Chance that it catches a failing design, and that it passes a good one. */
  readonly catches: number;
  readonly passesGood: number;
}
export interface BenchCosts {
  /** Hours of a working day, in which the minutes of a card are counted. */
  readonly hours: number;
  readonly piece: PieceCosts;
  readonly prototype: PieceCosts;
  /** Days lost when the fault is found in the finished unit, by what must be made anew. */
  readonly late: Readonly<Record<PartKind, number>>;
  /** Days more for every further wanted pair of the unit that fails with it. */
  readonly further: number;
  /** Days lost when a good design is changed for nothing. */
  readonly falseAlarm: Readonly<Record<PartKind, number>>;
}
export const usualCosts: BenchCosts = {
  hours: 8,
  piece: { days: 1, catches: 0.9, passesGood: 0.95 },
  prototype: { days: 12, catches: 0.9, passesGood: 0.9 },
  late: { printed: 15, bought: 18, board: 25 },
  further: 2,
  falseAlarm: { printed: 3, bought: 4, board: 6 },
};
/** Rollers, motors and gears are bought, what carries current is the board, all else is printed or cut in the shop. */
const kinds: Readonly<Partial<Record<Station, PartKind>>> = { 7: "bought", 8: "bought", 9: "board" };
export const partKind = (station: Station): PartKind => kinds[station] ?? "printed";
