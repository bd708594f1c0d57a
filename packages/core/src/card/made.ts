import { unitOf } from "../quantity/units.ts";
import type { Entry, Method, Setting } from "./method.ts";

/** An entry with a step of its instrument; what it leaves out of nought and scale is held in the readings. */
export const entry = (
  symbol: string,
  name: string,
  unit: string,
  resolution: number,
  more: Partial<Pick<Entry, "zero" | "scale" | "signed" | "whole" | "most">> = {},
): Entry => ({ symbol, name, unit, resolution, ...more });
export const set = (symbol: string, name: string, unit: string, usual: number, within: number): Setting => ({
  symbol,
  name,
  unit,
  usual,
  within,
});
/** A method as its page writes it: closed unless it says otherwise. A unit that is none is a bug here, not at the bench. */
export function method(spec: Omit<Method, "form"> & { readonly form?: Method["form"] }): Method {
  for (const unit of [
    ...[...spec.entries, ...spec.settings].map((one) => one.unit),
    spec.shownIn,
    spec.unit.replace(/^1$/, ""),
  ])
    unitOf(unit);
  return { form: "closed", ...spec };
}
