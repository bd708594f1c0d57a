import { checks } from "../checks.ts";
import type { Letter } from "../quantity/given.ts";
import type { Calibration, Scene } from "../scene.ts";
import { beliefDraws, scatterKey } from "../study/cell.ts";
import { blockSize, type Deviates } from "../study/deviates.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { sharesInSteps } from "../study/shares.ts";
import type { Steps } from "../study/steps.ts";
import { capability } from "./capability.ts";
import { type Axis4, chainOf, noChain, type Swing } from "./chain.ts";
import { AnyRadius, type Narrowing, narrowingInSteps } from "./narrow.ts";
import { type BlockResult, PickDraws } from "./pick-draws.ts";
import { calibrationOf } from "./radius.ts";

/**
 * How sure the pick is, for one unit on one tape: three radii with what belief leaves of them, who makes the spread, what fits which package, what would
 * narrow it. Plain data, SI.
 */
export interface Band {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}
export interface Accuracy {
  readonly unit: string;
  readonly tape: string;
  readonly W: number;
  /** Why there is no pick chain; nothing else counts then. */
  readonly absent?: string;
  /** How far it has got: in closed form only, or drawn. */
  readonly how: "closed" | "drawn";
  readonly draws: number;
  readonly calibration: Calibration;
  /** Share of indexes that the radii hold. */
  readonly share: number;
  /** Radius that the pick tool forgives; null where the project gives none. */
  readonly takes: number | null;
  readonly radii: {
    /** One cycle of a known unit and reel after calibration; any cycle of any unit; the unit's mean before its place is taught. */
    readonly known: Band;
    readonly any: Band | null;
    readonly unitMean: Band | null;
  };
  /** Any cycle of any unit: mean, sds and their correlation; and its ellipses at 1, 2, 3 sd. */
  readonly offset: { readonly x: number; readonly y: number };
  readonly sd: { readonly x: number; readonly y: number; readonly correlation: number };
  readonly ellipses: readonly {
    readonly sds: number;
    readonly long: number;
    readonly short: number;
    readonly angle: number;
  }[];
  /** Sds of one unit on one reel. */
  readonly indexSd: { readonly x: number; readonly y: number };
  readonly height: { readonly mean: number; readonly sd: number; readonly index: number } | null;
  readonly turn: { readonly mean: number; readonly sd: number; readonly index: number } | null;
  readonly points: { readonly x: readonly number[]; readonly y: readonly number[]; readonly of: number };
  readonly pocket: { readonly A0: number; readonly B0: number };
  readonly part: { readonly along: number; readonly across: number } | null;
  readonly terms: readonly TermResult[];
  readonly contributions: readonly Contribution[];
  /** additive: exact; drawn: Jansen's estimators; linear: first differences. */
  readonly sharesBy: "linear" | "additive" | "drawn";
  readonly yields: readonly FamilyYield[];
  readonly narrowing: readonly Narrowing[];
  /** Radius by draws over that in closed form, mean and sd over the blocks. */
  readonly agreement: { readonly ratio: number; readonly sd: number } | null;
}
export interface TermPart {
  readonly id: string;
  readonly symbol: string;
  readonly title: string;
  readonly equation: string;
  readonly axis: Axis4;
  readonly level: "unit" | "reel" | "index";
  /** Taken out by a calibration on another reel. */
  readonly trims: boolean;
  readonly swing: Swing | null;
  /** Place (unit, reel) or reach (index), as written, m or rad. */
  readonly value: number | null;
  readonly origin: string;
}
export interface TermResult {
  readonly id: string;
  readonly title: string;
  /** Why it is not in the chain. */
  readonly left: string | null;
  /** Of the variance of any cycle, along and across together. */
  readonly share: number | null;
  readonly parts: readonly TermPart[];
}
export interface Contribution {
  readonly address: string;
  readonly symbol: string;
  readonly text: string;
  readonly letter: Letter;
  readonly level: "unit" | "reel" | "index";
  /** The chain term that reads it, where one alone does. */
  readonly term: string | null;
  /** Total share of the variance of x and y together, and of each alone. */
  readonly share: number;
  readonly along: number;
  readonly across: number;
  readonly actsTogether: boolean;
}
export interface FamilyYield {
  readonly family: string;
  readonly radius: number;
  readonly turn: number | null;
  /** Share of parts on the tool: any cycle of any unit, with what belief leaves of it; and of a known unit and reel. */
  readonly any: Band;
  readonly known: Band;
  /** Of the worse of the two axes, and the interval a trial of `n` parts would leave about it. */
  readonly cp: number | null;
  readonly cpk: number | null;
  readonly interval: readonly [number, number] | null;
  readonly n: number;
}
export interface AccuracyOptions {
  readonly draws?: number;
  /** Parts of the trial for which the interval of Cpk is stated. */
  readonly parts?: number;
  /** Without shares by draws and levers: what a first look needs. */
  readonly quick?: boolean;
}
export const usualDraws = 24 * blockSize;
const cloud = 400;
export const blocksOf = (draws: number): number => Math.max(4, Math.ceil(draws / blockSize));
/** How many of its places a block hands on. */
export const pointsOf = (blocks: number): number => Math.max(1, Math.floor(cloud / blocks));

