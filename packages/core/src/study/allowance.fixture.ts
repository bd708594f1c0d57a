import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { beliefDraws, scatterDraws } from "./cell.ts";
import type { Deviates } from "./deviates.ts";
import { check, closed, number } from "./plain.fixture.ts";

/**
 * Small checks whose gap is also written out by hand, so that every belief draw can be met with every scatter draw: 2 million
 * evaluations, by the laws' own formulas and without the evaluator.
 */
export interface Small {
  readonly name: string;
  readonly check: Check;
  /** The inputs, in the order `gap` takes them. */
  readonly inputs: readonly Given[];
  /** Value of each input from its belief coordinate and its scatter coordinate. */
  readonly laws: readonly ((z: number, t: number) => number)[];
  gap(x: readonly number[]): number;
}
const ends = 1.959963984540054;
/** A guess on a logarithmic scale, ends at 95 %. */
const log =
  (low: number, high: number) =>
  (z: number): number =>
    Math.sqrt(low * high) * (high / low) ** (z / (2 * ends));
/** A guess on a plain scale. */
const plain =
  (low: number, high: number) =>
  (z: number): number =>
    (low + high) / 2 + ((high - low) * z) / (2 * ends);
const limits =
  (middle: number, half: number) =>
  (_: number, t: number): number =>
    middle + half * t;
const normal =
  (middle: number, sd: number) =>
  (_: number, t: number): number =>
    middle + sd * t;
/** A share of the value: the median is what is written. */
const share =
  (median: number, cv: number) =>
  (_: number, t: number): number =>
    median * Math.exp(Math.sqrt(Math.log(1 + cv * cv)) * t);

type Bounds = { readonly least?: number; readonly most?: number };
function small(
  name: string,
  equation: string,
  bounds: Bounds,
  inputs: readonly (readonly [name: string, text: string, law: Small["laws"][number]])[],
  gap: Small["gap"],
): Small {
  const givens = inputs.map(([symbol, text]) => number(symbol, text));
  const value = closed(equation, Object.fromEntries(inputs.map(([symbol], i) => [symbol, givens[i]!])));
  const { least, most } = bounds;
  return {
    name,
    check: check(name, {
      value,
      ...(least === undefined ? {} : { atLeast: number("least", least < 0 ? `-${-least}` : `${least}`) }),
      ...(most === undefined ? {} : { atMost: number("most", `${most}`) }),
    }),
    inputs: givens,
    laws: inputs.map(([, , law]) => law),
    gap,
  };
}

export const smalls: readonly Small[] = [
  small(
    "sum with normal scatter",
    "u + x",
    { least: 9 },
    [
      ["u", "8..14 guess", log(8, 14)],
      ["x", "0 sd 0.6", normal(0, 0.6)],
    ],
    ([u, x]) => u! + x! - 9,
  ),
  small(
    "sum of limits",
    "a - b + u",
    { most: 4 },
    [
      ["a", "5 ±1", limits(5, 1)],
      ["b", "3 ±0.5", limits(3, 0.5)],
      ["u", "-1..3 guess", plain(-1, 3)],
    ],
    ([a, b, u]) => 4 - (a! - b! + u!),
  ),
  small(
    "product of lognormals",
    "N*mu*s",
    { least: 2.2 },
    [
      ["N", "8 sd 12 %", share(8, 0.12)],
      ["mu", "0.2..0.6 guess", log(0.2, 0.6)],
      ["s", "1 per reel sd 20 %", share(1, 0.2)],
    ],
    ([N, mu, s]) => N! * mu! * s! - 2.2,
  ),
  small(
    "product of limits and a share",
    "a*s + u",
    { most: 34 },
    [
      ["a", "5 ±1", limits(5, 1)],
      ["s", "4 sd 15 %", share(4, 0.15)],
      ["u", "2..10 guess", log(2, 10)],
    ],
    ([a, s, u]) => 34 - (a! * s! + u!),
  ),
  small(
    "quotient whose scatter grows with what is unknown",
    "u*a/b",
    { least: 1 },
    [
      ["u", "0.2..8 guess", log(0.2, 8)],
      ["a", "2 ±0.4", limits(2, 0.4)],
      ["b", "2 sd 15 %", share(2, 0.15)],
    ],
    ([u, a, b]) => (u! * a!) / b! - 1,
  ),
  small(
    "exponential of a friction",
    "P*exp(mu*w)",
    { most: 3 },
    [
      ["P", "0.5 per reel sd 20 %", share(0.5, 0.2)],
      ["mu", "0.2..0.6 guess", log(0.2, 0.6)],
      ["w", "4 ±0.3", limits(4, 0.3)],
    ],
    ([P, mu, w]) => 3 - P! * Math.exp(mu! * w!),
  ),
  small(
    "window with both sides near",
    "u*s",
    { least: 1.2, most: 2.6 },
    [
      ["u", "1..4 guess", log(1, 4)],
      ["s", "1 sd 12 %", share(1, 0.12)],
    ],
    ([u, s]) => Math.min(u! * s! - 1.2, 2.6 - u! * s!),
  ),
  small(
    "kink of a minimum",
    "min(u*s, a)",
    { least: 1.35 },
    [
      ["u", "0.8..4 guess", log(0.8, 4)],
      ["s", "1 sd 20 %", share(1, 0.2)],
      ["a", "2 ±0.6", limits(2, 0.6)],
    ],
    ([u, s, a]) => Math.min(u! * s!, a!) - 1.35,
  ),
  small(
    "kink of an amount",
    "abs(u + x)",
    { most: 1 },
    [
      ["u", "-1.5..1.5 guess", plain(-1.5, 1.5)],
      ["x", "0 sd 0.3", normal(0, 0.3)],
    ],
    ([u, x]) => 1 - Math.abs(u! + x!),
  ),
  small(
    "scatter whose size is what is unknown",
    "5 - s*x",
    { least: 2 },
    [
      ["s", "0.5..3 guess", log(0.5, 3)],
      ["x", "1 sd 0.5", normal(1, 0.5)],
    ],
    ([s, x]) => 5 - s! * x! - 2,
  ),
  small(
    "scatter that bends with what is unknown",
    "u - exp(s*x)",
    { least: 0.5 },
    [
      ["u", "2..8 guess", log(2, 8)],
      ["s", "0.2..1.5 guess", log(0.2, 1.5)],
      ["x", "0 sd 1", normal(0, 1)],
    ],
    ([u, s, x]) => u! - Math.exp(s! * x!) - 0.5,
  ),
  small(
    "difference of two unknown products",
    "u*a - v*b",
    { least: 0 },
    [
      ["u", "1..3 guess", log(1, 3)],
      ["a", "2 sd 10 %", share(2, 0.1)],
      ["v", "1..4 guess", log(1, 4)],
      ["b", "1 per reel sd 25 %", share(1, 0.25)],
    ],
    ([u, a, v, b]) => u! * a! - v! * b!,
  ),
  small(
    "a part that bears only one way",
    "u + max(x, 0)",
    { most: 3 },
    [
      ["u", "1..4 guess", log(1, 4)],
      ["x", "-0.5 sd 0.5", normal(-0.5, 0.5)],
    ],
    ([u, x]) => 3 - (u! + Math.max(x!, 0)),
  ),
  small(
    "nothing scatters",
    "u*v",
    { least: 2 },
    [
      ["u", "1..3 guess", log(1, 3)],
      ["v", "0.5..2 guess", log(0.5, 2)],
    ],
    ([u, v]) => u! * v! - 2,
  ),
  small(
    "nothing is unknown",
    "a*s",
    { most: 6.2 },
    [
      ["a", "5 ±0.5", limits(5, 0.5)],
      ["s", "1 sd 8 %", share(1, 0.08)],
    ],
    ([a, s]) => 6.2 - a! * s!,
  ),
];

