import type { ColumnMapping, Wish } from "@tapeworthy/project";
import type {
  FromLog,
  KeepHow,
  KeepPlan,
  Lane,
  LogFile,
  LogJob,
  LogLook,
  LogResult,
  MapAsked,
  Outcome,
  PlateauView,
  ReadProgress,
  RunView,
  Settled,
  ToLog,
  TrialAbout,
} from "./log-protocol.ts";

export type * from "./log-protocol.ts";

/** A thread that works at logs, or what stands for one. */
export interface LogThread {
  post(message: ToLog): void;
  hear(heard: (message: FromLog) => void): void;
  close(): void;
}
/** A thread of its own: a log of a million rows leaves the page as quick as before. */
function workerThread(): LogThread {
  const worker = new Worker(new URL("./log.worker.ts", import.meta.url), { type: "module", name: "log" });
  return {
    post: (message) => worker.postMessage(message),
    hear(heard) {
      worker.onmessage = ({ data }: MessageEvent<FromLog>) => heard(data);
      // Without an id: whatever waits will not be answered.
      worker.onerror = ({ message }) => heard({ id: -1, bug: message });
    },
    close: () => worker.terminate(),
  };
}

interface Waiting {
  resolve(outcome: Outcome<unknown>): void;
  reject(e: Error): void;
  progress(progress: ReadProgress): void;
}

/**
 * The page's way to logs. Every call is answered, in order: with what was worked out, with what is wrong, or that it was stopped. It rejects for a
 * fault of ours alone. The thread begins with the first call.
 */
export class LogPort {
  private readonly start: () => LogThread;
  private thread: LogThread | undefined;
  private readonly waiting = new Map<number, Waiting>();
  private count = 0;

  constructor(start: () => LogThread = workerThread) {
    this.start = start;
  }
  /** Reads a log and proposes what its columns are. */
  read(
    file: LogFile,
    about: TrialAbout,
    wish: Wish = {},
    progress: (progress: ReadProgress) => void = () => {},
  ): Promise<Outcome<LogLook>> {
    return this.ask({ do: "read", file, about, wish }, progress);
  }
  /** What comes out of the log read last, with some of its columns as the user wants them; `width` in pixels. */
  map(wishes: readonly ColumnMapping[], asked: MapAsked, width: number): Promise<Outcome<LogResult>> {
    return this.ask({ do: "map", wishes, asked, width });
  }
  /** Files and edit that keep the log mapped last, between the flags it was mapped with; nothing is written. */
  plan(how: KeepHow, about: TrialAbout): Promise<Outcome<KeepPlan>> {
    return this.ask({ do: "plan", how, about });
  }
  /** Opens a run that was kept, from the bytes of its raw rows. */
  open(file: string, bytes: Uint8Array, about: TrialAbout, run: number, width: number): Promise<Outcome<RunView>> {
    return this.ask({ do: "open", file, bytes, about, run, width });
  }
  /** The statistics between other flags, SI, of what was mapped or opened last. May be called with every move of a hand. */
  plateau(from: number, to: number): Promise<Outcome<PlateauView>> {
    return this.ask({ do: "plateau", from, to });
  }
  /** The lines again, of a stretch or for another width. */
  lanes(from: number, to: number, width: number): Promise<Outcome<readonly Lane[]>> {
    return this.ask({ do: "lanes", from, to, width });
  }
  /** The edit that puts flags which rest, and the statistics between them, into the trial of the run opened last. */
  settle(from: number, to: number, about: TrialAbout): Promise<Outcome<Settled>> {
    return this.ask({ do: "settle", from, to, about });
  }
  /** Everything under way ends at its next piece. */
  stop(): void {
    this.thread?.post({ stop: true });
  }
  close(): void {
    this.thread?.close();
    this.thread = undefined;
    for (const { resolve } of this.waiting.values()) resolve({ stopped: true });
    this.waiting.clear();
  }

  private ask<T>(job: LogJob, progress: (progress: ReadProgress) => void = () => {}): Promise<Outcome<T>> {
    if (!this.thread) {
      this.thread = this.start();
      this.thread.hear((message) => this.heard(message));
    }
    const id = ++this.count;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve: resolve as Waiting["resolve"], reject, progress });
      this.thread!.post({ ...job, id });
    });
  }
  private heard(message: FromLog): void {
    if ("bug" in message) {
      const bug = new Error(`${message.bug}; please report this with the log`);
      for (const [id, { reject }] of [...this.waiting])
        if (id === message.id || message.id < 0) {
          this.waiting.delete(id);
          reject(bug);
        }
      return;
    }
    const one = this.waiting.get(message.id);
    if ("progress" in message) one?.progress(message.progress);
    else {
      this.waiting.delete(message.id);
      one?.resolve(message.outcome);
    }
  }
}
