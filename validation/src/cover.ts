import {
  capability,
  chiSquareQuantile,
  countInterval,
  cyclesToShow,
  Deviates,
  gammaQuantile,
  gammaRate,
  measured,
  measuredWithScatter,
  phi,
  phiInverse,
  pooledAtMost,
  rateAtMost,
  rateShownByClean,
  rateWithModel,
  spreadOfUnits,
  studentQuantile,
  trustInModel,
  unlikeUnits,
} from "@tapeworthy/core";

/** How often an interval held the truth, beside how often it should. */
export interface Cover {
  readonly interval: string;
  readonly truth: string;
  readonly cases: number;
  readonly held: number;
  /** Exact, or as tabulated in the working notes (unpublished) from as many runs as `of`. */
  readonly wanted: number;
  readonly how: "exact" | "tabulated" | "at least";
  readonly of?: number;
  /** Of the difference between held share and wanted. */
  readonly sd: number;
  readonly ok: boolean;
}
const cases = 400;

/** Synthetic cases: number k of 400 of a named study, the same whatever else is drawn. */
class Cases {
  private readonly deviates = new Deviates(6174);
  private readonly study: string;
  constructor(study: string) {
    this.study = study;
  }
  /** Even in (0, 1). */
  even(name: string, each = 1): Float64Array {
    return this.deviates.between(`${this.study} ${name}`, cases * each).map((t) => (t + 1) / 2);
  }
  normal(name: string, each = 1): Float64Array {
    return this.deviates.normal(`${this.study} ${name}`, cases * each);
  }
}
/** The count at which a Poisson law of that mean passes u. */
export function poissonAt(u: number, mean: number): number {
  let k = Math.max(0, Math.floor(mean + phiInverse(u) * Math.sqrt(mean) - 3));
  let log = -mean + k * Math.log(mean);
  for (let i = 2; i <= k; i++) log -= Math.log(i);
  // Summed from 0 where the start is low; else the tail below is found term by term.
  let term = Math.exp(log);
  let below = 0;
  for (let t = term, i = k; i > 0 && t > 1e-18; i--) {
    t *= i / mean;
    below += t;
  }
  while (below > u && k > 0) {
    k--;
    term *= (k + 1) / mean;
    below -= term;
  }
  while (below + term < u && k < 1e7) {
    below += term;
    k++;
    term *= mean / k;
  }
  return k;
}
/** The same of a binomial law, summed from 0: for n p up to a few hundred. */
export function binomialAt(u: number, n: number, p: number): number {
  let k = 0;
  let term = Math.exp(n * Math.log1p(-p));
  let sum = term;
  while (sum < u && k < n) {
    term *= ((n - k) * p) / ((k + 1) * (1 - p));
    k++;
    sum += term;
  }
  return k;
}
/** Exact share of counts whose statement holds. */
function exactOfCounts(n: number, p: number, holds: (k: number) => boolean): number {
  let term = Math.exp(n * Math.log1p(-p));
  let share = 0;
  for (let k = 0; k <= n; k++) {
    if (term > 1e-16 && holds(k)) share += term;
    term *= ((n - k) * p) / ((k + 1) * (1 - p));
    if (k > n * p && term < 1e-16) break;
  }
  return share;
}
/** Within 3 sd of what is wanted; "at least": not more than that below it. */
export const judged = (
  interval: string,
  truth: string,
  held: number,
  wanted: number,
  how: Cover["how"] = "exact",
  of?: number,
): Cover => {
  const p = Math.min(1 - 1 / cases, Math.max(1 / cases, wanted));
  const sd = Math.sqrt((p * (1 - p)) / cases + (of === undefined ? 0 : (p * (1 - p)) / of));
  const off = held / cases - wanted;
  const ok = how === "at least" ? off > -3 * sd : Math.abs(off) <= 3 * sd + 1e-12;
  return { interval, truth, cases, held, wanted, how, ...(of === undefined ? {} : { of }), sd, ok };
};
const count = (holds: (i: number) => boolean): number => {
  let held = 0;
  for (let i = 0; i < cases; i++) if (holds(i)) held++;
  return held;
};

