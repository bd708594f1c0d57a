import { type Check, chosen } from "../quantity/check.ts";
import type { Scene } from "../scene.ts";
import { decide } from "../study/allowance.ts";
import { Cell } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { type BeliefPoints, beliefPoints } from "../study/points.ts";
import {
  type Allowance,
  allowanceBetween,
  allowancesBy,
  corrected,
  type Decided,
  gapsAsWritten,
  kappasOf,
  lessAllowance,
  marginAllowed,
  marginsOver,
  spreadAsWritten,
} from "../study/quick.ts";
import { rootBetween } from "../study/root.ts";
import type { WidthPiece } from "./family.ts";
import { shareHolding, verdictOf } from "./verdict.ts";

/** One check at one width: deciding gap (SI) and margin at the 5, 50 and 95 % points of belief. */
export interface CheckAt {
  readonly check: string;
  /** Coherent unit of the gap. */
  readonly unit: string;
  readonly gap: BeliefPoints;
  readonly margin: BeliefPoints;
  readonly share: number;
}
/** All checks at one width. */
export interface Rung {
  readonly W: number;
  readonly checks: readonly CheckAt[];
  /** Why a check has no say here, by its id. */
  readonly absent: Readonly<Record<string, string>>;
  /** Share of belief in which all hard checks hold; null where none applies, or the unit cannot be cut to the width. */
  readonly share: number | null;
  /** Hard checks that do not feed, least share first. */
  readonly first: readonly string[];
  /** Why there is no unit of this width. */
  readonly uncut?: string;
}
/** Where a point of belief of a deciding gap is nought; `check` is undefined for the whole unit. */
export interface Root {
  readonly check: string | undefined;
  readonly point: keyof BeliefPoints;
  readonly W: number;
  /** The check there, that point of its gap on nought. */
  readonly at?: CheckAt;
}
/** One piece of a family, climbed. Plain data. */
export interface Climbed {
  /** Its own widths, the first just above the step at its beginning. */
  readonly rungs: readonly Rung[];
  readonly roots: readonly Root[];
  /** For each of its steps the checks that rest on what takes it. */
  readonly moves: readonly (readonly string[])[];
}

export interface Climbing {
  readonly checks: readonly Check[];
  readonly deviates: Deviates;
  readonly weights: Float64Array;
  readonly contradicted: ReadonlySet<string>;
}
/** Inner widths of a piece at which it is looked at. */
const inner = 3;
/** Roots are found to this, mm. */
const fine = 0.005;
/** And told as being this near, mm. */
const near = 0.05;
const points = ["low", "middle", "high"] as const;

/**
 * Climbs one piece: every check at both ends and three widths between, and where its deciding gap is nought at the 5, 50 and 95 % points of
 * belief. Allowances are fitted at the ends (study/quick.ts) and anew at each root; at the wider end, checks in question are decided as
 * `check` decides them.
 */
export function climb(piece: WidthPiece, climbing: Climbing): Climbed {
  const { from, to } = piece;
  const widths =
    from === to ? [from] : Array.from({ length: inner + 2 }, (_, i) => from + ((to - from) * i) / (inner + 1));
  const climber = new Climber(piece, climbing);
  const high = climber.look(to, mixed);
  const low = from === to ? high : climber.look(from, nearLimit);
  const decided = (_: number, check: string): boolean => climber.unruly.has(check);
  const looks = widths.map((W) => (W === to ? high : W === from ? low : climber.look(W, decided, [low, high])));
  const roots = looks.slice(1).flatMap((b, i) => climber.roots(looks[i]!, b));
  const first = climber.scene(from);
  return {
    rungs: looks.map(({ rung }) => rung),
    roots,
    moves: piece.steps.map((step) => {
      if (typeof first === "string") return [];
      const gives = step.gives(first).flatMap((g) => g ?? []);
      return climbing.checks.flatMap((check) => {
        const cell = new Cell(first, [check]);
        return gives.some((g) => cell.readsGiven(g)) ? [check.id] : [];
      });
    }),
  };
}

interface Look {
  readonly W: number;
  readonly allowances: ReadonlyMap<string, Allowance>;
  readonly rung: Rung;
}

class Climber {
  private readonly piece: WidthPiece;
  private readonly climbing: Climbing;
  private readonly scenes = new Map<number, Scene | string>();
  /** Checks for which the quick way was seen to be off: they are decided at every width. */
  readonly unruly = new Set<string>();
  constructor(piece: WidthPiece, climbing: Climbing) {
    this.piece = piece;
    this.climbing = climbing;
  }
  scene(W: number): Scene | string {
    const known = this.scenes.get(W) ?? this.piece.scene(W);
    this.scenes.set(W, known);
    return known;
  }

