import { nearestFailing, phi, phiInverse, pointwise, type RareEvent, rareEvent } from "@tapeworthy/core";
import { type Problem, reliabilitySet } from "./reliability-set.ts";
import { type Row, row } from "./row.ts";

const model = "rare events";
const seeds = 20;

/** How the estimator does on one problem over several seeds. */
export interface Tried {
  readonly problem: Problem;
  readonly seeds: number;
  /** Mean of the answers over the truth, their scatter, and the scatter they claim. */
  readonly mean: number;
  readonly scatter: number;
  readonly claimed: number;
  readonly calls: number;
  /** Answers off by more than a factor of 2, and those of them that said nothing of it. */
  readonly off: number;
  readonly silent: number;
  /** Bands that hold the truth. */
  readonly covered: number;
  readonly said: Readonly<Record<string, number>>;
}
export function tried(problem: Problem, count = seeds): Tried {
  const { truth, limits } = problem;
  const runs = Array.from({ length: count }, (_, i): RareEvent => rareEvent(limits, { seed: 1000 + i }));
  const mean = runs.reduce((s, r) => s + r.p, 0) / count;
  const said: Record<string, number> = {};
  for (const r of runs) said[r.said] = (said[r.said] ?? 0) + 1;
  const isOff = ({ p }: RareEvent): boolean => p < truth / 2 || p > 2 * truth;
  return {
    problem,
    seeds: count,
    mean: mean / truth,
    scatter: Math.sqrt(runs.reduce((s, r) => s + (r.p - mean) ** 2, 0) / Math.max(1, count - 1)) / truth,
    claimed: runs.reduce((s, r) => s + r.cov, 0) / count,
    calls: Math.round(runs.reduce((s, r) => s + r.calls, 0) / count),
    off: runs.filter(isOff).length,
    silent: runs.filter((r) => isOff(r) && r.said === "agree").length,
    covered: runs.filter((r) => r.band[0] <= truth && truth <= r.band[1]).length,
    said,
  };
}

/** The whole set as a table; the exit status is 1 where a problem that is not excused is off by more than a factor of 2 and says nothing. */
export function reliabilityTable(print: (text: string) => void, count = seeds): number {
  const head = ["problem", "truth", "mean/truth", "scatter", "claimed", "calls", "off x2", "silent", "in band", "said"];
  const lines = reliabilitySet.map((problem) => {
    const t = tried(problem, count);
    return {
      t,
      cells: [
        problem.id + (problem.excused ? " *" : ""),
        problem.truth.toExponential(3),
        t.mean.toFixed(3),
        `${(100 * t.scatter).toFixed(1)} %`,
        `${(100 * t.claimed).toFixed(1)} %`,
        String(t.calls),
        `${t.off}/${count}`,
        `${t.silent}/${count}`,
        `${t.covered}/${count}`,
        Object.entries(t.said)
          .map(([word, n]) => `${word} ${n}`)
          .join(", "),
      ],
    };
  });
  const all = [head, ...lines.map(({ cells }) => cells)];
  const widths = head.map((_, i) => Math.max(...all.map((c) => c[i]!.length)));
  for (const cells of all)
    print(
      cells
        .map((c, i) => c.padEnd(widths[i]!))
        .join("  ")
        .trimEnd(),
    );
  const silent = lines.filter(({ t }) => t.silent > 0);
  print(
    silent.length === 0
      ? "none is off by more than a factor of 2 without saying so"
      : `off by more than a factor of 2 without saying so: ${silent.map(({ t }) => t.problem.id).join(", ")}`,
  );
  print("* named beforehand as one that may be");
  return silent.every(({ t }) => t.problem.excused) ? 0 : 1;
}

const answers = new Map<string, number>();
const answerTo = ({ id, limits }: Problem): number => {
  const known = answers.get(id) ?? rareEvent(limits, { seed: 7, cov: 0.015, most: 400_000 }).p;
  answers.set(id, known);
  return known;
};
const tables = "tables of the normal distribution";

export function reliabilityRows(): Row[] {
  const waarts = nearestFailing(pointwise(2, { g: (z) => 7 + z[0]! - (2 + z[1]!) }), 0);
  const plane = nearestFailing(pointwise(10, { g: (z) => 5 * Math.sqrt(10) - z.reduce((s, v) => s + v, 0) }), 0);
  // [probability of failure, index as printed]
  const printed = [
    [1e-1, 1.28],
    [1e-2, 2.32],
    [1e-3, 3.09],
    [1e-4, 3.72],
    [1e-5, 4.27],
    [1e-6, 4.75],
    [1e-7, 5.2],
  ] as const;
  // [distance, chance beyond it]
  const tail = [
    [1, 0.158655253931457],
    [2, 0.0227501319481792],
    [3, 0.00134989803163009],
    [4, 3.16712418331199e-5],
    [5, 2.86651571879194e-7],
    [6, 9.86587645037698e-10],
    [7, 1.27981254388584e-12],
    [8, 6.22096057427178e-16],
  ] as const;
  return [
    ...reliabilitySet.map((problem) =>
      row({
        id: problem.id,
        model,
        expected: problem.truth,
        got: answerTo(problem),
        // Three times the 1.5 % at which the draws stop here; subset simulation alone, which answers for the bowl, claims 15 %.
        near: { share: problem.id === "rel.rp63" ? 0.4 : 0.045 },
        source: problem.from + (problem.printed === undefined ? "" : `; the source prints ${problem.printed}`),
        how: problem.how,
      }),
    ),
    row({
      id: "rel.rs.waarts",
      model: "first order",
      expected: 3.54,
      got: waarts.beta,
      near: { printedTo: 0.01 },
      source: "otbenchmark, reliability problems (after Waarts 2000): R - S, docstring",
      how: "read",
    }),
    row({
      id: "first order of a plane",
      model: "first order",
      expected: 5,
      got: plane.beta,
      near: { within: 1e-6 },
      source: "distance of the plane from the middle, exact",
      how: "derived",
    }),
    ...tail.map(([b, p]) =>
      row({
        id: `rel.tail.${b}`,
        model: "normal law",
        expected: p,
        got: phi(-b),
        near: { share: 1e-12 },
        source: tables,
        how: "derived",
      }),
    ),
    ...printed.map(([p, beta]) =>
      row({
        id: `rel.beta.${p}`,
        model: "normal law",
        expected: beta,
        got: -phiInverse(p),
        near: { within: 0.0065 },
        source: "EN 1990 annex C, table C.1; 2.326 is printed as 2.32",
        how: "memory",
      }),
    ),
  ];
}