/** Counts and readings whose cover is known exactly: seconds at most. */
export function quickCovers(): Cover[] {
  const out: Cover[] = [];
  for (const [n, p] of [
    [20, 0.15],
    [300, 0.01],
    [5000, 0.002],
    [100, 0.5],
  ] as const) {
    const u = new Cases(`count ${n} ${p}`).even("k");
    const within = (k: number): boolean => {
      const [low, high] = countInterval(k, n);
      return low <= p && p <= high;
    };
    const below = (k: number): boolean => rateAtMost(k, n) >= p;
    const truth = `rate ${p}, ${n} cycles`;
    out.push(
      judged(
        "count, both bounds 95 %",
        truth,
        count((i) => within(binomialAt(u[i]!, n, p))),
        exactOfCounts(n, p, within),
      ),
    );
    out.push(
      judged(
        "count, upper bound 95 %",
        truth,
        count((i) => below(binomialAt(u[i]!, n, p))),
        exactOfCounts(n, p, below),
      ),
    );
  }
  // A bad unit, run as long as it takes to show the rate, passes once in twenty at most.
  for (const [p, allowed] of [
    [0.01, 0],
    [0.01, 2],
    [0.001, 0],
  ] as const) {
    const n = cyclesToShow(p, 0.95, allowed);
    const u = new Cases(`clean ${p} ${allowed}`).even("k");
    const refused = (k: number): boolean => k > allowed;
    out.push(
      judged(
        `run of ${n}, ${allowed} allowed, 95 %`,
        `rate ${p}`,
        count((i) => refused(binomialAt(u[i]!, n, p))),
        exactOfCounts(n, p, refused),
      ),
    );
  }
  // m good units: the share of bad ones is below the bound, unless none was met by chance.
  for (const m of [3, 10]) {
    const share = rateShownByClean(m) * 1.0000001;
    const u = new Cases(`units ${m}`).even("k");
    const seen = (k: number): boolean => k > 0;
    out.push(
      judged(
        `${m} good units, 95 %`,
        `share of bad ${share.toFixed(3)}`,
        count((i) => seen(binomialAt(u[i]!, m, share))),
        exactOfCounts(m, share, seen),
      ),
    );
  }
  for (const [n, cpk] of [
    [10, 1],
    [30, 1.33],
    [50, 1.11],
    [100, 0.8],
  ] as const) {
    const draws = new Cases(`cpk ${n} ${cpk}`);
    const z = draws.normal("mean");
    const u = draws.even("sd");
    const held = count((i) => {
      const sd = Math.sqrt(chiSquareQuantile(u[i]!, n - 1) / (n - 1));
      const [low, high] = capability({ n, mean: z[i]! / Math.sqrt(n), sd, high: 3 * cpk }).interval!;
      return low <= cpk && cpk <= high;
    });
    out.push(judged("Cpk, Bissell 95 %", `Cpk ${cpk}, one limit, ${n} readings`, held, exactOfCpk(n, cpk)));
    const cp = count((i) => {
      const sd = Math.sqrt(chiSquareQuantile(u[i]!, n - 1) / (n - 1));
      const [low, high] = capability({ n, mean: 0, sd, low: -3 * cpk, high: 3 * cpk }).cpInterval!;
      return low <= cpk && cpk <= high;
    });
    out.push(judged("Cp, chi-square 95 %", `Cp ${cpk}, ${n} readings`, cp, 0.95));
  }
  for (const n of [2, 5, 12]) {
    const draws = new Cases(`direct ${n}`);
    const guess = { median: 0.6, sd: 0.5 };
    const [m, z, next] = [draws.normal("middle"), draws.normal("readings", n), draws.normal("next")];
    const known = (i: number) => {
      const middle = Math.log(guess.median) + guess.sd * m[i]!;
      const readings = Array.from({ length: n }, (_, j) => Math.exp(middle + 0.1 * z[i * n + j]!));
      return {
        middle: Math.exp(middle),
        next: Math.exp(middle + 0.1 * next[i]!),
        got: measuredWithScatter(guess, readings, 0.1),
      };
    };
    const holds = (x: number, [low, high]: readonly [number, number]): boolean => low <= x && x <= high;
    const drawn = `drawn from the guess, ${n} readings`;
    out.push(
      judged(
        "scatter known, middle 95 %",
        drawn,
        count((i) => {
          const k = known(i);
          return holds(k.middle, k.got.middle(0.95));
        }),
        0.95,
      ),
    );
    out.push(
      judged(
        "scatter known, next unit 95 %",
        drawn,
        count((i) => {
          const k = known(i);
          return holds(k.next, k.got.next(0.95));
        }),
        0.95,
      ),
    );
    const u = draws.even("scatter");
    const unknown = (i: number) => {
      // nu0 s0^2/sigma^2 is chi-square of nu0; the middle lies sigma/sqrt(k0) about the guess.
      const sigma = 0.2 * Math.sqrt(2 / chiSquareQuantile(u[i]!, 2));
      const middle = Math.log(0.6) + sigma * m[i]!;
      const readings = Array.from({ length: n }, (_, j) => Math.exp(middle + sigma * z[i * n + j]!));
      return { middle, next: middle + sigma * next[i]!, got: measured({ median: 0.6, scatter: 0.2 }, readings) };
    };
    // Scatters drawn from so wide a belief reach beyond what exp can hold: compared on the logarithm.
    const inside = (x: number, { median, nu }: { median: number; nu: number }, scale: number): boolean =>
      Math.abs(x - Math.log(median)) <= scale * studentQuantile(0.975, nu);
    out.push(
      judged(
        "scatter unknown, middle 95 %",
        drawn,
        count((i) => {
          const k = unknown(i);
          return inside(k.middle, k.got, k.got.sd);
        }),
        0.95,
      ),
    );
    out.push(
      judged(
        "scatter unknown, next unit 95 %",
        drawn,
        count((i) => {
          const k = unknown(i);
          return inside(k.next, k.got, k.got.scatter * Math.sqrt(1 + 1 / (1 + n)));
        }),
        0.95,
      ),
    );
  }
  for (const n of [500, 20_000]) {
    const draws = new Cases(`rates ${n}`);
    const [u, z, v] = [draws.even("k"), draws.normal("model"), draws.even("rate")];
    const modelled = (i: number) => 1e-4 * Math.exp(trustInModel * z[i]!);
    out.push(
      judged(
        "with the model, upper 95 %",
        `drawn from the model's belief, ${n} cycles`,
        count((i) => {
          const rate = modelled(i);
          return rateWithModel({ median: 1e-4 }, { failed: binomialAt(u[i]!, n, rate), run: n }).atMost >= rate;
        }),
        0.95,
      ),
    );
    out.push(
      judged(
        "gamma rate, upper 95 %",
        `drawn from its belief, ${n} cycles`,
        count((i) => {
          const rate = gammaQuantile(v[i]!, 0.5) / 2000;
          return (
            gammaRate({ shape: 0.5, cycles: 2000 }, { failed: Math.min(n, poissonAt(u[i]!, n * rate)), run: n })
              .atMost >= rate
          );
        }),
        0.95,
      ),
    );
  }
  return out;
}
/** Chance that Bissell's limits hold a Cpk of one limit: over the spread of s, each with its normal mean. */
export function exactOfCpk(n: number, cpk: number): number {
  const z = phiInverse(0.975);
  // |c - cpk| <= z sqrt(1/9n + c^2/2(n-1)) for the estimate c: between the roots of a square.
  const a = 1 - (z * z) / (2 * (n - 1));
  const root = Math.sqrt(cpk * cpk - a * (cpk * cpk - (z * z) / (9 * n)));
  const [low, high] = [(cpk - root) / a, (cpk + root) / a];
  const steps = 4000;
  let share = 0;
  for (let i = 0; i < steps; i++) {
    const s = Math.sqrt(chiSquareQuantile((i + 0.5) / steps, n - 1) / (n - 1));
    // c = (3 cpk - m)/(3 s), m ~ N(0, 1/n)
    share += phi((3 * cpk - 3 * s * low) * Math.sqrt(n)) - phi((3 * cpk - 3 * s * high) * Math.sqrt(n));
  }
  return share / steps;
}

