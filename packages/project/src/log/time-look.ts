import type { Steps } from "@tapeworthy/core";
import { ProjectError } from "../error.ts";
import type { Log, Remark } from "./log.ts";

/** How a column of times runs. Nothing is changed: what is odd is kept and marked. */
export interface TimeLook {
  /** Median step, s. */
  readonly step: number;
  /** True where every step is within a tenth of the median, but those that are marked. */
  readonly constant: boolean;
  /** Steps back, with the row they lead to and how far, s. */
  readonly backwards: readonly { readonly row: number; readonly by: number }[];
  readonly timesBack: number;
  /** Where a constant step is more than half as long again: rows are missing. */
  readonly jumps: readonly { readonly row: number; readonly by: number }[];
  readonly timesJumped: number;
}
const listed = 1000;

/** Looks at times in seconds. */
export function* timeLook(t: Float64Array): Steps<TimeLook> {
  // The median of up to 4096 steps taken evenly over the log.
  const stride = Math.max(1, Math.floor(t.length / 4096));
  const sample: number[] = [];
  for (let i = 1; i < t.length; i += stride) {
    const d = t[i]! - t[i - 1]!;
    if (d > 0) sample.push(d);
  }
  sample.sort((a, b) => a - b);
  const step = sample[Math.floor(sample.length / 2)] ?? Number.NaN;
  const like = sample.filter((d) => Math.abs(d - step) <= 0.1 * step).length;
  const constant = sample.length > 0 && like > 0.9 * sample.length;
  const backwards: { row: number; by: number }[] = [];
  const jumps: { row: number; by: number }[] = [];
  let timesBack = 0;
  let timesJumped = 0;
  let before = Number.NaN;
  for (let i = 0; i < t.length; i++) {
    if (i % 131_072 === 131_071) yield undefined;
    const now = t[i]!;
    if (Number.isNaN(now)) continue;
    const d = now - before;
    before = now;
    if (d < 0) {
      timesBack++;
      if (backwards.length < listed) backwards.push({ row: i, by: -d });
    } else if (constant && d > 1.5 * step) {
      timesJumped++;
      if (jumps.length < listed) jumps.push({ row: i, by: d });
    }
  }
  return { step, constant, backwards, timesBack, jumps, timesJumped };
}
const seconds = (s: number): string => (s >= 1 ? `${+s.toPrecision(4)} s` : `${+(s * 1e3).toPrecision(4)} ms`);

/** The same as remarks with the line each stands on. */
export function timeRemarks(look: TimeLook, log: Log): Remark[] {
  const out: Remark[] = [];
  const at = (row: number) => ({ file: log.file, line: log.lineOf(row), column: 1, length: 1 });
  const [back] = look.backwards;
  if (back)
    out.push({
      about: "backwards",
      count: look.timesBack,
      rows: look.backwards.map((b) => b.row),
      first: new ProjectError(
        at(back.row),
        "",
        `time that runs back by ${seconds(back.by)}`,
        "time that runs on",
        look.timesBack === 1 && back.by > 80_000 && back.by <= 86_400
          ? "The row is kept and marked. Was it midnight?"
          : look.timesBack === 1
            ? "The row is kept and marked. Was the recorder started again, or its clock set?"
            : "The rows are kept and marked. Sorted wrongly, or several channels under one another?",
      ),
    });
  const [jump] = look.jumps;
  if (jump)
    out.push({
      about: "jump",
      count: look.timesJumped,
      rows: look.jumps.map((b) => b.row),
      first: new ProjectError(
        at(jump.row),
        "",
        `a step of ${seconds(jump.by)}`,
        `steps of ${seconds(look.step)}`,
        `About ${Math.max(1, Math.round(jump.by / look.step) - 1)} rows are missing before it. Nothing is filled in.`,
      ),
    });
  return out;
}