  /**
   * All checks at a width, with the allowances of two looks between which it lies, or with its own. Checks that `which` picks by their share
   * are decided as `check` decides them.
   */
  look(W: number, which: (share: number, check: string) => boolean, between?: readonly [Look, Look]): Look {
    const { checks, deviates, weights, contradicted } = this.climbing;
    const scene = this.scene(W);
    if (typeof scene === "string")
      return { W, allowances: new Map(), rung: { W, checks: [], absent: {}, share: null, first: [], uncut: scene } };
    const cell = new Cell(scene, checks);
    const written = gapsAsWritten(cell, deviates);
    const allowances = between?.some((end) => end.allowances.size > 0)
      ? allowancesIn(cell, W, between)
      : ownAllowances(cell, written, deviates);
    const quick = lessAllowance(cell, written, allowances);
    const shares = quick.map(({ gap }) => shareHolding([gap], weights));
    const open = cell.checks.filter(({ id }, c) => which(shares[c]!, id));
    const close = new Map(decide(new Cell(scene, open), deviates).map(({ gap }, i) => [open[i]!.id, gap]));
    const decided = cell.checks.map((check, c): Decided => ({ ...quick[c]!, ...gapIn(close, check.id) }));
    const at = cell.checks.map((check, c): CheckAt => {
      const found = checkAt(check, decided[c]!, scene, weights);
      if (Math.abs(found.share - shares[c]!) > off) this.unruly.add(check.id);
      return found;
    });
    const isHard = (check: Check): boolean => check.severity === "S" && !contradicted.has(check.id);
    const hard = decided.filter((_, c) => isHard(cell.checks[c]!)).map(({ gap }) => gap);
    const first = at
      .filter(({ share }, c) => isHard(cell.checks[c]!) && verdictOf(share) !== "feeds")
      .sort((a, b) => a.share - b.share);
    const absent = Object.fromEntries(
      checks
        .filter((check) => !cell.checks.includes(check))
        .map((check) => [check.id, check.absent(scene) ?? "the unit has no such member"]),
    );
    const share = hard.length === 0 ? null : shareHolding(hard, weights);
    return {
      W,
      allowances: new Map(cell.checks.map((check, c) => [check.id, allowances[c]!])),
      rung: { W, checks: at, absent, share, first: first.map(({ check }) => check) },
    };
  }

  /** Roots between two neighbouring looks. */
  roots(a: Look, b: Look): Root[] {
    const { checks, contradicted } = this.climbing;
    const out: Root[] = [];
    const open: Check[] = [];
    for (const check of checks) {
      const [x, y] = [a, b].map(({ rung }) => rung.checks.find((one) => one.check === check.id));
      if (!x || !y) continue;
      if (check.severity === "S" && !contradicted.has(check.id) && (x.share < 1 || y.share < 1)) open.push(check);
      for (const point of points) {
        const holds = x.gap[point] >= 0;
        if (holds === y.gap[point] >= 0) continue;
        const W = this.root([check], point, a, b, holds);
        if (W !== undefined) out.push({ check: check.id, point, W, ...this.onNought(check, point, W, a, b) });
      }
    }
    if (a.rung.share === null || b.rung.share === null) return out;
    for (const point of ["low", "high"] as const) {
      const [x, y] = [a, b].map(({ rung }) => {
        const verdict = verdictOf(rung.share!);
        return point === "low" ? verdict === "feeds" : verdict !== "stops";
      });
      if (x === y) continue;
      const alone = open.length === 1 ? out.find((r) => r.check === open[0]!.id && r.point === point) : undefined;
      const W = alone?.W ?? this.root(open, point, a, b, x!);
      if (W !== undefined) out.push({ check: undefined, point, W });
    }
    return out;
  }

  /** A check at its root, for the line that is drawn through it. */
  private onNought(check: Check, point: keyof BeliefPoints, W: number, a: Look, b: Look): { at?: CheckAt } {
    const { deviates, weights } = this.climbing;
    const scene = this.scene(W);
    if (typeof scene === "string") return {};
    const cell = new Cell(scene, [check]);
    const [quick] = lessAllowance(cell, gapsAsWritten(cell, deviates), allowancesIn(cell, W, [a, b]));
    if (!quick) return {};
    const found = checkAt(check, quick, scene, weights);
    const allowed = marginAllowed(scene.requirement.allowPairs);
    return { at: { ...found, gap: { ...found.gap, [point]: 0 }, margin: { ...found.margin, [point]: allowed } } };
  }