/** The whole study, sharpening as it goes: `tell` gets the closed form first, then what some of the blocks say. */
export function* accuracyInSteps(
  scene: Scene,
  names: { readonly unit: string; readonly tape: string },
  deviates: Deviates,
  weights: Float64Array,
  options: AccuracyOptions = {},
  tell?: (so: Accuracy, done: number, of: number) => void,
): Steps<Accuracy> {
  const study = new AccuracyStudy(scene, names, deviates, weights, options);
  if (study.absent !== undefined) return study.nothing();
  yield* study.prepare();
  const { blocks } = study;
  tell?.(study.put([]), 0, blocks);
  // From the middle of belief outwards, so that the first few blocks already say something of all of it.
  const done: BlockResult[] = [];
  for (const b of spreadOut(blocks)) {
    done.push(study.block(b));
    yield;
    if (tell && (done.length & (done.length - 1)) === 0 && done.length >= 4 && done.length < blocks)
      tell(study.put(done), done.length, blocks);
  }
  if (!options.quick) yield* study.finish();
  const out = study.put(done);
  tell?.(out, blocks, blocks);
  return out;
}
/** 0 .. n - 1, each next one far from those before. */
function spreadOut(n: number): number[] {
  const out: number[] = [];
  const bits = Math.ceil(Math.log2(Math.max(2, n)));
  for (let i = 0; i < 2 ** bits; i++) {
    let r = 0;
    for (let b = 0; b < bits; b++) if (i & (1 << b)) r |= 1 << (bits - 1 - b);
    if (r < n) out.push(r);
  }
  return out;
}

/** The study in pieces that may be done anywhere: prepare, blocks by number, put together. */
export class AccuracyStudy {
  readonly absent: string | undefined;
  readonly blocks: number;
  private readonly scene: Scene;
  private readonly names: { readonly unit: string; readonly tape: string };
  private readonly deviates: Deviates;
  private readonly weights: Float64Array;
  private readonly options: AccuracyOptions;
  private pick: PickDraws | undefined;
  private contributions: Contribution[] = [];
  private sharesBy: Accuracy["sharesBy"] = "linear";
  private narrowing: Narrowing[] = [];

  constructor(
    scene: Scene,
    names: { readonly unit: string; readonly tape: string },
    deviates: Deviates,
    weights: Float64Array,
    options: AccuracyOptions = {},
  ) {
    const { draws = usualDraws } = options;
    if (!(draws >= 1 && draws <= 1e9)) throw new RangeError(`${draws} draws: from 1 to a milliard are taken`);
    this.scene = scene;
    this.names = names;
    this.deviates = deviates;
    this.weights = weights;
    this.options = options;
    this.absent = noChain(scene);
    this.blocks = blocksOf(draws);
  }
  *prepare(): Steps<void> {
    this.pick = new PickDraws(this.scene, this.deviates, this.weights);
    yield* this.pick.prepare();
    this.contributions = this.linear();
  }
  block(block: number): BlockResult {
    return this.pick!.block(block, this.blocks, pointsOf(this.blocks));
  }
  /** Shares by draws, and what would narrow it. */
  *finish(): Steps<void> {
    this.contributions = yield* this.drawnShares();
    this.narrowing = yield* narrowingInSteps(this.scene, this.pick!.share, checks);
  }

