import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { accuracyRows } from "./accuracy.ts";
import { catalogueRows } from "./catalogue.ts";
import { channelRows } from "./channel.ts";
import { clearanceRows } from "./clearance.ts";
import { sureRows } from "./counts.ts";
import { coverTable, quickCovers, unitCovers } from "./cover.ts";
import { cycleRows } from "./cycle.ts";
import { driveRows } from "./drive.ts";
import { filmRows } from "./film.ts";
import { fitRows } from "./fit.ts";
import { frameRows } from "./frame.ts";
import { gearRows } from "./gear.ts";
import { holdDownRows } from "./hold-down.ts";
import { ladderRows } from "./ladder.ts";
import { misfeedRows } from "./misfeed.ts";
import { nipRows } from "./nip.ts";
import { orderRows } from "./order.ts";
import { peelRows } from "./peel.ts";
import { reliabilityRows, reliabilityTable } from "./reliability.ts";
import type { Row } from "./row.ts";
import { shareRows } from "./shares.ts";
import { sizingTable } from "./sizing.ts";
import { springRows } from "./spring.ts";
import { sprocketRows } from "./sprocket.ts";
import { trialRows } from "./trial.ts";
import { yawAndSeatRows } from "./yaw.ts";

/** Every published or independent figure held against what the models give. */
export const allRows = (): Row[] => [
  ...filmRows(),
  ...nipRows(),
  ...channelRows(),
  ...clearanceRows(),
  ...yawAndSeatRows(),
  ...springRows(),
  ...holdDownRows(),
  ...frameRows(),
  ...driveRows(),
  ...sprocketRows(),
  ...gearRows(),
  ...catalogueRows(),
  ...cycleRows(),
  ...accuracyRows(),
  ...reliabilityRows(),
  ...misfeedRows(),
  ...shareRows(),
  ...orderRows(),
  ...ladderRows(),
  ...sureRows(),
  ...fitRows(),
  ...trialRows(),
  ...peelRows(),
];

const figure = (v: number): string => (Number.isFinite(v) ? String(+v.toPrecision(6)) : String(v));

/** One line a row, then how many of all rows hold; the last alone where there is no row to show. */
export function table(rows: readonly Row[], all = rows): string {
  if (rows.length === 0) return summary(all);
  const cells = rows.map((r) => [
    r.ok ? "ok" : "FAILS",
    r.id,
    r.model,
    figure(r.expected),
    figure(r.got),
    `±${figure(r.tolerance)}`,
    r.unit === "1" ? "" : r.unit,
    r.how,
    r.source,
  ]);
  const head = ["", "id", "model", "expected", "got", "within", "unit", "how", "source"];
  const widths = head.map((title, i) => Math.max(title.length, ...cells.map((c) => c[i]!.length)));
  const line = (c: readonly string[]): string =>
    c
      .map((cell, i) => (i === c.length - 1 ? cell : cell.padEnd(widths[i]!)))
      .join("  ")
      .trimEnd();
  return [line(head), ...cells.map(line), summary(all)].join("\n");
}
export function summary(rows: readonly Row[]): string {
  const held = rows.filter((r) => r.ok).length;
  return `${held} of ${rows.length} figures hold, ${rows.length - held} fail`;
}

/**
 * Prints the rows, as JSON with --json, only those that fail with --failed, and returns the exit status: 1 when any row fails. `reliability` prints the rare-event estimator on its set
 * over 20 seeds instead; `cover` how often every interval holds the truth, on 400 synthetic cases each; `sizing` the second example sized from random
 * starts, and two of its levers against a grid.
 */
export function validate(
  args: readonly string[],
  print: (text: string) => void,
  rows: readonly Row[] = allRows(),
): number {
  if (args[0] === "reliability" && args.length === 1) return reliabilityTable(print);
  if (args[0] === "sizing" && args.length === 1) return sizingTable(print);
  if (args[0] === "cover" && args.length === 1) {
    const covers = [...quickCovers(), ...unitCovers()];
    print(coverTable(covers));
    return covers.every((c) => c.ok) ? 0 : 1;
  }
  const unknown = args.filter((a) => a !== "--json" && a !== "--failed");
  if (unknown.length > 0) {
    print(`found "${unknown[0]}", expected nothing, --json, --failed, reliability, cover or sizing`);
    return 2;
  }
  const shown = args.includes("--failed") ? rows.filter((r) => !r.ok) : rows;
  print(args.includes("--json") ? JSON.stringify(shown, undefined, 1) : table(shown, rows));
  return rows.every((r) => r.ok) ? 0 : 1;
}

const started = process.argv[1];
if (started !== undefined && realpathSync(started) === fileURLToPath(import.meta.url))
  process.exitCode = validate(process.argv.slice(2), (text) => process.stdout.write(`${text}\n`));
