import { parentPort, workerData } from "node:worker_threads";
import { Doer, type Job, type Start } from "./job.ts";

const doer = new Doer(workerData as Start);
parentPort!.on("message", ({ id, job }: { id: number; job: Job }) => {
  try {
    parentPort!.postMessage({ id, done: doer.do(job) });
  } catch (e) {
    parentPort!.postMessage({ id, fault: e instanceof Error ? (e.stack ?? e.message) : String(e) });
  }
});
