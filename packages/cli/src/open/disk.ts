import {
  accessSync,
  closeSync,
  constants,
  type Dirent,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  statSync,
  unlinkSync,
} from "node:fs";
import { dirname, join, sep } from "node:path";
import { isProjectPath, projectFolders } from "@tapeworthy/project";
import { writeWhole } from "../folder.ts";

/** A file of the project as it lies on disk. */
export interface DiskFile {
  /** Undefined where it cannot be read. */
  readonly text: string | undefined;
  /** Why it is not written from here. */
  readonly locked?: string;
}

const longest = 1_000_000;
/** Files changed so lately are read again though they look the same: some disks count time in steps of two seconds. */
const lately = 3000;

/** The text files of a project folder: looked at often, written whole, and never over somebody else's text. */
export class Disk {
  private readonly folder: string;
  private seen = new Map<string, { readonly mark: string; readonly file: DiskFile }>();
  constructor(folder: string) {
    this.folder = realpathSync(folder);
  }
  path(file: string): string {
    return join(this.folder, file);
  }
  /** All files, by path in the folder; undefined where the folder itself cannot be seen just now. */
  look(): ReadonlyMap<string, DiskFile> | undefined {
    const names = this.names();
    if (!names) return undefined;
    const before = this.seen;
    this.seen = new Map();
    const files = new Map<string, DiskFile>();
    for (const file of names) {
      const one = this.read(file, before.get(file));
      if (!one) continue;
      this.seen.set(file, one);
      files.set(file, one.file);
    }
    return files;
  }
  /** Whether a file holds just this text now, whatever was seen before; undefined: whether there is none. */
  holds(file: string, text: string | undefined): boolean {
    const found = this.read(file, undefined);
    return found ? text !== undefined && found.file.text === text : text === undefined;
  }
  /** Puts a text in the place of the one that was there; false, and nothing done, where another one is there now. */
  write(file: string, text: string, before: string | undefined): boolean {
    if (!this.holds(file, before)) return false;
    const path = this.path(file);
    const inner = dirname(path);
    if (existsSync(inner) && !isWithin(this.folder, realpathSync(inner)))
      throw new Error(`${dirname(file)} is a link that leads out of the folder`);
    // A link within the folder stays one.
    const target = before === undefined ? path : realpathSync(path);
    const written = writeWhole(target, text, () => this.holds(file, before));
    if (written) settleFolder(dirname(target));
    return written;
  }
  /** Puts a file that is no text of the project where there is none; what is there stays. */
  add(file: string, bytes: Uint8Array): void {
    const path = this.path(file);
    for (let inner = dirname(path); inner !== this.folder; inner = dirname(inner))
      if (existsSync(inner) && !isWithin(this.folder, realpathSync(inner)))
        throw new Error(`${dirname(file)} lies behind a link that leads out of the folder`);
    if (!existsSync(path)) writeWhole(path, bytes, () => !existsSync(path));
  }
  /** Removes a file; false, and nothing done, where it holds another text by now. */
  remove(file: string, before: string): boolean {
    if (!this.holds(file, before)) return false;
    unlinkSync(this.path(file));
    settleFolder(dirname(this.path(file)));
    return true;
  }
  /** Removes what a process that was killed in the middle of writing has left. */
  sweep(process: number): void {
    for (const inner of ["", ...projectFolders])
      for (const { name } of entries(join(this.folder, inner)) ?? []) {
        const file = name.endsWith(`.${process}.tmp`) ? join(inner, name.slice(0, -`.${process}.tmp`.length)) : "";
        if (isProjectPath(file.replaceAll(sep, "/"))) unlinkSync(join(this.folder, inner, name));
      }
  }

  private names(): string[] | undefined {
    const root = entries(this.folder);
    if (!root) return undefined;
    const inner = projectFolders.flatMap((folder) =>
      (entries(join(this.folder, folder)) ?? []).map(({ name }) => `${folder}/${name}`),
    );
    return [...root.map(({ name }) => name), ...inner].filter(isProjectPath).sort();
  }
  private read(
    file: string,
    before: { readonly mark: string; readonly file: DiskFile } | undefined,
  ): { readonly mark: string; readonly file: DiskFile } | undefined {
    const path = this.path(file);
    try {
      const stat = statSync(path, { bigint: true });
      if (!stat.isFile()) return undefined;
      const isOld = Date.now() - Number(stat.mtimeMs) > lately;
      const mark = isOld ? `${stat.dev} ${stat.ino} ${stat.size} ${stat.mtimeNs} ${stat.ctimeNs} ${stat.mode}` : "";
      if (before && mark !== "" && mark === before.mark) return before;
      return { mark, file: this.readNow(path, file, Number(stat.size)) };
    } catch (e) {
      if (isGone(e)) return undefined;
      // Somebody holds it just now: it counts as it was.
      return (
        before ?? { mark: "", file: { text: undefined, locked: `${file} cannot be read: ${(e as Error).message}` } }
      );
    }
  }
  private readNow(path: string, file: string, size: number): DiskFile {
    if (size > longest)
      return { text: undefined, locked: `${file} is ${size} bytes long; files of more than ${longest} are not shown.` };
    const bytes = readFileSync(path);
    const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
    const locked = (why: string): DiskFile => ({ text, locked: `${file} ${why}` });
    if (!Buffer.from(text, "utf8").equals(bytes))
      return locked("is no UTF-8 text; save it as UTF-8 to change it here.");
    if (!isWithin(this.folder, realpathSync(path)))
      return locked("is a link that leads out of the folder; change it where it lies.");
    try {
      accessSync(path, constants.W_OK);
    } catch {
      return locked("is write-protected.");
    }
    return { text };
  }
}

function entries(folder: string): Dirent[] | undefined {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return undefined;
  }
}
const isWithin = (folder: string, path: string): boolean => path === folder || path.startsWith(folder + sep);
const isGone = (e: unknown): boolean => ["ENOENT", "ENOTDIR"].includes((e as NodeJS.ErrnoException).code ?? "");

/** Makes a rename in a folder last through a power cut, where the system can do that. */
export function settleFolder(folder: string): void {
  try {
    const handle = openSync(folder, "r");
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    // Not every system opens a folder; there the rename is as safe as it gets.
  }
}
