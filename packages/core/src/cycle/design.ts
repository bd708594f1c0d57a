import type { ToothPlay } from "./tooth-play.ts";
import { type WormShape, wormFriction } from "./worm.ts";

/**
 * One feeder unit as the index simulation knows it: plain SI numbers, no scatter, no names.
 *
 * Six bodies move: rotor and wheel of the feed drive, the tape, the reel, rotor and roller of the peel drive. Springs with play join them:
 * the mesh of either gearing, the carrying tooth in its hole, the web between wheel and reel, the film from the peel line to the nip.
 */
export interface IndexDesign {
  readonly feed: DriveDesign;
  /** Undefined where the unit draws no film by a motor of its own; `film` is then left out of the run as well. */
  readonly peel?: DriveDesign | undefined;
  readonly wheel: WheelDesign;
  readonly tape: TapeDesign;
  readonly reel: ReelDesign;
  readonly film?: FilmDesign | undefined;
  readonly commands: Commands;
}

export interface DriveDesign {
  /** Volts at the motor while it is switched on. */
  readonly volts: number;
  /** Resistance of winding, bridge and leads, ohm; inductance, H. */
  readonly R: number;
  readonly L: number;
  /** Torque constant, N m/A = V s/rad. */
  readonly k: number;
  /** Inertia of rotor and what turns with it, kg m². */
  readonly J: number;
  /** Friction torque of the rotor without load, N m. */
  readonly T0: number;
  /** Turns of the rotor a turn of the driven shaft. */
  readonly ratio: number;
  /** Efficiency of the gearing with the motor driving, 0 .. 1, and with the shaft driving; 0 or below: it locks. */
  readonly forward: number;
  readonly backward: number;
  /** The worm these efficiencies come from, where the gearing is one. */
  readonly worm?: WormShape | undefined;
  /** Total backlash at the driven shaft, rad. */
  readonly backlash: number;
  /** Stiffness of the gearing at the driven shaft, N m/rad. */
  readonly stiffness: number;
  /** Damping of the mesh, share of critical on the shaft's inertia. */
  readonly damping: number;
  /** Inertia of the driven shaft, kg m², and the friction torque of its bushes, N m. */
  readonly shaftInertia: number;
  readonly shaftFriction: number;
}

export interface WheelDesign {
  /** Radius at which the tape runs, m: teeth times pitch over 2 pi. */
  readonly radius: number;
  /** Where a tape may lie on its teeth. */
  readonly play: ToothPlay;
  /** Stiffness of tooth and hole edge, N/m, and its damping, share of critical on the tape's mass. */
  readonly stiffness: number;
  readonly damping: number;
}

/** Tape from the reel to the wheel, with what lies in its pockets: mass, kg; friction in channel and hold-down. */
export interface TapeDesign {
  readonly mass: number;
  /** Friction while it slides, N, and before it slides, N. */
  readonly sliding: number;
  readonly sticking: number;
  /** Speed over which the one falls to the other, m/s. */
  readonly fallSpeed: number;
  /** N s/m. */
  readonly viscous: number;
  /** Stiffness of the friction before it slides, N/m. */
  readonly preSliding: number;
}

export interface ReelDesign {
  readonly inertia: number;
  /** Radius at which the tape leaves it, m. */
  readonly radius: number;
  /** Friction torque, N m. */
  readonly friction: number;
  /** Stiffness of the tape between reel and wheel, N/m; damping, share of critical on the tape's mass; slack before it is taut, m. */
  readonly stiffness: number;
  readonly damping: number;
  readonly slack: number;
}

export interface FilmDesign {
  /** Stiffness of the film from the peel line to the nip, N/m. */
  readonly stiffness: number;
  /** Angle between film and tape at the peel line, rad. */
  readonly angle: number;
  /** Tension at the nip over tension at the peel line while the film slides: exp(mu w) over fixed edges and bars; 1 without. */
  readonly bars: number;
  /** Peel force at this angle and `speed`, N; m/s; exponent of speed. Linear below `slow`. */
  readonly peelForce: number;
  readonly speed: number;
  readonly exponent: number;
  readonly slow: number;
  /** Most that the nip can pull, N. */
  readonly traction: number;
  /** Radius of the nip's driven roller, m. */
  readonly roller: number;
}

/** What the firmware does. Positions count from the beginning of the index; times from the beginning of the run. */
export interface Commands {
  /** Peel motor on, feed motor on, s. */
  readonly peelStart: number;
  readonly feedStart: number;
  /** How long the peel motor stays on after the feed motor's brake, s; without end where it is left on. */
  readonly peelHold: number;
  /** Travel of one index, m, and how far before its end the brake begins, m. */
  readonly travel: number;
  readonly lead: number;
  /** Where the firmware counts: turns of the rotor, or the wheel itself. */
  readonly counts: "rotor" | "wheel";
  /** Slow approach: this share of the volts over the last `over` metres before the brake. */
  readonly slow?: { readonly share: number; readonly over: number } | undefined;
  /** Volts a second while the feed motor starts; without end where it is switched at once. */
  readonly ramp: number;
  /** End of the run, s. */
  readonly end: number;
}

