import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type IndexDesign, randomDesign, runIndex, seeded } from "@tapeworthy/core";
import { type Measured, machine, median } from "./measure.ts";

const drives = 500;
const seed = 11;
/** Tolerance as it is used, and thirty times as tight; m. */
const tol = 1e-7;
const tight = 3e-9;
/** Drives that the other integrator gets, for equal error and for the same end. */
const raced = 8;
const compared = 40;

const at = (x: readonly number[], p: number): number =>
  [...x].sort((a, b) => a - b)[Math.min(x.length - 1, Math.floor(p * x.length))]!;
/** Milliseconds of processor time of one call: what else the machine does counts little. */
function busy(f: () => void): number {
  const before = process.cpuUsage();
  f();
  return process.cpuUsage(before).user / 1e3;
}
const endOf = (d: IndexDesign, t: number): number => runIndex(d, { tol: t }).lanes.tape.at(-1)!;

interface Peer {
  readonly x: number;
  readonly ms: number;
}
/** The independent program of validation/: an answer a design, or undefined where python3 or scipy is not there. */
function peers(file: string, rtol: number): Peer[] | undefined {
  const program = fileURLToPath(new URL("../../validation/independent/cycle.py", import.meta.url));
  const done = spawnSync("python3", [program, file, "--rtol", String(rtol), "--seconds", "120"], {
    encoding: "utf8",
    env: { ...process.env, PYTHONDONTWRITEBYTECODE: "1", OMP_NUM_THREADS: "1" },
  });
  if (done.error || done.status !== 0) return undefined;
  return done.stdout
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Peer);
}
/** A design as the independent program reads it. */
const written = (d: IndexDesign) => ({
  ...d,
  wheel: { ...d.wheel, pitch: d.wheel.play.pitch, lo: [...d.wheel.play.lo], hi: [...d.wheel.play.hi] },
});

/**
 * One index of 100 ms over 500 drives drawn at random: time, error of the end against steps thirty times as tight, steps that were not solved.
 * Theirs is scipy's implicit Radau on the same mechanics with smooth friction, at whichever of four tolerances is fastest and errs no more than ours does
 * (its absolute tolerances stay: looser ones make it slower, not faster);
 * where python3 or scipy is missing, our own run at the tight tolerance.
 */
