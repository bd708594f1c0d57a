import { tapeTorque } from "../drive/load.ts";
import { type Model, model } from "../quantity/model.ts";
import { reelInertia } from "../reel/jerks.ts";
import type { Scene } from "../scene.ts";
import { pitchRadius } from "../sprocket/wheel.ts";
import { rootBetween } from "../study/root.ts";
import { settled as settledWithin } from "./measures.ts";
import { driveReads, noIndex, type SupplyState, usualPeelLead, usualSlow } from "./of-scene.ts";

/**
 * One index of a drive without play or springs: what the checks are judged by, over thousands of draws.
 *
 *     J_t w' = k (V - k w)/R - T_L            driven:  w = w_i + (w_0 - w_i) e^(-t/a),  w_i = (V - R T_L/k)/k,  a = J_t R/k^2
 *     J w'   = -k^2 w/R - T_L                 shorted: stops after t_b = b ln(1 + w_b/w_f),  w_f = R T_L/k^2,  b = J R/k^2
 *     c(w_b) = b w_b - w_f t_b                angle it coasts
 *     x(t_1) + c(w(t_1)) r_p/N = S            brake at t_1; the index takes t_0 + t_1 + t_b - t_e
 *     t_e = sqrt(2 J N 10 um/(T_L r_p))       the last 10 um, over which it counts as standing
 *     T_L = T_0 + M/(N e),   J_t = J + (J_w + m_eq r_p^2)/(N^2 e)
 *
 * V, R, k, T_0 of the state (cold at the rail's volts, or hot at the least), N turns of the rotor a turn of the wheel, e efficiency of the gearing,
 * M torque the tape asks of the wheel (drive/load.ts), J_w wheel, m_eq reel at the tape, kg; r_p pitch radius, S travel, m; t_0 head start of the
 * peel motor, s. The reel is let go when the motor brakes. Winding inductance (0.1 ms), play, the film's help and the stretch of the web are
 * left out; index-model.ts has them. Against the simulation without a film this is within 10 % for nine drives in ten (drawn at random, a test);
 * with a film whose nip pulls hard the tape and, within its play, the wheel move on for longer: the simulation beside the check says so.
 */
export interface RigidDrive {
  readonly V: number;
  readonly R: number;
  readonly k: number;
  readonly J: number;
  /** Inertia of the load at the rotor, kg m², and all torque that holds it back, N m. */
  readonly load: number;
  readonly T: number;
  /** Travel of the tape a radian of the rotor, m. */
  readonly perTurn: number;
}
/** An index that never ends counts as so long, s. */
export const never = 10;

const tau = (d: RigidDrive, load = d.load): number => ((d.J + load) * d.R) / d.k ** 2;
const steady = (d: RigidDrive, V = d.V): number => (V - (d.R * d.T) / d.k) / d.k;
/** Angle and time that a shorted rotor coasts from a speed. */
export function coast(d: RigidDrive, w: number): { readonly angle: number; readonly time: number } {
  if (!(w > 0)) return { angle: 0, time: 0 };
  const b = tau(d, 0);
  const f = (d.R * d.T) / d.k ** 2;
  if (!(f > 0)) return { angle: b * w, time: Number.POSITIVE_INFINITY };
  const time = b * Math.log1p(w / f);
  return { angle: b * w - f * time, time };
}
/** Speed and angle after a time under volts, from a speed. */
const after = (d: RigidDrive, t: number, w0 = 0, V = d.V): { readonly w: number; readonly angle: number } => {
  const a = tau(d);
  const wi = steady(d, V);
  const fade = Math.exp(-t / a);
  return { w: wi + (w0 - wi) * fade, angle: wi * t + (w0 - wi) * a * (1 - fade) };
};
/** How it slows down and brakes: the last stretch at a share of the volts, m; none where it brakes from full speed. */
export interface Approach {
  readonly share: number;
  readonly over: number;
}
interface Driven {
  readonly w: number;
  readonly t: number;
}
/**
 * Speed and time at which a travel is reached, from a speed; undefined where it never is. Newton from the side on which the tangent never
 * passes the root: the angle grows ever faster where the rotor speeds up, ever slower where it slows down.
 */
function reach(d: RigidDrive, x: number, w0 = 0, V = d.V): Driven | undefined {
  const angle = x / d.perTurn;
  const wi = steady(d, V);
  if (!(angle > 0)) return { w: w0, t: 0 };
  if (!(wi > 0) && !(w0 > 0)) return undefined;
  const a = tau(d);
  if (!(wi > 0)) {
    // It runs down under these volts: it gets there before it stands, or not at all.
    const stands = a * Math.log1p(w0 / Math.max(-wi, 1e-12));
    if (!(after(d, stands, w0, V).angle >= angle)) return undefined;
  }
  let t = w0 < wi ? angle / wi + a : angle / w0;
  for (let i = 0; i < 60; i++) {
    const { w, angle: there } = after(d, t, w0, V);
    const step = (there - angle) / w;
    t -= step;
    if (!(Math.abs(step) > 1e-12 * t)) break;
  }
  return t >= 0 && Number.isFinite(t) ? { w: after(d, t, w0, V).w, t } : undefined;
}
/** Speed and time at the brake, `lead` before the end. */
function braking(d: RigidDrive, travel: number, lead: number, slow?: Approach): Driven | undefined {
  const full = Math.max(0, travel - lead - (slow?.over ?? 0));
  const first = reach(d, full);
  if (!first || !slow) return first;
  const rest = travel - lead - full;
  const second = reach(d, rest, first.w, d.V * slow.share);
  return second && { w: second.w, t: first.t + second.t };
}
export interface RigidIndex {
  readonly lead: number;
  readonly time: number;
}
/**
 * Lead at which it stops on its travel, and the time that takes; undefined where the motor is too weak. What is looked for is the time of the
 * first stretch: the longer it lasts, the farther the whole index goes.
 */
