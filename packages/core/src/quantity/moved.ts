import { sameDimension } from "./dimension.ts";
import type { Node } from "./expression.ts";
import type { Given } from "./given.ts";
import { parseQuantity, printQuantity } from "./notation.ts";
import { unitOf } from "./units.ts";

/** No number of a design file says more than this, in its own unit. */
const grid = 1e-6;
const onGrid = (v: number): number => Math.round(v / grid) * grid;
const tidy = (v: number): number => Number(onGrid(v).toPrecision(12));

/**
 * The text of a number whose centre stands off by `by` (SI): its last term moves, or gets a term more. Tolerance, scatter and status stay.
 * "7 mm" by 1 mm is "8 mm"; "W + 2.2 mm" is "W + 3.2 mm"; "0.3 * b" is "0.3 * b + 1 mm". Throws RangeError for a range, which has no centre.
 */
export function movedText({ text, shownIn, address }: Pick<Given, "text" | "shownIn" | "address">, by: number): string {
  const written = parseQuantity(text);
  if (written.form !== "expression") throw new RangeError(`${address} is a range and has no centre to move`);
  return printQuantity({ ...written, node: movedBy(written.node, by, shownIn) });
}

function movedBy(n: Node, by: number, shownIn: string): Node {
  if (n.op === "num" && fits(n.unit, shownIn)) return { ...n, v: tidy(n.v + by / unitOf(n.unit).factor) };
  if (n.op === "neg" && n.a.op === "num" && fits(n.a.unit, shownIn)) {
    const v = tidy(n.a.v - by / unitOf(n.a.unit).factor);
    // Past nought the sign is the other one.
    return v >= 0 ? { ...n, a: { ...n.a, v } } : { ...n.a, v: -v };
  }
  if ((n.op === "+" || n.op === "-") && n.b.op === "num" && fits(n.b.unit, shownIn)) {
    const sign = n.op === "+" ? 1 : -1;
    const v = tidy(n.b.v + (sign * by) / unitOf(n.b.unit).factor);
    if (v === 0) return n.a;
    return v > 0 ? { ...n, b: { ...n.b, v } } : { ...n, op: sign > 0 ? "-" : "+", b: { ...n.b, v: -v } };
  }
  const v = tidy(by / unitOf(shownIn).factor);
  if (v === 0) return n;
  const { at, length } = n;
  return { op: v > 0 ? "+" : "-", a: n, b: { op: "num", v: Math.abs(v), unit: shownIn, at, length }, at, length };
}
const fits = (unit: string, shownIn: string): boolean =>
  sameDimension(unitOf(unit).dimension, unitOf(shownIn).dimension);
