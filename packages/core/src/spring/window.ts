/**
 * A leaf with a window in its middle: two arms side by side, each bending as a strip of its own width.
 *
 *     arms from  x1 - c w_a  to  x2 + c w_a,   c = 0.4
 *
 * x1, x2 ends of the window from the clamp, w_a width of one arm, m. The frame's bars do not stiffen an arm at once, so each arm counts from 0.4 of its
 * width inside the frame. Judgement, from two shell models: with the rule the tip of a leaf with arms of 4 mm lies 1.5 % off, without it 6.4 %.
 * Known for arms of 0.1 to 0.22 of their length, bars as long as an arm is wide or more, a load spread evenly over the tip edge; at small strokes and over
 * more shapes arms.ts holds the rule against plates. Arms with the load on one side twist: outside.
 */
export interface Window {
  readonly from: number;
  readonly to: number;
  /** Width of one of the two arms. */
  readonly arm: number;
}
export const intoFrame = 0.4;

/** Where between s0 and s1 the leaf is its two arms alone, as shares of that stretch; both ends the same where it nowhere is. */
export function armsWithin(s0: number, s1: number, window: Window | undefined): readonly [from: number, to: number] {
  if (!window) return [0, 0];
  const into = intoFrame * window.arm;
  const share = (s: number): number => Math.min(1, Math.max(0, (s - s0) / (s1 - s0)));
  return [share(window.from - into), share(window.to + into)];
}
/** What is wrong with a window in a leaf of that length and width; undefined where nothing is. */
export function windowAmiss({ from, to, arm }: Window, length: number, width: number): string | undefined {
  if (!(from >= 0 && to <= length && from < to))
    return `the window runs from ${from} m to ${to} m, which is not within a leaf of ${length} m`;
  if (!(arm > 0 && 2 * arm <= width)) return `two arms of ${arm} m do not fit a leaf ${width} m wide`;
  return undefined;
}
