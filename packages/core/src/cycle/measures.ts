import type { IndexDesign } from "./design.ts";
import { eventsOf, timeOf } from "./events.ts";
import { greatestChange, laneAt } from "./lanes.ts";
import type { IndexRun } from "./run.ts";
import { periodic } from "./tooth-play.ts";

/** The numbers of one index, SI. */
export interface IndexMeasures {
  /** Travel of the tape and of the wheel's pitch line over the run, and the wheel's less what was wanted, m. */
  readonly travel: number;
  readonly wheelTravel: number;
  readonly stopError: number;
  /** From the first command until the tape stays within 10 um of its end, s; without end where the index is not finished. */
  readonly time: number;
  /** The same for the wheel's pitch line. */
  readonly wheelTime: number;
  /** Speed of the wheel's pitch line as the brake begins, m/s; 0 where it never does. */
  readonly brakeSpeed: number;
  /** The tape's greatest speed, m/s. */
  readonly speed: number;
  /** Greatest change of the tape's speed within 1 ms, m/s, and when it begins. */
  readonly jolt: number;
  readonly joltAt: number;
  /** Greatest force of a tooth on the tape, of the tape forward on a tooth, of the film, of the reel, N. */
  readonly hole: number;
  readonly holeAhead: number;
  readonly tension: number;
  readonly web: number;
  /** Greatest currents of feed and peel motor, A. */
  readonly current: number;
  readonly peelCurrent: number;
  /** Film peeled, film the nip let slip, film left slack, m. */
  readonly peeled: number;
  readonly slipped: number;
  readonly filmSlack: number;
  /** Where the tape lies between its teeth at the end: 0 behind, carried; 1 ahead. */
  readonly seat: number;
  /** Work drawn from the rail, J. */
  readonly energy: number;
  readonly feedEnergy: number;
  readonly feedHeat: number;
  /** What a reader must know before believing it, one sentence each. */
  readonly warnings: readonly string[];
}
/** Within this of its end the tape counts as settled, m. */
export const settled = 10e-6;
const joltWindow = 1e-3;

/**
 * What one run says, as numbers.
 *
 *     time = first t from which |x - x_end| < 10 um          jolt = max |v(t + 1 ms) - v(t)|
 *
 * The jolt stands for the acceleration: at an impact the greatest acceleration from step to step is no number that steps agree on (its error
 * reaches tens of per cent), the change within 1 ms is (1 % in the middle, up to 22 %).
 */
export function measuresOf(d: IndexDesign, run: IndexRun): IndexMeasures {
  const { lanes, marks, steps, energy, end } = run;
  const { t, tape } = lanes;
  const last = t.length - 1;
  const xEnd = tape[last]!;
  const brake = marks.find((m) => m.what === "brake");
  const braked = brake !== undefined;
  const events = eventsOf(d, run);
  const still = timeOf(events, "tape stops") !== undefined;
  const jolt = greatestChange(lanes, "tapeSpeed", joltWindow);
  const wheelTravel = (lanes.wheel[last]! - lanes.wheel[0]!) * d.wheel.radius;
  const begin = Math.min(d.commands.feedStart, d.peel ? d.commands.peelStart : Number.POSITIVE_INFINITY);
  const greatest = (lane: Float64Array, sign = 1): number => {
    let most = 0;
    for (const v of lane) if (sign * v > most) most = sign * v;
    return most;
  };
  const phi = lanes.wheel[last]!;
  const slope = new Float64Array(1);
  const { play } = d.wheel;
  const lo = d.wheel.radius * phi + periodic(play.lo, play.pitch, phi, slope);
  const hi = d.wheel.radius * phi + periodic(play.hi, play.pitch, phi, slope);
  const warnings: string[] = [];
  if (!braked)
    warnings.push(`The index does not finish: after ${ms(d.commands.end)} the brake's count is not reached.`);
  else if (!still) warnings.push(`The tape still moves at the end of the run, ${ms(d.commands.end)}.`);
  if (steps.unsolved > 0)
    warnings.push(
      `Newton missed in ${steps.unsolved} of ${steps.taken} steps, first at ${ms(steps.unsolvedAt!)}: the run rests on its last guess there.`,
    );
  if (steps.forced > 0)
    warnings.push(
      `${steps.forced} of ${steps.taken} steps were kept at the shortest length with an error of up to ${steps.forcedError.toPrecision(2)} tolerances.`,
    );
  return {
    travel: xEnd - tape[0]!,
    wheelTravel,
    stopError: wheelTravel - d.commands.travel,
    time: braked && still ? settling(t, tape, 1) - begin : Number.POSITIVE_INFINITY,
    wheelTime: braked && still ? settling(t, lanes.wheel, d.wheel.radius) - begin : Number.POSITIVE_INFINITY,
    brakeSpeed: brake ? laneAt(lanes, "wheelSpeed", brake.t) * d.wheel.radius : 0,
    speed: Math.max(greatest(lanes.tapeSpeed), greatest(lanes.tapeSpeed, -1)),
    jolt: jolt.change,
    joltAt: jolt.t,
    hole: greatest(lanes.hole),
    holeAhead: greatest(lanes.hole, -1),
    tension: greatest(lanes.tension),
    web: greatest(lanes.web),
    current: greatest(lanes.current),
    peelCurrent: greatest(lanes.peelCurrent),
    peeled: lanes.peeled[last]! - lanes.peeled[0]!,
    slipped: d.film
      ? d.film.roller * (lanes.roller[last]! - lanes.roller[0]!) - (lanes.drawn[last]! - lanes.drawn[0]!)
      : 0,
    filmSlack: lanes.filmSlack[last]!,
    seat: hi > lo ? Math.min(1, Math.max(0, (end[8]! - lo) / (hi - lo))) : 0,
    energy: energy.feed + energy.peel,
    feedEnergy: energy.feed,
    feedHeat: energy.feedHeat,
    warnings,
  };
}
const ms = (s: number): string => `${(s * 1e3).toPrecision(3)} ms`;
/** When a lane last comes within 10 um of its end, linear between steps. */
function settling(t: Float64Array, lane: Float64Array, scale: number): number {
  const last = t.length - 1;
  const away = (i: number): number => Math.abs(lane[i]! - lane[last]!) * scale;
  let i = last;
  while (i > 0 && away(i - 1) < settled) i--;
  if (i === 0) return t[0]!;
  const [far, near] = [away(i - 1), away(i)];
  return t[i - 1]! + ((far - settled) / (far - near)) * (t[i]! - t[i - 1]!);
}
