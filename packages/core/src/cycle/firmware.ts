import { power } from "../quantity/power.ts";
import { showIn } from "../quantity/show.ts";
import { commanded, type DriveDesign, type IndexDesign, rubbing } from "./design.ts";
import { eventsOf, timeOf } from "./events.ts";
import { type IndexMeasures, measuresOf } from "./measures.ts";
import { type IndexRun, runIndex } from "./run.ts";

/**
 * The numbers a firmware needs, from the model, and how far each may be trusted.
 *
 *     lead         root of x_wheel(lead) = S: how far before the end of the travel the motor is shorted
 *     ramp         dV/dt so that the tape's speed changes by less than a limit in 1 ms; a = dV/dt r_p/(N k) to begin with, then by runs
 *     peel lead    time from the peel motor's start until the film's tension reaches P(v_index), the tape standing
 *     hold         time from the brake until film and tape stand and the film is taut again
 *     settle       time from the brake until the tape stays within 10 um of its end
 *     stall        current 0.5 (I_run + I_stall) for longer than 2 L/R + 1.5 t_start
 *     time-out     1.5 times the index at least volts and hot
 *     homing       back off and come again over tooth play and backlash
 *     stagger      start pulses of N units on one rail do not overlap: pulse x N <= index time
 *
 * S travel, m; P(v) peel force at the tape's mean speed, N; I_run greatest current in the second half of the drive,
 * I_stall = V/R hot, A; t_start how long a start draws more than the threshold, s. Each stands on what it reads: the shift of the stop is given for 5 % more volts, half as much friction torque more, twice
 * the drag, a winding 20 % more resistive (hot) and gear teeth that rub 20 % more. They are numbers of this design, not of a unit on the
 * bench: `lead` is to be learned there.
 */
export type FirmwareName =
  | "lead"
  | "ramp"
  | "peel lead"
  | "hold"
  | "settle"
  | "stall current"
  | "stall time"
  | "time-out"
  | "homing"
  | "stagger";
export interface FirmwareConstant {
  readonly name: FirmwareName;
  /** SI. */
  readonly value: number;
  readonly unit: "m" | "s" | "A" | "V/s";
  readonly means: string;
  /** What a reader must know of it: why there is none, where it stops holding. */
  readonly note?: string;
  readonly shifts: readonly Shift[];
}
/** What one circumstance does to a constant, in the constant's unit. */
export interface Shift {
  readonly of: Circumstance;
  readonly by: number;
}
export const circumstances = {
  volts: "5 % more volts",
  torque: "half as much friction torque again",
  drag: "twice the drag on the tape",
  hot: "a winding 20 % more resistive, hot",
  gearing: "gear teeth that rub 20 % more",
} as const;
export type Circumstance = keyof typeof circumstances;
export const circumstanceNames = Object.keys(circumstances) as Circumstance[];

/** The design in a circumstance that befalls one of its drives; the drag on the tape befalls both. */
export function changed(d: IndexDesign, of: Circumstance, which: "feed" | "peel" = "feed"): IndexDesign {
  if (of === "drag") return { ...d, tape: { ...d.tape, sliding: 2 * d.tape.sliding, sticking: 2 * d.tape.sticking } };
  const drive = d[which];
  if (!drive) return d;
  const now: Readonly<Record<Exclude<Circumstance, "drag">, () => DriveDesign>> = {
    volts: () => ({ ...drive, volts: drive.volts * 1.05 }),
    torque: () => ({ ...drive, T0: drive.T0 * 1.5 }),
    hot: () => ({ ...drive, R: drive.R * 1.2 }),
    gearing: () => rubbing(drive, 1.2),
  };
  return { ...d, [which]: now[of]() };
}

export interface FirmwareOptions {
  readonly tol?: number;
  readonly from?: Float64Array | undefined;
  /** The design at least volts and hot, for the time-out. */
  readonly worst?: IndexDesign | undefined;
  /** Resistance hot over cold. */
  readonly hot?: number;
  /** Most the tape's speed may change in 1 ms, m/s; without one the motor is switched at once. */
  readonly jolt?: number | undefined;
  /** Units on one rail. */
  readonly units?: number | undefined;
}
export interface Firmware {
  readonly constants: readonly FirmwareConstant[];
  /** How far the stop lies out when the circumstances come together, root of the sum of squares, m. */
  readonly stopScatter: number;
  /** Whether an open-loop lead holds 50 um, in a sentence. */
  readonly openLoop: string;
  /** What was found of a ramp, in a sentence. */
  readonly ramping: string;
  readonly warnings: readonly string[];
  /** The index with these constants. */
  readonly run: IndexRun;
  readonly design: IndexDesign;
}
/** What the stop is asked to hold, m. */
export const stopAllowed = 50e-6;
const longEnough = (d: IndexDesign): number => Math.max(0.25, d.commands.end);

