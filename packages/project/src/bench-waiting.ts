import type { Bench } from "./bench.ts";
import { benchStanding, inDateOrder, pieceReadings } from "./bench-evidence.ts";

/** A result that stands and has not been taken. */
export interface Waiting {
  readonly trial: string;
  readonly question: string;
  /** Into what it would be taken. */
  readonly into: "design" | "belief";
  /** "3 readings not taken into the design", "6 pieces not taken into belief". */
  readonly says: string;
}
/** Trials that wait, in the order of their dates. Whether they contradict is not asked: no draw is made. */
export function waitingFor({ project }: Pick<Bench, "project">): Waiting[] {
  return inDateOrder(project.trials.values()).flatMap((trial): Waiting[] => {
    const { name, question } = trial;
    const { state, direct, tried } = benchStanding(project, trial);
    if (state !== "used") return [];
    if (direct) {
      const n = pieceReadings(trial, direct.given.unit)!.readings;
      const what = n === 1 ? "1 reading" : `${n} readings`;
      return [{ trial: name, question, into: "design", says: `${what} not taken into the design` }];
    }
    if (!tried) return [];
    const n = tried.outcome.kind === "pieces" ? tried.outcome.run : tried.outcome.readings.length;
    const one = tried.outcome.kind === "pieces" ? "piece" : "reading";
    return [{ trial: name, question, into: "belief", says: `${n} ${one}${n === 1 ? "" : "s"} not taken into belief` }];
  });
}
