import { type Frozen, type RunSummary, sameDimension, showIn, unitOf } from "@tapeworthy/core";
import { type LogLane, type LogTraceInput, standingPitches } from "@tapeworthy/drawing";
import type { Outlier, TraceView } from "../log/log-port.ts";

const percent = (v: number): string => `${Number((100 * v).toPrecision(2))} %`.replace("-", "−");
/** What stands beside a trace. */
function statisticsOf(s: RunSummary, unit: string): NonNullable<LogLane["statistics"]> {
  const row = (term: string, words: string | undefined, strong = false) =>
    words === undefined ? [] : [{ term, words, ...(strong ? { strong } : {}) }];
  return [
    ...row("mean", showIn(unit, s.mean, 3), true),
    ...row("std dev", showIn(unit, s.sd, 2)),
    ...row("ripple", s.ripple === undefined ? undefined : percent(s.ripple)),
    ...row("of it at P1", s.rippleAtP1 === undefined ? undefined : percent(s.rippleAtP1)),
    ...row("trend", s.trend === undefined ? undefined : percent(s.trend)),
    ...row("peaks", s.peaks ? `${s.peaks.count}, median ${showIn(unit, s.peaks.median, 2)}` : undefined),
    ...row("outliers", `${s.outliers.length}${s.outliers.length > 0 ? ", kept" : ""}`),
    ...row("worth", `${Math.round(s.independent)} readings`),
  ];
}
const isLike = (a: string, b: string): boolean =>
  a !== "" && b !== "" && sameDimension(unitOf(a).dimension, unitOf(b).dimension);
/** Between them the mean was foretold to lie. */
const limitsOf = (
  { predicted }: { readonly predicted: Frozen["predicted"] },
  unit: string,
): NonNullable<LogLane["limits"]> =>
  predicted
    ? [
        { at: predicted.low, words: `foretold: above ${showIn(unit, predicted.low, 3)}` },
        { at: predicted.high, words: `foretold: below ${showIn(unit, predicted.high, 3)}` },
      ]
    : [];
/** A trace as the drawing shows it, with the flags and the statistics as they stand now. */
export function logInput(
  view: TraceView,
  title: string,
  plateau: readonly [number, number],
  summary: RunSummary,
  outliers: readonly Outlier[],
  /** What was foretold of the trial before it, and the unit that is read in. */
  foretold?: { readonly predicted: Frozen["predicted"]; readonly shownIn: string },
): LogTraceInput {
  const along = view.along;
  return {
    title,
    along: {
      name: along === "row" ? "rows" : along,
      shownIn: along === "travel" ? "mm" : along === "time" ? "s" : { words: "rows", factor: 1 },
    },
    from: view.extent[0],
    to: view.extent[1],
    plateau,
    ...(along === "travel" && view.lanes[0]
      ? {
          pitches: standingPitches(
            [
              { name: "P1", pitch: view.pitches.P1 ?? 0, share: summary.rippleAtP1 },
              { name: "P0", pitch: view.pitches.P0 ?? 0, share: summary.rippleAtP0 },
            ],
            plateau,
            view.lanes[0].trace,
          ),
        }
      : {}),
    lanes: view.lanes.map(
      (lane, i): LogLane => ({
        name: lane.role,
        shownIn: lane.unit,
        style: i === 0 ? "film" : "seal",
        trace: lane.trace,
        ...(i === 0
          ? {
              mean: summary.mean,
              sd: summary.sd,
              outliers: outliers.map(({ along: at, value, row }) => ({ along: at, value, row })),
              statistics: statisticsOf(summary, lane.unit),
              ...(foretold && isLike(foretold.shownIn, lane.unit) ? { limits: limitsOf(foretold, lane.unit) } : {}),
            }
          : {}),
      }),
    ),
  };
}
