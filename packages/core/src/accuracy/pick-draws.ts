import type { Given } from "../quantity/given.ts";
import type { Model } from "../quantity/model.ts";
import type { Calibration, PickFamily, Scene } from "../scene.ts";
import { beliefColumn, beliefDraws, scatterKey } from "../study/cell.ts";
import { blockSize, type Deviates } from "../study/deviates.ts";
import { DrawnStream } from "../study/draws.ts";
import { Inputs } from "../study/inputs.ts";
import { asWritten, type Column, type Pick, Realiser } from "../study/realise.ts";
import type { Steps } from "../study/steps.ts";
import { type Axis4, chainOf, leavesIn, type Part, swung } from "./chain.ts";
import { radiusOfSpread, type Spread } from "./holding.ts";
import { calibrationOf, groupsAlong, shareOf, spreadOf } from "./radius.ts";
import { familiesOf } from "./yield.ts";

/**
 * The pick chain drawn: every term at its own level, in blocks of 4096.
 *
 *     known    |what no calibration takes out + index|                       one unit and reel, everything of theirs as written
 *     any      |what the calibration leaves in + reel + index|               any cycle of any unit on any reel of this tape
 *     unit     |all that is fixed for a unit|                                its mean before its place is taught
 *
 * Each radius holds the pick share. A block belongs to one belief draw: the belief draws are put in order by the first radius in closed form, and
 * block b of B takes the one in the middle of the b-th equal weight, so that few blocks show how belief spreads. Its draws come from a
 * stream of its own: any number of workers gives the same bits.
 */
export interface FamilyShare {
  readonly any: number;
  readonly known: number;
}
/** What one block found, plain data. */
export interface BlockResult {
  readonly block: number;
  readonly known: number;
  readonly any: number;
  readonly unit: number;
  /** The first radius in closed form, at the same belief draw. */
  readonly closed: number;
  /** Means and sds of any cycle: along, across, up, turn; and the correlation of along and across. */
  readonly mean: readonly number[];
  readonly sd: readonly number[];
  readonly correlation: number;
  /** Sds of the known unit and reel, the same four. */
  readonly index: readonly number[];
  /** Variances of any cycle by term, along and across. */
  readonly terms: readonly (readonly [along: number, across: number])[];
  /** For every family the share of parts its limits hold. */
  readonly families: readonly FamilyShare[];
  /** A few of the places of any cycle. */
  readonly points: { readonly x: readonly number[]; readonly y: readonly number[] };
}
const four: readonly Axis4[] = ["x", "y", "z", "turn"];

export class PickDraws {
  readonly scene: Scene;
  readonly calibration: Calibration;
  readonly share: number;
  readonly inputs: Inputs;
  readonly families: readonly PickFamily[];
  private readonly deviates: Deviates;
  private readonly weights: Float64Array;
  /** The first radius in closed form at every belief draw, and the belief draws in its order. */
  readonly closed = new Float64Array(beliefDraws);
  private order: readonly number[] = [];
  private readonly limits: { readonly radius: number; readonly turn: number }[];

  constructor(scene: Scene, deviates: Deviates, weights: Float64Array, calibration = calibrationOf(scene)) {
    this.scene = scene;
    this.deviates = deviates;
    this.weights = weights;
    this.calibration = calibration;
    const parts = chainOf(scene).flatMap((t) => t.parts);
    const share = shareOf(scene);
    const places = parts.flatMap((p) => (p.place ? [p.place] : []));
    this.inputs = new Inputs(scene, [...parts.map((p) => p.by), ...places]);
    this.families = familiesOf(scene);
    const givens = [share, ...this.families.flatMap((f) => [f.radius, ...(f.turn ? [f.turn] : [])])];
    const run = new Realiser(scene, givens).run(asWritten);
    this.share = run.number(share);
    this.limits = this.families.map((f) => ({
      radius: run.number(f.radius),
      turn: f.turn ? run.number(f.turn) : Number.POSITIVE_INFINITY,
    }));
  }

  /** Works out the closed form over belief; to be done before blocks are. */
  *prepare(): Steps<void> {
    const groups = (["x", "y"] as const).map((axis) => groupsAlong(this.scene, axis, this.calibration));
    const models = groups.flat(2).map((p) => p.by);
    const realiser = new Realiser(this.scene, models);
    const pick: Pick = {
      n: beliefDraws,
      unknown: (given) => beliefColumn(this.deviates, given),
      // The middle of every law: what a block takes for a known unit and reel.
      scatter: () => 0,
    };
    yield* realiser.prepare(pick);
    const run = realiser.run(pick);
    const at = (m: Model, k: number): number => run.number(m, k);
    for (let k = 0; k < beliefDraws; k++) {
      const [x, y] = groups.map((list) => spreadAt(list, (m) => at(m, k)));
      this.closed[k] = Number.isFinite(x!.v + y!.v + x!.s + y!.s) ? radiusOfSpread(this.share, x!, y!) : Number.NaN;
      if (k % 50 === 49) yield;
    }
    this.order = Array.from({ length: beliefDraws }, (_, k) => k)
      .filter((k) => Number.isFinite(this.closed[k]!))
      .sort((a, b) => this.closed[a]! - this.closed[b]! || a - b);
  }
  /** Belief draw of block b of B. */
  private beliefOf(block: number, of: number): number {
    const total = this.order.reduce((sum, k) => sum + this.weights[k]!, 0);
    const wanted = ((block + 0.5) / of) * total;
    let sum = 0;
    for (const k of this.order) {
      sum += this.weights[k]!;
      if (sum >= wanted) return k;
    }
    return this.order.at(-1) ?? 0;
  }

