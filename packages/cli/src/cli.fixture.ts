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
/** Runs the built command as a person would, without a terminal. */
export function tapeworthy(
  args: readonly string[],
  options: { readonly cwd?: string; readonly env?: NodeJS.ProcessEnv } = {},
): Called {
  const done = spawnSync(process.execPath, [bin, ...args], { encoding: "utf8", maxBuffer: 1 << 28, ...options });
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
