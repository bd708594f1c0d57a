import { sameDimension } from "./dimension.ts";
import type { Node } from "./expression.ts";
import type { Given } from "./given.ts";
import { parseQuantity, printQuantity } from "./notation.ts";
import { fromSI, unitOf } from "./units.ts";

/** No number of a design file says more than this, in its own unit. */
const grid = 1e-6;
const onGrid = (v: number): number => Math.round(v / grid) * grid;
const tidy = (v: number): number => Number(onGrid(v).toPrecision(12));

/**
 * The text of a number whose centre stands off by `by` (SI): its last term moves, or gets a term more. All the rest stays as it is written.
 * "7 mm" by 1 mm is "8 mm"; "W + 2.2 mm" is "W + 3.2 mm"; "0.3*b" is "0.3*b + 1 mm". Throws RangeError for a range, which has no centre.
 */
export function movedText({ text, shownIn, address }: Pick<Given, "text" | "shownIn" | "address">, by: number): string {
  const written = parseQuantity(text);
  if (written.form !== "expression") throw new RangeError(`${address} is a range and has no centre to move`);
  const { from, to, insert } = moved(text, written.node, by, shownIn);
  return text.slice(0, from) + insert + text.slice(to);
}

interface Splice {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}
const endOf = ({ at, length }: Node): number => at + length;
function moved(text: string, n: Node, by: number, shownIn: string): Splice {
  if (n.op === "num" && fits(n.unit, shownIn))
    return { from: n.at, to: endOf(n), insert: like(text, n, tidy(n.v + fromSI(by, unitOf(n.unit)))) };
  if (n.op === "neg" && n.a.op === "num" && fits(n.a.unit, shownIn)) {
    const v = tidy(n.a.v - fromSI(by, unitOf(n.a.unit)));
    // Past nought the sign is the other one.
    const number = like(text, n.a, Math.abs(v));
    return { from: n.at, to: endOf(n), insert: v >= 0 ? `-${number}` : number };
  }
  if ((n.op === "+" || n.op === "-") && n.b.op === "num" && fits(n.b.unit, shownIn)) {
    const sign = n.op === "+" ? 1 : -1;
    const v = tidy(n.b.v + fromSI(sign * by, unitOf(n.b.unit)));
    const [from, to] = [endOf(n.a), endOf(n.b)];
    if (v === 0 && hasUnit(text, n.b)) return { from, to, insert: "" };
    const between = text.slice(from, n.b.at);
    const other = sign > 0 ? "-" : "+";
    return { from, to, insert: (v < 0 ? between.replace(n.op, other) : between) + like(text, n.b, Math.abs(v)) };
  }
  const v = tidy(fromSI(by, unitOf(shownIn)));
  const end = endOf(n);
  if (v === 0) return { from: end, to: end, insert: "" };
  const number = printQuantity({
    form: "expression",
    node: { op: "num", v: Math.abs(v), unit: shownIn, at: 0, length: 0 },
    scatters: [],
  });
  return { from: end, to: end, insert: ` ${v > 0 ? "+" : "-"} ${number}` };
}
/** A number in place of another, with its unit where the other has it: in "4.5 ±0.5 mm" it stands behind the tolerance. */
function like(text: string, n: Extract<Node, { op: "num" }>, v: number): string {
  const number = printQuantity({
    form: "expression",
    node: { op: "num", v, unit: "", at: 0, length: 0 },
    scatters: [],
  });
  const rest = text.slice(n.at, endOf(n)).replace(/^\(?\s*[\d.]+(e[+-]?\d+)?/i, "");
  return number + rest.replace(/\)$/, "");
}
const hasUnit = (text: string, n: Node): boolean => /[a-z%]/i.test(text.slice(n.at, endOf(n)));
const fits = (unit: string, shownIn: string): boolean =>
  sameDimension(unitOf(unit).dimension, unitOf(shownIn).dimension);
