import type { Check, Severity } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { movedText } from "../quantity/moved.ts";
import { power } from "../quantity/power.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { type Deciding, decide, decideEachInSteps } from "../study/allowance.ts";
import { addressesOfEach, applies, beliefColumn, Cell } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { rootBetween } from "../study/root.ts";
import { finished } from "../study/steps.ts";
import { type Lever, leversOf } from "./levers.ts";
import { shareHolding, type Verdict, verdictOf } from "./verdict.ts";

/** One lever of the unit's file that makes one check hold on one tape. Plain data, SI. */
export interface Cure {
  readonly check: string;
  readonly address: string;
  readonly symbol: string;
  /** The numbers that move, all by `by`: address, text as it stands, text as it would be written. */
  readonly members: readonly { readonly address: string; readonly text: string; readonly written: string }[];
  readonly unit: string;
  readonly shownIn: string;
  /** Where it stands as drawn, and where it would have to stand. */
  readonly from: number;
  readonly to: number;
  readonly by: number;
  /** Share of belief in which the check holds then. */
  readonly share: number;
}
/** What levers of a unit can do for a check on a tape. */
export interface Cures {
  readonly check: string;
  readonly cures: readonly Cure[];
  /** Where none of them does it: the one that comes nearest, at the end of its bounds or at its best. */
  readonly nearest?: Cure;
  /** Levers of the file that this check rests on. */
  readonly levers: number;
}
/** What a moved lever does to one unit on one tape. */
export interface CureEffect {
  readonly tape: string;
  /** Nominal width of the tape's row, mm. */
  readonly W: number;
  readonly before: { readonly verdict: Verdict; readonly share: number };
  readonly after: { readonly verdict: Verdict; readonly share: number };
  /** Checks whose own verdict changes, in reading order. */
  readonly checks: readonly {
    readonly check: string;
    readonly severity: Severity;
    readonly before: Verdict;
    readonly after: Verdict;
  }[];
}
/** A cure with what it costs on every wanted tape of the unit, worst first; tapes it leaves as they are do not stand here. */
export interface CureWithEffects extends Cure {
  readonly effects: readonly CureEffect[];
}
export interface CuresWithEffects extends Cures {
  readonly cures: readonly CureWithEffects[];
}

/** Levers tried for a check, the strongest first. */
const tried = 8;
/** A cured check holds in at least this share of belief. */
const wanted = 0.95;
/** A cure is written to this, m; other numbers to two figures. */
const step = 0.05e-3;
/** Steps outward in shares of a lever's bounds. */
const outward = [0.002, 0.005, 0.01, 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1] as const;

/**
 * Up to `most` levers that make a check hold on a tape in at least 95 % of belief: those whose movement changes its gap most for the share of their bounds, the root
 * of the deciding gap at the belief draw on the 5 % rank, rounded the safe way and judged again with all draws.
 *
 * At that draw the gap with scatter as written, less the scatter allowance there, is solved for; allowance and draw are then taken afresh
 * at the root, for both move with the lever.
 */
export function curesOf(scene: Scene, check: Check, deviates: Deviates, weights: Float64Array, most = 3): Cures {
  const cell = new Cell(scene, [check]);
  const levers = leversOf(scene).filter((lever) => readsAny(cell, lever));
  const base = decide(cell, deviates)[0]!;
  const at = standAt(cell, deviates, base, weights, undefined);
  const ranked = levers
    .map((lever) => ({ lever, ...strength(lever, at.gap) }))
    .filter((l) => l.gain > 0)
    .sort((a, b) => b.gain - a.gain || (a.lever.address < b.lever.address ? -1 : 1))
    .slice(0, tried);
  const cures: Cure[] = [];
  let nearest: Cure | undefined;
  for (const { lever } of ranked) {
    if (cures.length === most) break;
    const found = solved(cell, deviates, weights, lever, at);
    if (!found) continue;
    const cure: Cure = {
      check: check.id,
      address: lever.address,
      symbol: lever.symbol,
      members: lever.members.map((address) => {
        const given = scene.unit.givens.get(address)!;
        return { address, text: given.text, written: movedText(given, found.by) };
      }),
      unit: lever.unit,
      shownIn: lever.shownIn,
      from: lever.from,
      to: lever.from + found.by,
      by: found.by,
      share: found.share,
    };
    if (found.share >= wanted - 1e-12) cures.push(cure);
    else if (!nearest || cure.share > nearest.share) nearest = cure;
  }
  return {
    check: check.id,
    cures,
    ...(cures.length === 0 && nearest ? { nearest } : {}),
    levers: levers.length,
  };
}
const readsAny = (cell: Cell, lever: Lever): boolean => lever.members.some((address) => cell.addresses.has(address));

/** The numbers of a lever moved by one distance, wherever they stand in a unit's file. */
export const movedBy = (members: readonly string[], by: number): ((given: Given) => number | undefined) => {
  const set = new Set(members);
  return (given) => (set.has(given.address) ? by : undefined);
};

