/**
 * A measured value as it stands in a file: what is still believed of its middle, and what scatters about it, kept apart.
 *
 *     "0.225..0.262 per reel sd 5.0 % measured"
 *
 * Ends hold the middle in 95 % of belief, rounded outward to three figures; the scatter is that of the next reel or unit. Scatter between indexes that
 * the guess had stays as it was. Of what may be negative the scatter is written in the value's own unit, of a plain number as a share of its middle.
 */
import type { Given } from "../quantity/given.ts";
import { unitBehind } from "../quantity/notation.ts";
import { power } from "../quantity/power.ts";
import { unitOf } from "../quantity/units.ts";
import { printed } from "./printed.ts";
import type { MeasuredValue } from "./read-directly.ts";

/** Unit in which a value is written: that of its text, or the customary one. */
export function measuredText(given: Given, value: MeasuredValue, per: "reel" | "unit"): string {
  const unit = given.shownIn;
  const { factor } = unitOf(unit);
  const [low, high] = [value.low / factor, value.high / factor];
  const step = power(10, Math.floor(Math.log10(Math.max(Math.abs(low), Math.abs(high), 1e-300))) - 2);
  const ends = `${printed(Math.floor(low / step + 1e-9) * step, step)}..${printed(Math.ceil(high / step - 1e-9) * step, step)}${unitBehind(unit)}`;
  const scatter = value.log
    ? `per ${per} sd ${twoFigures(100 * Math.sqrt(Math.expm1(value.scatter ** 2)))} %`
    : unit === "" || unit === "%"
      ? `per ${per} sd ${twoFigures((100 * value.scatter) / Math.abs(value.middle))} %`
      : `per ${per} sd ${twoFigures(value.scatter / factor)}${unitBehind(unit)}`;
  const kept = given.scatters.flatMap((s) =>
    s.level !== "index" || s.law === "uniform"
      ? []
      : [
          s.law === "lognormal"
            ? `per index sd ${twoFigures(100 * Math.sqrt(Math.expm1(s.sd ** 2)))} %`
            : `per index sd ${twoFigures(s.sd / factor)}${unitBehind(unit)}`,
        ],
  );
  return [ends, scatter, ...kept, "measured"].join(" ");
}
/** "0.243 ±0.018 mm": middle and half width at 95 %. */
export function measuredWords(given: Given, { middle, low, high }: MeasuredValue): string {
  const { factor } = unitOf(given.shownIn);
  const half = (high - low) / 2 / factor;
  const step = power(10, Math.floor(Math.log10(half)) - 1);
  return `${printed(Math.round(middle / factor / step) * step, step)} ±${printed(Math.round(half / step) * step, step)}${unitBehind(given.shownIn)}`;
}
const twoFigures = (v: number): string => String(+v.toPrecision(2));
