import type { Given } from "../quantity/given.ts";
import type { Model } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import type { Calibration, Scene } from "../scene.ts";
import { nominalOf } from "../tape/served.ts";
import * as play from "./in-play.ts";
import * as pocket from "./in-pocket.ts";
import { places } from "./places.ts";
import * as reel from "./reel-errors.ts";
import * as up from "./up.ts";
import * as warm from "./warm.ts";
import * as wheel from "./wheel-errors.ts";

/**
 * The pick chain: every term that moves a part from where the machine goes to take it, and at which level each of its parts changes.
 *
 *     x = sum of x_u + x_r + a f(t)        x_u fixed for a unit, x_r for a reel, a f(t) new with every index
 *     f(t) = t  (even),   sin(pi t)  (once a turn),   sign t  (one of two),       t even in [-1, 1]
 *     sd of a f(t): a/sqrt(3), a/sqrt(2), a
 *
 * x along the travel, y across the tape, z up, m; turn of the part about its middle, rad. What is fixed for a unit is what a tape of the same kind
 * with every letter in the middle of its limits would show, so that a calibration on another reel takes it out and leaves x_r in.
 */
export type Axis4 = "x" | "y" | "z" | "turn";
export type Swing = "even" | "turn" | "either";
/** What a calibration of one point takes out; of two points as well; or none. */
export interface Part {
  readonly axis: Axis4;
  readonly level: "unit" | "reel" | "index";
  /** Place (unit, reel) or reach (index). */
  readonly by: Model;
  /** Fixed for a unit, and taken out by a calibration. */
  readonly trims?: true;
  readonly swing?: Swing;
  readonly place?: Given;
}
export interface Term {
  readonly id: string;
  readonly title: string;
  readonly parts: readonly Part[];
  /** Why it is not in the chain; undefined where it is. */
  readonly left?: string;
}
export const swingSd: Readonly<Record<Swing, number>> = { even: 1 / Math.sqrt(3), turn: Math.SQRT1_2, either: 1 };
/** Places of one index from coordinates in [-1, 1]. */
export const swung = (swing: Swing, t: number): number =>
  swing === "even" ? t : swing === "turn" ? Math.sin(Math.PI * t) : t < 0 ? -1 : 1;

