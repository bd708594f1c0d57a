import type { Given } from "../quantity/given.ts";
import { blockSize, mixed } from "./deviates.ts";
import type { Inputs } from "./inputs.ts";
import { normalScores } from "./normal-score.ts";

/** uniform: in (0, 1). even: in (-1, 1). normal: normal score of one uniform number. ziggurat: normal, from as many numbers as it takes. */
export type DrawnLaw = "uniform" | "even" | "normal" | "ziggurat";

/**
 * Draws of many inputs block by block, for studies of millions of draws: the same promise as `Deviates` (seed, address and number of the draw
 * alone decide it; a block of 4096 has a stream of its own), but nothing is kept: each piece of a block is written into a column at hand.
 *
 * xoshiro128++ (Blackman & Vigna 2021; memory), seeded from three mixes of seed, block and address: shifts and exclusive ors, which the engine
 * runs in half the time of generators that add. A number has 32 bits: the normal score ends at 6.4. The ziggurat is Marsaglia and Tsang's of 128 layers (2000; memory), with the layer from a word of its own
 * (Doornik 2005; memory). Its draws are no function of one uniform number: plain streams only, no Sobol' points.
 */
export class DrawnStream {
  /** Four words of state. */
  private readonly state = new Int32Array(4);
  constructor(seed: number, address: string, block: number) {
    const start = mixed(seed, `draws ${block} `);
    this.state.set([mixed(start, address), mixed(start ^ 0x2545f491, address), mixed(start ^ 0x3c6ef372, address), 1]);
    for (let i = 0; i < 12; i++) this.word();
  }
  /** The next n draws of the block. */
  fill(law: DrawnLaw, out: Float64Array, n = out.length): void {
    if (law === "ziggurat") {
      this.ziggurat(out, n);
      return;
    }
    this.uniform(out, n);
    if (law === "even") for (let k = 0; k < n; k++) out[k] = 2 * out[k]! - 1;
    else if (law === "normal") normalScores(out, n);
  }
  private word(): number {
    const { state } = this;
    let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
    const sum = (a + d) | 0;
    const r = (((sum << 7) | (sum >>> 25)) + a) | 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = (d << 11) | (d >>> 21);
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
    return r;
  }
  /** The state in variables of the loop: the engine keeps those in registers. */
  private uniform(out: Float64Array, n: number): void {
    const { state } = this;
    let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
    for (let k = 0; k < n; k++) {
      const sum = (a + d) | 0;
      const r = (((sum << 7) | (sum >>> 25)) + a) | 0;
      const t = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= t;
      d = (d << 11) | (d >>> 21);
      out[k] = r * scale + half;
    }
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
  }
  private ziggurat(out: Float64Array, n: number): void {
    const { state } = this;
    let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
    for (let k = 0; k < n; k++) {
      const sum = (a + d) | 0;
      const h = (((sum << 7) | (sum >>> 25)) + a) | 0;
      const t = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= t;
      d = (d << 11) | (d >>> 21);
      const next = (a + d) | 0;
      const w = (((next << 7) | (next >>> 25)) + a) | 0;
      const u = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= u;
      d = (d << 11) | (d >>> 21);
      const i = w & (layers - 1);
      const x = h * width[i]!;
      if (Math.abs(x) < edge[i]!) {
        out[k] = x;
        continue;
      }
      state[0] = a;
      state[1] = b;
      state[2] = c;
      state[3] = d;
      out[k] = this.beside(h, i);
      a = state[0]!;
      b = state[1]!;
      c = state[2]!;
      d = state[3]!;
    }
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
  }
  /** Where the point is not inside its layer's box: between box and curve, or in the tail. */
  private beside(first: number, layer: number): number {
    let [h, i] = [first, layer];
    for (;;) {
      const inBox = h * width[i]!;
      if (Math.abs(inBox) < edge[i]!) return inBox;
      if (i === 0) {
        let [x, y] = [0, 0];
        do {
          x = -Math.log(this.next()) / tail;
          y = -Math.log(this.next());
        } while (y + y < x * x);
        return h > 0 ? tail + x : -tail - x;
      }
      if (height[i]! + this.next() * (height[i - 1]! - height[i]!) < Math.exp(-0.5 * inBox * inBox)) return inBox;
      h = this.word();
      i = this.word() & (layers - 1);
    }
  }
  private next(): number {
    return this.word() * scale + half;
  }
}
/** From a signed word to the middle of its 2^-32 part of (0, 1). */
const scale = 2 ** -32;
const half = 0.5 + 2 ** -33;

