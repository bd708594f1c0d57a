import { symbolInPrint } from "@tapeworthy/core";

/** Greek letters that equations write out and print elsewhere leaves as they are. */
const more: Readonly<Record<string, string>> = { rho: "ρ", sigma: "σ", tau: "τ", omega: "ω", gamma: "γ" };
export const moreGreek = Object.keys(more);
/** A symbol as a page of the handbook shows it: "theta_ref" is "θ_ref", "rho_w" is "ρ_w". */
export const printed = (name: string): string =>
  symbolInPrint(name).replace(/^[a-z]+|(?<=_)[a-z]+/g, (word) => (Object.hasOwn(more, word) ? more[word]! : word));
