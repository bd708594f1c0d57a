import {
  closeSync,
  constants,
  fdatasyncSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  lstatSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { dirname } from "node:path";
import { CallError } from "../folder.ts";
import { settleFolder } from "./disk.ts";

const longest = 256 * 1024 * 1024;

/** The journal could not be written: a full disk, most often. What was to be noted has not happened. */
export class JournalError extends Error {
  override readonly name = "JournalError";
}

/** A file that only grows, each piece on disk before the next; or is replaced whole. */
export class JournalFile {
  private readonly path: string;
  private handle: number;
  size: number;
  private constructor(path: string, handle: number) {
    this.path = path;
    this.handle = handle;
    this.size = fstatSync(handle).size;
  }
  /** Opens a journal, or begins an empty one. Throws CallError where something else lies in its place. */
  static open(path: string): JournalFile {
    const found = lstatSync(path, { throwIfNoEntry: false });
    if (found && !found.isFile()) throw new CallError(`${path} is no plain file; move it away.`);
    if (found && found.size > longest) throw new CallError(`${path} is longer than any journal; move it away.`);
    return new JournalFile(path, openToAppend(path));
  }
  read(): string {
    return readFileSync(this.path, "utf8");
  }
  /** Puts a text behind the last one. When this returns it lies on disk; when it throws JournalError, nothing of it does. */
  append(text: string, settled = true): void {
    try {
      const bytes = Buffer.from(text, "utf8");
      for (let at = 0; at < bytes.length; ) at += writeSync(this.handle, bytes, at);
      if (settled) fdatasyncSync(this.handle);
      this.size += bytes.length;
    } catch (e) {
      try {
        ftruncateSync(this.handle, this.size);
      } catch {
        // Then a piece without its end stays behind, which is not read.
      }
      throw new JournalError(`The journal cannot be written: ${(e as Error).message}`);
    }
  }
  /** Takes away what lies behind the first `size` bytes: a last line that was cut short. */
  cutTo(size: number): void {
    ftruncateSync(this.handle, size);
    fsyncSync(this.handle);
    this.size = size;
  }
  /** Puts a text in the place of everything; a killed process leaves the old journal or the new one. */
  replace(text: string): void {
    try {
      const temporary = `${this.path}.new`;
      rmSync(temporary, { force: true });
      const fresh = openSync(temporary, "wx", 0o600);
      try {
        const bytes = Buffer.from(text, "utf8");
        for (let at = 0; at < bytes.length; ) at += writeSync(fresh, bytes, at);
        fsyncSync(fresh);
      } finally {
        closeSync(fresh);
      }
      renameSync(temporary, this.path);
      settleFolder(dirname(this.path));
      const handle = openToAppend(this.path);
      closeSync(this.handle);
      this.handle = handle;
      this.size = fstatSync(handle).size;
    } catch (e) {
      throw new JournalError(`The journal cannot be written: ${(e as Error).message}`);
    }
  }
  /** Whether somebody has removed or replaced the file while it was open. */
  get isLost(): boolean {
    const there = statSync(this.path, { throwIfNoEntry: false });
    const mine = fstatSync(this.handle);
    return there?.ino !== mine.ino || there.dev !== mine.dev;
  }
  close(): void {
    closeSync(this.handle);
  }
}
const openToAppend = (path: string): number =>
  openSync(path, constants.O_RDWR | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0), 0o600);
