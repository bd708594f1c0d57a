import {
  type Given,
  given,
  Inputs,
  type Model,
  model,
  parseQuantity,
  plainSobol,
  type Scene,
  type Shared,
  sharesOf,
  sharesOfInputs,
  unitOf,
} from "@tapeworthy/core";
import { type Row, row } from "./row.ts";

const by = "study/shares";
const options = { points: 1 << 15, scrambles: 4 };

/** A function of coordinates in [-1, 1] or (0, 1), point by point. */
const drawn = (laws: Shared["laws"], f: (x: readonly number[]) => number): Shared => ({
  names: laws.map((_, i) => `${i + 1}`),
  laws,
  at: (x, n) => Float64Array.from({ length: n }, (_, k) => f(x.map((c) => c[k]!))),
});

/**
 * Ishigami's function sin a + 7 sin^2 b + 0.1 c^4 sin a over (-pi, pi): V = 49/8 + pi^4/50 + pi^8/1800 + 1/2, and its parts. What is held
 * against the closed form are the drawn shares, so the tolerance is theirs: some five standard errors.
 */
function ishigamiRows(): Row[] {
  const source = "Ishigami & Homma 1990, a = 7, b = 0.1; closed form, worked out again; drawn shares within 3e-4";
  const found = sharesOf(
    drawn(["even", "even", "even"], (t) => {
      const [a, b, c] = t.map((v) => Math.PI * v) as [number, number, number];
      return Math.sin(a) + 7 * Math.sin(b) ** 2 + 0.1 * c ** 4 * Math.sin(a);
    }),
    options,
  );
  const of = (id: string, expected: number, got: number) =>
    row({ id: `shares.Ishigami ${id}`, model: by, expected, got, near: { within: 3e-4 }, source, how: "derived" });
  const first = [0.31390519, 0.44241114, 0];
  const total = [0.55758886, 0.44241114, 0.24368366];
  return [
    row({
      id: "shares.Ishigami variance",
      model: by,
      expected: 13.844587940719254,
      got: found.variance,
      near: { share: 2e-4 },
      source,
      how: "derived",
    }),
    ...found.shares.flatMap((s, i) => [of(`S${i + 1}`, first[i]!, s.first), of(`T${i + 1}`, total[i]!, s.total)]),
    row({
      id: "shares.Ishigami acts together",
      model: by,
      expected: 2,
      got: found.shares.filter((s) => s.together).length,
      near: { within: 0 },
      unit: "of 3 inputs",
      source: `${source}; T - S is 0.24, 0, 0.24`,
      how: "derived",
    }),
  ];
}

/** Sobol's product of (|4 u_i - 2| + a_i)/(1 + a_i): V_i = 1/(3 (1 + a_i)^2), V = prod(1 + V_i) - 1, T_i V = V_i prod over the others (1 + V_j). */
function productRows(): Row[] {
  const a = [0, 1, 4.5, 9];
  const source =
    "Sobol' 1993, product with a = 0, 1, 4.5, 9 of Saltelli & Sobol' 1995; closed form, worked out again; drawn shares within 3e-4";
  const parts = a.map((v) => 1 / 3 / (1 + v) ** 2);
  const all = parts.reduce((p, v) => p * (1 + v), 1);
  const found = sharesOf(
    drawn(
      a.map(() => "uniform" as const),
      (u) => u.reduce((p, v, i) => (p * (Math.abs(4 * v - 2) + a[i]!)) / (1 + a[i]!), 1),
    ),
    options,
  );
  return found.shares.flatMap((s, i) => [
    row({
      id: `shares.product S${i + 1}`,
      model: by,
      expected: parts[i]! / (all - 1),
      got: s.first,
      near: { within: 3e-4 },
      source,
      how: "memory",
    }),
    row({
      id: `shares.product T${i + 1}`,
      model: by,
      expected: (parts[i]! * all) / (1 + parts[i]!) / (all - 1),
      got: s.total,
      near: { within: 3e-4 },
      source,
      how: "memory",
    }),
  ]);
}

/** A chain of lengths: a_i^2 s_i^2 over their sum, s of limits the half width over sqrt 3. By hand: 4, 9 * 1/3, 1/4 over 7.25. */
function chainRows(): Row[] {
  const invented = { cite: "invented", how: "judgement" } as const;
  const number = (symbol: string, text: string): Given =>
    given({
      address: `chain/${symbol}`,
      symbol,
      text,
      origin: invented,
      dimension: unitOf("").dimension,
      written: parseQuantity(text),
      level: "unit",
    });
  const [a, b, c] = [number("a", "10 sd 1"), number("b", "5 ±1"), number("c", "2 sd 0.5")];
  const sum: Model = model({
    id: "validation.chain",
    symbol: "y",
    unit: "1",
    title: "a chain of lengths",
    form: "closed",
    equation: "2*a - 3*b + c",
    origin: invented,
    reads: () => ({ a: a!, b: b!, c: c! }),
    value: (x) => 2 * x.a - 3 * x.b + x.c,
  });
  const { shares } = sharesOfInputs(new Inputs({} as Scene, [sum]), sum);
  return [4, 3, 0.25].map((part, i) =>
    row({
      id: `shares.linear chain ${i + 1}`,
      model: by,
      expected: part / 7.25,
      got: shares[i]!.total,
      near: { share: 1e-12 },
      source: "a_i^2 s_i^2 over their sum, by hand",
      how: "derived",
    }),
  );
}

/** Points 1 to 4 in three dimensions, and point 1000 in late ones, not scrambled. */
function pointRows(): Row[] {
  const read = [
    [0.5, 0.5, 0.5],
    [0.75, 0.25, 0.25],
    [0.25, 0.75, 0.75],
    [0.375, 0.375, 0.625],
  ];
  const late = [
    [39, 0.4794921875],
    [63, 0.4462890625],
    [99, 0.1865234375],
    [127, 0.5439453125],
  ] as const;
  return [
    row({
      id: "sobol.points",
      model: "study/sobol",
      expected: 12,
      got: read.flatMap((p, k) => p.filter((v, d) => plainSobol(d, k + 1) === v)).length,
      near: { within: 0 },
      unit: "of 12 coordinates",
      source: "Joe & Kuo 2008, points 1 to 4 in dimensions 1 to 3, as scipy.stats.qmc.Sobol 1.10.1 gives them",
      how: "read",
    }),
    ...late.map(([d, v]) =>
      row({
        id: `sobol.point 1000 in dimension ${d + 1}`,
        model: "study/sobol",
        expected: v,
        got: plainSobol(d, 1000),
        near: { within: 0 },
        source: "Joe & Kuo 2008, as scipy.stats.qmc.Sobol 1.17.1 gives it",
        how: "read",
      }),
    ),
  ];
}

/**
 * Shares of a variance and the points they are drawn from. Known answers of the generator Philox, which other programs draw from, do not apply: draws
 * here come from xoroshiro128+ and xoshiro128++, whose tests are those of their law and of their streams' independence.
 */
export const shareRows = (): Row[] => [...ishigamiRows(), ...productRows(), ...chainRows(), ...pointRows()];
