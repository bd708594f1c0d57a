import { power } from "../quantity/power.ts";
import { rootBetween } from "../study/root.ts";

/**
 * Tension of a stiff tape along straight pieces and bends of its channel. Plain functions; `pull.ts` makes models of them.
 *
 * A bend that the tape lies on, friction and stiffness together:
 *
 *     B  = EI k^2/2,   k = |1/R - kappa| bent the way it was wound, 1/R + kappa against it
 *     a_i = acos(1 - B/T_i)                                 angle by which the tape lifts off early on side i
 *     N_1 = T_1 - B + mu T_1 sin a_1
 *     T_2 - B - mu T_2 sin a_2 = N_1 e^(mu (phi - a_1 - a_2)),  then T_2 + psi B
 *
 * EI stiffness, N m2, 1e-6 .. 1e-2; R radius at the neutral line, m; kappa curvature the tape keeps off its reel, 1/m; T_1, T_2 tension before and
 * behind, N; mu friction, 0 .. 0.8; phi angle of the bend, rad, 0 .. 2 pi; psi share of the bending energy that is lost.
 *
 * First integral of the elastica: T + M^2/(2 EI) is the same all along a free piece, so the tension inside the arc is T - B, the line pressure (T -
 * B)/R, and the tape's end presses with T_i sin a_i. With EI = 0 it is the rope law of Euler and Eytelwein (family of Singh 2022, J. Elasticity 151, 321,
 * abstract read). It needs T_i > B and a_1 + a_2 < phi: `contact`, the less of T_1/B and phi/(a_1 + a_2), must be 1 and more. Below, the tape
 * does not lie on the arc: both faces of the channel bend it, and what stands here is an estimate,
 *
 *     T_2 = T_1 e^(mu phi) + 4 mu EI k/l_p + psi B,   l_p = min(sqrt(8 R s), R phi)
 *
 * a couple EI k held at either end of the bend by two forces the distance l_p apart at which the room s lets it touch both faces: outside its range.
 */
export interface Bend {
  readonly EI: number;
  /** Radius at the neutral line, m. */
  readonly R: number;
  /** Angle turned, rad, above 0. */
  readonly phi: number;
  /** Curvature that the tape keeps, 1/m: + bent the same way. */
  readonly kappa: number;
  readonly mu: number;
  readonly psi: number;
  /** Free height of the channel over the tape, m. */
  readonly room: number;
}
export interface Passed {
  readonly pull: number;
  /** Tension inside the arc next to the pulling side, N; 0 where it does not lie on it. */
  readonly inside: number;
  /** 1 and more: the tape lies on the arc. */
  readonly contact: number;
}
export const bendEnergy = (EI: number, R: number, kappa: number): number => (EI * (1 / R - kappa) ** 2) / 2;
/** Angle by which a tape under tension T leaves its arc early; a quarter turn and more where T is hardly enough. */
export const liftOff = (B: number, T: number): number => Math.acos(Math.max(-1, 1 - B / T));

export function pastBend(T1: number, { EI, R, phi, kappa, mu, psi, room }: Bend): Passed {
  if (!(EI > 0)) throw new RangeError(`the tape's stiffness is ${EI} N m2; it must be more than 0`);
  if (!(R > 0)) throw new RangeError(`the bend's radius at the neutral line is ${R} m; it must be more than 0`);
  if (!(phi > 0)) return { pull: T1, inside: T1, contact: Number.POSITIVE_INFINITY };
  const B = bendEnergy(EI, R, kappa);
  const rope = T1 * Math.exp(mu * phi);
  if (B === 0) return { pull: rope, inside: rope, contact: Number.POSITIVE_INFINITY };
  const forced = (contact: number): Passed => {
    const apart = Math.min(Math.sqrt(8 * R * room), R * phi);
    return { pull: rope + (4 * mu * Math.sqrt(2 * B * EI)) / apart + psi * B, inside: 0, contact };
  };
  if (!(T1 > B)) return forced(Math.max(0, T1 / B));
  const a1 = liftOff(B, T1);
  const N1 = T1 - B + mu * T1 * Math.sin(a1);
  const rest = (T2: number): number => {
    const a2 = liftOff(B, T2);
    return T2 - B - mu * T2 * Math.sin(a2) - N1 * Math.exp(mu * Math.max(0, phi - a1 - a2));
  };
  let most = rope + B;
  for (let i = 0; i < 60 && rest(most) < 0; i++) most *= 2;
  const T2 = rootBetween(rest, T1, most, 1e-12 * most) ?? T1;
  const contact = Math.min(T1 / B, phi / (a1 + liftOff(B, T2)));
  return contact >= 1 ? { pull: T2 + psi * B, inside: T2 - B, contact } : forced(contact);
}

/**
 * A straight piece: friction of the weight, and of one arch that the tape's set presses against both faces,
 *
 *     T_2 = T_1 + mu (w l + 2 F),   F = max(0, 6 EI kappa/l' - 48 EI s/l'^3),   l' = min(l, sqrt(24 s/kappa))
 *
 * w weight per length, N/m; l length, s room over the tape, m. F is the greatest force that an arch on feet l' apart can press with: a set tape held flat
 * at both ends of a long channel needs no force between them, so one arch a piece is counted (judgement).
 */
export interface Straight {
  readonly length: number;
  readonly EI: number;
  readonly kappa: number;
  readonly mu: number;
  readonly weight: number;
  readonly room: number;
}
export function archForce({ length, EI, kappa, room }: Omit<Straight, "mu" | "weight">): number {
  const bent = Math.abs(kappa);
  if (!(bent > 0) || !(length > 0)) return 0;
  const feet = Math.min(length, Math.sqrt((24 * room) / bent));
  return Math.max(0, (6 * EI * bent) / feet - (48 * EI * room) / power(feet, 3));
}
export const pastStraight = (T1: number, piece: Straight): number =>
  T1 + piece.mu * (piece.weight * piece.length + 2 * archForce(piece));
