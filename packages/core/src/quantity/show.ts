import { customaryUnit } from "./dimension.ts";
import type { Quantity } from "./model.ts";
import { fromSI, unitOf } from "./units.ts";

/** A number written as a half goes up: 2.55 stands a little below itself in twos, and two figures of it are "2.6". */
const halfUp = 1 + 2 ** -51;
/** A number with so many significant figures and no exponent where one can be avoided: 0.0345 -> "0.035", 24.45 -> "24". */
export function figures(exact: number, count = 2): string {
  if (!Number.isFinite(exact))
    return Number.isNaN(exact) ? "no number" : exact > 0 ? "without end" : "minus without end";
  if (exact === 0) return "0";
  const v = exact * halfUp;
  const size = Math.floor(Math.log10(Math.abs(v)));
  if (size >= 5 || size < -5) return v.toExponential(count - 1).replace(/^-/, "−");
  const rounded = Number(v.toPrecision(count));
  // Rounding may carry: 0.0996 becomes 0.10.
  const carried = rounded === 0 ? size : Math.floor(Math.log10(Math.abs(rounded)) + 1e-12);
  const text = rounded.toFixed(Math.max(0, count - 1 - carried));
  return text.replace(/^-/, "−");
}

/** Unit in which a person reads a quantity: that of its text, or the customary one of its dimension. */
export const shownUnit = (q: Quantity): string => q.shownIn ?? customaryUnit(unitOf(q.unit).dimension);

/** A value (SI) with its unit as a person of the trade reads it, two figures unless told. */
export function showIn(unit: string, v: number, count = 2): string {
  const shown = fromSI(v, unitOf(unit));
  // Differences of equal numbers leave dust that is no measure of anything.
  const text = figures(Math.abs(shown) < 1e-9 ? 0 : shown, count);
  return unit === "" ? text : `${text} ${unit.replace(/^1\//, "/")}`;
}
/** Value of a quantity in its own unit. */
export const showValue = (q: Quantity, v: number, count = 2): string => {
  const unit = shownUnit(q);
  return showIn(unit === "" && q.unit !== "1" ? q.unit : unit, v, count);
};