  /** What all of some blocks say together; without any the closed form alone. */
  put(results: readonly BlockResult[]): Accuracy {
    const pick = this.pick!;
    const done = [...results].sort((a, b) => a.block - b.block);
    const { scene } = this;
    const ratios = done.map((r) => r.known / r.closed).filter(Number.isFinite);
    const ratio = ratios.length > 0 ? ratios.reduce((a, b) => a + b, 0) / ratios.length : 1;
    const closed = bandOf(pick.closed, this.weights);
    const mean = (of: (r: BlockResult) => number): number => done.reduce((sum, r) => sum + of(r), 0) / done.length;
    const pooled = (i: number): { mean: number; sd: number } => {
      const m = mean((r) => r.mean[i]!);
      return { mean: m, sd: Math.sqrt(mean((r) => r.sd[i]! ** 2)) };
    };
    const linear = done.length === 0 ? new AnyRadius(scene).spreads() : undefined;
    const wide = (i: 0 | 1) => {
      const s = linear![i];
      return { mean: s.v, sd: Math.sqrt(s.s * s.s + (s.a * s.a) / 3 + s.b * s.b) };
    };
    const x = linear ? wide(0) : pooled(0);
    const y = linear ? wide(1) : pooled(1);
    const correlation = done.length > 0 ? mean((r) => r.correlation) : 0;
    const L = scene.tape.letters;
    const dims = [L.A0, L.B0, scene.tape.partLength, scene.tape.partWidth, scene.requirement.pickTool];
    const parts = chainOf(scene).flatMap((t) => t.parts);
    const run = new Realiser(scene, [...dims.filter((q) => q !== undefined), ...parts.map((p) => p.by)]).run(asWritten);
    const number = (q: (typeof dims)[number]): number | null => (q ? run.number(q) : null);
    const at = (k: "any" | "unit"): Band | null => (done.length === 0 ? null : bandOfBlocks(done.map((r) => r[k])));
    const varied = done.length > 0 ? mean((r) => r.terms.reduce((sum, [a, b]) => sum + a + b, 0)) : 0;
    return {
      ...this.names,
      W: scene.tape.row,
      how: done.length === 0 ? "closed" : "drawn",
      draws: done.length * blockSize,
      calibration: calibrationOf(scene),
      share: pick.share,
      takes: number(scene.requirement.pickTool),
      radii: { known: scaled(closed, ratio), any: at("any"), unitMean: at("unit") },
      offset: { x: x.mean, y: y.mean },
      sd: { x: x.sd, y: y.sd, correlation },
      ellipses: ellipsesOf(x.sd, y.sd, correlation),
      indexSd:
        done.length > 0
          ? { x: Math.sqrt(mean((r) => r.index[0]! ** 2)), y: Math.sqrt(mean((r) => r.index[1]! ** 2)) }
          : { x: Number.NaN, y: Number.NaN },
      height: done.length > 0 ? { ...pooled(2), index: Math.sqrt(mean((r) => r.index[2]! ** 2)) } : null,
      turn: done.length > 0 ? { ...pooled(3), index: Math.sqrt(mean((r) => r.index[3]! ** 2)) } : null,
      points: {
        x: done.flatMap((r) => r.points.x),
        y: done.flatMap((r) => r.points.y),
        of: done.length * blockSize,
      },
      pocket: { A0: number(L.A0)!, B0: number(L.B0)! },
      part:
        scene.tape.partLength && scene.tape.partWidth
          ? { along: number(scene.tape.partLength)!, across: number(scene.tape.partWidth)! }
          : null,
      terms: chainOf(scene).map(
        (t, i): TermResult => ({
          id: t.id,
          title: t.title,
          left: t.left ?? null,
          share: varied > 0 ? mean((r) => r.terms[i]![0] + r.terms[i]![1]) / varied : null,
          parts: t.parts.map(
            (p): TermPart => ({
              id: p.by.id,
              symbol: p.by.symbol,
              title: p.by.title,
              equation: p.by.equation,
              axis: p.axis,
              level: p.level,
              trims: p.trims === true,
              swing: p.swing ?? null,
              value: finite(run.number(p.by)),
              origin: p.by.origin.cite,
            }),
          ),
        }),
      ),
      contributions: this.contributions,
      sharesBy: this.sharesBy,
      yields: done.length === 0 ? [] : this.yields(done, x, y),
      narrowing: this.narrowing,
      agreement:
        ratios.length > 1
          ? { ratio, sd: Math.sqrt(ratios.reduce((sum, r) => sum + (r - ratio) ** 2, 0) / (ratios.length - 1)) }
          : null,
    };
  }
  nothing(): Accuracy {
    const none = { low: Number.NaN, middle: Number.NaN, high: Number.NaN };
    const run = new Realiser(this.scene, [this.scene.tape.letters.A0, this.scene.tape.letters.B0]).run(asWritten);
    return {
      ...this.names,
      W: this.scene.tape.row,
      ...(this.absent === undefined ? {} : { absent: this.absent }),
      how: "closed",
      draws: 0,
      calibration: calibrationOf(this.scene),
      share: Number.NaN,
      takes: null,
      radii: { known: none, any: null, unitMean: null },
      offset: { x: Number.NaN, y: Number.NaN },
      sd: { x: Number.NaN, y: Number.NaN, correlation: 0 },
      ellipses: [],
      indexSd: { x: Number.NaN, y: Number.NaN },
      height: null,
      turn: null,
      points: { x: [], y: [], of: 0 },
      pocket: { A0: run.number(this.scene.tape.letters.A0), B0: run.number(this.scene.tape.letters.B0) },
      part: null,
      terms: [],
      contributions: [],
      sharesBy: "linear",
      yields: [],
      narrowing: [],
      agreement: null,
    };
  }