/** Where the wheel stops against the travel, m; NaN where the index never brakes. */
export function stopOf(d: IndexDesign, { tol = 1e-7, from }: Pick<FirmwareOptions, "tol" | "from"> = {}): number {
  const run = runIndex(d, { tol, from });
  if (!run.marks.some((m) => m.what === "brake")) return Number.NaN;
  return measuresOf(d, run).stopError;
}

/**
 * Lead at which the wheel stops on its travel.
 *
 *     x_wheel(lead) - S = 0        by regula falsi with halved ends (Illinois), to 0.2 um
 *
 * undefined where the index never brakes or no lead from 0 to the whole travel stops it there.
 */
export function leadOf(d: IndexDesign, options: Pick<FirmwareOptions, "tol" | "from"> = {}): number | undefined {
  const long = commanded(d, { end: longEnough(d) });
  const f = (lead: number): number => stopOf(commanded(long, { lead }), options);
  let a = 0;
  let fa = f(0);
  if (!(fa >= 0)) return undefined;
  if (fa < 2e-7) return 0;
  let b = Math.min(d.commands.travel, Math.max(1.2 * fa, 1e-5));
  let fb = f(b);
  while (fb > 0 && b < d.commands.travel) {
    b = Math.min(d.commands.travel, 1.6 * b);
    fb = f(b);
  }
  if (!(fb <= 0)) return undefined;
  let side = 0;
  for (let k = 0; k < 40; k++) {
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (Math.abs(fx) < 2e-7 || b - a < 1e-9) return x;
    if (fx > 0) {
      a = x;
      fa = fx;
      if (side === 1) fb /= 2;
      side = 1;
    } else {
      b = x;
      fb = fx;
      if (side === -1) fa /= 2;
      side = -1;
    }
  }
  return (a + b) / 2;
}

/** What a run says of the constants that need no search. */
interface Readings {
  readonly hold: number | undefined;
  readonly settle: number;
  readonly time: number;
  readonly stallCurrent: number;
  readonly stall: number;
  readonly running: number;
  readonly pulse: number;
}
function readingsOf(d: IndexDesign, run: IndexRun, index: IndexMeasures, hot: number): Readings {
  const { lanes, marks } = run;
  const { t, current } = lanes;
  const on = d.commands.feedStart;
  const brake = marks.find((m) => m.what === "brake")?.t ?? d.commands.end;
  const still = timeOf(eventsOf(d, run), "tape stops");
  let hold: number | undefined;
  if (d.peel && still !== undefined) {
    const i = t.findIndex((v, j) => v >= still && lanes.filmSlack[j]! <= 0 && lanes.tension[j]! > 0);
    if (i >= 0) hold = t[i]! - brake;
  }
  const begin = Math.min(on, d.peel ? d.commands.peelStart : Number.POSITIVE_INFINITY);
  // Running: the second half of the drive; the start is over by then.
  let running = 0;
  for (let i = 0; i < t.length; i++)
    if (t[i]! > (on + brake) / 2 && t[i]! < brake) running = Math.max(running, current[i]!);
  const stall = d.feed.volts / (d.feed.R * hot);
  const stallCurrent = 0.5 * (running + stall);
  let last = on;
  for (let i = 0; i < t.length; i++) if (t[i]! > on && t[i]! < brake && current[i]! > stallCurrent) last = t[i]!;
  return { hold, settle: begin + index.time - brake, time: index.time, stallCurrent, stall, running, pulse: last - on };
}
/** Time until the standing tape's film pulls what it needs at `speed`; or why it never does. */
function peelLeadOf(d: IndexDesign, speed: number, tol: number, from: Float64Array | undefined): number | string {
  const film = d.film!;
  const wanted = film.bars * film.peelForce * power(Math.max(speed, film.slow) / film.speed, film.exponent);
  const { t, tension } = runIndex(commanded(d, { peelStart: 0, feedStart: d.commands.end }), { tol, from }).lanes;
  const i = tension.findIndex((v) => v >= wanted);
  return i >= 0
    ? t[i]!
    : `the nip pulls at most ${showIn("N", Math.max(...tension))} on a standing tape, and the film needs ${showIn("N", wanted)} at the index's speed`;
}