/** The gap to be brought to 0: at the belief draw that 5 % of belief lies below, less the allowance there. */
interface Stand {
  readonly share: number;
  readonly gap: (lever: Lever, by: number) => number;
}
function standAt(
  cell: Cell,
  deviates: Deviates,
  { gap }: Deciding,
  weights: Float64Array,
  moved: ((given: Given) => number | undefined) | undefined,
): Stand {
  const draw = drawAtRank(gap, weights, 1 - wanted);
  const unknown = (given: Given): number => beliefColumn(deviates, given)[draw]!;
  const written = (by?: (given: Given) => number | undefined): number =>
    cell.gaps({ n: 1, unknown, ...(by ? { moved: by } : {}) })[0]![0]!;
  const allowance = written(moved) - gap[draw]!;
  return {
    share: shareHolding([gap], weights),
    gap: (lever, by) => written(movedBy(lever.members, by)) - (Number.isFinite(allowance) ? allowance : 0),
  };
}
/** The draw below which lies at most that share of belief. */
export function drawAtRank(gap: Float64Array, weights: Float64Array, share: number): number {
  const order = Array.from(gap.keys()).sort((a, b) => gap[a]! - gap[b]! || a - b);
  const total = weights.reduce((a, b) => a + b, 0);
  let below = 0;
  for (const k of order) {
    if (below + weights[k]! > share * total + 1e-12) return k;
    below += weights[k]!;
  }
  return order.at(-1)!;
}

/** Change of the gap for the share of the bounds, the greater of a small and a wider step either way. */
function strength(lever: Lever, gap: Stand["gap"]): { gain: number } {
  const span = lever.most - lever.least;
  const now = gap(lever, 0);
  let gain = 0;
  for (const share of [0.002, 0.05])
    for (const side of [1, -1]) {
      const by = side * share * span;
      if (by < lever.least || by > lever.most) continue;
      const change = gap(lever, by) - now;
      if (Number.isFinite(change)) gain = Math.max(gain, change / share);
      else if (now === Number.NEGATIVE_INFINITY && gap(lever, by) > now) gain = Number.POSITIVE_INFINITY;
    }
  return { gain };
}

/** How far the lever has to go, and the share that holds there; the best it can do where that is not enough. */
function solved(
  cell: Cell,
  deviates: Deviates,
  weights: Float64Array,
  lever: Lever,
  first: Stand,
): { by: number; share: number } | undefined {
  let at = first;
  let best: { by: number; share: number } | undefined;
  const judged = (by: number): Deciding => {
    const deciding = decide(cell, deviates, { moved: movedBy(lever.members, by) })[0]!;
    const share = shareHolding([deciding.gap], weights);
    if (!best || share > best.share) best = { by, share };
    return deciding;
  };
  let last = 0;
  for (let round = 0; round < 3; round++) {
    const root = nearestRoot(lever, at.gap);
    if (root.by === 0) break;
    const by = roundedAway(lever, root.by);
    if (by === undefined) {
      // Beyond its bounds: what it does at its best is worth saying.
      if (!best) judged(root.best);
      return best;
    }
    const deciding = judged(by);
    if (shareHolding([deciding.gap], weights) >= wanted - 1e-12) return { by, share: best!.share };
    if (!root.found || Math.abs(by - last) < grain(lever) / 2) break;
    last = by;
    at = standAt(cell, deviates, deciding, weights, movedBy(lever.members, by));
  }
  // Close to the root: outward by single steps.
  if (best && best.by !== 0)
    for (const more of [1, 2, 3, 5, 8]) {
      const by = roundedAway(lever, best.by + Math.sign(best.by) * more * grain(lever));
      if (by === undefined) break;
      const deciding = judged(by);
      const share = shareHolding([deciding.gap], weights);
      if (share >= wanted - 1e-12) return { by, share };
    }
  return best;
}

/** The nearest place, either way, where the gap comes up to 0; else the place where it is greatest. */
function nearestRoot(
  lever: Lever,
  gap: Stand["gap"],
): { readonly by: number; readonly found: boolean; readonly best: number } {
  const span = lever.most - lever.least;
  const f = (by: number): number => Math.max(-1e30, gap(lever, by));
  let best = 0;
  let highest = f(0);
  if (highest >= 0) return { by: 0, found: true, best: 0 };
  const open = new Map<1 | -1, number>([
    [1, 0],
    [-1, 0],
  ]);
  for (const share of outward)
    for (const [side, from] of [...open]) {
      const end = side > 0 ? lever.most : lever.least;
      const by = side > 0 ? Math.min(share * span, end) : Math.max(-share * span, end);
      if (by === from || side * by <= 0) {
        open.delete(side);
        continue;
      }
      const g = f(by);
      if (g > highest) {
        highest = g;
        best = by;
      }
      if (g >= 0) {
        const root = rootBetween(f, from, by, grain(lever) / 50);
        return { by: root ?? by, found: true, best: by };
      }
      open.set(side, by);
    }
  return { by: best, found: false, best };
}