  /** One block of B. */
  block(block: number, of: number, points: number): BlockResult {
    const n = blockSize;
    const draw = this.beliefOf(block, of);
    const belief = (given: Given): number => beliefColumn(this.deviates, given)[draw]!;
    const { axes, even } = this.inputs;
    const columns = axes.map(({ given, which, level }, i) => {
      const out = new Float64Array(n);
      new DrawnStream(this.deviates.seed, `${level} ${scatterKey(given, which)}`, block).fill(
        even[i] ? "even" : "normal",
        out,
      );
      return out;
    });
    const known = this.placesOf(
      n,
      this.inputs.runOwn(
        n,
        columns.map((c, i) => (axes[i]!.level === "index" ? c : 0)),
        belief,
      ),
      "known",
    );
    const read = this.inputs.runOwn(n, columns, belief);
    const any = this.placesOf(n, read, "any");
    const unit = this.placesOf(n, read, "unit");
    const radii = { known: radiiOf(known), any: radiiOf(any), unit: radiiOf(unit) };
    const terms = this.variances(n, read);
    const families = this.limits.map((limit) => ({
      any: shareWithin(radii.any, any[3]!, limit),
      known: shareWithin(radii.known, known[3]!, limit),
    }));
    const moments = any.map(momentsOf);
    const [x, y] = [any[0]!, any[1]!];
    let cross = 0;
    for (let k = 0; k < n; k++) cross += (x[k]! - moments[0]!.mean) * (y[k]! - moments[1]!.mean);
    const both = moments[0]!.sd * moments[1]!.sd;
    return {
      block,
      known: quantileOf(radii.known, this.share),
      any: quantileOf(radii.any, this.share),
      unit: quantileOf(radii.unit, this.share),
      closed: this.closed[draw]!,
      mean: moments.map((m) => m.mean),
      sd: moments.map((m) => m.sd),
      correlation: both > 0 ? cross / (n - 1) / both : 0,
      index: known.map((c) => momentsOf(c).sd),
      terms,
      families,
      points: { x: [...x.subarray(0, points)], y: [...y.subarray(0, points)] },
    };
  }

  /** Places of the four axes in a run. */
  placesOf(n: number, read: (q: Model | Given) => Column, which: "known" | "any" | "unit"): Float64Array[] {
    const out = four.map(() => new Float64Array(n));
    for (const { parts } of chainOf(this.scene))
      for (const part of parts) {
        if (which === "unit" ? part.level !== "unit" : !this.isIn(part, which)) continue;
        addPart(out[four.indexOf(part.axis)]!, part, read, n);
      }
    return out;
  }
  private isIn(part: Part, which: "known" | "any"): boolean {
    // What is known of a unit and a reel is taken out by teaching the place on them; what comes after that stays.
    if (which === "known" && part.level === "reel") return false;
    return leavesIn(part, which === "known" && this.calibration === "none" ? "one point" : this.calibration);
  }
  private variances(n: number, read: (q: Model | Given) => Column): [number, number][] {
    return chainOf(this.scene).map(({ parts }) => {
      const [x, y] = [new Float64Array(n), new Float64Array(n)];
      for (const part of parts)
        if ((part.axis === "x" || part.axis === "y") && this.isIn(part, "any"))
          addPart(part.axis === "x" ? x : y, part, read, n);
      return [momentsOf(x).sd ** 2, momentsOf(y).sd ** 2];
    });
  }
}
/** Offset and spread of groups of parts from their values. */
export const spreadAt = (groups: readonly (readonly Part[])[], value: (m: Model) => number): Spread =>
  spreadOf(groups.map((group) => ({ swing: group[0]!.swing ?? "none", by: group.map((p) => value(p.by)) })));

function addPart(out: Float64Array, part: Part, read: (q: Model | Given) => Column, n: number): void {
  const by = read(part.by);
  const { swing, place } = part;
  if (!swing || !place) {
    for (let k = 0; k < n; k++) out[k]! += typeof by === "number" ? by : by[k]!;
    return;
  }
  const t = read(place);
  for (let k = 0; k < n; k++)
    out[k]! += (typeof by === "number" ? by : by[k]!) * swung(swing, typeof t === "number" ? t : t[k]!);
}
const radiiOf = ([x, y]: readonly Float64Array[]): Float64Array => x!.map((v, k) => Math.hypot(v, y![k]!));
function quantileOf(radii: Float64Array, share: number): number {
  const sorted = radii.slice().sort();
  const at = share * sorted.length - 0.5;
  const i = Math.min(sorted.length - 2, Math.max(0, Math.floor(at)));
  const t = Math.min(1, Math.max(0, at - i));
  return sorted[i]! + t * (sorted[i + 1]! - sorted[i]!);
}
function momentsOf(c: Float64Array): { mean: number; sd: number } {
  let mean = 0;
  for (let k = 0; k < c.length; k++) mean += c[k]!;
  mean /= c.length;
  let sum = 0;
  for (let k = 0; k < c.length; k++) sum += (c[k]! - mean) ** 2;
  return { mean, sd: Math.sqrt(sum / (c.length - 1)) };
}
function shareWithin(
  radii: Float64Array,
  turns: Float64Array,
  limit: { readonly radius: number; readonly turn: number },
): number {
  let n = 0;
  for (let k = 0; k < radii.length; k++) if (radii[k]! <= limit.radius && Math.abs(turns[k]!) <= limit.turn) n++;
  return n / radii.length;
}