  /**
   * Where a point of belief of the least of some checks' deciding gaps is nought, between two looks: by Brent with the allowances of the
   * looks, then with those fitted anew there.
   */
  private root(of: readonly Check[], point: keyof BeliefPoints, a: Look, b: Look, falls: boolean): number | undefined {
    const { deviates, weights } = this.climbing;
    const pointOf = (list: readonly Decided[]): number => beliefPoints(leastOf(list), weights)[point];
    const cellAt = (W: number): Cell | undefined => {
      const scene = this.scene(W);
      return typeof scene === "string" ? undefined : new Cell(scene, of);
    };
    const quickly = (cell: Cell, W: number): Decided[] =>
      lessAllowance(cell, gapsAsWritten(cell, deviates), allowancesIn(cell, W, [a, b]));
    let sd = 1;
    const quick = (W: number): number => {
      const cell = cellAt(W);
      if (!cell) return Number.NaN;
      const list = quickly(cell, W);
      if (of.length === 1) sd = Math.max(...list[0]!.sd);
      return pointOf(list);
    };
    const [low, high] = [quick(a.W), quick(b.W)];
    // Where the gap hardly changes against its scatter, a small error of the allowance is a long way along the width.
    const shallow = !(near * Math.abs(high - low) > 0.01 * sd * (b.W - a.W));
    const close = (W: number): number => {
      const cell = cellAt(W);
      if (!cell) return Number.NaN;
      const list = quickly(cell, W);
      const found = shallow
        ? undefined
        : corrected(cell, list, leastOf, (column) => beliefPoints(column, weights)[point], deviates);
      return found ?? pointOf(decide(cell, deviates).map(({ gap }, c) => ({ gap, sd: list[c]!.sd })));
    };
    const first = rootBetween(quick, a.W, b.W, 4 * fine);
    return outwards(close, first ?? (a.W + b.W) / 2, falls, this.piece) ?? first;
  }
}

function checkAt(check: Check, decided: Decided, scene: Scene, weights: Float64Array): CheckAt {
  return {
    check: check.id,
    unit: chosen(check.value, scene)!.unit,
    gap: beliefPoints(decided.gap, weights),
    margin: beliefPoints(marginsOver(decided, scene.requirement.allowPairs), weights),
    share: shareHolding([decided.gap], weights),
  };
}
/** What scatter takes from a cell's gaps, fitted there. */
function ownAllowances(cell: Cell, written: readonly Float64Array[], deviates: Deviates): Allowance[] {
  const spread = spreadAsWritten(cell, written, deviates);
  return allowancesBy(kappasOf(cell, written, spread, deviates), cell, written, spread);
}
/** What scatter takes from a cell's gaps at a width between two looks: linear between theirs. */
function allowancesIn(cell: Cell, W: number, [a, b]: readonly [Look, Look]): Allowance[] {
  return cell.checks.map(({ id }) => {
    const [x, y] = [a.allowances.get(id), b.allowances.get(id)];
    return x && y ? allowanceBetween(x, y, (W - a.W) / (b.W - a.W)) : (x ?? y ?? { sides: [] });
  });
}
const gapIn = (close: ReadonlyMap<string, Float64Array>, id: string): { gap: Float64Array } | undefined => {
  const gap = close.get(id);
  return gap && { gap };
};

/** The root nearest to x of a function that falls (or rises) through it, looked for in growing steps to the side its sign points to. */
function outwards(
  f: (W: number) => number,
  x: number,
  falls: boolean,
  { from, to }: { readonly from: number; readonly to: number },
): number | undefined {
  let [at, value] = [x, f(x)];
  const side = value >= 0 === falls ? 1 : -1;
  for (let step = 4 * fine; ; step *= 2) {
    const next = Math.min(to, Math.max(from, at + side * step));
    if (next === at || Number.isNaN(value)) return undefined;
    const there = f(next);
    if (there >= 0 === value >= 0) {
      [at, value] = [next, there];
      continue;
    }
    if (step <= 16 * fine && Number.isFinite(value) && Number.isFinite(there))
      return at + ((next - at) * value) / (value - there);
    return rootBetween(f, Math.min(at, next), Math.max(at, next), 2 * fine);
  }
}

/** The least of several deciding gaps at each belief draw, each in its own standard deviations and within six of them. */
function leastOf(list: readonly Decided[]): Float64Array {
  if (list.length === 1) return list[0]!.gap;
  const far = 6;
  const scaled = list.map(({ gap, sd }) =>
    gap.map((g, k) => Math.max(-far, Math.min(far, sd[k]! > 0 ? g / sd[k]! : g >= 0 ? far : -far))),
  );
  return scaled[0]!.map((_, k) => Math.min(...scaled.map((column) => column[k]!)));
}
/** Share of belief by which the quick way may be off. */
const off = 0.02;
/** Some of belief holds and some does not. */
const mixed = (share: number): boolean => share > 0.001 && share < 0.999;
/** So near to a verdict's limit that the quick way might have it on the wrong side. */
const nearLimit = (share: number): boolean => (share > 0.01 && share < 0.1) || (share > 0.9 && share < 0.99);