export function measureIndex(): Measured {
  const random = seeded(seed);
  const designs = Array.from({ length: drives }, () => randomDesign(random));
  for (const d of designs.slice(0, 30)) runIndex(d, { tol });
  const ms: number[] = [];
  const tightMs: number[] = [];
  const off: number[] = [];
  const ends: number[] = [];
  const exact: number[] = [];
  const steps: number[] = [];
  let unsolved = 0;
  let taken = 0;
  let forced = 0;
  let early = 0;
  let unfinished = 0;
  for (const d of designs) {
    const run = runIndex(d, { tol });
    const once = (): number => busy(() => runIndex(d, { tol }));
    // The better of two: one of them may hold a sweep of the memory.
    ms.push(Math.min(once(), once()));
    const end = endOf(d, tight);
    if (tightMs.length < raced) tightMs.push(busy(() => endOf(d, tight)));
    const own = run.lanes.tape.at(-1)!;
    ends.push(own);
    exact.push(end);
    off.push(Math.abs(own - end) * 1e6);
    steps.push(run.steps.taken);
    unsolved += run.steps.unsolved;
    taken += run.steps.taken;
    forced += run.steps.forced;
    if (run.lanes.t.at(-1)! < d.commands.end - 1e-9) early++;
    if (!run.marks.some((m) => m.what === "brake")) unfinished++;
  }
  const worst = off
    .map((um, i) => ({ drive: i, um: +um.toPrecision(3) }))
    .sort((a, b) => b.um - a.um)
    .slice(0, 5);

  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-index-"));
  const file = join(folder, "designs.json");
  let peer: Record<string, unknown> | undefined;
  let theirs = median(tightMs);
  let against = "the same run with steps thirty times as tight";
  try {
    writeFileSync(file, JSON.stringify(designs.slice(0, raced).map(written)));
    const reference = peers(file, 1e-8);
    if (reference) {
      const allowed = median(off.slice(0, raced));
      const tried: { rtol: number; um: number; ms: number }[] = [];
      for (const rtol of [1e-3, 1e-4, 1e-5, 1e-6]) {
        const got = peers(file, rtol);
        if (!got) break;
        const um = median(got.map((g, i) => Math.abs(g.x - reference[i]!.x) * 1e6));
        tried.push({ rtol, um, ms: median(got.map((g) => g.ms)) });
      }
      const good = tried.filter((one) => one.um <= allowed);
      const equal = (good.length > 0 ? good : tried).reduce((a, b) => (a.ms <= b.ms ? a : b));
      theirs = equal.ms;
      against = `scipy's Radau at rtol ${equal.rtol}, median error ${equal.um.toPrecision(2)} um`;
      writeFileSync(file, JSON.stringify(designs.slice(0, compared).map(written)));
      const smooth = peers(file, 1e-8) ?? [];
      const apart = smooth.map((g, i) => Math.abs(g.x - ends[i]!) * 1e6);
      const tightApart = smooth.map((g, i) => Math.abs(g.x - exact[i]!) * 1e6);
      peer = {
        raced,
        tried,
        compared: smooth.length,
        apartUm: { median: median(apart), p95: at(apart, 0.95), worst: Math.max(...apart) },
        tightApartUm: { median: median(tightApart), p95: at(tightApart, 0.95), worst: Math.max(...tightApart) },
        worst: apart
          .map((um, i) => ({ drive: i, um: +um.toPrecision(3), tight: +tightApart[i]!.toPrecision(3) }))
          .sort((a, b) => b.um - a.um)
          .slice(0, 5),
      };
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
  const figures = {
    ms: { median: median(ms), p95: at(ms, 0.95) },
    errorUm: { median: median(off), p95: at(off, 0.95), worst: Math.max(...off) },
    steps: { median: median(steps), p95: at(steps, 0.95) },
  };
  const two = (v: number): string => v.toPrecision(2);
  const lines = [
    `${drives} drives drawn at random, one index of 100 ms each: ${two(figures.ms.median)} ms of one processor (95 % within ${two(figures.ms.p95)} ms), ${figures.steps.median} steps (${figures.steps.p95})`,
    `end of the tape against steps thirty times as tight: ${two(figures.errorUm.median)} um (95 % within ${two(figures.errorUm.p95)} um, worst ${two(figures.errorUm.worst)} um, drive ${worst[0]!.drive})`,
    `${early} stopped early, ${unsolved} of ${taken} steps unsolved, ${forced} kept at the shortest length; ${unfinished} drives too weak for their index`,
    peer
      ? `against Radau on smooth friction, ${peer.compared} drives: ${two((peer.apartUm as { median: number }).median)} um (95 % within ${two((peer.apartUm as { p95: number }).p95)} um, worst ${two((peer.apartUm as { worst: number }).worst)} um); our tight steps: worst ${two((peer.tightApartUm as { worst: number }).worst)} um`
      : "scipy's Radau was skipped: python3 with scipy is not here",
  ];
  return {
    name: "index",
    ours: median(ms.slice(0, raced)) / 1e3,
    theirs: theirs / 1e3,
    ratio: median(ms.slice(0, raced)) / theirs,
    spread: (at(ms, 0.9) - at(ms, 0.1)) / median(ms),
    against,
    machine: machine(),
    drives,
    seed,
    tol,
    ...figures,
    early,
    unsolved,
    forced,
    unfinished,
    worst,
    radau: peer ?? "skipped: python3 with scipy is not here",
    lines,
  };
}
