import { availableParallelism, cpus } from "node:os";
import { Worker } from "node:worker_threads";
import { Doer, type Done, type Job, type Start, subjectOf } from "./job.ts";

const processors = (): number => (typeof availableParallelism === "function" ? availableParallelism() : cpus().length);

/**
 * Does jobs on several threads. Results come back in the order of the jobs, whatever the number of workers; each job depends on its own
 * data and the seed alone. One worker, or few jobs, means no thread at all.
 *
 * The crew of the last start stands ready for its next jobs, warm, and does not keep the process alive.
 */
export async function doAll(
  start: Start,
  jobs: readonly Job[],
  workers: number | undefined,
  progress: (done: number, of: number) => void,
): Promise<Done[]> {
  if (!ready || !isSame(ready.start, start)) {
    dismiss();
    ready = new Crew(start);
  }
  const crew = ready;
  const wanted = Math.max(1, Math.min(workers ?? processors(), jobs.length));
  if (wanted === 1 && crew.size === 0) {
    const out: Done[] = [];
    for (const job of jobs) {
      out.push(crew.alone.do(job));
      progress(out.length, jobs.length);
      // Lets a progress line and an interrupt through.
      await new Promise((resolve) => setImmediate(resolve));
    }
    return out;
  }
  return crew.share(jobs, wanted, progress);
}

/** Sends the crew away that stands ready. */
export function dismiss(): void {
  ready?.leave();
  ready = undefined;
}
let ready: Crew | undefined;
const isSame = (a: Start, b: Start): boolean =>
  a.seed === b.seed &&
  a.texts.length === b.texts.length &&
  a.texts.every(([path, text], i) => path === b.texts[i]![0] && text === b.texts[i]![1]);

interface Member {
  readonly worker: Worker;
  /** What it has done jobs about. */
  readonly knows: Set<string>;
}
class Crew {
  readonly start: Start;
  private doer: Doer | undefined;
  private members: Member[] = [];
  constructor(start: Start) {
    this.start = start;
  }
  get alone(): Doer {
    this.doer ??= new Doer(this.start);
    return this.doer;
  }
  get size(): number {
    return this.members.length;
  }
  leave(): void {
    for (const { worker } of this.members) void worker.terminate();
    this.members = [];
  }

  async share(jobs: readonly Job[], wanted: number, progress: (done: number, of: number) => void): Promise<Done[]> {
    while (this.members.length < wanted) {
      const worker = new Worker(new URL("./worker.js", import.meta.url), {
        workerData: this.start,
        // What is built runs by itself, however this process was started.
        execArgv: [],
        // Draws make many short-lived objects: with more room for them they are swept up less often.
        resourceLimits: { maxYoungGenerationSizeMb: 96 },
      });
      this.members.push({ worker, knows: new Set() });
    }
    const results: (Done | undefined)[] = jobs.map(() => undefined);
    const left = jobs.map((job, id) => ({ id, job, subject: subjectOf(job) }));
    let finished = 0;
    try {
      await Promise.all(
        this.members.slice(0, wanted).map(({ worker, knows }) => {
          worker.ref();
          return new Promise<void>((resolve, reject) => {
            const give = (): void => {
              // What it knows comes first, then what nobody does.
              const rank = ({ subject }: { subject: string }): number =>
                knows.has(subject) ? 0 : this.members.some((m) => m.knows.has(subject)) ? 2 : 1;
              const best = Math.min(...left.map(rank));
              const next = left.find((one) => rank(one) === best);
              if (!next) {
                worker.removeAllListeners("message");
                worker.removeAllListeners("error");
                worker.unref();
                resolve();
                return;
              }
              left.splice(left.indexOf(next), 1);
              knows.add(next.subject);
              worker.postMessage({ id: next.id, job: next.job });
            };
            worker.on("message", (message: { id: number; done?: Done; fault?: string }) => {
              if (!message.done) {
                reject(new Error(message.fault));
                return;
              }
              results[message.id] = message.done;
              finished++;
              progress(finished, jobs.length);
              give();
            });
            worker.on("error", reject);
            give();
          });
        }),
      );
    } catch (e) {
      // Others are in the middle of something that nobody waits for any more.
      this.leave();
      throw e;
    }
    return results as Done[];
  }
}