export function firmwareOf(given: IndexDesign, options: FirmwareOptions = {}): Firmware {
  const { tol = 1e-7, from, hot = 1.2, units } = options;
  const warnings: string[] = [];
  let d = commanded(given, { end: longEnough(given) });
  const run0 = (x: IndexDesign): IndexRun => runIndex(x, { tol, from });

  let peelLead: number | undefined;
  let speed = 0;
  if (d.peel && d.film) {
    const first = measuresOf(d, run0(d));
    speed = first.time < Number.POSITIVE_INFINITY ? d.commands.travel / first.time : first.speed;
    const found = peelLeadOf(d, speed, tol, from);
    if (typeof found === "string") warnings.push(`No peel lead: ${found}.`);
    else {
      peelLead = found;
      d = commanded(d, { peelStart: 0, feedStart: peelLead });
    }
  }

  let ramp: number | undefined;
  let ramping = "The motor is switched at once; no limit of the tape's jolt was given.";
  if (options.jolt !== undefined) {
    const limit = options.jolt;
    const jolt = (r: number): number => {
      const x = commanded(d, { ramp: r, lead: 0, travel: 10 * d.commands.travel });
      return measuresOf(x, run0(x)).jolt;
    };
    const atOnce = jolt(Number.POSITIVE_INFINITY);
    if (atOnce <= limit)
      ramping = `Switched at once, the start jolts the tape by ${showIn("mm/s", atOnce)} in 1 ms: no ramp is needed.`;
    else {
      let r = ((limit / 1e-3) * d.feed.ratio * d.feed.k) / d.wheel.radius;
      let now = jolt(r);
      for (let k = 0; k < 12 && now > limit; k++) {
        r *= 0.6;
        now = jolt(r);
      }
      if (now <= limit) {
        ramp = r;
        ramping = `The ramp brings the start's jolt from ${showIn("mm/s", atOnce)} in 1 ms down to ${showIn("mm/s", now)}.`;
        d = commanded(d, { ramp: r });
      } else {
        ramping = `No ramp keeps the start's jolt below ${showIn("mm/s", limit)} in 1 ms: slack and play alone make it ${showIn("mm/s", now)}.`;
        warnings.push(ramping);
      }
    }
  }

  const lead = leadOf(d, { tol, from });
  if (lead === undefined)
    warnings.push("No lead: the index never reaches its brake, or no lead stops the wheel on its travel.");
  d = commanded(d, { lead: lead ?? 0 });
  const run = run0(d);
  const index = measuresOf(d, run);
  warnings.push(...index.warnings);
  const here = readingsOf(d, run, index, hot);

  // The same commands in each circumstance.
  const stop: Shift[] = [];
  const moved: { readonly of: Circumstance; readonly r: Readings }[] = [];
  const leads: Shift[] = [];
  for (const of of circumstanceNames) {
    const other = changed(d, of);
    const m = run0(other);
    const i = measuresOf(other, m);
    if (!Number.isFinite(i.time)) {
      warnings.push(`With ${circumstances[of]} the index does not finish within ${showIn("ms", d.commands.end)}.`);
      continue;
    }
    stop.push({ of, by: i.stopError - index.stopError });
    moved.push({ of, r: readingsOf(other, m, i, hot) });
    if (peelLead !== undefined) {
      const l = peelLeadOf(changed(d, of, "peel"), speed, tol, from);
      if (typeof l === "number") leads.push({ of, by: l - peelLead });
    }
  }
  const shiftsOf = (f: (r: Readings) => number | undefined): Shift[] =>
    moved.flatMap(({ of, r }) => {
      const [a, b] = [f(r), f(here)];
      return a === undefined || b === undefined || !Number.isFinite(a - b) ? [] : [{ of, by: a - b }];
    });
  const stopScatter = Math.hypot(...stop.map((s) => s.by));
  const openLoop = saysOpenLoop(d, lead, stop, stopScatter);

  const worst = options.worst && commanded(options.worst, { ...d.commands, end: 2 * d.commands.end });
  const worstTime = worst && measuresOf(worst, run0(worst)).time;
  if (worstTime === Number.POSITIVE_INFINITY) warnings.push("At least volts, hot, the index does not finish.");
  const slowest = worstTime ?? index.time;
  const play = Math.max(...d.wheel.play.hi.map((hi, i) => hi - d.wheel.play.lo[i]!));
  const constants: FirmwareConstant[] = [];
  const say = (
    name: FirmwareName,
    value: number | undefined,
    unit: FirmwareConstant["unit"],
    means: string,
    shifts: readonly Shift[] = [],
    note?: string,
  ): void => {
    if (value === undefined || !Number.isFinite(value)) return;
    constants.push({ name, value, unit, means, shifts, ...(note === undefined ? {} : { note }) });
  };
  say(
    "lead",
    lead,
    "m",
    `travel before its end at which the feed motor is shorted, counted at the ${d.commands.counts}; beside it how the stop moves`,
    stop,
    openLoop,
  );
  say("ramp", ramp, "V/s", "volts a second while the feed motor starts", [], ramping);
  say("peel lead", peelLead, "s", "peel motor's start before the feed motor's", leads);
  say(
    "hold",
    here.hold,
    "s",
    "peel motor stays on after the brake, until tape and film stand taut",
    shiftsOf((r) => r.hold),
  );
  say(
    "settle",
    here.settle,
    "s",
    "from the brake until the part may be picked",
    shiftsOf((r) => r.settle),
  );
  say(
    "stall current",
    here.stallCurrent,
    "A",
    "feed current that means a stall, if it lasts",
    shiftsOf((r) => r.stallCurrent),
    here.running > 0.8 * here.stall
      ? "Running current and stall current lie too near each other for a safe threshold between them."
      : undefined,
  );
  const lasting = (r: Readings): number => (2 * d.feed.L) / d.feed.R + 1.5 * r.pulse;
  say("stall time", lasting(here), "s", "how long it must last: half as long again as a start does", shiftsOf(lasting));
  say(
    "time-out",
    1.5 * slowest,
    "s",
    "after which an index has failed",
    shiftsOf((r) => 1.5 * r.time),
    worst ? undefined : "From this index; at least volts and hot it takes longer.",
  );
  say(
    "homing",
    play + d.feed.backlash * d.wheel.radius,
    "m",
    "back off by this and come again, so that every index ends with play closed forward",
  );
  const inTurn = units === undefined ? undefined : here.pulse * units;
  say(
    "stagger",
    here.pulse > 0 ? here.pulse : undefined,
    "s",
    "least time between the starts of two units on one rail",
    shiftsOf((r) => r.pulse),
    inTurn === undefined
      ? undefined
      : inTurn <= index.time
        ? `${units} units start in turn within one index: ${showIn("ms", inTurn)} of ${showIn("ms", index.time)}.`
        : `${units} units in turn take ${showIn("ms", inTurn)}, longer than an index: let fewer start at once, or size the rail.`,
  );
  return { constants, stopScatter, openLoop, ramping, warnings, run, design: d };
}

