import { type RunSummary, showIn } from "@tapeworthy/core";
import type { LogLane, LogTraceInput } from "@tapeworthy/drawing";
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
/** A trace as the drawing shows it, with the flags and the statistics as they stand now. */
export function logInput(
  view: TraceView,
  title: string,
  plateau: readonly [number, number],
  summary: RunSummary,
  outliers: readonly Outlier[],
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
            }
          : {}),
      }),
    ),
  };
}
