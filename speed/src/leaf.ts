import { spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Counterface, Leaf, type LeafShape, type Pressed } from "@tapeworthy/core";
import { plainCantilever } from "./leaf-plain.ts";
import { inTurn, type Measured, machine, median, timed } from "./measure.ts";
import { type Kind, kinds, type RandomLeaf, randomLeaf } from "./random-leaf.ts";
import { type Opinion, secondOpinion } from "./second-opinion.ts";

const mm = 1e-3;
const strip: LeafShape = { length: 20 * mm, thickness: 0.2 * mm, width: 5 * mm, E: 200e9, nu: 0.3, bends: "beam" };
const up = { kind: "nose", normal: [0, 1] } as const;
const pin = { kind: "pin", at: [15 * mm, -1.1 * mm], radius: mm, side: "below", direction: [0, 1] } as const;
const drum = { kind: "cylinder", at: [0, -40 * mm], radius: 39.9 * mm, side: "below", direction: [0, 1] } as const;

const must = (pressed: Pressed): Pressed => {
  if (pressed.outcome !== "solved") throw new Error(pressed.because);
  return pressed;
};
/** Solves a second, from the median of five rounds. */
function perSecond(times: number, once: (i: number) => void): number {
  const rounds = Array.from({ length: 5 }, () =>
    timed(() => {
      for (let i = 0; i < times; i++) once(i);
    }),
  );
  return Math.round(times / median(rounds));
}
/** Cold: a leaf made anew for each solve. Warm: one leaf led along a sweep of small steps. */
function rates(): Record<string, number> {
  const cold = (face: Counterface, stroke: number) => (): void => void must(new Leaf(strip).press(face, stroke));
  const warm = new Leaf(strip);
  const warmWrap = new Leaf(strip);
  must(warmWrap.press(drum, 0, { load: { y: -1 } }));
  const swing = (i: number): number => 0.5 * (1 + Math.sin(0.05 * i));
  return {
    "free, P L^2/EI 2, cold": perSecond(200, () => void must(new Leaf(strip).load({ y: -3.333 }))),
    "nose on a flat, 0.3 L, cold": perSecond(200, cold(up, 6 * mm)),
    "pin under the leaf, 0.2 L, cold": perSecond(200, cold(pin, 4 * mm)),
    "wrap on a cylinder, cold": perSecond(50, () => void must(new Leaf(strip).press(drum, 0, { load: { y: -1.5 } }))),
    "nose on a flat, warm sweep": perSecond(400, (i) => void must(warm.press(up, (4 + 2 * swing(i)) * mm))),
    "wrap on a cylinder, warm sweep": perSecond(
      100,
      (i) => void must(warmWrap.press(drum, 0, { load: { y: -1 - 0.5 * swing(i) } })),
    ),
    "free, anticlastic factor, cold": perSecond(
      200,
      () => void must(new Leaf({ ...strip, bends: "strip" }).load({ y: -3.333 })),
    ),
  };
}

