import { measureClearance } from "./clearance.ts";
import { measureDrag } from "./drag.ts";
import { measureIndex } from "./index-cycle.ts";
import { measureLeaf } from "./leaf.ts";
import { measureLogs } from "./logs.ts";
import { measureMap } from "./map.ts";
import type { Measured } from "./measure.ts";
import { measureShops } from "./shops.ts";
import { measureStudy } from "./study.ts";

const benchmarks: Readonly<Record<string, () => Measured | Promise<Measured>>> = {
  map: measureMap,
  clearance: measureClearance,
  drag: measureDrag,
  leaf: measureLeaf,
  index: measureIndex,
  logs: measureLogs,
  study: measureStudy,
  shops: measureShops,
};

const [name, ...flags] = process.argv.slice(2);
const bench = name === undefined ? undefined : benchmarks[name];
if (!bench) {
  process.stderr.write(
    `Name a benchmark: ${Object.keys(benchmarks).join(", ")}. For example: npm run speed -- map --json\n`,
  );
  process.exitCode = 2;
} else {
  const result = await bench();
  if (flags.includes("--json")) process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
  else {
    const ms = (s: number) => `${(s * 1e3).toPrecision(3)} ms`;
    process.stdout.write(
      `${result.name}: ${result.ratio < 0.1 ? result.ratio.toPrecision(2) : result.ratio.toFixed(2)} times ${result.against}\n  ours ${ms(result.ours)}, theirs ${ms(result.theirs)}, spread ${(result.spread * 100).toFixed(0)} %\n  ${result.machine}\n`,
    );
    for (const line of (result.lines ?? []) as readonly string[]) process.stdout.write(`  ${line}\n`);
  }
}
