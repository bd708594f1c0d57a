/**
 * What an index leaves behind, step by step: one array a lane, all of one length, the steps uneven.
 *
 * Positions are from the beginning of the run, SI throughout. `t` s; `rotor`, `wheel`, `reel`, `peelRotor`, `roller` rad; `tape`, `drawn`
 * (film through the nip), `peeled` (film off the tape), `filmSlack`, `webSlack` m; speeds rad/s, of the tape m/s; currents A; volts V; `hole`
 * N, + where a tooth drives the tape, - where the tape bears forward on a tooth; `tension` of the film at the nip, `filmForce` of the film on
 * the tape, + forward, `web` pull of the reel, N; `mesh` torque of the feed gearing, N m; `slips` 1 while the nip slips.
 */
export const laneNames = [
  "t",
  "rotor",
  "wheel",
  "tape",
  "reel",
  "peelRotor",
  "roller",
  "drawn",
  "peeled",
  "rotorSpeed",
  "wheelSpeed",
  "tapeSpeed",
  "reelSpeed",
  "peelRotorSpeed",
  "rollerSpeed",
  "current",
  "peelCurrent",
  "volts",
  "peelVolts",
  "hole",
  "tension",
  "filmForce",
  "filmSlack",
  "web",
  "webSlack",
  "mesh",
  "slips",
] as const;
export type LaneName = (typeof laneNames)[number];
export type Lanes = Readonly<Record<LaneName, Float64Array>>;

/** Lanes that grow as steps are written. */
export class Trace {
  length = 0;
  #room = 512;
  #lanes = laneNames.map(() => new Float64Array(this.#room));

  /** Makes room for one more step and returns the lanes in the order of laneNames; the caller writes at `length - 1`. */
  next(): readonly Float64Array[] {
    if (this.length === this.#room) {
      this.#room *= 2;
      this.#lanes = this.#lanes.map((lane) => {
        const wider = new Float64Array(this.#room);
        wider.set(lane);
        return wider;
      });
    }
    this.length++;
    return this.#lanes;
  }
  lanes(): Lanes {
    return Object.fromEntries(laneNames.map((name, i) => [name, this.#lanes[i]!.slice(0, this.length)])) as Lanes;
  }
}

/** A lane at a time, linear between its steps; its ends beyond them. */
export function laneAt(lanes: Lanes, name: LaneName, t: number): number {
  const { t: times } = lanes;
  const lane = lanes[name];
  let low = 0;
  let high = times.length - 1;
  if (!(t > times[0]!)) return lane[0]!;
  if (!(t < times[high]!)) return lane[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle]! <= t) low = middle;
    else high = middle;
  }
  const span = times[high]! - times[low]!;
  return lane[low]! + (span > 0 ? (t - times[low]!) / span : 1) * (lane[high]! - lane[low]!);
}

/**
 * Greatest change of a lane within a window of time, and where that window begins.
 *
 *     max over t of |f(t + w) - f(t)|
 *
 * f linear between steps, so the greatest change begins or ends at a step. At an impact the acceleration from step to step grows without
 * end as steps shrink; this does not.
 */
export function greatestChange(
  lanes: Lanes,
  name: LaneName,
  window: number,
): { readonly change: number; readonly t: number } {
  const { t: times } = lanes;
  const lane = lanes[name];
  const last = times.length - 1;
  let change = 0;
  let t = times[0]!;
  const seen = (value: number, begin: number): void => {
    if (value > change) {
      change = value;
      t = begin;
    }
  };
  let j = 0;
  let k = 0;
  for (let i = 0; i <= last; i++) {
    const ahead = times[i]! + window;
    while (j < last && times[j + 1]! <= ahead) j++;
    const value = j === last ? lane[last]! : between(times, lane, j, ahead);
    seen(Math.abs(value - lane[i]!), times[i]!);
    const behind = times[i]! - window;
    if (behind <= times[0]!) continue;
    while (times[k + 1]! <= behind) k++;
    seen(Math.abs(lane[i]! - between(times, lane, k, behind)), behind);
  }
  return { change, t };
}
function between(times: Float64Array, lane: Float64Array, i: number, t: number): number {
  const span = times[i + 1]! - times[i]!;
  return span > 0 ? lane[i]! + ((t - times[i]!) / span) * (lane[i + 1]! - lane[i]!) : lane[i + 1]!;
}