const layers = 128;
/** Where the tail begins, and the area of a layer. */
const [tail, area] = [3.442619855899, 9.91256303526217e-3];
/** Up to where a layer's box lies under the curve, its width over 2^31, and the height of its upper right corner. */
const edge = new Float64Array(layers);
const width = new Float64Array(layers);
const height = new Float64Array(layers);
{
  const density = (x: number) => Math.exp(-0.5 * x * x);
  let x = tail;
  const base = area / density(x);
  // The lowest layer is the box up to the tail and the tail, as wide as a box of its area.
  width[0] = base / 2 ** 31;
  edge[0] = x;
  width[layers - 1] = x / 2 ** 31;
  height[0] = 1;
  height[layers - 1] = density(x);
  for (let i = layers - 2; i >= 1; i--) {
    x = Math.sqrt(-2 * Math.log(area / x + density(x)));
    edge[i + 1] = x;
    height[i] = density(x);
    width[i] = x / 2 ** 31;
  }
}

/**
 * Blocks of n draws shared out among workers: for each worker the first block and the one after its last. Every block goes to one worker, and
 * what is drawn in it hangs on its number alone: any number of workers gives the same bits, as long as the blocks' results are put together
 * in their order.
 */
export function blocksOf(n: number, workers: number): readonly { readonly from: number; readonly to: number }[] {
  const blocks = Math.ceil(n / blockSize);
  const each = Math.max(1, Math.min(workers, blocks));
  return Array.from({ length: each }, (_, w) => ({
    from: Math.floor((w * blocks) / each),
    to: Math.floor(((w + 1) * blocks) / each),
  })).filter(({ from, to }) => to > from);
}
/** How many draws of n stand in a block. */
export const inBlock = (n: number, block: number): number => Math.max(0, Math.min(blockSize, n - block * blockSize));

/** Draws evaluated at once: a dozen columns of so many stay in the processor's nearer memory. */
const piece = 1024;
const columnsOf = new WeakMap<Inputs, readonly Float64Array[]>();
function columnsFor(inputs: Inputs): readonly Float64Array[] {
  const known = columnsOf.get(inputs) ?? inputs.axes.map(() => new Float64Array(piece));
  columnsOf.set(inputs, known);
  return known;
}
/**
 * One block of draws of a scene's inputs, evaluated piece by piece. `visit` gets the quantities' columns and how many of their values count: the
 * last piece is drawn whole, so that a costly model stands there as it does in the others.
 */
export function drawBlock(
  inputs: Inputs,
  { seed, block, n }: { readonly seed: number; readonly block: number; readonly n: number },
  visit: (of: ReturnType<Inputs["run"]>, count: number) => void,
  more: { readonly normal?: "normal" | "ziggurat"; readonly belief?: (given: Given) => number } = {},
): void {
  const { normal = "normal", belief } = more;
  const streams = inputs.axes.map(
    ({ given, which, level }) => new DrawnStream(seed, `scatter ${level} ${given.address}#${which}`, block),
  );
  const columns = columnsFor(inputs);
  for (let done = 0, size = inBlock(n, block); done < size; done += piece) {
    streams.forEach((stream, i) => {
      stream.fill(inputs.even[i] ? "even" : normal, columns[i]!);
    });
    visit(inputs.runOwn(piece, columns, belief), Math.min(piece, size - done));
  }
}
