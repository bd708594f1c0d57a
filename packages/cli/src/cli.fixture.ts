import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const bin = fileURLToPath(new URL("../bin/tapeworthy.mjs", import.meta.url));
export const exampleFolder = fileURLToPath(new URL("../../../examples/saltgrass", import.meta.url));

export interface Called {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}
/** Commands that share their work out among threads. */
const threaded = new Set("accuracy card check compare freeze ladder misfeed next proof score size take why".split(" "));
/**
 * Runs the built command as a person would, without a terminal. Where a test does not say on how many threads, on one: the answer does not
 * depend on it, the tests keep every processor busy already, and each thread more compiles the program for itself (a check of two pairs:
 * 18 s of processor time on two threads, 12 s on one).
 */
export function tapeworthy(
  args: readonly string[],
  options: { readonly cwd?: string; readonly env?: NodeJS.ProcessEnv } = {},
): Called {
  const [command = "", ...rest] = args;
  const threads = threaded.has(command) && !rest.includes("--workers") ? ["--workers", "1"] : [];
  const words = [bin, ...(args.length > 0 ? [command] : []), ...threads, ...rest];
  const done = spawnSync(process.execPath, words, { encoding: "utf8", maxBuffer: 1 << 28, ...options });
  return { code: done.status ?? -1, out: done.stdout, err: done.stderr };
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