const unit = (axis: Axis4, by: Model): Part => ({ axis, level: "unit", by, trims: true });
const stays = (axis: Axis4, by: Model): Part => ({ axis, level: "unit", by });
const ofReel = (axis: Axis4, by: Model): Part => ({ axis, level: "reel", by });
const swings = (axis: Axis4, by: Model, place: Given, swing: Swing = "even"): Part => ({
  axis,
  level: "index",
  by,
  swing,
  place,
});
interface Entry {
  readonly id: string;
  readonly title: string;
  readonly parts: readonly Part[];
  readonly without: string;
}
const noReel = "its letters have no limits";
const entries = (scene: Scene): readonly Entry[] => [
  {
    id: "pocket",
    title: "pocket from its hole, P2 and F",
    parts: [ofReel("x", reel.pocketAlong), ofReel("y", reel.pocketAcross)],
    without: noReel,
  },
  { id: "pitch", title: "hole pitch, pick to wheel", parts: [ofReel("x", reel.pitchAddedUp)], without: noReel },
  {
    id: "hole",
    title: "single hole",
    parts: [ofReel("x", reel.widerHole), swings("x", reel.singleHole, places.hole)],
    without: "the tape file gives its own pitch, without an error of single holes",
  },
  {
    id: "wheel",
    title: "wheel, once a turn",
    parts:
      restAngles(scene) > 1
        ? [swings("x", wheel.eccentricity, places.wheelTurn, "turn")]
        : [unit("x", wheel.eccentricity)],
    without: "the unit has no sprocket",
  },
  {
    id: "ripple",
    title: "drive law where the wheel rests",
    parts: [unit("x", wheel.restRipple)],
    without: "the unit file does not say where its teeth stand",
  },
  {
    id: "half-step",
    title: "half a hole pitch",
    parts: [swings("x", wheel.halfSteps, places.halfStep, "either")],
    without: "the tape steps whole hole pitches",
  },
  {
    id: "seat",
    title: "side of the teeth",
    parts: [swings("x", wheel.seatFlips, places.seat, "either")],
    without: "the tape keeps to one side of its teeth, or the film's pull on it is not known",
  },
  {
    id: "stop",
    title: "stop of the wheel",
    parts: [
      swings("x", wheel.slowStop, places.stop),
      swings("x", wheel.dragStop, places.drag),
      swings("x", wheel.countStop, places.count),
    ],
    without: "the unit file does not say how its index is made",
  },
  { id: "settle", title: "settling", parts: [swings("x", wheel.settling, places.settle)], without: "no sprocket" },
  {
    id: "yaw",
    title: "yaw in the channel",
    parts: [
      unit("x", play.yawKeptAlong),
      ofReel("x", play.widthOfReelAlong),
      swings("x", play.yawWanderAlong, places.sideways),
      unit("y", play.yawKeptAcross),
      swings("y", play.yawWanderAcross, places.sideways),
      stays("turn", play.yawTurnKept),
      swings("turn", play.yawTurnWander, places.sideways),
    ],
    without: "the unit has no sprocket",
  },
  {
    id: "side",
    title: "side play on the teeth",
    parts: [unit("y", play.sideKept), swings("y", play.sideWander, places.sideways)],
    without: "the unit file does not say where its teeth stand",
  },
  { id: "bow", title: "bow of the tape's edge", parts: [ofReel("y", play.bowAcross)], without: "no place of the pick" },
  {
    id: "part",
    title: "part in its pocket",
    parts: [
      unit("x", pocket.partThrown),
      swings("x", pocket.partAlong, places.partAlong),
      swings("y", pocket.partAcross, places.partAcross),
      swings("turn", pocket.partTurn, places.partTurn),
    ],
    without: "the tape file does not give the part's length and width",
  },
  {
    id: "warm",
    title: "heat and damp",
    parts: [stays("x", warm.warmMean), swings("x", warm.warmReach, places.warm)],
    without: "the mount gives no datum",
  },
  {
    id: "height",
    title: "height of the part",
    parts: [ofReel("z", up.deeperPocket), ofReel("z", up.thickerCarrier), swings("z", up.rideUp, places.lift)],
    without: noReel,
  },
];
/** At how many angles of its turn the wheel comes to rest: 1 where every index is a whole turn. */
export function restAngles({ unit: { sprocket }, tape: { letters } }: Scene): number {
  if (!sprocket) return 1;
  const turn = nominalOf(sprocket.teeth) * nominalOf(letters.P0);
  const step = nominalOf(letters.P1);
  if (!(turn > 0 && step > 0)) return 2;
  for (let n = 1; n <= 64; n++) if (Math.abs((n * step) / turn - Math.round((n * step) / turn)) < 1e-6) return n;
  return 64;
}
const kept = new WeakMap<Scene, readonly Term[]>();
/** The terms of a scene, in the order in which the tape meets them; those with nothing to read say why. */
export function chainOf(scene: Scene): readonly Term[] {
  const known = kept.get(scene);
  if (known) return known;
  const made = entries(scene).map(({ id, title, parts, without }): Term => {
    const here = parts.filter((p) => p.by.reads(scene) !== undefined);
    return { id, title, parts: here, ...(here.length === 0 ? { left: without } : {}) };
  });
  kept.set(scene, made);
  return made;
}
/** The parts a calibration leaves in. */
export const leavesIn = (part: Part, calibration: Calibration): boolean =>
  part.level === "unit" ? !(part.trims && calibration !== "none") : true;
/** Parts of the chain along one axis. */
export const partsAlong = (scene: Scene, axis: Axis4): readonly Part[] =>
  chainOf(scene).flatMap((t) => t.parts.filter((p) => p.axis === axis));

/** Why there is no pick chain; undefined where there is one. */
export function noChain(scene: Scene): string | undefined {
  if (!scene.unit.sprocket) return "the unit has no sprocket";
  if (!pickOf(scene)) return 'the route has no mark "pick"';
  return undefined;
}
