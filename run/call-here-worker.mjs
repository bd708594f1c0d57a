// The thread behind call-here.mjs: takes one call at a time and answers with what it printed and its exit code.
import { workerData } from "node:worker_threads";
import { call } from "../packages/cli/dist/program.js";

const { port, bell } = workerData;
const said = { out: "", err: "" };
process.stdout.write = (/** @type {string | Uint8Array} */ text) => {
  said.out += String(text);
  return true;
};
process.stderr.write = (/** @type {string | Uint8Array} */ text) => {
  said.err += String(text);
  return true;
};

port.on("message", async (/** @type {string[]} */ words) => {
  said.out = "";
  said.err = "";
  let code;
  try {
    code = await call(words);
  } catch (e) {
    // As the command by itself: a crash must not look like a verdict.
    code = 70;
    said.err += e instanceof Error ? e.stack : String(e);
  }
  port.postMessage({ code, ...said });
  Atomics.store(bell, 0, 1);
  Atomics.notify(bell, 0);
});
