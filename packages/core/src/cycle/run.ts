import { type IndexDesign, troubles } from "./design.ts";
import { type Lanes, Trace } from "./lanes.ts";
import { at, smoothPart, stateSize, stepperOf } from "./step.ts";

/**
 * One index in time: steps of `step.ts`, each taken once whole and once in two halves.
 *
 *     error = max(|dx|/tol, r_p |dphi|/tol, r_p |dtheta|/(N tol), |dv|/(2e4/s tol), |dx_f|/(4 tol), |di|/(2e5 A/m tol))
 *     kept  = 2 halves - whole                      h_new = 0.85 h error^(-1/2), within a quarter and three times h
 *
 * tol m, 3e-9 .. 1e-6, 0.1 um by default; h 2 us .. 1 ms. What the firmware does at a time ends a step there; what it does at a count is
 * found by regula falsi on the step. A step whose Newton misses is halved; where it misses at the shortest step too, the run goes on from
 * its last iterate and says so. A run is as good as its law: friction that sticks exactly, one carrying tooth, film that bears no moment.
 */
export interface IndexRun {
  readonly lanes: Lanes;
  /** State at the end; a further index may start from it. */
  readonly end: Float64Array;
  /** When the firmware did what, in order. */
  readonly marks: readonly Mark[];
  /** Work drawn from the rail by each motor, J, and heat of its winding, J. */
  readonly energy: {
    readonly feed: number;
    readonly peel: number;
    readonly feedHeat: number;
    readonly peelHeat: number;
  };
  readonly steps: StepCount;
}
export interface Mark {
  readonly what: "peel on" | "feed on" | "slow" | "brake" | "peel off";
  readonly t: number;
}
export interface StepCount {
  readonly taken: number;
  readonly repeated: number;
  readonly newton: number;
  /** Steps the run rests on whose Newton missed, and when the first of them was. */
  readonly unsolved: number;
  readonly unsolvedAt?: number;
  /** Steps kept at the shortest length with an error over the tolerance; the greatest such error, over tol. */
  readonly forced: number;
  readonly forcedError: number;
}

export interface RunOptions {
  readonly tol?: number;
  /** State to begin from; at rest in the middle of all plays without one. */
  readonly from?: Float64Array | undefined;
  /** Counted place at which the travel begins, m; what is counted at the start without it. */
  readonly origin?: number;
  /** Ends the run as soon as, motors off, wheel and tape have stood for 3 ms; else it goes on to the commands' end. */
  readonly untilStill?: boolean;
}

const shortest = 2e-6;
const longest = 1e-3;
/** Slower than this wheel and tape stand, m/s; and for how long, s. */
const still = 1e-4;
const standing = 3e-3;

export class BadDesign extends RangeError {
  readonly troubles: readonly string[];
  constructor(found: readonly string[]) {
    super(found.join("; "));
    this.name = "BadDesign";
    this.troubles = found;
  }
}

/** At rest after an index before: play of the feed drive closed forward, the tape behind its tooth, the film just not taut. */
export function seatedStart(d: IndexDesign): Float64Array {
  const s = new Float64Array(stateSize);
  s[at.rotor] = (d.feed.ratio * d.feed.backlash) / 2;
  const x = d.wheel.play.lo[0]!;
  s[at.tape] = x;
  s[at.reel] = x / d.reel.radius;
  s[at.drawn] = x;
  s[at.peeled] = x;
  if (d.peel) s[at.peelRotor] = (d.peel.ratio * d.peel.backlash) / 2;
  return s;
}

