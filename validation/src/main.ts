import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { catalogueRows } from "./catalogue.ts";
import { channelRows } from "./channel.ts";
import { clearanceRows } from "./clearance.ts";
import { cycleRows } from "./cycle.ts";
import { driveRows } from "./drive.ts";
import { filmRows } from "./film.ts";
import { frameRows } from "./frame.ts";
import { gearRows } from "./gear.ts";
import { holdDownRows } from "./hold-down.ts";
import { ladderRows } from "./ladder.ts";
import { nipRows } from "./nip.ts";
import { orderRows } from "./order.ts";
import type { Row } from "./row.ts";
import { springRows } from "./spring.ts";
import { sprocketRows } from "./sprocket.ts";
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
  ...orderRows(),
  ...ladderRows(),
];

const figure = (v: number): string => (Number.isFinite(v) ? String(+v.toPrecision(6)) : String(v));

/** One line a row, then how many hold. */
export function table(rows: readonly Row[]): string {
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
  return [line(head), ...cells.map(line), summary(rows)].join("\n");
}
export function summary(rows: readonly Row[]): string {
  const held = rows.filter((r) => r.ok).length;
  return `${held} of ${rows.length} figures hold, ${rows.length - held} fail`;
}

/** Prints the rows, as JSON with --json, and returns the exit status: 1 when any row fails. */
export function validate(
  args: readonly string[],
  print: (text: string) => void,
  rows: readonly Row[] = allRows(),
): number {
  const unknown = args.filter((a) => a !== "--json");
  if (unknown.length > 0) {
    print(`found "${unknown[0]}", expected nothing or --json`);
    return 2;
  }
  print(args.includes("--json") ? JSON.stringify(rows, undefined, 1) : table(rows));
  return rows.every((r) => r.ok) ? 0 : 1;
}

const started = process.argv[1];
if (started !== undefined && realpathSync(started) === fileURLToPath(import.meta.url))
  process.exitCode = validate(process.argv.slice(2), (text) => process.stdout.write(`${text}\n`));