  private yields(
    done: readonly BlockResult[],
    x: { readonly mean: number; readonly sd: number },
    y: { readonly mean: number; readonly sd: number },
  ): FamilyYield[] {
    const { parts: n = 100 } = this.options;
    const run = new Realiser(
      this.scene,
      this.pick!.families.flatMap((f) => [f.radius, ...(f.turn ? [f.turn] : [])]),
    ).run(asWritten);
    return this.pick!.families.map((f, i): FamilyYield => {
      const radius = run.number(f.radius);
      const both = [x, y].flatMap(({ mean, sd }) =>
        sd > 0 ? [capability({ mean, sd, low: -radius, high: radius, n })] : [],
      );
      const worse = both.sort((a, b) => a.cpk - b.cpk)[0];
      return {
        family: f.name,
        radius,
        turn: f.turn ? run.number(f.turn) : null,
        any: bandOfBlocks(done.map((r) => r.families[i]!.any)),
        known: bandOfBlocks(done.map((r) => r.families[i]!.known)),
        cp: worse?.cp ?? null,
        cpk: worse?.cpk ?? null,
        interval: worse?.interval ?? null,
        n,
      };
    });
  }

  /** By first differences at the medians: exact for what is linear in its coordinate. */
  private linear(): Contribution[] {
    const { inputs } = this.pick!;
    const { axes, even } = inputs;
    const n = 1 + 4 * axes.length;
    // Gauss and Legendre's or Hermite's rule would be finer; two points at one sd are exact for a straight line, and four catch a sine.
    const z = axes.map(({ given, which }, i) => {
      const c = new Float64Array(n);
      const sd = even[i] && given.scatters[which]!.law === "uniform" ? 1 : Math.sqrt(3);
      const at = even[i] ? [0.8611363116, 0.3399810436] : [sd, 0.5];
      c[1 + 4 * i] = at[0]!;
      c[2 + 4 * i] = -at[0]!;
      c[3 + 4 * i] = at[1]!;
      c[4 + 4 * i] = -at[1]!;
      return c;
    });
    const places = this.pick!.placesOf(n, inputs.runOwn(n, z), "any");
    const variance = (c: Float64Array, i: number): number => {
      const f = [1, 2, 3, 4].map((k) => c[k + 4 * i]! - c[0]!);
      if (even[i]) {
        const w = [0.1739274226, 0.1739274226, 0.3260725774, 0.3260725774];
        const mean = f.reduce((sum, v, k) => sum + w[k]! * v, 0);
        return f.reduce((sum, v, k) => sum + w[k]! * (v - mean) ** 2, 0);
      }
      return ((f[0]! - f[1]!) / (2 * Math.sqrt(3))) ** 2;
    };
    const V = axes.map((_, i) => [variance(places[0]!, i), variance(places[1]!, i)] as const);
    const sum = V.reduce((s, [a, b]) => [s[0]! + a, s[1]! + b], [0, 0]);
    return this.named(
      V.map(([a, b]) => ({
        share: (a + b) / (sum[0]! + sum[1]!),
        along: sum[0]! > 0 ? a / sum[0]! : 0,
        across: sum[1]! > 0 ? b / sum[1]! : 0,
        actsTogether: false,
      })),
    );
  }
  private *drawnShares(): Steps<Contribution[]> {
    const pick = this.pick!;
    const { inputs } = pick;
    const { axes, even } = inputs;
    const importance = axes.map(
      ({ given, which }) => this.contributions.find((c) => c.address === given.address && which === 0)?.share ?? 0,
    );
    const of = (axis: 0 | 1) => ({
      names: axes.map(({ given, which, level }) => `${level} ${scatterKey(given, which)}`),
      laws: even.map((e) => (e ? ("even" as const) : ("normal" as const))),
      at: (x: readonly Float64Array[], n: number) =>
        pick.placesOf(n, inputs.runOwn(n, x, undefined, undefined, true), "any")[axis]!,
    });
    const options = { seed: this.deviates.seed, points: 1024, scrambles: 4, importance };
    const along = yield* sharesInSteps(of(0), options);
    const across = yield* sharesInSteps(of(1), options);
    this.sharesBy = along.how === "additive" && across.how === "additive" ? "additive" : "drawn";
    const all = along.variance + across.variance;
    return this.named(
      axes.map((_, i) => {
        const [a, b] = [along.shares[i]!, across.shares[i]!];
        return {
          share: all > 0 ? (a.total * along.variance + b.total * across.variance) / all : 0,
          along: a.total,
          across: b.total,
          actsTogether:
            (a.together && a.total * along.variance > 0.02 * all) ||
            (b.together && b.total * across.variance > 0.02 * all),
        };
      }),
    );
  }
  private named(shares: readonly Pick4[]): Contribution[] {
    const terms = chainOf(this.scene);
    return this.pick!.inputs.axes.map(({ given, level }, i): Contribution => {
      const readers = terms.filter((t) =>
        t.parts.some((p) => p.place === given || readsDirectly(p.by.reads(this.scene), given)),
      );
      return {
        address: given.address,
        symbol: given.symbol,
        text: given.text,
        letter: given.letter,
        level,
        term: readers.length === 1 ? readers[0]!.id : null,
        ...shares[i]!,
      };
    })
      .filter((c) => c.share > 1e-4)
      .sort((a, b) => b.share - a.share || (a.address < b.address ? -1 : 1));
  }
}
type Pick4 = globalThis.Pick<Contribution, "share" | "along" | "across" | "actsTogether">;
const readsDirectly = (reads: Readonly<Record<string, unknown>> | undefined, given: unknown): boolean =>
  reads !== undefined && Object.values(reads).includes(given);
