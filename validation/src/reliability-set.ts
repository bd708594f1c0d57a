import { type LimitStates, pointwise } from "@tapeworthy/core";

/** A problem of the reliability set: limit states over independent standard normal coordinates, failing where any is below 0. */
export interface Problem {
  readonly id: string;
  readonly what: string;
  readonly limits: LimitStates;
  /** The chance of failing, as well as it is known, and how. */
  readonly truth: number;
  readonly from: string;
  readonly how: "read" | "derived" | "memory";
  /** What its source prints, where that missed the truth. */
  readonly printed?: number;
  /** Named beforehand as one that may be off without a word. */
  readonly excused?: true;
}

const benchmark = "otbenchmark, reliability problems (after Waarts 2000 and a TNO set)";
const root2 = Math.SQRT2;
const one = (d: number, g: (z: Float64Array) => number): LimitStates => pointwise(d, { g });
/** Mean and sd of a lognormal number as the median and the sd of its logarithm. */
function lognormal(mean: number, sd: number): (z: number) => number {
  const s2 = Math.log1p((sd / mean) ** 2);
  const median = mean / Math.exp(s2 / 2);
  const s = Math.sqrt(s2);
  return (z) => median * Math.exp(s * z);
}
const sum = (z: Float64Array, from = 0): number => {
  let s = 0;
  for (let i = from; i < z.length; i++) s += z[i]!;
  return s;
};
const lognormalSum = (n: number): LimitStates => {
  const x = lognormal(1, 0.2);
  return one(n, (z) => {
    let s = 0;
    for (let i = 0; i < n; i++) s += x(z[i]!);
    return n + 3 * 0.2 * Math.sqrt(n) - s;
  });
};
const [axialR, eight] = [lognormal(300, 30), [lognormal(120, 12), lognormal(50, 10), lognormal(40, 8)] as const];

/**
 * A made-up feeder of 20 numbers that scatter, failing in five ways with kinks inside: film slips, film breaks, pick misses, hold-down gives, drive stalls.
 * Every figure is invented.
 */
function feeder(shift: readonly number[]): LimitStates {
  const peel = (z: Float64Array): number =>
    0.55 * Math.exp(0.22 * z[0]!) * 16 ** (0.15 + 0.03 * z[1]!) * (1 + 0.12 * z[12]!);
  const grips = (z: Float64Array): number => 0.6 * Math.exp(0.08 * z[11]!) * (4 + 0.3 * z[5]!);
  const drag = (z: Float64Array): number => 0.4 * Math.exp(0.25 * z[15]!);
  const raw: Readonly<Record<string, (z: Float64Array) => number>> = {
    "film slips": (z) => grips(z) - peel(z),
    "film breaks": (z) => 9.5 + 0.7 * z[14]! - 1.35 * grips(z) * 2 + 0.2,
    "pick misses": (z) =>
      0.17 -
      Math.abs(0.02 * z[2]!) -
      0.02 * Math.exp(0.3 * z[6]!) * (1 + Math.sin(z[13]!)) -
      Math.abs(0.006 * z[17]!) -
      Math.abs(0.015 * z[3]!),
    "hold-down gives": (z) => {
      const thick = 0.3 * Math.exp(0.05 * z[4]!);
      const holds = 1.2 + 0.1 * z[16]! - Math.max(0.35 * (peel(z) + drag(z)), 0.2 + 0.4 * drag(z));
      return 10 * (holds - 0.05 * Math.max(0, z[19]!)) - Math.max(0, thick + 0.05 - (0.45 + 0.02 * z[7]!)) * 30;
    },
    "drive stalls": (z) =>
      ((24 - 0.8 * Math.abs(z[10]!)) * (1 + 0.05 * z[8]!)) / (1 + 0.04 * z[9]!) / 24 - 0.3 * (peel(z) + drag(z)) - 0.12,
  };
  return pointwise(
    20,
    Object.fromEntries(Object.entries(raw).map(([name, g], i) => [name, (z: Float64Array) => g(z) + (shift[i] ?? 0)])),
  );
}