/** Smallest step a move of that lever is written in. */
export const grain = ({ unit, shownIn, from }: Lever): number => {
  if (unit === "m") return step;
  const { factor } = unitOf(shownIn);
  const size = Math.abs(from / factor) || 1;
  return factor * power(10, Math.floor(Math.log10(size)) - 1);
};
/** Away from what is drawn, to the next written step; undefined beyond the bounds. */
function roundedAway(lever: Lever, by: number): number | undefined {
  const g = grain(lever);
  // What is written is the place itself where it stands on the grid, else the distance.
  const onGrid = Math.abs(lever.from / g - Math.round(lever.from / g)) < 1e-6;
  const zero = onGrid ? lever.from : 0;
  const steps = (zero + by) / g;
  const out = (by > 0 ? Math.ceil(steps - 1e-6) : Math.floor(steps + 1e-6)) * g - zero;
  const within = out >= lever.least - 1e-12 && out <= lever.most + 1e-12;
  return within ? out : undefined;
}

/** Whether each hard check holds at each belief draw, as drawn; 1 where it does. */
export type Held = ReadonlyMap<string, Uint8Array>;
export interface Effecting {
  readonly tape: string;
  readonly scene: Scene;
  readonly checks: readonly Check[];
  readonly deviates: Deviates;
  readonly weights: Float64Array;
  readonly contradicted: ReadonlySet<string>;
  /** Hard and other checks as drawn. */
  readonly held: Held;
}
/** Numbers of a unit's file, by their addresses, moved by one distance. */
export interface Move {
  readonly members: readonly string[];
  readonly by: number;
}
/** What each move changes on one tape of the unit; undefined where nothing changes by a tenth of a point. */
export function effectsOf(on: Effecting, moves: readonly Move[]): (CureEffect | undefined)[] {
  const checks = on.checks.filter((check) => applies(check, on.scene));
  const rests = addressesOfEach(on.scene, checks);
  const touchedBy = moves.map(({ members }) =>
    checks.filter((_, c) => members.some((address) => rests[c]!.has(address))),
  );
  const out: (CureEffect | undefined)[] = [];
  for (let from = 0; from < moves.length; from += together) {
    const group = touchedBy.slice(from, from + together);
    const any = checks.filter((check) => group.some((touched) => touched.includes(check)));
    if (any.length === 0) {
      out.push(...group.map(() => undefined));
      continue;
    }
    const part = new Cell(on.scene, any);
    const found = finished(
      decideEachInSteps(
        part,
        on.deviates,
        group.map((touched, m) => ({
          moved: movedBy(moves[from + m]!.members, moves[from + m]!.by),
          asked: (check) => touched.includes(check),
        })),
      ),
    );
    group.forEach((touched, m) => {
      const gapOf = (check: Check): Float64Array => found[m]![any.indexOf(check)]!.gap;
      out.push(touched.length === 0 ? undefined : effectOf(on, checks, touched, gapOf));
    });
  }
  return out;
}
/** As many moves are judged side by side: fewer than a costly model keeps its differences for. */
const together = 6;
function effectOf(
  { tape, scene, weights, contradicted, held }: Effecting,
  all: readonly Check[],
  touched: readonly Check[],
  gapOf: (check: Check) => Float64Array,
): CureEffect | undefined {
  const after = new Map(held);
  for (const check of touched) after.set(check.id, holdsAt(gapOf(check)));
  const hard = all.filter((c) => c.severity === "S" && !contradicted.has(c.id));
  const shareOf = (of: Held, list: readonly Check[]): number =>
    shareHolding(
      list.map((c) => {
        const holds = of.get(c.id)!;
        const gap = new Float64Array(holds.length);
        for (let k = 0; k < gap.length; k++) gap[k] = holds[k]! - 1;
        return gap;
      }),
      weights,
    );
  const verdicts = (of: Held, list: readonly Check[]) => {
    const share = shareOf(of, list);
    return { share, verdict: verdictOf(share) };
  };
  const before = verdicts(held, hard);
  const now = verdicts(after, hard);
  const changed = touched.flatMap((c) => {
    const [was, is] = [verdicts(held, [c]).verdict, verdicts(after, [c]).verdict];
    return was === is ? [] : [{ check: c.id, severity: c.severity, before: was, after: is }];
  });
  if (changed.length === 0 && before.verdict === now.verdict && Math.abs(before.share - now.share) < 1e-3)
    return undefined;
  return { tape, W: scene.tape.row, before, after: now, checks: changed };
}
export const holdsAt = (gap: Float64Array): Uint8Array => Uint8Array.from(gap, (g) => (g >= 0 ? 1 : 0));

/** Worst first: what the tape loses in verdict, then in share; then what gains least. */
export const worstFirst = (effects: readonly CureEffect[]): CureEffect[] => {
  const rank = { stops: 0, depends: 1, feeds: 2, "n/a": 3 } as const;
  const loss = (e: CureEffect): number => rank[e.before.verdict] - rank[e.after.verdict];
  const hurt = (e: CureEffect): number => Math.max(0, ...e.checks.map((c) => rank[c.before] - rank[c.after]));
  return [...effects].sort(
    (a, b) =>
      loss(b) - loss(a) ||
      hurt(b) - hurt(a) ||
      b.before.share - b.after.share - (a.before.share - a.after.share) ||
      (a.tape < b.tape ? -1 : 1),
  );
};
