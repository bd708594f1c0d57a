import type { Check } from "../quantity/check.ts";
import { none } from "../quantity/dimension.ts";
import { tabled } from "../quantity/given.ts";
import type { Model, Quantity, Reads } from "../quantity/model.ts";
import type { Calibration, Scene } from "../scene.ts";
import { type Axis4, leavesIn, noChain, type Part, partsAlong, swingSd } from "./chain.ts";
import { radiusByTails, type Spread } from "./holding.ts";

/**
 * The radius that holds the stated share of one pair's indexes: unit and reel as they are, the place taught by the stated calibration.
 *
 *     v = sum of what is fixed for unit and reel and the calibration leaves in            (vector: along, across)
 *     s = spread of what is new with every index
 *     R:  P(|v + s| < R) = q                                                         (holding.ts)
 *
 * q pick share, 99.7 % where the project gives none. Terms: chain.ts; their sum is linear, and along and across are taken as independent (a tape that
 * wanders and yaws in its play moves both: a few um). Rotation and height are not in it (accuracy.ts).
 */
export const usualShare = tabled("project/requirement.pick share", "q", "99.7 %", none, {
  cite: "three standard deviations either way, custom of the trade",
  how: "judgement",
});
export const shareOf = ({ requirement }: Scene): Quantity => requirement.pickShare ?? usualShare;
/** How the place is taught: once, with another reel of the same tape, where the project does not say. */
export const calibrationOf = ({ requirement }: Scene): Calibration => requirement.calibration ?? "one point";

/** Parts that move together: what is fixed, or what one place of an index swings. */
interface PartNumbers {
  /** How it swings; "none": fixed. */
  readonly swing: string;
  readonly by: readonly number[];
}
interface RadiusNumbers {
  readonly q: number;
  readonly along: readonly PartNumbers[];
  readonly across: readonly PartNumbers[];
}
/** Offset and spread of one axis. */
export function spreadOf(parts: readonly PartNumbers[]): Spread {
  let v = 0;
  let variance = 0;
  let a = 0;
  let b = 0;
  // By number: these loops run for every draw of every part, and an iterator would make an object for each number.
  for (let i = 0; i < parts.length; i++) {
    const { swing, by } = parts[i]!;
    let sum = 0;
    for (let j = 0; j < by.length; j++) sum += by[j]!;
    if (swing === "none") {
      v += sum;
      continue;
    }
    let reach = Math.abs(sum);
    if (swing === "even") {
      if (reach > a) {
        const less = a;
        a = reach;
        reach = less;
      }
      variance += (reach * reach) / 3;
    } else if (swing === "either") {
      if (reach > b) {
        const less = b;
        b = reach;
        reach = less;
      }
      variance += reach * reach;
    } else variance += (reach * swingSd.turn) ** 2;
  }
  return { v, s: Math.sqrt(variance), a, b };
}
/** Parts of one axis that a calibration leaves in, those that go together in one group. */
export function groupsAlong(
  scene: Scene,
  axis: Axis4,
  calibration = calibrationOf(scene),
): readonly (readonly Part[])[] {
  const groups = new Map<string, Part[]>();
  for (const p of partsAlong(scene, axis)) {
    if (!leavesIn(p, calibration)) continue;
    const key = p.place?.address ?? "fixed";
    groups.set(key, [...(groups.get(key) ?? []), p]);
  }
  return [...groups.values()];
}
const readsOf = (scene: Scene, axis: Axis4): readonly Reads[] =>
  groupsAlong(scene, axis).map((group): Reads => ({ swing: group[0]!.swing ?? "none", by: group.map((p) => p.by) }));

export const pickRadius: Model = {
  kind: "model",
  id: "pick.radius",
  symbol: "R",
  unit: "m",
  title: "radius that holds the pick share of one unit's indexes on one reel",
  equation: "P(hypot(v_x + s_x, v_y + s_y) < R) = q",
  form: "solved",
  origin: { cite: "sum of the pick chain; even limits with a normal rest in a circle, by quadrature", how: "derived" },
  reads: (scene): Reads | undefined =>
    noChain(scene) === undefined
      ? { q: shareOf(scene), along: readsOf(scene, "x"), across: readsOf(scene, "y") }
      : undefined,
  value: (x) => {
    const { q, along, across } = x as unknown as RadiusNumbers;
    return radiusByTails(q, spreadOf(along), spreadOf(across));
  },
  where: (numbers) => {
    const { along, across } = numbers as unknown as RadiusNumbers;
    const [x, y] = [spreadOf(along), spreadOf(across)];
    const wide = ({ s, a, b }: Spread): number => Math.sqrt(s * s + (a * a) / 3 + b * b);
    return wide(x) >= wide(y) ? "along the travel more than across" : "across the tape more than along";
  },
};
const oneAxis = (id: string, symbol: string, title: string, axis: "x" | "y", of: (s: Spread) => number): Model => ({
  kind: "model",
  id,
  symbol,
  unit: "m",
  shownIn: "um",
  title,
  equation: symbol.startsWith("v") ? "sum of what is fixed" : "sqrt(sum of variances)",
  form: "solved",
  origin: { cite: "sum of the pick chain", how: "derived" },
  reads: (scene): Reads | undefined => (noChain(scene) === undefined ? { parts: readsOf(scene, axis) } : undefined),
  value: ({ parts }) => of(spreadOf(parts as unknown as readonly PartNumbers[])),
});
const sdOf = ({ s, a, b }: Spread): number => Math.sqrt(s * s + (a * a) / 3 + b * b);
export const offsetAlong = oneAxis("pick.offset-along", "v_x", "offset along the travel that is left", "x", (s) => s.v);
export const offsetAcross = oneAxis(
  "pick.offset-across",
  "v_y",
  "offset across the tape that is left",
  "y",
  (s) => s.v,
);
export const spreadAlong = oneAxis(
  "pick.spread-along",
  "s_x",
  "standard deviation along the travel from index to index",
  "x",
  sdOf,
);
export const spreadAcross = oneAxis(
  "pick.spread-across",
  "s_y",
  "standard deviation across the tape from index to index",
  "y",
  sdOf,
);

const words: Readonly<Record<Calibration, string>> = {
  none: "with its place as drawn",
  "one point": "with its place taught once",
  "two points": "with its place taught cold and warm",
};
export const checkRadius: Check = {
  id: "pick.radius",
  dear: true,
  station: 5,
  severity: "S",
  status: "established",
  title: "parts come to lie where the pick tool takes them",
  value: pickRadius,
  atMost: ({ requirement }) => requirement.pickTool,
  absent: (scene) =>
    noChain(scene) ??
    (scene.requirement.pickTool ? undefined : "project.yaml gives no radius that the pick tool forgives"),
  because: (say, scene) =>
    `${say(shareOf(scene))} of a unit's indexes on one reel, ${words[calibrationOf(scene)]}, fall within ${say(pickRadius)} of the mark; the pick tool forgives ${say(scene.requirement.pickTool!)}.`,
  beside: () => [offsetAlong, offsetAcross, spreadAlong, spreadAcross],
};