const finite = (v: number): number | null => (Number.isFinite(v) ? v : null);

function ellipsesOf(sx: number, sy: number, correlation: number): Accuracy["ellipses"] {
  const [a, b, c] = [sx * sx, sy * sy, correlation * sx * sy];
  const half = Math.hypot((a - b) / 2, c);
  const middle = (a + b) / 2;
  const angle = 0.5 * Math.atan2(2 * c, a - b);
  return [1, 2, 3].map((sds) => ({
    sds,
    long: sds * Math.sqrt(middle + half),
    short: sds * Math.sqrt(Math.max(0, middle - half)),
    angle,
  }));
}
const scaled = ({ low, middle, high }: Band, by: number): Band => ({
  low: low * by,
  middle: middle * by,
  high: high * by,
});
/** 5, 50 and 95 % points over weighted belief. */
function bandOf(column: Float64Array, weights: Float64Array): Band {
  const order = Array.from({ length: beliefDraws }, (_, k) => k)
    .filter((k) => Number.isFinite(column[k]!))
    .sort((a, b) => column[a]! - column[b]!);
  const total = order.reduce((sum, k) => sum + weights[k]!, 0);
  const at = (share: number): number => {
    let sum = 0;
    for (const k of order) {
      sum += weights[k]!;
      if (sum >= share * total) return column[k]!;
    }
    return Number.NaN;
  };
  return { low: at(0.05), middle: at(0.5), high: at(0.95) };
}
/** The same of blocks, each of which stands for an equal weight of belief. */
function bandOfBlocks(values: readonly number[]): Band {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => {
    const t = Math.min(sorted.length - 1, Math.max(0, share * sorted.length - 0.5));
    const i = Math.min(sorted.length - 2, Math.floor(t));
    return i < 0 ? sorted[0]! : sorted[i]! + (t - i) * (sorted[i + 1]! - sorted[i]!);
  };
  return { low: at(0.05), middle: at(0.5), high: at(0.95) };
}
