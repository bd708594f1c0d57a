import { cpus } from "node:os";

/** What every benchmark prints with --json. Ratios are the message; times are of this machine in this run. */
export interface Measured {
  readonly name: string;
  /** Our time over theirs. */
  readonly ratio: number;
  readonly against: string;
  /** Median seconds of one round. */
  readonly ours: number;
  readonly theirs: number;
  /** Relative spread of the ratio over the rounds: (90 % point - 10 % point) / median. */
  readonly spread: number;
  readonly machine: string;
  readonly [more: string]: unknown;
}

export const machine = (): string =>
  `${process.platform} ${process.arch}, ${cpus().length} x ${cpus()[0]?.model.trim() ?? "unknown"}, Node ${process.version}`;

const sorted = (x: readonly number[]): number[] => [...x].sort((a, b) => a - b);
export const median = (x: readonly number[]): number => at(x, 0.5);
const at = (x: readonly number[], p: number): number => sorted(x)[Math.min(x.length - 1, Math.floor(p * x.length))]!;

/** Seconds of one call. */
export function timed(f: () => void): number {
  const begun = process.hrtime.bigint();
  f();
  return Number(process.hrtime.bigint() - begun) / 1e9;
}

/** Runs ours and theirs in turn, so that what else the machine does falls on both alike. Two rounds warm up. */
export function inTurn(
  rounds: number,
  ours: () => void,
  theirs: () => void,
): { ours: number; theirs: number; ratio: number; spread: number } {
  const a: number[] = [];
  const b: number[] = [];
  for (let i = -2; i < rounds; i++) {
    const x = timed(ours);
    const y = timed(theirs);
    if (i < 0) continue;
    a.push(x);
    b.push(y);
  }
  const ratios = a.map((v, i) => v / b[i]!);
  return {
    ours: median(a),
    theirs: median(b),
    ratio: median(ratios),
    spread: (at(ratios, 0.9) - at(ratios, 0.1)) / median(ratios),
  };
}