function saysOpenLoop(
  { commands }: IndexDesign,
  lead: number | undefined,
  stop: readonly Shift[],
  together: number,
): string {
  const scheme = commands.slow ? "One lead after a slow approach" : "An open-loop lead";
  if (lead === undefined || stop.length === 0) return `${scheme} was not found, so none can hold 50 um.`;
  const worst = stop.reduce((a, b) => (Math.abs(a.by) >= Math.abs(b.by) ? a : b));
  const way = commands.slow
    ? "Approach more slowly, count at the wheel, or learn the lead on every unit."
    : "Approach slowly, count at the wheel, or learn the lead on every unit.";
  if (Math.abs(worst.by) > stopAllowed)
    return `${scheme} cannot hold 50 um: with ${circumstances[worst.of]} alone the stop moves by ${showIn("um", Math.abs(worst.by))}. ${way}`;
  if (together > stopAllowed)
    return `${scheme} cannot hold 50 um: no circumstance alone moves the stop by as much, all together do by ${showIn("um", together)}. ${way}`;
  return `${scheme} holds 50 um here: all circumstances together move the stop by ${showIn("um", together)}.`;
}

/**
 * The brake's lead with a slow approach: `share` of the volts over the last stretch, which is twice the scatter of the open-loop stop.
 */
export function slowApproach(d: IndexDesign, share: number, stopScatter: number): IndexDesign {
  return commanded(d, { slow: { share, over: 2 * stopScatter } });
}