/** The same with other commands. */
export const commanded = (d: IndexDesign, more: Partial<Commands>): IndexDesign => ({
  ...d,
  commands: { ...d.commands, ...more },
});

/** The same gearing with its teeth rubbing so many times as much; without a worm its losses grow so. */
export function rubbing(d: DriveDesign, times: number): DriveDesign {
  if (d.worm) {
    const worm = { ...d.worm, friction: d.worm.friction * times };
    return { ...d, worm, ...wormFriction(worm.lead, worm.friction, worm.pressure) };
  }
  return { ...d, forward: 1 / (1 + times * (1 / d.forward - 1)), backward: 1 - times * (1 - d.backward) };
}

/** Why a design cannot run, one sentence each; none where it can. */
export function troubles(d: IndexDesign): string[] {
  const out: string[] = [];
  const above = (what: string, v: number, unit: string, zeroToo = false): void => {
    if (!(zeroToo ? v >= 0 : v > 0) || !(v < Number.POSITIVE_INFINITY))
      out.push(`${what} is ${v} ${unit}; it must be ${zeroToo ? "0 or more" : "more than 0"}`.replace("  ", " "));
  };
  const drive = (name: string, m: DriveDesign): void => {
    above(`resistance of the ${name} motor`, m.R, "ohm");
    above(`inductance of the ${name} motor`, m.L, "H");
    above(`torque constant of the ${name} motor`, m.k, "V s/rad");
    above(`rotor inertia of the ${name} motor`, m.J, "kg m²");
    above(`friction torque of the ${name} motor`, m.T0, "N m", true);
    above(`volts of the ${name} motor`, m.volts, "V", true);
    above(`ratio of the ${name} drive`, m.ratio, "");
    above(`stiffness of the ${name} gearing`, m.stiffness, "N m/rad", true);
    above(`damping of the ${name} gearing`, m.damping, "", true);
    above(`backlash of the ${name} gearing`, m.backlash, "rad", true);
    above(`inertia of the ${name} shaft`, m.shaftInertia, "kg m²");
    above(`friction of the ${name} shaft`, m.shaftFriction, "N m", true);
    if (!(m.forward > 0 && m.forward <= 1))
      out.push(`efficiency of the ${name} gearing is ${m.forward}; it must lie between 0 and 1`);
    if (!(m.backward <= 1))
      out.push(`efficiency of the ${name} gearing driven backward is ${m.backward}; it is at most 1`);
  };
  drive("feed", d.feed);
  if (d.peel) drive("peel", d.peel);
  above("radius of the wheel", d.wheel.radius, "m");
  above("stiffness of tooth and hole", d.wheel.stiffness, "N/m", true);
  above("damping of tooth and hole", d.wheel.damping, "", true);
  const { play } = d.wheel;
  if (!play.lo.every((lo, i) => lo <= play.hi[i]!)) out.push("the tooth does not fit its hole: the play is below 0");
  above("mass of the tape", d.tape.mass, "kg");
  above("sliding friction of the tape", d.tape.sliding, "N", true);
  above("sticking friction of the tape", d.tape.sticking, "N", true);
  above("speed over which friction falls", d.tape.fallSpeed, "m/s");
  above("viscous friction of the tape", d.tape.viscous, "N s/m", true);
  above("stiffness of friction before sliding", d.tape.preSliding, "N/m");
  above("inertia of the reel", d.reel.inertia, "kg m²");
  above("radius of the reel", d.reel.radius, "m");
  above("friction of the reel", d.reel.friction, "N m", true);
  above("stiffness of the tape to the reel", d.reel.stiffness, "N/m", true);
  above("damping of the tape to the reel", d.reel.damping, "", true);
  if (d.film) {
    above("stiffness of the film", d.film.stiffness, "N/m", true);
    above("peel force", d.film.peelForce, "N");
    above("speed of the peel test", d.film.speed, "m/s");
    above("speed exponent of the seal", d.film.exponent, "");
    above("speed below which the peel law is linear", d.film.slow, "m/s");
    above("traction of the nip", d.film.traction, "N", true);
    above("radius of the nip's roller", d.film.roller, "m");
    if (!(d.film.bars >= 1)) out.push(`the film's tension over bars grows by ${d.film.bars}; it must be 1 or more`);
    if (!(d.film.angle > 0 && d.film.angle <= Math.PI))
      out.push(`peel angle is ${d.film.angle} rad; it must lie between 0 and pi`);
  }
  const { commands: c } = d;
  above("travel of an index", c.travel, "m");
  above("end of the run", c.end, "s");
  above("start of the feed motor", c.feedStart, "s", true);
  above("start of the peel motor", c.peelStart, "s", true);
  if (Number.isNaN(c.lead)) out.push("lead of the brake is no number");
  if (!(c.peelHold >= 0)) out.push(`the peel motor holds for ${c.peelHold} s; it must be 0 or more`);
  if (!(c.ramp > 0)) out.push(`ramp of the feed motor is ${c.ramp} V/s; it must be more than 0`);
  if (c.slow && !(c.slow.share > 0 && c.slow.share <= 1 && c.slow.over >= 0))
    out.push(`slow approach at ${c.slow.share} of the volts over ${c.slow.over} m; the share lies between 0 and 1`);
  return out;
}
