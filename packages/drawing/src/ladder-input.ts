import type { LadderLine as CheckLine, Ladder, Turn } from "@tapeworthy/core";
import type { LadderCrossing, LadderInput, LadderLine, LadderPoint } from "./ladder.ts";
import { shortName } from "./say.ts";

/**
 * A climbed ladder as the drawing takes it: margins of the hard checks that can stop a tape, at the median and the 5 and 95 % points of
 * belief; where each comes to depend, stops or feeds again; steps that move some check. `wanted` are the widths drawn heavier.
 */
export function ladderInput(ladder: Ladder, wanted?: readonly number[]): LadderInput {
  const lines = ladder.lines.filter((l) => l.severity === "S" && !l.contradicted && l.points.length > 0);
  const steps = new Map<number, string[]>();
  for (const { W, step, moves } of ladder.steps)
    if (moves.some((check) => lines.some((l) => l.check === check))) steps.set(W, [...(steps.get(W) ?? []), step]);
  return {
    unit: ladder.name,
    kind: "margin",
    allowed: ladder.allowed,
    widths: ladder.rows,
    ...(wanted ? { wanted } : {}),
    lines: lines.map(
      (line): LadderLine => ({ check: line.check, name: shortName(line.check), points: pointsOf(line) }),
    ),
    crossings: lines.flatMap((line) => [
      ...fromTheFirst(line),
      ...line.turns.flatMap((turn) => crossingOf(line.check, turn)),
    ]),
    jumps: [...steps].map(([W, list]) => ({ W, step: list.join(", ") })),
  };
}

/** Points in order; one that comes after widths at which the check does not apply begins the line anew. */
function pointsOf({ points, spans }: CheckLine): LadderPoint[] {
  const gaps = spans.filter((s) => s.verdict === "n/a");
  return points.map(({ W, above, margin: { low, middle, high } }, i) => {
    const before = points[i - 1];
    const anew =
      before !== undefined && gaps.some((g) => g.from >= before.W && g.to <= W + (above ? 1e-9 : 0) && g.to > g.from);
    return { W, value: middle, low, high, ...(anew ? { anew: true as const } : {}) };
  });
}
/** A check that does not feed the least width has crossed the line before it. */
function fromTheFirst({ check, spans: [first] }: CheckLine): LadderCrossing[] {
  if (first?.verdict !== "depends" && first?.verdict !== "stops") return [];
  return [{ check, W: first.from, label: `from ${first.from}`, from: first.verdict }];
}
const crossingOf = (check: string, { W, where, after }: Turn): LadderCrossing[] =>
  after === "n/a" ? [] : [{ check, W, label: where, from: after }];
