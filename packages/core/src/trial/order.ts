/**
 * In which order to make trials, some of which need others first.
 *
 *     first stop ends the series:  by saved/P(stop),  a chain counts as one:  saved = saved_1 + (1 - s_1) saved_2,  s = 1 - (1 - s_1)(1 - s_2)
 *     each by itself:              by saved/days,     a chain counts as one:  saved = saved_1 + saved_2,            days = d_1 + d_2
 *
 * What stands highest goes as far forward as it may: right behind what it needs, and from then on both move as one (Horn 1972 for jobs of a forest; Garey 1973 for
 * tests; memory). Exact where each trial needs at most one other. Where one needs several it is merged with the one that stands lowest by itself, and the others are
 * drawn forward: a good order and not always the best.
 */
import type { Series } from "./worth.ts";

export interface Step {
  readonly id: string;
  readonly saved: number;
  readonly stop: number;
  readonly days: number;
  /** What must come before it; names that are not among the steps count as done. */
  readonly needs: readonly string[];
}
interface Block {
  readonly steps: readonly Step[];
  readonly saved: number;
  readonly stop: number;
  readonly days: number;
}
const ratio = ({ saved, stop, days }: Omit<Block, "steps">, series: Series): number => {
  const by = series === "each by itself" ? days : stop;
  return by > 0 ? saved / by : Math.sign(saved) * Number.POSITIVE_INFINITY;
};
const joined = (a: Block, b: Block, series: Series): Block => ({
  steps: [...a.steps, ...b.steps],
  saved: a.saved + (series === "each by itself" ? 1 : 1 - a.stop) * b.saved,
  stop: 1 - (1 - a.stop) * (1 - b.stop),
  days: a.days + b.days,
});

export function inOrder(steps: readonly Step[], series: Series): string[] {
  const parent = parents(steps, series);
  // Blocks by the step that leads them.
  const blocks = new Map<string, Block>(
    steps.map((s) => [s.id, { steps: [s], saved: s.saved, stop: s.stop, days: s.days }]),
  );
  const leads = new Map(steps.map((s) => [s.id, s.id]));
  const leader = (id: string): string => {
    let at = id;
    while (leads.get(at) !== at) at = leads.get(at)!;
    return at;
  };
  const out: string[] = [];
  const placed = new Set<string>();
  const rank = new Map(steps.map((s, i) => [s.id, i]));
  while (blocks.size > 0) {
    const [id, block] = [...blocks].reduce((best, next) => {
      const d = ratio(next[1], series) - ratio(best[1], series);
      return d > 0 || (d === 0 && rank.get(next[0])! < rank.get(best[0])!) ? next : best;
    });
    blocks.delete(id);
    const before = parent.get(id);
    if (before === undefined || placed.has(before)) {
      for (const s of block.steps) {
        out.push(s.id);
        placed.add(s.id);
      }
      continue;
    }
    const to = leader(before);
    leads.set(id, to);
    blocks.set(to, joined(blocks.get(to)!, block, series));
  }
  return withAllNeeds(out, steps);
}

/** The one step that each stands behind: of several that it needs the one that stands lowest by itself. A ring of needs is broken where it closes. */
function parents(steps: readonly Step[], series: Series): ReadonlyMap<string, string> {
  const byId = new Map(steps.map((s) => [s.id, s]));
  const parent = new Map<string, string>();
  const isAbove = (id: string, of: string): boolean => {
    for (let at: string | undefined = of; at !== undefined; at = parent.get(at)) if (at === id) return true;
    return false;
  };
  for (const step of steps) {
    const [last] = step.needs
      .flatMap((id) => byId.get(id) ?? [])
      .filter(({ id }) => !isAbove(step.id, id))
      .sort((a, b) => ratio(a, series) - ratio(b, series));
    if (last) parent.set(step.id, last.id);
  }
  return parent;
}
/** The same order, with whatever else a step needs drawn forward to stand before it. */
function withAllNeeds(order: readonly string[], steps: readonly Step[]): string[] {
  const byId = new Map(steps.map((s) => [s.id, s]));
  const out = new Set<string>();
  const open = new Set<string>();
  const put = (id: string): void => {
    const step = byId.get(id);
    if (!step || out.has(id) || open.has(id)) return;
    open.add(id);
    for (const need of order) if (step.needs.includes(need)) put(need);
    out.add(id);
  };
  for (const id of order) put(id);
  return [...out];
}
