import { LogJobs } from "./log-jobs.ts";
import type { FromLog, ToLog } from "./log-protocol.ts";

const scope = self as unknown as {
  postMessage(message: FromLog, transfer?: Transferable[]): void;
  onmessage: ((event: MessageEvent<ToLog>) => void) | null;
};
// A message to oneself comes after those that wait already, and sooner than any timer.
const { port1, port2 } = new MessageChannel();
const waiting: (() => void)[] = [];
port1.onmessage = () => waiting.shift()?.();

const jobs = new LogJobs((message) => scope.postMessage(message), {
  now: () => performance.now(),
  turn: () =>
    new Promise((resolve) => {
      waiting.push(resolve);
      port2.postMessage(0);
    }),
});
scope.onmessage = ({ data }) => jobs.hear(data);
