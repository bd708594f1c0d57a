import {
  closeSync,
  existsSync,
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
import { isProjectPath, type Texts } from "@tapeworthy/project";

/** A fault of the call itself: a folder that is not there, a name that is taken. Shown as one line; exit 2. */
export class CallError extends Error {
  override readonly name = "CallError";
}

/** Reads the text files of a project folder. Throws CallError where the folder is missing. */
export function readFolder(folder: string): Texts {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new CallError(`There is no folder "${folder}".`);
  const texts = new Map<string, string>();
  const take = (path: string): void => {
    const full = join(folder, path);
    if (isProjectPath(path) && existsSync(full) && statSync(full).isFile()) texts.set(path, readFileSync(full, "utf8"));
  };
  take("project.yaml");
  take("known.yaml");
  for (const inner of ["units", "tapes"]) {
    const full = join(folder, inner);
    if (!existsSync(full) || !statSync(full).isDirectory()) continue;
    for (const name of readdirSync(full).sort()) take(`${inner}/${name}`);
  }
  return texts;
}

/** Writes a file so that a killed process leaves either the old text or the new one, never a part. */
export function writeWhole(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true });
  const temporary = `${path}.${process.pid}.tmp`;
  const handle = openSync(temporary, "wx");
  try {
    writeSync(handle, text);
    fsyncSync(handle);
    closeSync(handle);
    renameSync(temporary, path);
  } catch (e) {
    if (existsSync(temporary)) unlinkSync(temporary);
    throw e;
  }
}
