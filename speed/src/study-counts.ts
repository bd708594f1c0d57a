import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { countInterval, Deviates } from "@tapeworthy/core";
import { timed } from "./measure.ts";

const intervals = 100_000;
const rounds = 5;

/** Counts as a bench brings them: 10 to 5000 cycles, mostly few failures. */
function counts(): { failed: Float64Array; run: Float64Array } {
  const deviates = new Deviates(1934);
  const even = (name: string): Float64Array => deviates.between(name, intervals).map((t) => (t + 1) / 2);
  const run = even("run").map((u) => 10 + Math.floor(4990 * u));
  const failed = even("failed").map((u, i) => Math.floor(u ** 3 * 0.2 * run[i]!));
  return { failed, run };
}
interface Theirs {
  readonly versions: string;
  readonly threads: number;
  /** Seconds of the best round, by way of calling. */
  readonly seconds: Readonly<Record<string, number>>;
  /** Microseconds of one interval, asked one at a time. */
  readonly scalar: number;
}

/** 1e5 exact binomial intervals, both bounds, beside another library's in the same run; its lines say so where it is absent. */
export async function countIntervals(line: (text: string) => void): Promise<object> {
  const { failed, run } = counts();
  const low = new Float64Array(intervals);
  const high = new Float64Array(intervals);
  const once = (): void => {
    for (let i = 0; i < intervals; i++) {
      const bounds = countInterval(failed[i]!, run[i]!);
      low[i] = bounds[0];
      high[i] = bounds[1];
    }
  };
  once();
  once();
  const ours = Math.min(...Array.from({ length: rounds }, () => timed(once)));
  const each = (seconds: number): string => `${((seconds / intervals) * 1e6).toFixed(2)} us`;
  line(`exact binomial intervals, 1e5, both bounds, one thread, best of ${rounds}: ours ${each(ours)} each`);
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-counts-"));
  try {
    const [input, output] = [join(folder, "counts.bin"), join(folder, "bounds.bin")];
    writeFileSync(input, new Uint8Array(Float64Array.from([...failed, ...run]).buffer));
    const script = fileURLToPath(new URL("../peers/counts.py", import.meta.url));
    const ran = spawnSync("python3", [script, input, output, String(rounds)], {
      encoding: "utf8",
      env: { ...process.env, OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1" },
    });
    if (ran.error || ran.status !== 0) {
      const why = ran.error ? "python3 is not here" : /No module named '(\w+)/.exec(ran.stderr)?.[1];
      line(
        `  skipped beside it: ${why ? (ran.error ? why : `python3 has no ${why}`) : ran.stderr.trim().split("\n").at(-1)}`,
      );
      return { intervals, ours, theirs: null };
    }
    const theirs = JSON.parse(ran.stdout) as Theirs;
    const bytes = readFileSync(output);
    const bounds = new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
    let off = 0;
    for (let i = 0; i < intervals; i++) {
      if (low[i]! > 0) off = Math.max(off, Math.abs(low[i]! / bounds[i]! - 1));
      off = Math.max(off, Math.abs(high[i]! / bounds[intervals + i]! - 1));
    }
    if (!(off < 1e-9)) throw new Error(`intervals differ by ${off} of themselves from those of ${theirs.versions}`);
    const ratios: Record<string, number> = {};
    for (const [way, seconds] of Object.entries(theirs.seconds)) {
      ratios[way] = seconds / ours;
      line(`  ${way}, by columns: ${each(seconds)} each; ours ${(seconds / ours).toFixed(2)} times as fast`);
    }
    line(
      `  one at a time: ${theirs.scalar.toFixed(1)} us each; ours ${((theirs.scalar * 1e-6 * intervals) / ours).toFixed(0)} times as fast`,
    );
    line(`  ${theirs.versions}, ${theirs.threads} thread; greatest difference ${off.toExponential(1)} of a bound`);
    return { intervals, ours, theirs, ratios, off };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
