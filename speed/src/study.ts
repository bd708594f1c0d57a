import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { blocksOf, type Shared, ShareStudy } from "@tapeworthy/core";
import { type Measured, machine, median } from "./measure.ts";
import { type BlockSum, chain, runBlocks } from "./pick-chain.ts";

/** Draws of one run, and runs of ours and of each peer in turn. */
const n = 1 << 20;
const rounds = 5;
const file = (name: string): string => fileURLToPath(new URL(`../peers/${name}`, import.meta.url));
const oneThread = {
  ...process.env,
  PYTHONDONTWRITEBYTECODE: "1",
  OMP_NUM_THREADS: "1",
  OPENBLAS_NUM_THREADS: "1",
  MKL_NUM_THREADS: "1",
};
/** The first python3 that has a module: one's own, or the system's. */
function pythonWith(module: string): string | undefined {
  return ["python3", "/usr/bin/python3"].find(
    (one) => spawnSync(one, ["-c", `import ${module}`], { env: oneThread }).status === 0,
  );
}
function printed(program: string, args: readonly string[]): string | undefined {
  const done = spawnSync(program, args, { encoding: "utf8", env: oneThread });
  return done.error || done.status !== 0 ? undefined : done.stdout.trim();
}
/** Seconds of processor time of one call, of this thread's process. */
function busy(f: () => void): number {
  const before = process.cpuUsage();
  f();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}
const least = (x: readonly number[]): number => Math.min(...x);
const greatest = (x: readonly number[]): number => Math.max(...x);

interface Rate {
  /** Millions of draws a second, best of the runs; mean and share beyond the limit of the last one. */
  readonly rate: number;
  readonly mean: number;
  readonly beyond: number;
}
/** The best line of a peer's "rate mean share" lines. */
function rateIn(text: string | undefined): Rate | undefined {
  const lines = (text ?? "")
    .split("\n")
    .map((line) => line.split(" ").map(Number))
    .filter((v) => v.length === 3 && v.every(Number.isFinite));
  if (lines.length === 0) return undefined;
  return { rate: greatest(lines.map((v) => v[0]!)), mean: lines.at(-1)![1]!, beyond: lines.at(-1)![2]! };
}

/** A C program compiled into a folder of its own; undefined where there is no gcc. */
function compiled(folder: string): { readonly program: string; readonly version: string } | undefined {
  const version = printed("gcc", ["--version"])?.split("\n")[0];
  const program = join(folder, "chain");
  if (version === undefined || printed("gcc", ["-O3", "-o", program, file("chain.c"), "-lm"]) === undefined)
    return undefined;
  return { program, version };
}

/** Several workers, warm, who draw the chain when asked to. */
async function team(count: number) {
  const workers = Array.from({ length: count }, () => new Worker(new URL("./study-worker.js", import.meta.url)));
  const answer = (w: Worker): Promise<unknown> =>
    new Promise((yes, no) => {
      w.once("error", no).once("message", (said) => {
        w.off("error", no);
        yes(said);
      });
    });
  await Promise.all(workers.map(answer));
  const parts = blocksOf(4 * n, count);
  return {
    /** Seconds on the wall and of processor time, and the sums of the blocks in their order. */
    async run() {
      const [started, before] = [process.hrtime.bigint(), process.cpuUsage()];
      const done = parts.map((part, i) => {
        const one = answer(workers[i]!) as Promise<BlockSum[]>;
        workers[i]!.postMessage({ n: 4 * n, seed: 1, part });
        return one;
      });
      const sums = (await Promise.all(done)).flat();
      const { user, system } = process.cpuUsage(before);
      return { wall: Number(process.hrtime.bigint() - started) / 1e9, cpu: (user + system) / 1e6, sums };
    },
    end: () => Promise.all(workers.map((w) => w.terminate())),
  };
}
/** One, two and five workers in turn, so that what else the machine does falls on all alike. */
async function byWorkers() {
  const teams = [await team(1), await team(2), await team(5)];
  try {
    const runs: { wall: number; cpu: number; sums: BlockSum[] }[][] = [[], [], []];
    for (let round = 0; round < 2 * rounds; round++)
      for (const [i, one] of teams.entries()) if (i < 2 || round === 0) runs[i]!.push(await one.run());
    const best = (i: number, what: "wall" | "cpu"): number => least(runs[i]!.map((r) => r[what]));
    return {
      speedUp: best(0, "wall") / best(1, "wall"),
      /** Processor time of two for the same work, over that of one. */
      spent: best(1, "cpu") / best(0, "cpu"),
      hashes: runs.map((r) => hashOf(r[0]!.sums)),
    };
  } finally {
    for (const one of teams) await one.end();
  }
}
const hashOf = (sums: readonly BlockSum[]): string =>
  createHash("sha256")
    .update(Buffer.from(Float64Array.from(sums.flat()).buffer))
    .digest("hex")
    .slice(0, 16);

