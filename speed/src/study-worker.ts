import { parentPort } from "node:worker_threads";
import { blocksOf } from "@tapeworthy/core";
import { chain, runBlocks } from "./pick-chain.ts";

/** One of several workers of the pick chain: warms up, then draws the blocks it is told to. */
export interface Work {
  readonly n: number;
  readonly seed: number;
  readonly part: { readonly from: number; readonly to: number };
}
const inputs = chain();
runBlocks("normal", 1 << 17, 1, blocksOf(1 << 17, 1)[0]!, inputs);
parentPort?.on("message", ({ n, seed, part }: Work) => {
  parentPort?.postMessage(runBlocks("normal", n, seed, part, inputs));
});
parentPort?.postMessage("ready");
