import { type FSWatcher, watch } from "node:fs";
import { join } from "node:path";
import { projectFolders } from "@tapeworthy/project";

/** Calls back soon after something stirs in a project's folder; and now and then anyway, since not every disk tells. */
export class Watcher {
  private readonly watchers = new Map<string, FSWatcher>();
  private readonly timer: NodeJS.Timeout;
  private soon: NodeJS.Timeout | undefined;
  private readonly folder: string;
  private readonly stirred: () => void;
  private readonly calm: number;

  /** Waits `calm` ms after the last sign; looks every `every` ms without one. */
  constructor(folder: string, stirred: () => void, calm: number, every: number) {
    this.folder = folder;
    this.stirred = stirred;
    this.calm = calm;
    this.watchAll();
    this.timer = setInterval(() => {
      this.watchAll();
      this.stirred();
    }, every);
    this.timer.unref();
  }
  /** Calls back once more, in `after` ms. */
  again(after: number): void {
    this.soon ??= setTimeout(() => {
      this.soon = undefined;
      this.watchAll();
      this.stirred();
    }, after).unref();
  }
  close(): void {
    clearInterval(this.timer);
    clearTimeout(this.soon);
    for (const one of this.watchers.values()) one.close();
    this.watchers.clear();
  }
  private forget(inner: string): void {
    this.watchers.get(inner)?.close();
    this.watchers.delete(inner);
  }
  private watchAll(): void {
    for (const inner of ["", ...projectFolders]) {
      if (this.watchers.has(inner)) continue;
      try {
        const one = watch(join(this.folder, inner), { persistent: false }, (_, name) => {
          // A folder that went or came back has to be watched anew; in our own corner nothing is of interest.
          if (inner === "" && projectFolders.some((one) => one === name)) this.forget(name!);
          if (name !== ".tapeworthy") this.again(this.calm);
        });
        one.on("error", () => this.forget(inner));
        this.watchers.set(inner, one);
      } catch {
        // The folder is not there, or the system has no watchers left: then looking now and then is all there is.
      }
    }
  }
}
