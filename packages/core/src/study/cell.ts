import { type Check, chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { believed } from "../quantity/law.ts";
import type { Model, Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { blended } from "./blend.ts";
import { togetherColumn } from "./correlated.ts";
import type { Deviates } from "./deviates.ts";
import { type Column, type Pick, Realiser } from "./realise.ts";
import type { Steps } from "./steps.ts";

/** Draws of what is not known, shared by every check, tape and unit of a project. */
export const beliefDraws = 1000;
/** Draws of what scatters, for one allowance. */
export const scatterDraws = 2000;
/** How far index scatter stands on the unkind side, in standard deviations. */
const indexReach = 3;

/** One side of a check's window: value over a lower bound, or under an upper one. */
interface Side {
  readonly side: number;
  readonly check: Check;
  readonly value: Quantity;
  readonly bound: Quantity;
  readonly sign: 1 | -1;
}
/** Sides for which the same index scatters are unkind in the same direction share one layout. */
interface Context {
  readonly realiser: Realiser;
  readonly index: ReadonlyMap<string, number>;
  readonly sides: readonly Side[];
}

/** Where the inputs stand in one run: coordinates by address; what is left out stays as written. */
export interface Standing {
  readonly n: number;
  /** Coordinate of an unknown; undefined: its median. */
  readonly unknown?: (given: Given) => Column | undefined;
  /** Coordinate of a scatter that is not between indexes; undefined: as written. */
  readonly scatter?: (given: Given, which: number) => Column | undefined;
  /** How far a number's centre stands from what its text says, SI. */
  readonly moved?: (given: Given) => Column | undefined;
  /** What stands for a model in this run, by the cell's part it is read in; then for all costly ones. */
  readonly instead?: (model: Model<unknown>, part: number) => Column | undefined;
  /** For each part of the cell what has to be evaluated, from `restingOn`; all else stands as in the last run of n. */
  readonly only?: readonly (readonly number[])[];
}
export const scatterKey = (given: Given, which: number): string => `${given.address}#${which}`;

/**
 * One unit variant on one tape, with the checks that apply to it, laid out once and evaluated for any standing of the inputs.
 *
 * The gap of a check is the distance of its value to the nearer bound in one realisation, in the value's unit, positive where
 * the window holds. Index scatter stands 3 sd on the side unkind to each bound.
 */
export class Cell {
  readonly scene: Scene;
  readonly checks: readonly Check[];
  readonly unknowns: readonly Given[];
  /** Scatters between reels and units: a given and which of its scatters. */
  readonly scatters: readonly { readonly given: Given; readonly which: number }[];
  /** For every check its one or two sides. */
  readonly sidesOf: readonly (readonly number[])[];
  private readonly contexts: readonly Context[];
  /** Values and bounds of the checks. */
  readonly quantities: readonly Quantity[];
  /** Values of dear checks: what takes long at every draw. */
  private readonly dear: ReadonlySet<Quantity>;

  constructor(scene: Scene, checks: readonly Check[]) {
    this.scene = scene;
    this.checks = checks.filter((check) => applies(check, scene));
    const sides = this.checks.flatMap((check) => sidesOf(check, scene)).map((s, side): Side => ({ ...s, side }));
    this.sidesOf = this.checks.map((check) => sides.flatMap((s) => (s.check === check ? [s.side] : [])));
    this.contexts = contextsOf(scene, sides);
    this.quantities = [...new Set(sides.flatMap((s) => [s.value, s.bound]))];
    this.dear = new Set(sides.flatMap((s) => (s.check.dear ? [s.value] : [])));
    const givens = new Map<string, Given>();
    for (const { realiser } of this.contexts) for (const g of realiser.givens) givens.set(g.address, g);
    const all = [...givens.values()].sort((a, b) => (a.address < b.address ? -1 : 1));
    this.unknowns = all.filter((g) => g.unknown);
    this.scatters = all.flatMap((given) =>
      given.scatters.flatMap((s, which) => (s.level === "index" ? [] : [{ given, which }])),
    );
  }

  /** Some check of this cell rests on that number. */
  readsGiven(given: Given): boolean {
    return this.contexts.some(({ realiser }) => realiser.givens.includes(given));
  }
  /** Addresses of the numbers that some check of this cell rests on. */
  get addresses(): ReadonlySet<string> {
    return new Set(this.contexts.flatMap(({ realiser }) => realiser.givens.map((g) => g.address)));
  }

  /** Works out beforehand, a little a step, what takes long in the first run like this one. */
  *prepare(standing: Standing): Steps<void> {
    for (const [part, { realiser, index }] of this.contexts.entries())
      yield* realiser.prepare(pickOf(standing, index, part));
  }
  /** Lets the columns of earlier runs go: for whoever keeps a cell for later. */
  letGo(): void {
    for (const { realiser } of this.contexts) realiser.letGo();
  }
  /** What rests on these numbers, for each part of the cell; without what only models are read by that something stands for. */
  restingOn(
    moved: (given: Given) => boolean,
    isStood?: (model: Model<unknown>) => boolean,
  ): readonly (readonly number[])[] {
    return this.contexts.map(({ realiser }) => realiser.restingOn(moved, isStood));
  }
  /** Columns of the costly models, where asked for of the dear values too, in a run, for each of the cell's parts. A part holds the sides for which the same index scatters are unkind. */
  costlyColumns(standing: Standing, withDear = false): ReadonlyMap<Model<unknown>, Column>[] {
    return this.contexts.map(({ realiser, index }, part) => {
      const models = realiser.models.filter((m) => m.costly || (withDear && this.dear.has(m as Quantity)));
      if (models.length === 0) return new Map();
      const run = realiser.run(pickOf(standing, index, part));
      return new Map(
        models.map((m) => {
          const column = run.column(m as Model);
          return [m, typeof column === "number" ? column : column.slice()];
        }),
      );
    });
  }
  /**
   * Gaps of the sides, each a column of n. A draw without a finite answer is minus infinity. Fresh arrays, or those of an earlier call with the
   * same n, written over.
   */
  sideGaps(standing: Standing, out: Float64Array[] = []): Float64Array[] {
    const { n } = standing;
    for (const [part, { realiser, index, sides }] of this.contexts.entries()) {
      const run = realiser.run(pickOf(standing, index, part), standing.only?.[part]);
      for (const { side, value, bound, sign } of sides) {
        const gap = out[side] ?? new Float64Array(n);
        const v = run.column(value);
        const b = run.column(bound);
        if (typeof v === "number" && typeof b === "number") gap.fill(finite(sign * (v - b)));
        else if (typeof v === "number")
          for (let k = 0; k < n; k++) gap[k] = finite(sign * (v - (b as Float64Array)[k]!));
        else if (typeof b === "number") for (let k = 0; k < n; k++) gap[k] = finite(sign * (v[k]! - b));
        else for (let k = 0; k < n; k++) gap[k] = finite(sign * (v[k]! - b[k]!));
        out[side] = gap;
      }
    }
    return out;
  }
  /** Gaps of the checks, in the order of `checks`: the lesser of a check's two sides. */
  gaps(standing: Standing): Float64Array[] {
    return this.lesser(this.sideGaps(standing));
  }
  /** From columns of sides to columns of checks. */
  lesser(columns: readonly Float64Array[]): Float64Array[] {
    return this.sidesOf.map(([first, second]) => {
      const a = columns[first!]!;
      if (second === undefined) return a;
      const b = columns[second]!;
      return a.map((v, k) => Math.min(v, b[k]!));
    });
  }
}

const finite = (gap: number): number => (Number.isFinite(gap) ? gap : Number.NEGATIVE_INFINITY);

function pickOf(
  { n, unknown, scatter, moved, instead }: Standing,
  index: ReadonlyMap<string, number>,
  part: number,
): Pick {
  return {
    n,
    ...(moved ? { moved } : {}),
    ...(instead ? { instead: (model) => instead(model, part) } : {}),
    unknown: (given) => unknown?.(given) ?? 0,
    scatter: (given, which) =>
      given.scatters[which]!.level === "index" ? index.get(scatterKey(given, which)) : scatter?.(given, which),
  };
}

/** The check has a value and at least one bound in this scene. */
export const applies = (check: Check, scene: Scene): boolean =>
  check.absent(scene) === undefined && sidesOf(check, scene).length > 0;

/** Addresses of the numbers that each of some checks that apply rests on, without evaluating any. */
export function addressesOfEach(scene: Scene, checks: readonly Check[]): ReadonlySet<string>[] {
  const wanted = checks.map((check) => sidesOf(check, scene).flatMap((s) => [s.value, s.bound]));
  const laid = new Realiser(scene, wanted.flat());
  return wanted.map((quantities) => new Set(laid.givensUnder(quantities).map((g) => g.address)));
}

function sidesOf(check: Check, scene: Scene): Omit<Side, "side">[] {
  const value = chosen(check.value, scene);
  if (!value) return [];
  const least = chosen<Quantity>(check.atLeast, scene);
  const most = chosen<Quantity>(check.atMost, scene);
  return [
    ...(least ? [{ check, value, bound: least, sign: 1 as const }] : []),
    ...(most ? [{ check, value, bound: most, sign: -1 as const }] : []),
  ];
}

/**
 * Groups sides by which way each index scatter is unkind to them, seen at the medians: towards its lesser gap, where that is less than the
 * gap as written. Limits of a drawing stand at the limit, for nothing lies beyond it.
 */
function contextsOf(scene: Scene, sides: readonly Side[]): Context[] {
  const all = new Realiser(
    scene,
    sides.flatMap((s) => [s.value, s.bound]),
  );
  const indexes = all.givens.flatMap((given) =>
    given.scatters.flatMap((s, which) => (s.level === "index" ? [{ given, which, law: s.law }] : [])),
  );
  const signatures = sides.map(() => [] as [string, number][]);
  for (const { given, which, law } of indexes) {
    const reach = law === "uniform" ? 1 : indexReach;
    const ends = Float64Array.of(-reach, 0, reach);
    const run = all.run({ n: 3, unknown: () => 0, scatter: (g, w) => (g === given && w === which ? ends : undefined) });
    sides.forEach(({ value, bound, sign }, i) => {
      const gap = (k: number) => {
        return finite(sign * (run.number(value, k) - run.number(bound, k)));
      };
      const [low, middle, high] = [gap(0), gap(1), gap(2)];
      if (Math.min(low, high) < middle) signatures[i]!.push([scatterKey(given, which), low < high ? -reach : reach]);
    });
  }
  const groups = new Map<string, Side[]>();
  sides.forEach((side, i) => {
    const key = JSON.stringify(signatures[i]);
    groups.set(key, [...(groups.get(key) ?? []), side]);
  });
  return [...groups].map(([key, list]) => ({
    realiser: new Realiser(
      scene,
      list.flatMap((s) => [s.value, s.bound]),
    ),
    index: new Map(JSON.parse(key) as [string, number][]),
    sides: list,
  }));
}

/** The coordinates of belief draws: normal, by the unknown's address alone; of a number between two others a blend of theirs. */
export const beliefColumn = (deviates: Deviates, given: Given, n = beliefDraws): Float64Array => {
  if (!given.blend) return deviates.normal(`belief ${given.address}`, n);
  const [a, b] = given.blend.of.map((g) => (g.unknown ? beliefColumn(deviates, g, n) : undefined));
  return blended(given, -1, a, b);
};
/** The coordinates of scatter draws: by address, which of its scatters, and the scatter's own law; mixed where it goes together with others; or a blend, as those of belief. */
export const scatterColumn = (deviates: Deviates, given: Given, which: number, n = scatterDraws): Float64Array => {
  const { blend } = given;
  if (blend) {
    const { a: i, b: j } = blend.scatters[which]!;
    const a = i === undefined ? undefined : scatterColumn(deviates, blend.of[0], i, n);
    return blended(given, which, a, j === undefined ? undefined : scatterColumn(deviates, blend.of[1], j, n));
  }
  const scatter = given.scatters[which]!;
  if (scatter.together) return togetherColumn(deviates, scatter, scatter.together, n);
  const key = `scatter ${scatter.level} ${scatterKey(given, which)}`;
  return scatter.law === "uniform" ? deviates.between(key, n) : deviates.normal(key, n);
};
/** The coordinate at one standard deviation of a scatter's law. */
export const oneSd = (given: Given, which: number): number =>
  given.scatters[which]!.law === "uniform" ? 1 / Math.sqrt(3) : 1;

/** Value of an unknown at a coordinate. */
export const valueAt = (given: Given, z: number): number => believed(given.unknown!, z);
