import type { Given } from "../quantity/given.ts";
import { phi } from "../quantity/law.ts";
import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { scatterKey } from "./cell.ts";
import { type Mixture, mixtures } from "./correlated.ts";
import { type Column, Realiser } from "./realise.ts";

/** One scatter as an independent standard normal coordinate. */
export interface Axis {
  readonly given: Given;
  readonly which: number;
  readonly level: "reel" | "unit" | "index";
}
const levels = ["reel", "unit", "index"] as const;

/** How an axis' own law takes its normal score: as it is, or between limits; and of which axes the score is made, where some go together. */
interface Law {
  readonly uniform: boolean;
  readonly mix: Mixture | undefined;
}

/**
 * What scatters in some quantities of a scene, as independent standard normal coordinates, by level; belief stands outside.
 *
 *     x = F^-1(Phi(z)):  normal  x0 + s z,  lognormal  x0 exp(s z),  between limits  t = 2 Phi(z) - 1
 *
 * So every question is a choice of z: draws, first-order reliability, shares, rare events. An axis stands for one scatter at one address: two
 * quantities that read one number share it. Scatters that go together are mixed here (correlated.ts): their axes stay independent.
 *
 * A costly model stands as its first differences in runs of 200 points and more (differences.ts), where those are good enough.
 */
export class Inputs {
  readonly scene: Scene;
  readonly quantities: readonly Quantity[];
  /** In a fixed order: reel, unit, index; within a level by address. */
  readonly axes: readonly Axis[];
  readonly unknowns: readonly Given[];
  /** For every axis whether its own coordinate is t in [-1, 1], between limits; else it is a normal score. */
  readonly even: readonly boolean[];
  private readonly realiser: Realiser;
  private readonly laws: readonly Law[];
  private readonly axisAt: ReadonlyMap<string, number>;
  private readonly columns = new Map<number, Float64Array>();
  /** What the last run's columns were made of, for `kept`. */
  private last:
    | { n: number; own: boolean; from: (Float64Array | number | undefined)[][]; made: (Column | undefined)[] }
    | undefined;

  constructor(scene: Scene, quantities: readonly Quantity[]) {
    this.scene = scene;
    this.quantities = [...new Set(quantities)];
    this.realiser = new Realiser(scene, this.quantities);
    const givens = new Map<string, Given>();
    for (const g of this.realiser.givens) {
      const before = givens.get(g.address);
      if (!before || before.scatters.length < g.scatters.length) givens.set(g.address, g);
    }
    const sorted = [...givens.values()].sort((a, b) => (a.address < b.address ? -1 : 1));
    this.unknowns = sorted.filter((g) => g.unknown);
    this.axes = levels.flatMap((level) =>
      sorted.flatMap((given) =>
        given.scatters.flatMap((s, which): Axis[] => (s.level === level ? [{ given, which, level }] : [])),
      ),
    );
    this.axisAt = new Map(this.axes.map(({ given, which }, i) => [scatterKey(given, which), i]));
    const mixes = mixtures(this.axes);
    const mixing = new Set(mixes.flatMap((mix) => mix?.map(([, axis]) => axis) ?? []));
    this.even = this.axes.map(({ given, which }, i) => given.scatters[which]!.law === "uniform" && !mixing.has(i));
    this.laws = this.axes.map(({ given, which }, i) => ({
      uniform: given.scatters[which]!.law === "uniform",
      mix: mixes[i],
    }));
  }

  /**
   * The quantities at n points. z[i] is the column of axis i, or one number for all points; undefined or left out: as written. `belief` is
   * the coordinate of each unknown (default 0, its median), or a column of them; `moved` how far a number's centre stands from its text, SI.
   *
   * Columns in the result stay valid until the next run. Columns of z may be written over after the run. With `kept` they must not: then
   * what rests on the same columns as in the last run is not evaluated again.
   */
  run(
    n: number,
    z: readonly (Float64Array | number | undefined)[],
    belief?: (given: Given) => Column,
    moved?: (given: Given) => number | undefined,
    kept = false,
  ): (q: Quantity) => Column {
    return this.evaluate(n, this.coordinates(n, z, kept, false), belief, moved);
  }
  /** The same from the axes' own coordinates: t in [-1, 1] where `even` says so, else the normal score. Saves the way there and back. */
  runOwn(
    n: number,
    own: readonly (Float64Array | number | undefined)[],
    belief?: (given: Given) => Column,
    moved?: (given: Given) => number | undefined,
    kept = false,
  ): (q: Quantity) => Column {
    return this.evaluate(n, this.coordinates(n, own, kept, true), belief, moved);
  }
  private evaluate(
    n: number,
    coordinates: readonly (Column | undefined)[],
    belief: ((given: Given) => Column) | undefined,
    moved: ((given: Given) => number | undefined) | undefined,
  ): (q: Quantity) => Column {
    const run = this.realiser.run({
      n,
      unknown: (given) => belief?.(given) ?? 0,
      scatter: (given, which) => coordinates[this.axisAt.get(scatterKey(given, which)) ?? -1],
      ...(moved ? { moved } : {}),
    });
    return (q) => run.column(q);
  }

  /** Coordinates of the laws, from normal scores. A fresh view of each column, so that nothing of an earlier run stands for it, save with `kept`. */
  private coordinates(
    n: number,
    z: readonly (Float64Array | number | undefined)[],
    kept: boolean,
    own: boolean,
  ): (Column | undefined)[] {
    const last = kept && this.last?.n === n && this.last.own === own ? this.last : undefined;
    const from: (Float64Array | number | undefined)[][] = [];
    const made = this.laws.map(({ uniform: between, mix }, i): Column | undefined => {
      const uniform = between && !(own && this.even[i]);
      const scores = mix ? mix.map(([, axis]) => z[axis]) : [z[i]];
      from.push(scores);
      if (last && last.from[i]!.every((c, k) => c === scores[k])) return last.made[i];
      if (scores.every((c) => c === undefined)) return undefined;
      if (!mix && !uniform) return typeof z[i] === "number" ? z[i] : kept ? z[i] : view(z[i]!, n);
      if (scores.every((c) => typeof c !== "object")) {
        const score = mix
          ? mix.reduce((sum, [w], k) => sum + w * ((scores[k] as number | undefined) ?? 0), 0)
          : (scores[0] as number);
        return uniform ? 2 * phi(score) - 1 : score;
      }
      const out = this.buffer(i, n);
      if (mix) mixed(mix, scores, out);
      const score = mix ? out : (scores[0] as Float64Array);
      if (uniform) for (let k = 0; k < n; k++) out[k] = 2 * phi(score[k]!) - 1;
      return view(out, n);
    });
    this.last = kept ? { n, own, from, made } : undefined;
    return made;
  }
  private buffer(axis: number, n: number): Float64Array {
    const known = this.columns.get(axis);
    if (known && known.length >= n) return known.subarray(0, n);
    const made = new Float64Array(n);
    this.columns.set(axis, made);
    return made;
  }
}

/** A column of the same numbers that is another object: what is kept by identity takes it for a new one. */
const view = (c: Float64Array, n: number): Float64Array => c.subarray(0, n);

function mixed(mix: Mixture, own: readonly (Column | undefined)[], out: Float64Array): void {
  out.fill(0);
  mix.forEach(([w], k) => {
    const c = own[k];
    if (c === undefined) return;
    if (typeof c === "number") for (let m = 0; m < out.length; m++) out[m]! += w * c;
    else for (let m = 0; m < out.length; m++) out[m]! += w * c[m]!;
  });
}
