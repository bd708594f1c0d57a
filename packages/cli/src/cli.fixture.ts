import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type * as here from "./call-here.ts";

export type { Called } from "./call-here.ts";

// What is called is what is built.
const built = "../dist/call-here.js";
const { callHere } = (await import(built)) as typeof here;

const bin = fileURLToPath(new URL("../bin/tapeworthy.mjs", import.meta.url));
export const exampleFolder = fileURLToPath(new URL("../../../examples/saltgrass", import.meta.url));

/** Commands that share their work out among threads. */
const threaded = new Set("accuracy card check compare freeze ladder misfeed next proof score size take why".split(" "));
/**
 * Calls the built command as a person would, without a terminal; the calls of one test file follow one another in one process. Where a test
 * does not say on how many threads, on one: the answer does not depend on it, the tests keep every processor busy already, and each
 * thread more compiles the program for itself (a check of two pairs: 18 s of processor time on two threads, 12 s on one).
 */
export function tapeworthy(args: readonly string[]): here.Called {
  const [command = "", ...rest] = args;
  const threads = threaded.has(command) && !rest.includes("--workers") ? ["--workers", "1"] : [];
  return callHere([...(args.length > 0 ? [command] : []), ...threads, ...rest]);
}
/** The same in a process to itself, with the exit code the system sees. */
export function tapeworthyAlone(args: readonly string[]): here.Called {
  const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...args], {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { code: status ?? -1, out: stdout, err: stderr };
}

/** Calls `use` with a new empty folder, which is removed afterwards. */
export function inNewFolder<T>(use: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-"));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The example with a few wanted pairs and one line of its record. */
export function fewOf(folder: string, wanted: string): void {
  cpSync(exampleFolder, folder, { recursive: true });
  const main = join(folder, "project.yaml");
  writeFileSync(main, readFileSync(main, "utf8").replace(/wanted:\n(?: {2}.*\n)+/, `wanted: ${wanted}\n`));
  writeFileSync(
    join(folder, "known.yaml"),
    "format: 1\nknown:\n  - {unit: plover, tape: so8-12, result: runs, reels run: 310, reels refused: 1}\n",
  );
}