export function runIndex(
  d: IndexDesign,
  { tol = 1e-7, from, origin: given, untilStill = false }: RunOptions = {},
): IndexRun {
  const found = troubles(d);
  if (found.length > 0) throw new BadDesign(found);
  if (!(tol > 0)) throw new RangeError(`a tolerance of ${tol} m; it must be more than 0`);
  const { commands: cmd, feed, wheel, film, reel } = d;
  const peel = d.peel;
  const least = Math.min(shortest, 20 * tol);
  const stepper = stepperOf(d);
  const s = new Float64Array(stateSize);
  if (from) s.set(from);
  const whole = new Float64Array(stateSize);
  const half = new Float64Array(stateSize);
  const ends = new Float64Array(stateSize);
  const guess = new Float64Array(6);
  const rp = wheel.radius;
  const perRotor = rp / feed.ratio;
  const byRotor = cmd.counts === "rotor";
  const place = (q: Float64Array): number => (byRotor ? q[at.rotor]! * perRotor : q[at.wheel]! * rp);
  const origin = given ?? place(s);
  const counted = (q: Float64Array): number => place(q) - origin;
  const brakeAt = cmd.travel - cmd.lead;
  const slowAt = cmd.slow ? brakeAt - cmd.slow.over : Number.POSITIVE_INFINITY;
  const c = film ? Math.cos(film.angle) : 1;

  let t = 0;
  let h = Math.min(2e-5, longest);
  let feedPhase: 0 | 1 | 2 | 3 = 0;
  let peelOn = false;
  let peelDone = !peel;
  let peelOff = Number.POSITIVE_INFINITY;
  const marks: Mark[] = [];
  const trace = new Trace();
  const energy = { feed: 0, peel: 0, feedHeat: 0, peelHeat: 0 };
  let taken = 0;
  let repeated = 0;
  let unsolved = 0;
  let unsolvedAt: number | undefined;
  let forced = 0;
  let forcedError = 0;

  const feedVolts = (time: number): number => {
    if (feedPhase === 0 || feedPhase === 3) return 0;
    const full = feedPhase === 2 ? feed.volts * cmd.slow!.share : feed.volts;
    return cmd.ramp === Number.POSITIVE_INFINITY ? full : Math.min(full, cmd.ramp * Math.max(0, time - cmd.feedStart));
  };
  const write = (): void => {
    const lanes = trace.next();
    const i = trace.length - 1;
    const x = s[at.tape]!;
    const y = Math.max(0, x - s[at.peeled]!);
    let k = 0;
    lanes[k++]![i] = t;
    lanes[k++]![i] = s[at.rotor]!;
    lanes[k++]![i] = s[at.wheel]!;
    lanes[k++]![i] = x;
    lanes[k++]![i] = s[at.reel]!;
    lanes[k++]![i] = s[at.peelRotor]!;
    lanes[k++]![i] = s[at.roller]!;
    lanes[k++]![i] = s[at.drawn]!;
    lanes[k++]![i] = s[at.peeled]!;
    for (let v = 0; v < 6; v++) lanes[k++]![i] = s[v]!;
    lanes[k++]![i] = s[at.current]!;
    lanes[k++]![i] = s[at.peelCurrent]!;
    lanes[k++]![i] = feedVolts(t);
    lanes[k++]![i] = peelOn && peel ? peel.volts : 0;
    lanes[k++]![i] = s[at.hole]!;
    lanes[k++]![i] = s[at.tension]!;
    lanes[k++]![i] = s[at.filmForce]!;
    lanes[k++]![i] = film ? Math.max(0, x - s[at.drawn]! - (1 - c) * y) : 0;
    lanes[k++]![i] = s[at.web]!;
    lanes[k++]![i] = Math.max(0, reel.slack + reel.radius * s[at.reel]! - x);
    lanes[k++]![i] = s[at.mesh]!;
    lanes[k++]![i] = s[at.slips]!;
  };
  /** One step as a pair of halves; the error over tol, endless where Newton missed. */
  let missed = false;
  const pair = (hh: number, VB: number): number => {
    for (let i = 0; i < 6; i++) guess[i] = s[i]!;
    let ok = stepper.step(s, hh, feedVolts(t + hh), VB, whole, guess);
    for (let i = 0; i < 6; i++) guess[i] = 0.5 * (s[i]! + whole[i]!);
    ok = stepper.step(s, hh / 2, feedVolts(t + hh / 2), VB, half, guess) && ok;
    for (let i = 0; i < 6; i++) guess[i] = whole[i]!;
    ok = stepper.step(half, hh / 2, feedVolts(t + hh), VB, ends, guess) && ok;
    missed = !ok;
    const error = Math.max(
      Math.abs(whole[at.tape]! - ends[at.tape]!) / tol,
      (Math.abs(whole[at.wheel]! - ends[at.wheel]!) * rp) / tol,
      (Math.abs(whole[at.rotor]! - ends[at.rotor]!) * perRotor) / tol,
      Math.abs(whole[2]! - ends[2]!) / (2e4 * tol),
      Math.abs(whole[at.drawn]! - ends[at.drawn]!) / (4 * tol),
      Math.abs(whole[at.current]! - ends[at.current]!) / (2e5 * tol),
    );
    for (let i = 0; i < smoothPart; i++) ends[i] = 2 * ends[i]! - whole[i]!;
    return error;
  };

  let movedLast = 0;
  write();
  while (t < cmd.end - 1e-12) {
    if (Math.abs(s[2]!) > still || Math.abs(s[1]!) * rp > still || peelOn || feedPhase !== 3) movedLast = t;
    else if (untilStill && t - movedLast > standing) break;
    if (feedPhase === 0 && t >= cmd.feedStart - 1e-12) {
      feedPhase = 1;
      marks.push({ what: "feed on", t });
    }
    if (!peelOn && !peelDone && t >= cmd.peelStart - 1e-12) {
      peelOn = true;
      marks.push({ what: "peel on", t });
    }
    if (peelOn && t >= peelOff - 1e-12) {
      peelOn = false;
      peelDone = true;
      marks.push({ what: "peel off", t });
    }
    let until = cmd.end;
    if (feedPhase === 0) until = Math.min(until, cmd.feedStart);
    if (!peelOn && !peelDone && cmd.peelStart > t) until = Math.min(until, cmd.peelStart);
    if (peelOn) until = Math.min(until, peelOff);
    const VB = peelOn ? peel!.volts : 0;
    let hh = Math.min(h, until - t);
    let error = pair(hh, VB);
    while ((error > 1 || missed) && hh > least) {
      repeated++;
      hh = Math.max(least, hh * (missed ? 0.3 : Math.max(0.25, 0.85 / Math.sqrt(error))));
      error = pair(hh, VB);
    }
    // The count at which the firmware acts lies within this step: shorten it until the count is met.
    const goal = feedPhase === 1 ? Math.min(slowAt, brakeAt) : feedPhase === 2 ? brakeAt : Number.POSITIVE_INFINITY;
    let met = goal < Number.POSITIVE_INFINITY && counted(ends) >= goal - 1e-8;
    if (met) {
      let low = 0;
      let fLow = counted(s) - goal;
      let high = hh;
      let fHigh = counted(ends) - goal;
      for (let k = 0; k < 30 && fHigh > 1e-8 && high > 1e-9; k++) {
        const next = k % 4 === 3 ? 0.5 * (low + high) : low + ((high - low) * -fLow) / (fHigh - fLow);
        error = pair(Math.max(1e-9, next), VB);
        hh = Math.max(1e-9, next);
        const f = counted(ends) - goal;
        if (Math.abs(f) <= 1e-8) {
          fHigh = 0;
          break;
        }
        if (f > 0) {
          high = hh;
          fHigh = f;
        } else {
          low = hh;
          fLow = f;
        }
      }
      met = counted(ends) >= goal - 1e-8;
    }
    if (missed) {
      unsolved++;
      unsolvedAt ??= t;
    } else if (error > 1) {
      forced++;
      forcedError = Math.max(forcedError, error);
    }
    const VA = feedVolts(t + hh);
    energy.feed += 0.5 * hh * VA * (s[at.current]! + ends[at.current]!);
    energy.peel += 0.5 * hh * VB * (s[at.peelCurrent]! + ends[at.peelCurrent]!);
    energy.feedHeat += 0.5 * hh * feed.R * (s[at.current]! ** 2 + ends[at.current]! ** 2);
    energy.peelHeat += peel ? 0.5 * hh * peel.R * (s[at.peelCurrent]! ** 2 + ends[at.peelCurrent]! ** 2) : 0;
    s.set(ends);
    t += hh;
    taken++;
    if (!Number.isFinite(s[at.tape]!)) throw new Error(`the run of an index lost its numbers at ${t} s`);
    write();
    h = Math.min(longest, Math.max(least, hh * Math.min(3, 0.85 / Math.sqrt(error + 1e-3))));
    if (met) {
      if (feedPhase === 1 && slowAt < brakeAt) {
        feedPhase = 2;
        marks.push({ what: "slow", t });
      } else {
        feedPhase = 3;
        peelOff = t + cmd.peelHold;
        marks.push({ what: "brake", t });
      }
      h = 1e-5;
    }
  }
  return {
    lanes: trace.lanes(),
    end: s,
    marks,
    energy,
    steps: {
      taken,
      repeated,
      newton: stepper.count.newton,
      unsolved,
      ...(unsolvedAt === undefined ? {} : { unsolvedAt }),
      forced,
      forcedError,
    },
  };
}
