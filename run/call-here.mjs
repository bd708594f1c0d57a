// Commands called one after another in one process. A call on its own spends most of its time getting warm, and weighs the example's record
// anew each time; what it prints is the same either way (packages/cli/src/program.test.ts).
import { MessageChannel, receiveMessageOnPort, Worker } from "node:worker_threads";

/**
 * @typedef {object} Called
 * @property {number} code exit code
 * @property {string} out what was printed on stdout
 * @property {string} err on stderr
 */
/** @type {{ post: (words: readonly string[]) => void, answer: () => Called } | undefined} */
let host;

/**
 * Calls the built command in the folder this process is in and waits for it. Not for calls that share their work among threads, are
 * interrupted or serve: these have a process to themselves.
 * @param {readonly string[]} words
 * @returns {Called}
 */
export function callHere(words) {
  host ??= startHost();
  host.post(words);
  return host.answer();
}

function startHost() {
  const { port1, port2 } = new MessageChannel();
  const bell = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(new URL("./call-here-worker.mjs", import.meta.url), {
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
    post: (/** @type {readonly string[]} */ words) => {
      Atomics.store(bell, 0, 0);
      port1.postMessage(words);
    },
    answer: () => {
      Atomics.wait(bell, 0, 0);
      const { message } = receiveMessageOnPort(port1) ?? { message: { code: -1, out: "", err: "no answer" } };
      return message;
    },
  };
}
