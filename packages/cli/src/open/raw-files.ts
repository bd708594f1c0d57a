import { createHash, randomBytes } from "node:crypto";
import {
  closeSync,
  createReadStream,
  fstatSync,
  fsync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import type { IncomingMessage } from "node:http";
import { dirname, join, sep } from "node:path";
import type { Readable } from "node:stream";
import { promisify } from "node:util";
import { settleFolder } from "./disk.ts";

/** Bytes of a file of raw rows. */
export const mostKept = 512_000_000;

export interface KeptFile {
  readonly file: string;
  readonly bytes: number;
  /** It was there already, with just these bytes. */
  readonly same?: true;
}
/** Why nothing was kept. */
export interface NotKept {
  readonly status: 400 | 409 | 413 | 507;
  readonly code: "malformed" | "exists" | "too long" | "disk";
  readonly words: string;
}
export interface FoundFile {
  readonly bytes: number;
  read(): Readable;
  /** For whoever wants no more than its length. */
  close(): void;
}

const name = String.raw`[\p{L}\p{N}][\p{L}\p{N} ._-]{0,60}`;
const rawPath = new RegExp(`^bench/${name}/${name}\\.parquet$`, "u");
/** A file that is not whole yet; nobody else names one so. */
const leftOver = new RegExp(`^${name}\\.parquet\\.[0-9a-f]{16}\\.keeping$`, "u");
const letters = Buffer.from("PAR1");

/**
 * Raw rows of trials, as Parquet under bench/TRIAL. New files alone are taken: what is there stays as it is. A file comes to its name when all of it
 * is on disk; what a killed process has left of one is removed at the next start, which the folder's lock makes safe. Links that lead out of the
 * folder are not followed.
 */
export class RawFiles {
  private readonly folder: string;
  private readonly most: number;
  constructor(folder: string, most = mostKept) {
    this.folder = realpathSync(folder);
    this.most = most;
    this.sweep();
  }
  /** Opens a file; undefined where there is none. */
  find(file: string): FoundFile | undefined {
    if (!rawPath.test(file) || !this.isInside(file)) return undefined;
    let handle: number;
    try {
      // A pipe would keep us waiting for whoever writes into it.
      if (!statSync(join(this.folder, file)).isFile()) return undefined;
      handle = openSync(join(this.folder, file), "r");
    } catch {
      return undefined;
    }
    const { size } = fstatSync(handle);
    return {
      bytes: size,
      // No more than what was promised, should it grow meanwhile.
      read: () => createReadStream("", { fd: handle, start: 0, end: Math.max(0, size - 1) }),
      close: () => closeSync(handle),
    };
  }
  /** What can be said against a request before any of its body is read. */
  refusal(file: string, length: number): NotKept | undefined {
    if (!rawPath.test(file)) return malformed('"file" is a path such as bench/T-01/raw.parquet.');
    if (length > this.most) return this.tooLong;
    const out = ["bench", dirname(file), file].find((part) => isThere(join(this.folder, part)) && !this.isInside(part));
    return out === undefined ? undefined : malformed(`${out} is a link that leads out of the folder.`);
  }
  /** Puts a body into a new file. Rejects where the body ends too early; nothing is left of it then. */
  async keep(file: string, body: IncomingMessage): Promise<KeptFile | NotKept> {
    const path = join(this.folder, file);
    const temporary = `${path}.${randomBytes(8).toString("hex")}.keeping`;
    let made: readonly string[] = [];
    let handle: number | undefined;
    try {
      made = this.makeFolders(file);
      handle = openSync(temporary, "wx", 0o644);
      const got = await this.poured(body, handle);
      if ("status" in got) return got;
      // It may take its time on a slow disk; others are served meanwhile.
      await promisify(fsync)(handle);
      closeSync(handle);
      handle = undefined;
      if (!putNew(temporary, path))
        return (await this.holds(file, got))
          ? { file, bytes: got.bytes, same: true }
          : exists(`There is another file ${file} already; it was left as it is.`);
      settleFolder(dirname(path));
      return { file, bytes: got.bytes };
    } catch (e) {
      // An error of the body is for whoever sent it; one of the disk has a number.
      if ((e as NodeJS.ErrnoException).syscall === undefined || body.errored) throw e;
      return { status: 507, code: "disk", words: `${file} cannot be kept: ${(e as Error).message}` };
    } finally {
      if (handle !== undefined) closeSync(handle);
      remove(temporary);
      for (const folder of made) removeEmpty(folder);
    }
  }

  private get tooLong(): NotKept {
    const shown = this.most >= 1_000_000 ? `${this.most / 1_000_000} MB` : `${this.most} bytes`;
    return { status: 413, code: "too long", words: `At most ${shown} of raw rows are kept in one file.` };
  }
  /** Writes a body as it comes, and gives its length and hash; what is too long or no Parquet is refused. */
  private async poured(body: IncomingMessage, handle: number): Promise<{ bytes: number; hash: string } | NotKept> {
    const hash = createHash("sha256");
    let bytes = 0;
    let head = Buffer.alloc(0);
    let tail = Buffer.alloc(0);
    // A body that is too long is left standing, so that the answer can still be sent.
    for await (const piece of body.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      bytes += piece.length;
      if (bytes > this.most) return this.tooLong;
      hash.update(piece);
      if (head.length < letters.length) head = Buffer.concat([head, piece]).subarray(0, letters.length);
      tail = Buffer.concat([tail, piece.subarray(-letters.length)]).subarray(-letters.length);
      for (let at = 0; at < piece.length; ) at += writeSync(handle, piece, at);
    }
    if (!body.complete) throw new Error("the body was cut short");
    return bytes >= 3 * letters.length && head.equals(letters) && tail.equals(letters)
      ? { bytes, hash: hash.digest("hex") }
      : malformed("The body is no whole Parquet file: it begins and ends with PAR1.");
  }
  private async holds(file: string, { bytes, hash }: { bytes: number; hash: string }): Promise<boolean> {
    const found = this.find(file);
    if (found?.bytes !== bytes) {
      found?.close();
      return false;
    }
    const known = createHash("sha256");
    for await (const piece of found.read() as AsyncIterable<Buffer>) known.update(piece);
    return known.digest("hex") === hash;
  }
  /** Makes the folders of a file that are not there, and gives those it made, the innermost first. */
  private makeFolders(file: string): string[] {
    const made: string[] = [];
    for (const part of ["bench", dirname(file)]) {
      const path = join(this.folder, part);
      if (isThere(path)) continue;
      mkdirSync(path);
      made.unshift(path);
    }
    return made;
  }
  private isInside(file: string): boolean {
    try {
      return realpathSync(join(this.folder, file)).startsWith(this.folder + sep);
    } catch {
      return false;
    }
  }
  private sweep(): void {
    for (const trial of inner(join(this.folder, "bench"))) {
      if (!this.isInside(`bench/${trial}`)) continue;
      const folder = join(this.folder, "bench", trial);
      for (const one of inner(folder)) if (leftOver.test(one)) remove(join(folder, one));
    }
  }
}

const malformed = (words: string): NotKept => ({ status: 400, code: "malformed", words });
const exists = (words: string): NotKept => ({ status: 409, code: "exists", words });

/** Gives a whole file its name; false where there is one of that name. A second name is given before the first is taken away, so none is lost. */
function putNew(temporary: string, path: string): boolean {
  try {
    linkSync(temporary, path);
    return true;
  } catch (e) {
    if ((e as NodeJS.ErrnoException).code === "EEXIST") return false;
  }
  // Disks without second names: looked at and renamed at once, which is safe against everything that this process does.
  if (isThere(path)) return false;
  renameSync(temporary, path);
  return true;
}
/** Whether something has that name, be it a link that leads nowhere. */
function isThere(path: string): boolean {
  try {
    lstatSync(path);
    return true;
  } catch {
    return false;
  }
}
/** Names in a folder; none where it is none. */
function inner(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // It may not be removed just now; the next start tries again.
  }
}
function removeEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // Somebody has put something there.
  }
}