/** Share of 400 runs in the notes' table, units' log sd, units: pooled, lognormal units. Truth 3e-4, 20 000 cycles in all; 200 to 400 runs each. */
const tabulated: readonly (readonly [number, number, number, number])[] = [
  [0, 1, 0.975, 1],
  [0, 10, 0.988, 0.995],
  [1, 1, 0.785, 1],
  [1, 3, 0.897, 0.98],
  [1, 10, 0.948, 0.995],
  [1, 40, 0.978, 0.975],
  [1.8, 1, 0.38, 1],
  [1.8, 3, 0.61, 0.835],
  [1.8, 10, 0.805, 0.94],
  [1.8, 40, 0.917, 0.935],
];
const runsOfTable = 200;

/** Units that differ: the notes' table again, and truths drawn from the belief itself. Some seconds. */
export function unitCovers(): Cover[] {
  const out: Cover[] = [];
  const truth = 3e-4;
  for (const [s, m, pooledShare, lognormalShare] of tabulated) {
    const run = Math.round(20_000 / m);
    const draws = new Cases(`units ${s} ${m}`);
    const z = draws.normal("unit", m);
    const u = draws.even("k", m);
    const seen = Array.from({ length: cases }, (_, i) =>
      Array.from({ length: m }, (_, j) => {
        const rate = Math.min(1, truth * Math.exp(s * z[i * m + j]! - (s * s) / 2));
        return { failed: Math.min(run, poissonAt(u[i * m + j]!, run * rate)), run };
      }),
    );
    const what = `mean ${truth}, log sd ${s}, ${m} ${m === 1 ? "unit" : "units"}`;
    out.push(
      judged(
        "pooled, upper 95 %",
        what,
        count((i) => pooledAtMost(seen[i]!) >= truth),
        pooledShare,
        "tabulated",
        runsOfTable,
      ),
    );
    const held = count((i) => unlikeUnits(seen[i]!).atMost >= truth);
    // It is never below the pooled bound and counts a failure where there is none, which the table's bound did not: it may hold more often.
    out.push(judged("lognormal units, upper 95 %", what, held, lognormalShare, "at least", runsOfTable));
  }
  // A truth drawn from belief itself must be held as often as is said, or more, since counts are whole. Spread unknown, half-normal and cut at 3 of
  // its sd as belief is; of gamma units known, since with a large one most rates would lie beyond 1.
  const studies = [
    ["lognormal", 3, undefined],
    ["lognormal", 10, undefined],
    ["gamma", 3, 0.6],
    ["gamma", 10, 1],
  ] as const;
  for (const [law, m, logSd] of studies) {
    const run = Math.round(20_000 / m);
    const draws = new Cases(`belief ${law} ${m}`);
    const [a, b] = [draws.even("mean"), draws.even("spread")];
    const [z, u, v] = [draws.normal("unit", m), draws.even("k", m), draws.even("gamma", m)];
    const low = Math.log(1e-3 / (run * m));
    const high = Math.log(law === "gamma" ? 0.02 : 0.5);
    const held = count((i) => {
      const mean = Math.exp(low + a[i]! * (high - low));
      const s = logSd ?? spreadOfUnits * phiInverse(0.5 + 0.5 * b[i]! * (2 * phi(3) - 1));
      const shape = 1 / Math.expm1(s * s);
      const units = Array.from({ length: m }, (_, j) => {
        const at = i * m + j;
        const factor = law === "gamma" ? gammaQuantile(v[at]!, shape) / shape : Math.exp(s * z[at]! - (s * s) / 2);
        const expected = run * Math.min(1, mean * factor);
        return { failed: expected > 1e-12 ? Math.min(run, poissonAt(u[at]!, expected)) : 0, run };
      });
      return unlikeUnits(units, { law, logSd }).atMost >= mean;
    });
    const spread = logSd === undefined ? "spread unknown" : `log sd ${logSd}`;
    out.push(judged(`${law} units, upper 95 %`, `drawn from belief, ${spread}, ${m} units`, held, 0.95, "at least"));
  }
  return out;
}

/** One line an interval. */
export function coverTable(covers: readonly Cover[]): string {
  const cells = covers.map((c) => [
    c.ok ? "ok" : "OFF",
    c.interval,
    c.truth,
    `${c.held} of ${c.cases}`,
    (c.held / c.cases).toFixed(3),
    c.wanted.toFixed(3),
    c.how,
    (3 * c.sd).toFixed(3),
  ]);
  const head = ["", "interval", "truth", "held", "share", "wanted", "how", "within"];
  const widths = head.map((title, i) => Math.max(title.length, ...cells.map((c) => c[i]!.length)));
  const line = (c: readonly string[]): string =>
    c
      .map((cell, i) => cell.padEnd(widths[i]!))
      .join("  ")
      .trimEnd();
  const held = covers.filter((c) => c.ok).length;
  return [line(head), ...cells.map(line), `${held} of ${covers.length} intervals hold as often as they should`].join(
    "\n",
  );
}