export function rigidIndex(d: RigidDrive, travel: number, slow?: Approach): RigidIndex | undefined {
  if (!braking(d, travel, 0, slow)) return undefined;
  // So short an index that it is slow from its beginning.
  if (slow && slowFrom(d, 0, slow, travel) > 0) return rigidIndex({ ...d, V: d.V * slow.share }, travel);
  const beyond = (t: number): number => slowFrom(d, t, slow, travel);
  const fastest = steady(d);
  const latest = travel / d.perTurn / fastest + tau(d);
  const t = rootBetween(beyond, 0, latest, 1e-9);
  if (t === undefined) return undefined;
  const first = after(d, t);
  const last = slow ? reach(d, slow.over, first.w, d.V * slow.share) : { w: first.w, t: 0 };
  if (!last) return undefined;
  const out = coast(d, last.w);
  return { lead: out.angle * d.perTurn, time: t + last.t + Math.max(0, out.time - lastBit(d)) };
}
/** How far beyond its travel an index goes that leaves full volts at a time, m. */
function slowFrom(d: RigidDrive, t: number, slow: Approach | undefined, travel: number): number {
  const { w, angle } = after(d, t);
  const last = slow ? reach(d, slow.over, w, d.V * slow.share) : { w };
  return last ? (angle + coast(d, last.w).angle) * d.perTurn + (slow?.over ?? 0) - travel : Number.NaN;
}
/** Where it stops with a lead, m; undefined where it never brakes. */
export function rigidStop(d: RigidDrive, travel: number, lead: number, slow?: Approach): number | undefined {
  const b = braking(d, travel, lead, slow);
  return b && travel - lead + coast(d, b.w).angle * d.perTurn;
}

/** How long the shorted rotor takes over the last 10 um of the tape, s. */
const lastBit = (d: RigidDrive): number => Math.sqrt((2 * d.J * settledWithin) / (d.perTurn * d.T));

/** What a rigid drive reads of a scene. */
export const rigidReads = (scene: Scene, state: SupplyState) => {
  if (noIndex(scene)) return undefined;
  const { V, R, R_b, k, J, T_0, N, e, J_w } = driveReads(scene, "feed", state);
  return { V, R, R_b, k, J, T_0, N, e, J_w, M: tapeTorque, m_eq: reelInertia } as const;
};
export interface RigidNumbers {
  readonly V: number;
  readonly R: number;
  readonly R_b: number;
  readonly k: number;
  readonly J: number;
  readonly T_0: number;
  readonly N: number;
  readonly e: number;
  readonly J_w: number;
  readonly M: number;
  readonly m_eq: number;
}
export function rigidDrive(x: RigidNumbers, radius: number): RigidDrive {
  return {
    V: x.V,
    R: x.R + x.R_b,
    k: x.k,
    J: x.J,
    load: (x.J_w + x.m_eq * radius ** 2) / (x.N ** 2 * x.e),
    T: x.T_0 + x.M / (x.N * x.e),
    perTurn: radius / x.N,
  };
}
/** The slow approach of a unit's firmware, as reads and as numbers. */
export const approachReads = ({ unit: { index } }: Scene) =>
  index?.stop === "two speeds" || index?.stop === "count at the wheel"
    ? { share: index["slow share"] ?? usualSlow.share, over: index["slow over"] ?? usualSlow.over }
    : (false as const);

export const rigidTime: Model = model({
  id: "cycle.rigid-time",
  symbol: "t",
  unit: "s",
  shownIn: "ms",
  title: "time of one index at the least volts, hot",
  equation: "t_0 + t_1 + b*log(1 + w_b/w_f) - t_e, x(t_1) + (b*w_b - w_f*t_b)*r_p/N = S",
  form: "solved",
  costly: true,
  origin: { cite: "brushed motor with inertia and friction, two exponentials", how: "derived" },
  reads: (scene) => {
    const drive = rigidReads(scene, "hot");
    return (
      drive && {
        ...drive,
        r_p: pitchRadius,
        S: scene.tape.letters.P1,
        slow: approachReads(scene),
        t_0: scene.unit["peel drive"] && scene.unit.nip ? (scene.unit.index?.["peel lead"] ?? usualPeelLead) : 0,
      }
    );
  },
  value: (x) => {
    const one = rigidIndex(rigidDrive(x, x.r_p), x.S, x.slow || undefined);
    return one ? Math.min(never, x.t_0 + one.time) : never;
  },
});
