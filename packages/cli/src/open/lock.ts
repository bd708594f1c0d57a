import { randomBytes } from "node:crypto";
import { readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { dirname, join } from "node:path";
import { CallError } from "../folder.ts";

interface Holder {
  readonly process: number;
  readonly computer: string;
  /** When the process began, as its system tells it; numbers of processes come again. */
  readonly began: string;
}
/** Locks that this very process holds: another server within it is as much another as any. */
const held = new Set<string>();
const attempts = 12;

/**
 * Says that one server has a folder. Each puts a file of its own there and then looks for others: of any two, the one that came later sees the
 * other. If both see each other both step back, and try again after a while of chance. A file whose process is gone counts for nothing.
 */
export class Lock {
  private readonly path: string;
  private readonly text: string;
  /** Processes that held it before and are gone without letting go. */
  readonly left: readonly number[];
  private constructor(path: string, text: string, left: readonly number[]) {
    this.path = path;
    this.text = text;
    this.left = left;
  }
  /** Takes the lock of a folder. Throws CallError where another server has it. */
  static take(inner: string, folder: string): Lock {
    const me: Holder = { process: process.pid, computer: hostname(), began: beginningOf(process.pid) };
    const text = `${JSON.stringify(me)}\n`;
    const path = join(inner, `lock-${process.pid}-${randomBytes(4).toString("hex")}`);
    for (let attempt = 0; attempt < attempts; attempt++) {
      const holder = others(inner, path).find(({ isAlive }) => isAlive);
      if (holder) throw new CallError(refusal(folder, holder.holder!, holder.path));
      try {
        putWhole(path, text);
      } catch (e) {
        throw new CallError(`"${folder}" cannot be opened: ${(e as Error).message}`);
      }
      const found = others(inner, path);
      if (!found.some(({ isAlive }) => isAlive)) {
        held.add(path);
        for (const dead of found) rmSync(dead.path, { force: true });
        return new Lock(
          path,
          text,
          found.flatMap(({ holder }) => (holder ? [holder.process] : [])),
        );
      }
      rmSync(path, { force: true });
      pause(5 + Math.random() * 20 * (attempt + 1));
    }
    throw new CallError(`"${folder}" is being opened by another process just now.`);
  }
  /** Puts the lock back where somebody has removed it; false where another server has the folder since. */
  renew(): boolean {
    if (others(dirname(this.path), this.path).some(({ isAlive }) => isAlive)) return false;
    putWhole(this.path, this.text);
    return true;
  }
  release(): void {
    held.delete(this.path);
    rmSync(this.path, { force: true });
  }
}

interface Found {
  readonly path: string;
  /** Undefined where the file says nothing that makes sense. */
  readonly holder: Holder | undefined;
  readonly isAlive: boolean;
}
function others(inner: string, mine: string): Found[] {
  return readdirSync(inner)
    .filter((name) => name.startsWith("lock-"))
    .map((name) => join(inner, name))
    .filter((path) => path !== mine)
    .flatMap((path) => {
      const holder = holderIn(path);
      return holder === "gone" ? [] : [{ path, holder, isAlive: holder !== undefined && isAlive(holder, path) }];
    });
}
/** A lock is never seen half written. */
function putWhole(path: string, text: string): void {
  const temporary = path.replace(/lock-([^/\\]*)$/, "new-$1");
  rmSync(temporary, { force: true });
  writeFileSync(temporary, text, { flag: "wx" });
  renameSync(temporary, path);
}
function holderIn(path: string): Holder | undefined | "gone" {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (e) {
    return (e as NodeJS.ErrnoException).code === "ENOENT" ? "gone" : undefined;
  }
  try {
    const { process: id, computer, began } = JSON.parse(text) as Partial<Holder>;
    return Number.isSafeInteger(id) && typeof computer === "string" && typeof began === "string"
      ? { process: id!, computer, began }
      : undefined;
  } catch {
    return undefined;
  }
}
function isAlive({ process: id, computer, began }: Holder, path: string): boolean {
  if (computer !== hostname()) return true;
  if (id === process.pid) return held.has(path);
  try {
    process.kill(id, 0);
  } catch (e) {
    if ((e as NodeJS.ErrnoException).code !== "EPERM") return false;
  }
  return beginningOf(id) === began;
}
/** What tells a process from a later one of the same number, where the system says it; empty elsewhere. */
function beginningOf(id: number): string {
  try {
    const stat = readFileSync(`/proc/${id}/stat`, "utf8");
    const boot = readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim();
    // The name in brackets may hold blanks; the beginning is the 22nd field, the 20th behind the name.
    return `${boot} ${stat.slice(stat.lastIndexOf(")") + 2).split(" ")[19] ?? ""}`;
  } catch {
    return "";
  }
}
/** Waits without letting anything else happen: the command has nothing else to do yet. */
function pause(time: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, time);
}
const refusal = (folder: string, { process: id, computer }: Holder, path: string): string =>
  computer === hostname()
    ? `"${folder}" is open already, in process ${id}. Use its page, or end it there with Ctrl-C.`
    : `"${folder}" is open on the computer "${computer}". If that is not so any more, delete ${path}.`;
