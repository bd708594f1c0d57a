import {
  drawBlock,
  type Given,
  given,
  Inputs,
  type Model,
  model,
  parseQuantity,
  type Scene,
  unitOf,
} from "@tapeworthy/core";

/**
 * A pick error of fourteen contributors, in mm: nine normal, five between limits, one sine, one root. Figures invented. Written as models, so that
 * what evaluates it is what evaluates the checks.
 */
const contributors = {
  p: "0 sd 0.015",
  q: "0 sd 0.017",
  g: "0 +0.05/-0",
  e: "0.012 sd 0.003",
  f: "0 +6.283185307179586/-0",
  o: "0 sd 0.006",
  s: "0 ±0.01",
  d: "0 sd 0.008",
  h: "0 sd 0.006",
  a: "0 sd 0.033",
  b: "0 sd 0.017",
  c: "0 ±0.05",
  k: "0 sd 0.3",
  r: "0 ±0.06",
} as const;
type Name = keyof typeof contributors;
const givens = Object.fromEntries(
  Object.entries(contributors).map(([name, text]): [string, Given] => [
    name,
    given({
      address: `bench/${name}`,
      symbol: name,
      text,
      origin: { cite: "invented", how: "judgement" },
      dimension: unitOf("").dimension,
      written: parseQuantity(text),
      level: "unit",
    }),
  ]),
) as Record<Name, Given>;

const along: Model = model({
  id: "bench.along",
  symbol: "x",
  unit: "1",
  title: "pick error along the tape",
  form: "closed",
  equation: "p + q + g + e*sin(f) + o + s + d + h - 0.025",
  origin: { cite: "invented", how: "judgement" },
  reads: () => {
    const { p, q, g, e, f, o, s, d, h } = givens;
    return { p, q, g, e, f, o, s, d, h };
  },
  value: ({ p, q, g, e, f, o, s, d, h }) => p + q + g + e * Math.sin(f) + o + s + d + h - 0.025,
});
const across: Model = model({
  id: "bench.across",
  symbol: "y",
  unit: "1",
  title: "pick error across the tape",
  form: "closed",
  equation: "a + b + c + 0.0576*k + r",
  origin: { cite: "invented", how: "judgement" },
  reads: () => {
    const { a, b, c, k, r } = givens;
    return { a, b, c, k, r };
  },
  value: ({ a, b, c, k, r }) => a + b + c + 0.0576 * k + r,
});
export const radius: Model = model({
  id: "bench.radius",
  symbol: "R",
  unit: "1",
  title: "pick error",
  form: "closed",
  equation: "sqrt(x^2 + y^2)",
  origin: { cite: "invented", how: "judgement" },
  reads: () => ({ x: along, y: across }),
  value: ({ x, y }) => Math.sqrt(x * x + y * y),
});
export const limit = 0.15;
export const chain = (): Inputs => new Inputs({} as Scene, [radius]);

/** Sums of one block: of the radius, of its square, and how many lie beyond the limit. */
export type BlockSum = readonly [sum: number, squares: number, beyond: number];

/** Draws blocks of the chain, `from` to `to`, and evaluates them: sums block by block, so that any number of workers adds up the same. */
export function runBlocks(
  normal: "normal" | "ziggurat",
  n: number,
  seed: number,
  { from, to }: { readonly from: number; readonly to: number },
  inputs = chain(),
): BlockSum[] {
  const out: BlockSum[] = [];
  for (let block = from; block < to; block++) {
    let [sum, squares, beyond] = [0, 0, 0];
    const tally = (of: ReturnType<Inputs["run"]>, count: number): void => {
      const c = of(radius) as Float64Array;
      for (let k = 0; k < count; k++) {
        const v = c[k]!;
        sum += v;
        squares += v * v;
        if (v > limit) beyond++;
      }
    };
    drawBlock(inputs, { seed, block, n }, tally, { normal });
    out.push([sum, squares, beyond]);
  }
  return out;
}
