// The thread behind call-here.ts: takes one call at a time and answers with what it printed and its exit code.
import { type MessagePort, workerData } from "node:worker_threads";
import type { Called } from "./call-here.ts";
import { call } from "./program.ts";

const { port, bell } = workerData as { readonly port: MessagePort; readonly bell: Int32Array };
let [out, err] = ["", ""];
process.stdout.write = (text: string | Uint8Array): boolean => {
  out += String(text);
  return true;
};
process.stderr.write = (text: string | Uint8Array): boolean => {
  err += String(text);
  return true;
};

port.on("message", async (words: readonly string[]) => {
  [out, err] = ["", ""];
  let code: number;
  try {
    code = await call(words);
  } catch (e) {
    // As the command by itself: a crash must not look like a verdict.
    code = 70;
    err += e instanceof Error ? e.stack : String(e);
  }
  port.postMessage({ code, out, err } satisfies Called);
  Atomics.store(bell, 0, 1);
  Atomics.notify(bell, 0);
});
