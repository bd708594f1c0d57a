import {
  asWritten,
  type BeliefPoints,
  beliefColumn,
  beliefPoints,
  type Check,
  chosen,
  type Deviates,
  type Given,
  type Model,
  type Quantity,
  Realiser,
  rootBetween,
  type Scene,
} from "@tapeworthy/core";

/** A number of a scene that a wall is drawn over, or that stands elsewhere than written: by the end of its address. */
export interface Moved {
  readonly given: Given;
  /** SI. */
  readonly to: number;
}
export interface CurveSpec {
  readonly scene: Scene;
  /** Checks whose value and bounds are drawn; they share one value. */
  readonly checks: readonly Check[];
  readonly along: Given;
  /** Ends, SI. */
  readonly from: number;
  readonly to: number;
  readonly set?: readonly Moved[];
  /** How many draws of belief: fewer where a model takes long. */
  readonly draws?: number;
  /** Further quantities whose values the words want. */
  readonly also?: readonly Quantity[];
}
export interface CurvePoint {
  readonly at: number;
  readonly value: BeliefPoints;
  readonly least?: BeliefPoints;
  readonly most?: BeliefPoints;
  /** Share of belief in which the window holds; everything that scatters as written. */
  readonly share: number;
  /** Distance to the nearer bound, with every guess in its middle. */
  readonly gap: number;
  readonly also: readonly number[];
}
/**
 * The value of a check and its window over one number of a scene: with every guess in its middle, and between the 5 and 95 % points of belief. What
 * scatters stands in its middle. The number itself is known where it is set, also if it is a guess in the scene.
 */
export interface Curve {
  readonly points: readonly CurvePoint[];
  readonly value: Model;
  readonly least: Quantity | undefined;
  readonly most: Quantity | undefined;
  readonly along: Given;
  /** Where the number stands as written, SI. */
  readonly drawn: number;
  /** Where the value crosses a bound, every guess in its middle. */
  readonly turns: readonly number[];
  at(x: number): CurvePoint;
}

const steps = 48;
export function curveOf(
  { scene, checks, along, from, to, set = [], draws = 100, also = [] }: CurveSpec,
  deviates: Deviates,
): Curve {
  const applied = checks.map((check) => {
    const why = check.absent(scene);
    if (why !== undefined) throw new RangeError(`${check.id} does not apply: ${why}`);
    return check;
  });
  const value = chosen(applied[0]!.value, scene)!;
  const least = applied.map((c) => chosen<Quantity>(c.atLeast, scene)).find((q) => q !== undefined);
  const most = applied.map((c) => chosen<Quantity>(c.atMost, scene)).find((q) => q !== undefined);
  const run = new Realiser(scene, [value, ...(least ? [least] : []), ...(most ? [most] : []), ...also]);
  if (!run.givens.includes(along)) throw new RangeError(`${applied[0]!.id} does not rest on ${along.address}`);
  const columns = new Map<Given, Float64Array>();
  /** The first place has every guess in its middle, the others are draws. */
  const belief = (g: Given): Float64Array => {
    const known = columns.get(g) ?? Float64Array.of(0, ...beliefColumn(deviates, g, draws));
    columns.set(g, known);
    return known;
  };
  const fixed = new Map(set.map(({ given, to: value }) => [given, value - middleOf(given, scene)]));
  const drawn = middleOf(along, scene);
  const weights = new Float64Array(draws).fill(1);
  const pointsOf = (column: Float64Array): BeliefPoints => ({
    ...beliefPoints(column.subarray(1), weights),
    middle: column[0]!,
  });
  const at = (x: number): CurvePoint => {
    const realised = run.run({
      n: draws + 1,
      unknown: (g) => (g === along || fixed.has(g) ? 0 : belief(g)),
      scatter: () => undefined,
      moved: (g) => (g === along ? x - drawn : fixed.get(g)),
    });
    const column = (q: Quantity): Float64Array => {
      const c = realised.column(q);
      return typeof c === "number" ? new Float64Array(draws + 1).fill(c) : c.slice();
    };
    const [v, a, b] = [column(value), least && column(least), most && column(most)];
    const gap = v.map((one, k) =>
      Math.min(a ? one - a[k]! : Number.POSITIVE_INFINITY, b ? b[k]! - one : Number.POSITIVE_INFINITY),
    );
    return {
      at: x,
      value: pointsOf(v),
      ...(a ? { least: pointsOf(a) } : {}),
      ...(b ? { most: pointsOf(b) } : {}),
      share: gap.subarray(1).filter((g) => g >= 0).length / draws,
      gap: gap[0]!,
      also: also.map((q) => column(q)[0]!),
    };
  };
  const points = Array.from({ length: steps + 1 }, (_, i) => at(from + ((to - from) * i) / steps));
  const turns = points.flatMap((p, i) => {
    const q = points[i + 1];
    if (!q || p.gap >= 0 === q.gap >= 0) return [];
    return rootBetween((x) => at(x).gap, p.at, q.at, (to - from) * 1e-5) ?? [];
  });
  return { points, value, least, most, along, drawn, turns, at };
}
/** Where a number stands as written, a guess in its middle. */
export const middleOf = (g: Given, scene: Scene): number => new Realiser(scene, [g]).run(asWritten).number(g);
