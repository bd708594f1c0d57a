import erfc from "@stdlib/math-base-special-erfc";
import erfcinv from "@stdlib/math-base-special-erfcinv";
import type { Level } from "./notation.ts";

/** Standard normal distribution function. */
export const phi = (z: number): number => 0.5 * erfc(-z / Math.SQRT2);
/**
 * Inverse of the standard normal distribution function, for p in (0, 1).
 * Through erfcinv, which keeps its digits in the low tail (a quantile by subtraction loses them below 1e-10).
 */
export const phiInverse = (p: number): number => -Math.SQRT2 * erfcinv(2 * p);

/** The quantile of a normal law at which a guess's ends stand: 95 % of belief lies between them. */
export const endsOfGuess = 1.959963984540054;

/**
 * How a quantity scatters between reels, units or indexes, around the number that was written.
 *
 * - uniform: between limits, as a tolerance on a drawing; coordinate t in [-1, 1], from the lower to the upper limit
 * - normal: coordinate z; adds `sd * z`
 * - lognormal: coordinate z; multiplies by `exp(sd * z)`; the written number is the median
 */
export type Scatter = (
  | { readonly level: Level; readonly law: "uniform"; readonly from: number; readonly to: number }
  | { readonly level: Level; readonly law: "normal"; readonly sd: number }
  | { readonly level: Level; readonly law: "lognormal"; readonly sd: number }
) & {
  /** Its place among scatters that it goes together with (study/correlated.ts). */
  readonly together?: Membership;
};

/** Scatters whose normal scores are correlated: keys of the members, and their correlations by member and member. */
export interface Together {
  readonly members: readonly string[];
  readonly by: readonly (readonly number[])[];
}
export interface Membership {
  readonly of: Together;
  /** Which of the members. */
  readonly at: number;
}

/** The value `x` moved by one scatter, as a function of x and the scatter's coordinate. */
export function scattering(scatter: Scatter): (x: number, coordinate: number) => number {
  switch (scatter.law) {
    case "uniform": {
      const middle = (scatter.from + scatter.to) / 2;
      const half = (scatter.to - scatter.from) / 2;
      return (x, t) => x + middle + half * t;
    }
    case "normal": {
      const { sd } = scatter;
      return (x, z) => x + sd * z;
    }
    case "lognormal": {
      const { sd } = scatter;
      return (x, z) => x * Math.exp(sd * z);
    }
  }
}
/** The value `x` moved by one scatter at its coordinate. */
export const scattered = (x: number, scatter: Scatter, coordinate: number): number =>
  scattering(scatter)(x, coordinate);

/** "sd 20 %" means a coefficient of variation of 0.2; the lognormal law with that has this sd of the logarithm. */
export const sdOfLogarithm = (share: number): number => Math.sqrt(Math.log1p(share * share));

/**
 * A number nobody has measured yet. It is one fixed number, so it is not scatter: measuring narrows it.
 *
 * - normal, lognormal: a guess `low..high`, ends at 95 % of belief; logarithmic when both ends are positive
 * - switch: which of two bounds of a model holds; 1 with the stated chance, else 0; coordinate z as for the others
 * - between: part of the way from one to another, either of them perhaps known: linear between the two at every coordinate
 */
export type Unknown =
  | { readonly law: "normal" | "lognormal"; readonly low: number; readonly high: number }
  | { readonly law: "switch"; readonly chance: number; readonly words: readonly [nought: string, one: string] }
  | {
      readonly law: "between";
      readonly low: number;
      readonly high: number;
      readonly of: readonly [Unknown | number, Unknown | number];
      readonly share: number;
    };

export const unknownBetween = (low: number, high: number): Unknown => ({
  law: low > 0 && high > 0 ? "lognormal" : "normal",
  low,
  high,
});

/** The believed value as a function of the normal coordinate z (0 is the median); what does not depend on z is worked out once. */
export function believing(unknown: Unknown): (z: number) => number {
  switch (unknown.law) {
    case "normal": {
      const middle = (unknown.low + unknown.high) / 2;
      const slope = (unknown.high - unknown.low) / (2 * endsOfGuess);
      return (z) => middle + slope * z;
    }
    case "lognormal": {
      const low = Math.log(unknown.low);
      const high = Math.log(unknown.high);
      const middle = (low + high) / 2;
      const slope = (high - low) / (2 * endsOfGuess);
      return (z) => Math.exp(middle + slope * z);
    }
    case "switch": {
      const from =
        unknown.chance >= 1
          ? Number.NEGATIVE_INFINITY
          : unknown.chance <= 0
            ? Number.POSITIVE_INFINITY
            : -phiInverse(unknown.chance);
      return (z) => (z > from ? 1 : 0);
    }
    case "between": {
      const { share } = unknown;
      const [a, b] = unknown.of.map((u) => (typeof u === "number" ? () => u : believing(u)));
      return (z) => (1 - share) * a!(z) + share * b!(z);
    }
  }
}
/** Value of an unknown at the normal coordinate z. */
export const believed = (unknown: Unknown, z: number): number => believing(unknown)(z);
