import { availableParallelism, cpus } from "node:os";
import { Worker } from "node:worker_threads";
import { Doer, type Done, type Job, type Start } from "./job.ts";

const processors = (): number => (typeof availableParallelism === "function" ? availableParallelism() : cpus().length);

/**
 * Does jobs on several threads. Results come back in the order of the jobs, whatever the number of workers; each job depends on its own
 * data and the seed alone. One worker, or few jobs, means no thread at all.
 */
export async function doAll(
  start: Start,
  jobs: readonly Job[],
  workers: number | undefined,
  progress: (done: number, of: number) => void,
): Promise<Done[]> {
  const wanted = Math.max(1, Math.min(workers ?? processors(), jobs.length));
  if (wanted === 1) {
    const doer = new Doer(start);
    const out: Done[] = [];
    for (const job of jobs) {
      out.push(doer.do(job));
      progress(out.length, jobs.length);
      // Lets a progress line and an interrupt through.
      await new Promise((resolve) => setImmediate(resolve));
    }
    return out;
  }
  const results: (Done | undefined)[] = jobs.map(() => undefined);
  let next = 0;
  let finished = 0;
  await Promise.all(
    Array.from({ length: wanted }, () => {
      const worker = new Worker(new URL("./worker.js", import.meta.url), { workerData: start });
      return new Promise<void>((resolve, reject) => {
        const give = (): void => {
          if (next >= jobs.length) {
            void worker.terminate().then(() => resolve());
            return;
          }
          const id = next++;
          worker.postMessage({ id, job: jobs[id] });
        };
        worker.on("message", (message: { id: number; done?: Done; fault?: string }) => {
          if (!message.done) {
            void worker.terminate();
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
  return results as Done[];
}
