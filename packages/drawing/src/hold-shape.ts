import {
  type Given,
  Leaf,
  type LeafInputs,
  leafShapeOf,
  pressedLeaf,
  type Quantity,
  type Realised,
  type Scene,
} from "@tapeworthy/core";
import { poseOn, type Route } from "./route-line.ts";
import type { Measure, Numbers } from "./unit-shape.ts";

/** What keeps the tape on its wheel, as numbers to draw it by, m. */
export interface HoldShape {
  readonly kind: "leaf" | "rib" | "run-off bend";
  /** Where it begins and ends along the tape. */
  readonly from: number;
  readonly to: number;
  /** Its lower face over the tape's underside. */
  readonly height: number;
  readonly thickness: number;
  /** The file says where it begins and ends. */
  readonly placed: boolean;
  /** A leaf's middle line as its preload bends it, clamp first: along the tape from its nose, over what the nose rests on. */
  readonly bent?: readonly (readonly [along: number, up: number])[];
  /** Numbers of the file that a drawing may show and a hand may move. */
  readonly gap?: Measure;
  readonly long?: Measure;
  readonly thick?: Measure;
  readonly push?: Measure;
  readonly reach?: Measure;
}

/** A leaf that no file places is drawn from so far behind the peel line: before it the film lies on the tape. */
const behindPeel = 2.5e-3;
/** Length drawn of a hold-down whose file gives none. */
const usualLength = 10e-3;

export function holdShape(
  { unit }: Scene,
  { number, measure }: { readonly number: Numbers; readonly measure: (q: Quantity) => Measure },
  where: {
    readonly T: number;
    readonly peel: number | undefined;
    readonly pick: number;
    readonly wheel: number | undefined;
  },
  bent: HoldShape["bent"],
): HoldShape | undefined {
  const hold = unit["hold-down"];
  if (!hold) return undefined;
  const of = (q: Given | undefined): number | undefined => q && number(q);
  const long = of(hold["free length"]);
  const given = { from: of(hold.from), to: of(hold.to) };
  const presses = of(hold.at) ?? where.wheel ?? where.pick;
  const measures = {
    ...(hold.gap ? { gap: measure(hold.gap) } : {}),
    ...(hold["free length"] ? { long: measure(hold["free length"]) } : {}),
    ...(hold.thickness ? { thick: measure(hold.thickness) } : {}),
    ...(hold.push ? { push: measure(hold.push) } : {}),
    ...(hold.reach ? { reach: measure(hold.reach) } : {}),
  };
  const placed = hold.from !== undefined && hold.to !== undefined;
  if (hold.kind === "run-off bend") {
    const to = given.to ?? presses + (measures.reach?.value ?? usualLength);
    return { kind: hold.kind, from: given.from ?? presses, to, height: where.T, thickness: 0, placed, ...measures };
  }
  if (hold.kind === "rib" && !placed) {
    // A rib that no file places is drawn over the wheel, as long as the span it holds.
    const half = (of(hold.span) ?? usualLength) / 2;
    const [from, to] = [given.from ?? presses - half, given.to ?? presses + half];
    return { kind: hold.kind, from, to, height: of(hold.gap) ?? where.T, thickness: 0, placed, ...measures };
  }
  const to = given.to ?? (given.from === undefined ? presses : given.from + (long ?? usualLength));
  const reach = bent ? -bent[0]![0] : (long ?? usualLength);
  const from = given.from ?? Math.max(to - reach, (where.peel ?? Number.NEGATIVE_INFINITY) + behindPeel);
  return {
    kind: hold.kind,
    from,
    to,
    height: hold.kind === "leaf" ? where.T : (of(hold.gap) ?? where.T),
    thickness: of(hold.thickness) ?? 0,
    placed,
    ...(bent ? { bent } : {}),
    ...measures,
  };
}

/**
 * The leaf as its preload bends it, from core's beam (spring/leaf.ts), 20 elements; undefined where it has no such state or the file does not
 * give it whole. Without a clamp angle in the file it is drawn turned so that its nose lies along the tape: clamped along the tape, as the check
 * takes it, it would begin below the tape. The last few are kept: while a hand moves something else it is not bent anew.
 */
export function bentLeaf(scene: Scene, run: Realised): HoldShape["bent"] {
  if (!pressedLeaf.reads(scene)) return undefined;
  const x = run.inputsOf(pressedLeaf, scene) as unknown as LeafInputs;
  const key = JSON.stringify(x);
  if (kept.has(key)) return kept.get(key);
  let found: HoldShape["bent"];
  try {
    const leaf = new Leaf(leafShapeOf(x));
    const n = [-Math.sin(x.alpha), Math.cos(x.alpha)] as const;
    const pressed = leaf.pressWith({ kind: "nose", normal: n }, x.F_0);
    if (pressed.outcome === "solved") {
      const { x: along, y: up, angle } = pressed.shape;
      const last = along.length - 1;
      const turned = scene.unit["hold-down"]!["clamp angle"] ? x.alpha : angle[last]!;
      const [c, s] = [Math.cos(turned), Math.sin(turned)];
      found = Array.from(along, (px, i): readonly [number, number] => {
        const [dx, dy] = [px - along[last]!, up[i]! - up[last]!];
        return [dx * c + dy * s, dy * c - dx * s];
      });
    }
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
  }
  kept.set(key, found);
  for (const old of [...kept.keys()].slice(0, -8)) kept.delete(old);
  return found;
}
const kept = new Map<string, HoldShape["bent"]>();

/** Height of a bent leaf's middle line over what its nose rests on, at a place along the tape from the nose. */
export function heightOfLeaf(bent: NonNullable<HoldShape["bent"]>, along: number): number {
  for (let i = 1; i < bent.length; i++) {
    const [p, q] = [bent[i - 1]!, bent[i]!];
    if (along <= q[0] || i + 1 === bent.length) return p[1] + ((along - p[0]) / (q[0] - p[0] || 1)) * (q[1] - p[1]);
  }
  return 0;
}
/** Where a hold-down acts, for a balloon: a rib over its middle, a leaf near its nose, a bend where it pushes. */
export const holdPlace = (hold: HoldShape, route: Route): ReturnType<typeof poseOn> =>
  poseOn(
    route,
    hold.kind === "run-off bend"
      ? hold.to
      : hold.kind === "rib"
        ? (hold.from + hold.to) / 2
        : (hold.from + 3 * hold.to) / 4,
  );