/**
 * The set the rare-event estimator is held against. Truths are exact, or by quadrature that the source's own draws support; where a print
 * missed, both stand.
 */
export const reliabilitySet: readonly Problem[] = [
  {
    id: "rel.rs",
    what: "R - S, both normal",
    limits: one(2, (z) => 4 + z[0]! - (2 + z[1]!)),
    truth: 0.07864960352514,
    from: `${benchmark}; Phi(-2/sqrt 2)`,
    how: "derived",
  },
  {
    id: "rel.axial",
    what: "bar under tension: strength lognormal, force normal",
    limits: one(2, (z) => axialR(z[0]!) - (75_000 + 5000 * z[1]!) / (100 * Math.PI)),
    truth: 0.02919903220939052,
    from: `${benchmark}; 1.39e9 draws, 95 % 0.0291902 to 0.0292079`,
    how: "read",
  },
  {
    id: "rel.fourbranch",
    what: "series of four branches",
    limits: pointwise(2, {
      a: ([a, b]) => 3 + 0.1 * (a! - b!) ** 2 - (a! + b!) / root2,
      b: ([a, b]) => 3 + 0.1 * (a! - b!) ** 2 + (a! + b!) / root2,
      c: ([a, b]) => a! - b! + 7 / root2,
      d: ([a, b]) => b! - a! + 7 / root2,
    }),
    truth: 0.00222279506619444,
    from: `${benchmark}: FourBranchSerialSystem`,
    how: "read",
  },
  {
    id: "rel.rp22",
    what: "curved away from the middle",
    limits: one(2, (z) => 2.5 - (z[0]! + z[1]!) / root2 + 0.1 * (z[0]! - z[1]!) ** 2),
    truth: 0.004207305511299618,
    from: `${benchmark}: RP22`,
    how: "read",
  },
  {
    id: "rel.rp25",
    what: "two in parallel, a kink at the nearest failing point",
    limits: one(2, (z) => Math.max(z[0]! ** 2 - 8 * z[1]! + 16, -16 * z[0]! + z[1]! + 32)),
    truth: 4.148566293759747e-5,
    from: `${benchmark}: RP25`,
    how: "read",
  },
  {
    id: "rel.rp35",
    what: "series of a bump and a hyperbola",
    limits: pointwise(2, {
      a: ([a, b]) => 2 - b! + Math.exp(-0.1 * a! ** 2) + (0.2 * a!) ** 4,
      b: ([a, b]) => 4.5 - a! * b!,
    }),
    truth: 0.00347894632,
    from: `${benchmark}: RP35`,
    how: "read",
  },
  {
    id: "rel.rp53",
    what: "wavy",
    limits: one(2, (z) => {
      const [a, b] = [1.5 + z[0]!, 2.5 + z[1]!];
      return Math.sin(2.5 * a) + 2 - ((a * a + 4) * (b - 1)) / 20;
    }),
    truth: 0.0313,
    from: `${benchmark}: RP53, printed to three figures`,
    how: "read",
  },
  {
    id: "rel.rp75",
    what: "two opposite corners",
    limits: one(2, (z) => 3 - z[0]! * z[1]!),
    truth: 0.00981929872154689,
    from: `${benchmark}: RP75`,
    how: "read",
  },
  {
    id: "rel.rp89",
    what: "series of a parabola and a line",
    limits: pointwise(2, { a: ([a, b]) => -(a! ** 2) - b! + 8, b: ([a, b]) => -a! / 5 - b! + 6 }),
    truth: 0.005471280529034629,
    from: `quadrature; ${benchmark}: RP89, whose own draws give 0.0054698`,
    how: "derived",
    printed: 0.00543,
  },
  {
    id: "rel.rp110",
    what: "early slopes point the wrong way",
    limits: pointwise(2, {
      a: ([a]) => (a! <= 3.5 ? 0.85 - 0.1 * a! : 4 - a!),
      b: ([, b]) => (b! <= 2 ? 2.3 - b! : 0.5 - 0.1 * b!),
    }),
    truth: 3.1957884326416774e-5,
    from: `${benchmark}: RP110; exact Phi(-4) + Phi(-5) less both`,
    how: "derived",
    printed: 3.19e-5,
    excused: true,
  },
  {
    id: "rel.rp111",
    what: "four corners",
    limits: one(2, (z) => 12.5 - Math.abs(z[0]! * z[1]!)),
    truth: 8.035e-7,
    from: `exact (2/pi) times an integral of a Bessel function, by two routes; ${benchmark}: RP111, whose own draws give 7.85e-7 within 6 %`,
    how: "derived",
    printed: 7.65e-7,
    excused: true,
  },
  {
    id: "rel.rp107",
    what: "plane in 10 coordinates",
    limits: one(10, (z) => 5 * Math.sqrt(10) - sum(z)),
    truth: 2.866515718791933e-7,
    from: `Phi(-5); ${benchmark}: RP107`,
    how: "derived",
    printed: 2.92e-7,
  },
  {
    id: "rel.rp33",
    what: "series of two planes in 3 coordinates",
    limits: pointwise(3, { a: ([a, b, c]) => 3 * Math.sqrt(3) - a! - b! - c!, b: ([, , c]) => 3 - c! }),
    truth: 0.002575597790800299,
    from: `quadrature; ${benchmark}: RP33, whose own draws give 0.0025748`,
    how: "derived",
    printed: 0.00257,
  },
  {
    id: "rel.rp63",
    what: "bowl in 100 coordinates",
    limits: one(100, (z) => {
      let s = 0;
      for (let i = 1; i < 100; i++) s += z[i]! ** 2;
      return 0.1 * s - z[0]! - 4.5;
    }),
    truth: 0.00037694361183304324,
    from: `one integral over chi-square of 99; ${benchmark}: RP63, whose own draws give 0.00037720`,
    how: "derived",
    printed: 0.000379,
  },
  {
    id: "rel.rp8",
    what: "plane of six lognormal numbers",
    limits: one(6, (z) => {
      const [x, five, six] = eight;
      return x(z[0]!) + 2 * x(z[1]!) + 2 * x(z[2]!) + x(z[3]!) - 5 * five(z[4]!) - 5 * six(z[5]!);
    }),
    truth: 0.0007891387779978592,
    from: `${benchmark}: RP8; 2.4e8 draws, 95 % 0.00078725 to 0.00079437`,
    how: "read",
  },
  {
    id: "rel.rackwitz40",
    what: "sum of 40 lognormal numbers",
    limits: lognormalSum(40),
    truth: 0.002009209969123136,
    from: "convolution; Rackwitz 2001 as quoted elsewhere",
    how: "derived",
    printed: 0.00198,
  },
  {
    id: "rel.rackwitz100",
    what: "sum of 100 lognormal numbers",
    limits: lognormalSum(100),
    truth: 0.0017147432300899093,
    from: "convolution; Rackwitz 2001 as quoted elsewhere",
    how: "derived",
    printed: 0.00173,
  },
  {
    id: "rel.parabola",
    what: "parabola with two nearly equal nearest points",
    limits: one(2, (z) => 5 - z[1]! - 0.5 * (z[0]! - 0.1) ** 2),
    truth: 0.0030163119013095563,
    from: "quadrature; Der Kiureghian and Dakessian 1998",
    how: "derived",
    printed: 0.00301,
  },
  {
    id: "feeder20",
    what: "made-up feeder of 20 numbers, five ways to fail",
    limits: feeder([]),
    truth: 1.3106e-3,
    from: "independent program validation/independent/misfeed.py: 4e7 plain draws, standard error 0.44 %",
    how: "derived",
  },
  {
    id: "feeder20 shifted",
    what: "the same, each way farther off",
    limits: feeder([0.45, 0.55, 0.035, 1.2, 0.06]),
    truth: 2.2293e-4,
    from: "independent program validation/independent/misfeed.py: 4e7 plain draws, standard error 1.1 %",
    how: "derived",
  },
];
