import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { commanded, type IndexDesign } from "./design.ts";
import { type IndexMeasures, measuresOf } from "./measures.ts";
import { coldDesign, hotDesign } from "./of-scene.ts";
import { type IndexRun, runIndex, seatedStart } from "./run.ts";

/**
 * The simulated index of a unit on a tape, at the least volts and hot, its brake where the wheel stops on the pitch.
 *
 *     lead_1 = 0.35 v_0 tau_m;   lead_2 = lead_1 + (x_wheel(lead_1) - S)      what the wheel coasts hardly changes with the lead
 *     t = t_w - (x_wheel(lead_2) - S)/v_b
 *
 * t_w first time from the first command after which the wheel stays within 10 um of its end, s; v_b its speed as the brake begins, m/s; v_0 speed
 * without load, tau_m = J R/k^2.
 *
 * From a seated start (run.ts). An index that does not finish within a second, or that a motor is too weak for, counts as that second. Times
 * and forces of the last run; their error by the steps (2 um) is about 0.2 ms.
 */
const tol = 2e-6;
/** Longest index that is looked at, s. */
export const longestIndex = 1;

export interface SolvedIndex {
  readonly design: IndexDesign;
  readonly measures: IndexMeasures;
  readonly lead: number;
  /** Whether the brake was reached and the tape stood. */
  readonly finished: boolean;
  /** From the first command until the wheel stands, s, as if it stood on the pitch exactly. */
  readonly time: number;
}
/** The index with its lead found; `run` is the last one. */
export function solvedIndex(d: IndexDesign, runs = 2): SolvedIndex & { readonly run: IndexRun } {
  const { feed, wheel, commands } = d;
  const free = (feed.volts / feed.k / feed.ratio) * wheel.radius;
  const coasting = (feed.J * feed.R) / feed.k ** 2;
  let lead = Math.min(0.5 * commands.travel, 0.35 * free * coasting);
  const from = seatedStart(d);
  for (let k = 1; ; k++) {
    const design = commanded(d, { lead, end: longestIndex });
    const run = runIndex(design, { tol, from, untilStill: true });
    const measures = measuresOf(design, run);
    const finished = measures.time < Number.POSITIVE_INFINITY;
    if (k === runs || !finished) {
      const time = finished ? measures.wheelTime - measures.stopError / measures.brakeSpeed : longestIndex;
      return { design, measures, lead, finished, time, run };
    }
    lead = Math.min(commands.travel, Math.max(0, lead + measures.stopError));
  }
}

const origin = {
  cite: "Sprocket, drive and index cycle, sections 4 and 5 (unpublished working notes)",
  how: "derived",
} as const;
export const index: Model<SolvedIndex> = model({
  id: "cycle.index",
  symbol: "index",
  unit: "",
  title: "one index at the least volts, hot",
  equation: "m*(v_1 - v_0) = h*f(q + h*v_1, v_1)",
  form: "solved",
  origin,
  reads: (scene) => (hotDesign.reads(scene) ? { d: hotDesign } : undefined),
  value: ({ d }): SolvedIndex => {
    const { run: _, ...solved } = solvedIndex(d);
    return solved;
  },
});
export const coldIndex: Model<SolvedIndex> = model({
  id: "cycle.index-cold",
  symbol: "index",
  unit: "",
  title: "one index at the rail's volts, cold",
  equation: "m*(v_1 - v_0) = h*f(q + h*v_1, v_1)",
  form: "solved",
  origin,
  reads: (scene) => (coldDesign.reads(scene) ? { d: coldDesign } : undefined),
  value: ({ d }): SolvedIndex => {
    const { run: _, ...solved } = solvedIndex(d);
    return solved;
  },
});

/** One number of the index. Ten milliseconds each: they stand beside checks and in reports, as written, and no check is judged by one. */
const measure = (
  of: Model<SolvedIndex>,
  spec: {
    readonly id: string;
    readonly symbol: string;
    readonly unit: string;
    readonly shownIn?: string;
    readonly title: string;
    readonly equation: string;
  },
  value: (index: SolvedIndex) => number,
): Model =>
  model({
    ...spec,
    form: "solved",
    origin,
    reads: (scene: Scene) => (of.reads(scene) ? { index: of } : undefined),
    value: ({ index: solved }) => value(solved as SolvedIndex),
  });
/** At the least volts, hot: the slowest. */
export const indexTime = measure(
  index,
  {
    id: "cycle.time",
    symbol: "t",
    unit: "s",
    shownIn: "ms",
    title: "time of one index until the wheel stands, at the least volts, hot",
    equation: "first t from which abs(x - x_end) < 10 um",
  },
  ({ time }) => time,
);
/** At the rail's volts, cold: the fastest and hardest. */
export const indexJolt = measure(
  coldIndex,
  {
    id: "cycle.jolt",
    symbol: "dv",
    unit: "m/s",
    shownIn: "mm/s",
    title: "greatest change of the tape's speed in 1 ms, motors cold",
    equation: "max(abs(v(t + 1 ms) - v(t)))",
  },
  ({ measures }) => measures.jolt,
);
export const indexHole = measure(
  coldIndex,
  {
    id: "cycle.hole",
    symbol: "F_c",
    unit: "N",
    title: "greatest force of a tooth on its hole in one index, motors cold",
    equation: "max(F)",
  },
  ({ measures }) => measures.hole,
);
export const indexTension = measure(
  coldIndex,
  {
    id: "cycle.tension",
    symbol: "T_m",
    unit: "N",
    title: "greatest pull of the nip in one index, motors cold",
    equation: "max(T)",
  },
  ({ measures }) => measures.tension,
);
export const indexSpeed = measure(
  coldIndex,
  {
    id: "cycle.speed",
    symbol: "v_m",
    unit: "m/s",
    shownIn: "mm/s",
    title: "greatest speed of the tape in one index, motors cold",
    equation: "max(abs(v))",
  },
  ({ measures }) => measures.speed,
);