/** A gap whose spread is mostly in a far tail. */
export const farTail: Small = small(
  "far tail",
  "u*A*exp(v*B) - 3*w*C",
  { least: -1.5 },
  [
    ["u", "0.2457..0.5921 guess", log(0.2457, 0.5921)],
    ["v", "0.9494..7.3744 guess", log(0.9494, 7.3744)],
    ["w", "0.8503..4.1482 guess", log(0.8503, 4.1482)],
    ["A", "1 sd 27 %", share(1, 0.27)],
    ["B", "1 ±0.277", limits(1, 0.277)],
    ["C", "1 ±0.384", limits(1, 0.384)],
  ],
  ([u, v, w, A, B, C]) => u! * A! * Math.exp(v! * B!) - 3 * w! * C! + 1.5,
);

/** The allowance quantile of the gap over every scatter draw, at every belief draw; and the chance that it breaks. */
export function bruteForce(
  { inputs, laws, gap }: Small,
  deviates: Deviates,
  allow: number,
): { gap: Float64Array; chance: Float64Array } {
  const belief = inputs.map((g) => (g.unknown ? deviates.normal(`belief ${g.address}`, beliefDraws) : undefined));
  const scatter = inputs.map((g) => {
    const s = g.scatters[0];
    if (!s) return undefined;
    const key = `scatter ${s.level} ${g.address}#0`;
    return s.law === "uniform" ? deviates.between(key, scatterDraws) : deviates.normal(key, scatterDraws);
  });
  const values = laws.map((law, i) => ({
    byBelief: belief[i]?.map((z) => law(z, 0)),
    byScatter: scatter[i]?.map((t) => law(0, t)),
  }));
  if (values.some((v) => (v.byBelief === undefined) === (v.byScatter === undefined)))
    throw new RangeError("every input is either unknown or scatters");
  const out = { gap: new Float64Array(beliefDraws), chance: new Float64Array(beliefDraws) };
  const sample = new Float64Array(scatterDraws);
  const x = laws.map(() => 0);
  for (let k = 0; k < beliefDraws; k++) {
    let broken = 0;
    for (let j = 0; j < scatterDraws; j++) {
      for (let i = 0; i < x.length; i++) x[i] = values[i]!.byBelief?.[k] ?? values[i]!.byScatter![j]!;
      const g = gap(x);
      sample[j] = g;
      if (g < 0) broken++;
    }
    out.chance[k] = broken / scatterDraws;
    sample.sort();
    // The smallest value with at least the allowed share at or below it.
    out.gap[k] = sample[Math.ceil(allow * scatterDraws) - 1]!;
  }
  return out;
}
/** Share of belief draws whose deciding gap is not below nought. */
export const shareOf = (gap: Float64Array): number => gap.filter((g) => g >= 0).length / gap.length;
