import { MessageChannel, receiveMessageOnPort, Worker } from "node:worker_threads";

/** What a call came to. */
export interface Called {
  /** Exit code; 70 where the program itself was at fault. */
  readonly code: number;
  /** What was printed on stdout. */
  readonly out: string;
  /** On stderr. */
  readonly err: string;
}
interface Host {
  readonly post: (words: readonly string[]) => void;
  readonly answer: () => Called;
}
let host: Host | undefined;
/** A call takes a minute or two on a machine that is busy, ms. */
const longest = 20 * 60_000;

/**
 * Calls the command in the folder this process is in, waits for it and gives what it printed; one call after another in one thread of one process.
 * For tests and pages, whose calls are many: on its own each would get warm and weigh the example's record anew. What is printed is the same
 * either way (program.test.ts). Not for calls that are interrupted or serve: these have a process to themselves.
 */
export function callHere(words: readonly string[]): Called {
  host ??= startHost();
  host.post(words);
  return host.answer();
}

function startHost(): Host {
  const { port1, port2 } = new MessageChannel();
  const bell = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(new URL("./call-here-worker.js", import.meta.url), {
    workerData: { port: port2, bell },
    transferList: [port2],
    execArgv: [],
    stdout: true,
    stderr: true,
  });
  // It waits for calls as long as this process lives, and does not keep it alive.
  worker.unref();
  port1.unref();
  return {
    post: (words) => {
      Atomics.store(bell, 0, 0);
      port1.postMessage(words);
    },
    answer: () => {
      // A thread that fell could not ring: nobody waits for it without end.
      if (Atomics.wait(bell, 0, 0, longest) === "timed-out") throw new Error("a call was not answered");
      return (receiveMessageOnPort(port1) as { message: Called }).message;
    },
  };
}
