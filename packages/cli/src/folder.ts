import {
  closeSync,
  existsSync,
  fchmodSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { isProjectPath, projectFolders, type Texts } from "@tapeworthy/project";

/** A fault of the call itself: a folder that is not there, a name that is taken. Shown as one line; exit 2. */
export class CallError extends Error {
  override readonly name = "CallError";
}

/** Whether there is a project in a folder. */
export const hasProject = (folder: string): boolean => existsSync(join(folder, "project.yaml"));

/** Reads the text files of a project folder. Throws CallError where the folder is missing. */
export function readFolder(folder: string): Texts {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new CallError(`There is no folder "${folder}".`);
  const texts = new Map<string, string>();
  const take = (path: string): void => {
    const full = join(folder, path);
    if (isProjectPath(path) && existsSync(full) && statSync(full).isFile()) texts.set(path, readFileSync(full, "utf8"));
  };
  for (const path of ["project.yaml", "known.yaml", "ledger.yaml"]) take(path);
  for (const inner of projectFolders) {
    const full = join(folder, inner);
    if (!existsSync(full) || !statSync(full).isDirectory()) continue;
    for (const name of readdirSync(full).sort()) take(`${inner}/${name}`);
  }
  return texts;
}

/**
 * Writes a file so that a killed process leaves either the old text or the new one, never a part; a file that was there keeps its mode.
 * `mayReplace` is asked at the last moment, when the new text lies ready: where it says no, nothing is written.
 */
export function writeWhole(path: string, text: string | Uint8Array, mayReplace: () => boolean = () => true): boolean {
  mkdirSync(dirname(path), { recursive: true });
  const temporary = `${path}.${process.pid}.tmp`;
  const handle = openSync(temporary, "wx");
  try {
    try {
      const bytes = typeof text === "string" ? Buffer.from(text) : text;
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
      if (existsSync(path)) fchmodSync(handle, statSync(path).mode & 0o7777);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    const may = mayReplace();
    if (may) renameSync(temporary, path);
    else unlinkSync(temporary);
    return may;
  } catch (e) {
    if (existsSync(temporary)) unlinkSync(temporary);
    throw e;
  }
}
