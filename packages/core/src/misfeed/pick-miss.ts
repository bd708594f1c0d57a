import { leavesIn, noChain, type Part, partsAlong, type Swing, swung } from "../accuracy/chain.ts";
import { calibrationOf } from "../accuracy/radius.ts";
import type { Check } from "../quantity/check.ts";
import type { Model, Reads } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * How far from its mark a part lies after one index, and whether the pick tool forgives it.
 *
 *     d = hypot(x, y),   x = sum of x_u + x_r + a f(t)        d <= r_t
 *
 * Terms of the pick chain (accuracy/chain.ts) that the calibration leaves in: x_u of the unit, x_r of the reel, a f(t) new with every index, t
 * even in [-1, 1]; r_t radius that the pick tool forgives, m. The check pick.radius asks whether a stated share of a pair's indexes falls inside;
 * here every index is asked for itself. A term of two places (one side of the teeth or the other) jumps at t = 0.
 */
interface Read {
  readonly by: number;
  readonly swing: Swing | "none";
  readonly at: number;
}
export const lengthOf = (parts: readonly Read[]): number => {
  let sum = 0;
  for (const { by, swing, at } of parts) sum += swing === "none" ? by : by * swung(swing, at);
  return sum;
};
const readOf = (p: Part): Reads => ({
  by: p.by,
  swing: p.level === "index" ? (p.swing ?? "even") : "none",
  at: p.level === "index" && p.place ? p.place : 0,
});
const readsOf = (scene: Scene, axis: "x" | "y"): readonly Reads[] =>
  partsAlong(scene, axis)
    .filter((p) => leavesIn(p, calibrationOf(scene)))
    .map(readOf);

export const missDistance: Model = {
  kind: "model",
  id: "pick.distance",
  symbol: "d",
  unit: "m",
  title: "distance of a part from its mark after one index",
  equation: "hypot(x, y)",
  form: "solved",
  origin: { cite: "sum of the pick chain", how: "derived" },
  reads: (scene): Reads | undefined =>
    noChain(scene) === undefined ? { along: readsOf(scene, "x"), across: readsOf(scene, "y") } : undefined,
  value: (numbers) => {
    const { along, across } = numbers as unknown as {
      readonly along: readonly Read[];
      readonly across: readonly Read[];
    };
    return Math.hypot(lengthOf(along), lengthOf(across));
  },
};
/** Of one index; no check of the register, for no pair is judged by it. */
export const checkMiss: Check = {
  id: "pick.misses",
  station: 5,
  severity: "S",
  status: "established",
  title: "one part lies where the pick tool takes it",
  value: missDistance,
  atMost: ({ requirement }) => requirement.pickTool,
  absent: (scene) =>
    noChain(scene) ??
    (scene.requirement.pickTool ? undefined : "project.yaml gives no radius that the pick tool forgives"),
  because: (say, { requirement }) =>
    `The part lies ${say(missDistance)} off; the pick tool forgives ${say(requirement.pickTool!)}.`,
};
