import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { type LimitStates, pointwise, rareEvent } from "@tapeworthy/core";

const seeds = 20;
const root2 = Math.SQRT2;

interface Case {
  readonly name: string;
  readonly limits: LimitStates;
  readonly truth: number;
}
/** Published problems of the reliability set (validation/src/reliability-set.ts has their sources). */
const cases: readonly Case[] = [
  {
    name: "four-branch",
    truth: 2.22279506619444e-3,
    limits: pointwise(2, {
      a: (z) => 3 + 0.1 * (z[0]! - z[1]!) ** 2 - (z[0]! + z[1]!) / root2,
      b: (z) => 3 + 0.1 * (z[0]! - z[1]!) ** 2 + (z[0]! + z[1]!) / root2,
      c: (z) => z[0]! - z[1]! + 7 / root2,
      d: (z) => z[1]! - z[0]! + 7 / root2,
    }),
  },
  {
    name: "linear10",
    truth: 2.866515718791933e-7,
    limits: pointwise(10, {
      g: (z) => {
        let s = 0;
        for (let i = 0; i < 10; i++) s += z[i]!;
        return 5 * Math.sqrt(10) - s;
      },
    }),
  },
  {
    name: "RP25",
    truth: 4.148566293759747e-5,
    limits: pointwise(2, { g: (z) => Math.max(z[0]! ** 2 - 8 * z[1]! + 16, -16 * z[0]! + z[1]! + 32) }),
  },
];

/** How one method does on one case. */
export interface Trial {
  readonly case: string;
  readonly method: string;
  /** Mean of the answers over the truth, and their scatter. */
  readonly mean: number;
  readonly scatter: number;
  /** Answers off by more than a factor of 2. */
  readonly off: number;
  readonly calls: number;
  /** CPU time a run. */
  readonly seconds: number;
}

function ours({ name, limits, truth }: Case): Trial {
  for (let i = 0; i < 5; i++) rareEvent(limits, { seed: 900 + i });
  const before = process.cpuUsage();
  const runs = Array.from({ length: seeds }, (_, i) => rareEvent(limits, { seed: i }));
  const { user, system } = process.cpuUsage(before);
  const mean = runs.reduce((s, r) => s + r.p, 0) / seeds;
  return {
    case: name,
    method: "ours",
    mean: mean / truth,
    scatter: Math.sqrt(runs.reduce((s, r) => s + (r.p - mean) ** 2, 0) / (seeds - 1)) / truth,
    off: runs.filter(({ p }) => !(p > truth / 2 && p < 2 * truth)).length,
    calls: runs.reduce((s, r) => s + r.calls, 0) / seeds,
    seconds: (user + system) / 1e6 / seeds,
  };
}

/** The first interpreter that has OpenTURNS, run on the script beside this file; undefined where none has. */
function theirs(): { readonly version: string; readonly trials: readonly Trial[] } | undefined {
  const script = fileURLToPath(new URL("../src/study-rare.py", import.meta.url));
  for (const python of ["python3", "/usr/bin/python3"]) {
    const run = spawnSync(python, [script, String(seeds)], { encoding: "utf8", timeout: 300_000 });
    if (run.status !== 0) continue;
    const [head, ...rest] = run.stdout
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as unknown);
    return { version: (head as { readonly version: string }).version, trials: rest as Trial[] };
  }
  return undefined;
}

/** Our rare-event estimator against OpenTURNS on three published problems, 20 seeds each, one thread. */
export async function rareEvents(line: (text: string) => void): Promise<object> {
  const own = cases.map(ours);
  const peer = theirs();
  const show = (t: Trial): void =>
    line(
      `${t.case.padEnd(12)} ${t.method.padEnd(21)} mean/truth ${t.mean.toFixed(3)}, scatter ${(100 * t.scatter).toFixed(0)} %, off x2 ${t.off}/${seeds}, ${Math.round(t.calls)} calls, ${(1e3 * t.seconds).toFixed(1)} ms CPU`,
    );
  line(
    `rare events, ${seeds} seeds, one thread${peer ? `; OpenTURNS ${peer.version}, one combined formula a case` : ""}`,
  );
  for (const { name } of cases) for (const t of [...own, ...(peer?.trials ?? [])]) if (t.case === name) show(t);
  if (!peer) line("OpenTURNS is absent: skipped");
  return { seeds, ours: own, ...(peer ? { openturns: peer } : {}) };
}
