import { createHash } from "node:crypto";
import { ChangeSet } from "@codemirror/state";
import fc from "fast-check";
import { textOf } from "./changes.ts";

export const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");
export const when = "2026-01-01T00:00:00.000Z";

/** Short texts with few words, so that the same line comes often; some without a last line break, some with carriage returns. */
export const anyText = fc
  .tuple(fc.array(fc.constantFrom("", "a", "b", "a b", "width: 4 mm", "é±\r"), { maxLength: 7 }), fc.boolean())
  .map(([lines, ends]) => lines.join("\n") + (ends && lines.length > 0 ? "\n" : ""));

/** One replacement; places and lengths are taken modulo the text's. */
export interface Spot {
  readonly at: number;
  readonly length: number;
  readonly insert: string;
  /** Moves both ends to a line's beginning. */
  readonly whole: boolean;
}
export const anySpot: fc.Arbitrary<Spot> = fc.record({
  at: fc.nat(1000),
  length: fc.oneof(fc.constant(0), fc.nat(12)),
  insert: fc.constantFrom("", "x", "xy", "\n", "x\n", "\nx", "x\ny\n", "x\ny"),
  whole: fc.boolean(),
});
export function changeAt(text: string, { at, length, insert, whole }: Spot): ChangeSet {
  const start = (n: number): number => text.lastIndexOf("\n", n - 1) + 1;
  let from = at % (text.length + 1);
  let to = Math.min(text.length, from + length);
  if (whole) [from, to] = [start(from), Math.max(start(from), start(to))];
  return ChangeSet.of({ from, to, insert: textOf(insert) }, text.length);
}