/** The same leaf as a deck of shell elements, where a finite-element program named ccx is on the path. */
function peer(): string | Record<string, unknown> {
  const deck = fileURLToPath(new URL("../../validation/independent/ccx/leaf1.inp", import.meta.url));
  if (spawnSync("ccx", ["-v"]).error) return "skipped: no ccx on the path";
  const folder = mkdtempSync(join(tmpdir(), "leaf-"));
  try {
    copyFileSync(deck, join(folder, "leaf1.inp"));
    const seconds = timed(() => void spawnSync("ccx", ["leaf1"], { cwd: folder }));
    const shape: LeafShape = { ...strip, bends: "strip" };
    const ours = median(
      Array.from({ length: 5 }, () => timed(() => void must(new Leaf(shape).load({ y: 4.1666667 })))),
    );
    return { deck: "leaf1, 80 shell elements", seconds, ours, ratio: ours / seconds };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export interface Tally {
  readonly kind: Kind;
  readonly asked: number;
  readonly solved: number;
  /** Answered with a state of more than 5 % strain, or with a reason why no state holds. */
  readonly overstrained: number;
  readonly noEquilibrium: number;
  readonly notSolved: number;
  readonly inOneStep: number;
  readonly iterations: { readonly median: number; readonly p95: number };
  /** Of the states that were judged a second time: how many, the worst of each measure, and how many fail. */
  readonly judged: number;
  readonly worst: Opinion;
  readonly wrong: readonly number[];
}
/** Limits of the second opinion: the drawn line leaves the nodes by a hundredth of the length; a press leans by a fiftieth of itself. */
export const accepts = (o: Opinion): boolean => o.apart < 1e-2 && o.left < 5e-3 && o.gap < 1e-3 && o.lean < 2e-2;

/** Random leaves of one kind, each asked for its whole stroke in one go; every `every`-th state is judged a second time. */
export function tally(kind: Kind, asked: number, every: number, full = false): Tally {
  const iterations: number[] = [];
  const wrong: number[] = [];
  let worst: Opinion = { apart: 0, left: 0, gap: 0, lean: 0 };
  const counts = { solved: 0, overstrained: 0, "no equilibrium": 0, "not solved": 0 };
  let inOneStep = 0;
  let judged = 0;
  for (let seed = 1; seed <= asked; seed++) {
    const one: RandomLeaf = randomLeaf(kind, seed, 40, full);
    const pressed = new Leaf(one.shape).press(one.faces, one.stroke, one.more);
    counts[pressed.outcome]++;
    if (pressed.outcome !== "solved") continue;
    iterations.push(pressed.iterations);
    if (pressed.steps === 1) inOneStep++;
    if (counts.solved % every !== 0) continue;
    judged++;
    const o = secondOpinion(one, pressed);
    worst = {
      apart: Math.max(worst.apart, o.apart),
      left: Math.max(worst.left, o.left),
      gap: Math.max(worst.gap, o.gap),
      lean: Math.max(worst.lean, o.lean),
    };
    if (!accepts(o)) wrong.push(seed);
  }
  iterations.sort((a, b) => a - b);
  const p = (share: number): number => iterations[Math.floor(share * (iterations.length - 1))] ?? 0;
  return {
    kind,
    asked,
    solved: counts.solved,
    overstrained: counts.overstrained,
    noEquilibrium: counts["no equilibrium"],
    notSolved: counts["not solved"],
    inOneStep,
    iterations: { median: p(0.5), p95: p(0.95) },
    judged,
    worst,
    wrong,
  };
}

/** One cantilever against its plain solution, then rates of other tasks, then two thousand random leaves. */
export function measureLeaf(): Measured {
  const EI = (200e9 * 5 * mm * (0.2 * mm) ** 3) / 12;
  const load = { x: 0, y: (-2 * EI) / (20 * mm) ** 2 };
  const plain = () => plainCantilever(40, 20 * mm, EI, 200e9 * 5 * mm * 0.2 * mm, load);
  const ours = new Leaf(strip).load(load);
  const apart = ours.outcome === "solved" ? Math.abs(ours.tip.y - plain().tip.y) / (20 * mm) : Number.NaN;
  const eight = (once: () => void) => (): void => {
    for (let i = 0; i < 8; i++) once();
  };
  const run = inTurn(
    11,
    eight(() => void must(new Leaf(strip).load(load))),
    eight(() => void plain()),
  );
  const random = kinds.map((kind) => tally(kind, 400, 9));
  const hard = kinds.map((kind) => tally(kind, 400, Number.POSITIVE_INFINITY, true));
  const all = (tallies: readonly Tally[]) => {
    const sum = (of: (t: Tally) => number): number => tallies.reduce((total, t) => total + of(t), 0);
    return {
      asked: sum((t) => t.asked),
      answered: 1 - sum((t) => t.notSolved) / sum((t) => t.asked),
      solved: sum((t) => t.solved),
      overstrained: sum((t) => t.overstrained),
      noEquilibrium: sum((t) => t.noEquilibrium),
      notSolved: sum((t) => t.notSolved),
      judged: sum((t) => t.judged),
      wrong: sum((t) => t.wrong.length),
    };
  };
  return {
    name: "leaf",
    ...run,
    against:
      "the same cantilever of 40 elements by plain Newton iteration on objects with a full matrix, in the same run",
    machine: machine(),
    apart,
    solvesPerSecond: rates(),
    peer: peer(),
    random,
    randomAll: all(random),
    randomAtFullStroke: all(hard),
    why: "banded equations of half width 5 in flat arrays cost n where a full matrix costs n^3; carried forces need a few iterations where plain ones may need many",
  };
}