async function pickChain(line: (text: string) => void) {
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-study-"));
  try {
    const c = compiled(folder);
    const python = pythonWith("numpy");
    if (!c) line("C was skipped: gcc is not here");
    if (!python) line("numpy was skipped: python3 with numpy is not here");
    const inputs = chain();
    const whole = blocksOf(n, 1)[0]!;
    const found = {
      normal: [] as number[],
      ziggurat: [] as number[],
      c: [] as number[],
      inverted: [] as number[],
      numpy: [] as number[],
    };
    const ratios = {
      numpy: [] as number[],
      c: [] as number[],
      numpyZiggurat: [] as number[],
      cZiggurat: [] as number[],
    };
    let versions = c?.version ?? "";
    let sums: BlockSum[] = [];
    for (let round = -1; round < rounds; round++) {
      const rate = (normal: "normal" | "ziggurat"): number =>
        n / least([0, 1, 2].map(() => busy(() => (sums = runBlocks(normal, n, 1, whole, inputs))))) / 1e6;
      const ziggurat = rate("ziggurat");
      const normal = rate("normal");
      const inC = c ? rateIn(printed(c.program, [`${n}`, "z"])) : undefined;
      const inverted = c ? rateIn(printed(c.program, [`${n}`, "i"])) : undefined;
      const text = python ? printed(python, [file("chain.py"), `${n}`]) : undefined;
      const inNumpy = rateIn(text);
      if (round < 0) {
        if (text) versions = [text.split("\n")[0], versions].filter(Boolean).join("; ");
        continue;
      }
      found.normal.push(normal);
      found.ziggurat.push(ziggurat);
      if (inC) {
        found.c.push(inC.rate);
        ratios.c.push(normal / inC.rate);
        ratios.cZiggurat.push(ziggurat / inC.rate);
      }
      if (inverted) found.inverted.push(inverted.rate);
      if (inNumpy) {
        found.numpy.push(inNumpy.rate);
        ratios.numpy.push(normal / inNumpy.rate);
        ratios.numpyZiggurat.push(ziggurat / inNumpy.rate);
      }
    }
    const [mean, beyond] = [0, 2].map((j) => sums.reduce((t, s) => t + s[j]!, 0) / n);
    const two = (x: readonly number[]): string => (x.length === 0 ? "-" : median(x).toFixed(2));
    line(
      `pick chain of 14 inputs, one thread, millions of draws a second: ours by inverse ${two(found.normal)}, by ziggurat ${two(found.ziggurat)}; ` +
        `numpy in blocks ${two(found.numpy)}; C ${two(found.c)} (by inverse ${two(found.inverted)})`,
    );
    line(
      `of numpy's rate: by inverse ${two(ratios.numpy)} (aim 0.3), by ziggurat ${two(ratios.numpyZiggurat)} (aim 0.45); of C's: ${two(ratios.c)} (aim 0.2), ${two(ratios.cZiggurat)} (aim 0.33)`,
    );
    const { speedUp, spent, hashes } = await byWorkers();
    line(
      `two workers ${speedUp.toFixed(2)} times one on the wall (aim 1.8), best of ${2 * rounds} each, load ${loadavg()[0]!.toFixed(1)} on ${cpus().length} processors; together they spend ${spent.toFixed(2)} times its processor time`,
    );
    line(
      hashes.every((h) => h === hashes[0])
        ? `1, 2 and 5 workers give the same bits, ${hashes[0]}`
        : `HASHES DIFFER: ${hashes.join(", ")}`,
    );
    return { n, versions, found, ratios, mean, beyond, speedUp, spent, hashes };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Ishigami's function over uniform coordinates, as columns. */
const ishigami: Shared = {
  names: ["a", "b", "c"],
  laws: ["even", "even", "even"],
  at: ([a, b, c], m) => {
    const out = new Float64Array(m);
    for (let k = 0; k < m; k++) {
      const s = Math.sin(Math.PI * a![k]!);
      const t = Math.sin(Math.PI * b![k]!);
      const x = (Math.PI * c![k]!) ** 2;
      out[k] = s + 7 * t * t + 0.1 * x * x * s;
    }
    return out;
  },
};
const exact = [0.31390519114781146, 0.4424111447900409, 0, 0.5575888552099592, 0.4424111447900409, 0.24368366406214773];

function ishigamiShares(line: (text: string) => void) {
  const points = 1 << 15;
  const once = (seed: number): number => {
    const study = new ShareStudy(ishigami, { seed, points, scrambles: 1, importance: [2, 3, 1] });
    const { shares } = study.put(Array.from({ length: study.blocks }, (_, b) => study.block(b)));
    const got = [...shares.map((s) => s.first), ...shares.map((s) => s.total)];
    return greatest(got.map((v, i) => Math.abs(v - exact[i]!)));
  };
  const errors = [0, 1, 2, 3, 4].map(once);
  const python = pythonWith("openturns") ?? pythonWith("scipy");
  const ours: number[] = [];
  let peer: { versions?: string; numpy?: { ms: number; error: number }; openturns?: { ms: number; error: number } } =
    {};
  for (let round = 0; round < rounds; round++) {
    ours.push(least([0, 1, 2].map((s) => busy(() => once(s)))) * 1e3);
    if (!python) continue;
    const text = printed(python, [file("shares.py"), `${points}`]);
    const got = text ? (JSON.parse(text) as typeof peer) : {};
    const better = (a?: { ms: number; error: number }, b?: { ms: number; error: number }) =>
      a && b && a.ms < b.ms ? a : (b ?? a);
    const [numpy, openturns] = [better(peer.numpy, got.numpy), better(peer.openturns, got.openturns)];
    peer = { ...got, ...(numpy ? { numpy } : {}), ...(openturns ? { openturns } : {}) };
  }
  const ms = least(ours);
  line(
    `Sobol' shares of Ishigami's function, N = 2^15, one thread: ours ${ms.toPrecision(2)} ms, worst error of six ${median(errors).toExponential(1)}`,
  );
  for (const [name, of] of [
    ["numpy, Jansen", peer.numpy],
    ["OpenTURNS, Saltelli", peer.openturns],
  ] as const)
    line(
      of
        ? `  ${name}: ${of.ms.toPrecision(2)} ms, worst error ${of.error.toExponential(1)}: ${(of.ms / ms).toPrecision(2)} times ours`
        : `  ${name} was skipped: it is not here`,
    );
  return { points, ms, error: median(errors), ...peer };
}

/** A part of this benchmark that may stand in a file of its own. */
async function part(name: string, run: string, line: (text: string) => void): Promise<object> {
  const at = new URL(`./${name}.js`, import.meta.url).href;
  let there: Record<string, unknown>;
  try {
    there = (await import(at)) as Record<string, unknown>;
  } catch (e) {
    if ((e as { code?: string }).code !== "ERR_MODULE_NOT_FOUND") throw e;
    line(`${name} is not here`);
    return {};
  }
  return (there[run] as (line: (text: string) => void) => Promise<object>)(line);
}

/** Draws of the pick chain, Sobol' shares, rare events and intervals of counts, each beside peers in the same run. */
export async function measureStudy(): Promise<Measured> {
  const lines: string[] = [];
  const line = (text: string): void => {
    lines.push(text);
  };
  const draws = await pickChain(line);
  const shares = ishigamiShares(line);
  const rare = await part("study-rare", "rareEvents", line);
  const counts = await part("study-counts", "countIntervals", line);
  line(
    `peers: ${[draws.versions, shares.versions].filter(Boolean).join("; ") || "none"}; each on one thread; processor time but for workers`,
  );
  const { found, ratios } = draws;
  const against =
    found.numpy.length > 0
      ? "numpy in blocks, draws of the pick chain by inverse"
      : "our own ziggurat, draws of the pick chain by inverse";
  const theirs = found.numpy.length > 0 ? found.numpy : found.ziggurat;
  const each =
    found.numpy.length > 0 ? ratios.numpy.map((r) => 1 / r) : found.normal.map((r, i) => found.ziggurat[i]! / r);
  return {
    name: "study",
    ours: n / median(found.normal) / 1e6,
    theirs: n / median(theirs) / 1e6,
    ratio: median(each),
    spread: (greatest(each) - least(each)) / median(each),
    against,
    machine: machine(),
    draws,
    shares,
    rare,
    counts,
    lines,
  };
}
