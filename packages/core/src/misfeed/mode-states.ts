import { type Check, chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { applies } from "../study/cell.ts";
import { type Axis, Inputs } from "../study/inputs.ts";
import { columnsFor, type LimitStates } from "../study/limit-states.ts";
import { type Column, Realiser } from "../study/realise.ts";

/** One side of a window as a limit state: value less lower bound, or upper bound less value. */
export interface Side {
  readonly check: Check;
  readonly value: Quantity;
  readonly bound: Quantity;
  readonly sign: 1 | -1;
}
export const sidesOf = (check: Check, scene: Scene): Side[] => {
  if (!applies(check, scene)) return [];
  const value = chosen<Quantity>(check.value, scene);
  if (!value) return [];
  const [least, most] = [chosen<Quantity>(check.atLeast, scene), chosen<Quantity>(check.atMost, scene)];
  return [
    ...(least ? [{ check, value, bound: least, sign: 1 as const }] : []),
    ...(most ? [{ check, value, bound: most, sign: -1 as const }] : []),
  ];
};
/** Runs of that many points take costly models by their differences (study/realise.ts). */
const many = 200;
/** A coordinate at which a number stands on its limit. */
const limit = 8;

/**
 * Windows of a scene as limit states over everything that scatters in them, index scatter too; belief stands wherever it is put. Costly models
 * stand by their differences whatever the number of points; `truly` computes them.
 */
export class ModeStates implements LimitStates {
  readonly names: readonly string[];
  readonly dimensions: number;
  readonly axes: readonly Axis[];
  readonly unknowns: readonly Given[];
  readonly sides: readonly Side[];
  /** Whether anything in it is costly, so that differences stand for it. */
  readonly costly: boolean;
  /** Coordinate of each unknown. */
  belief: (given: Given) => Column = () => 0;
  private readonly inputs: Inputs;
  private readonly out: Float64Array[];
  private padded: Float64Array[] = [];

  constructor(scene: Scene, sides: readonly Side[]) {
    this.sides = sides;
    const quantities = [...new Set(sides.flatMap((s) => [s.value, s.bound]))];
    this.inputs = new Inputs(scene, quantities);
    this.axes = this.inputs.axes;
    this.unknowns = this.inputs.unknowns;
    this.dimensions = this.axes.length;
    this.names = sides.map((s) => `${s.check.id} ${s.sign > 0 ? "least" : "most"}`);
    this.costly = new Realiser(scene, quantities).models.some((m) => m.costly);
    this.out = sides.map(() => new Float64Array(0));
  }

  at(z: readonly Float64Array[], n: number): readonly Float64Array[] {
    if (!this.costly || n >= many) return this.run(z, n);
    if (this.padded.length === 0) this.padded = columnsFor(this.dimensions, many);
    this.padded.forEach((column, i) => {
      column.set(z[i]!.subarray(0, n));
      column.fill(z[i]![n - 1]!, n);
    });
    return this.run(this.padded, many);
  }
  /** Limit states at one point, costly models computed. */
  truly(point: Float64Array): number[] {
    const run = this.inputs.run(1, Array.from(point), this.belief);
    return this.sides.map(({ value, bound, sign }) => {
      const [v, b] = [run(value), run(bound)];
      return sign * ((typeof v === "number" ? v : v[0]!) - (typeof b === "number" ? b : b[0]!));
    });
  }
  /** The same windows over belief too: the unknowns' coordinates after those of the axes. */
  overBelief(): LimitStates {
    const at = new Map(this.unknowns.map((g, i) => [g.address, this.dimensions + i]));
    return {
      dimensions: this.dimensions + this.unknowns.length,
      names: this.names,
      at: (z, n) => {
        const kept = this.belief;
        // Another object each time: what stands on a column is kept by identity.
        this.belief = (given) => z[at.get(given.address) ?? -1]?.subarray(0, n) ?? 0;
        const out = this.at(z.slice(0, this.dimensions), n);
        this.belief = kept;
        return out;
      },
    };
  }
  /** Nothing but limits of a drawing scatters, and no window breaks with all of them on its unkind side (taken one by one). */
  get cannotFail(): boolean {
    if (this.axes.some(({ given, which }) => given.scatters[which]!.law !== "uniform")) return false;
    const d = this.dimensions;
    const n = 2 * d + 1;
    const z = columnsFor(d, n);
    for (let i = 0; i < d; i++) {
      z[i]![1 + 2 * i] = limit;
      z[i]![2 + 2 * i] = -limit;
    }
    const values = this.at(z, n);
    const corners = values.map((g) =>
      Float64Array.from({ length: d }, (_, i) => (g[1 + 2 * i]! < g[2 + 2 * i]! ? limit : -limit)),
    );
    const open = columnsFor(d, corners.length);
    corners.forEach((corner, k) => {
      for (let i = 0; i < d; i++) open[i]![k] = corner[i]!;
    });
    return this.at(open, corners.length).every((g, k) => g[k]! >= 0);
  }
  private run(z: readonly Float64Array[], n: number): readonly Float64Array[] {
    const run = this.inputs.run(n, z, this.belief);
    this.sides.forEach(({ value, bound, sign }, k) => {
      let to = this.out[k]!;
      if (to.length < n) {
        to = new Float64Array(n);
        this.out[k] = to;
      }
      const [v, b] = [run(value), run(bound)];
      for (let i = 0; i < n; i++) {
        const g = sign * ((typeof v === "number" ? v : v[i]!) - (typeof b === "number" ? b : b[i]!));
        to[i] = Number.isFinite(g) ? g : Number.NEGATIVE_INFINITY;
      }
    });
    return this.out;
  }
}
