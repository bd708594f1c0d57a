import type { IndexDesign } from "./design.ts";
import type { IndexRun, Mark } from "./run.ts";

/**
 * In which order an index takes load.
 *
 * film taut        tension passes 2 % of the peel force           film peels     0.2 um of film has left the tape
 * nip slips        the nip draws less than its rollers turn       feed play closed   the feed gearing carries torque
 * tooth carries    a tooth drives the tape with over 10 mN        tape ahead     the tape bears forward on a tooth with over 10 mN
 * tape moves       by 5 um                                        reel pulls     with over 10 mN
 * wheel stops, tape stops     last time faster than 1 mm/s at the pitch line
 *
 * Each the first time after the run's beginning, at the end of the step that did it: what falls into one step (1 ms at most, mostly under
 * 0.3 ms) keeps the order of this list.
 */
export const eventNames = [
  "peel on",
  "feed on",
  "film taut",
  "film peels",
  "feed play closed",
  "tooth carries",
  "tape moves",
  "tape ahead",
  "reel pulls",
  "nip slips",
  "slow",
  "brake",
  "peel off",
  "wheel stops",
  "tape stops",
] as const;
export type EventName = (typeof eventNames)[number];
export interface Event {
  readonly what: EventName;
  readonly t: number;
}
const newton = 0.01;
const slowest = 1e-3;

export function eventsOf(d: IndexDesign, { lanes, marks }: Pick<IndexRun, "lanes" | "marks">): Event[] {
  const { t } = lanes;
  const first = (is: (i: number) => boolean): number | undefined => {
    for (let i = 0; i < t.length; i++) if (is(i)) return t[i]!;
    return undefined;
  };
  const lastOver = (lane: Float64Array, scale: number): number | undefined => {
    for (let i = t.length - 1; i >= 0; i--)
      if (Math.abs(lane[i]! * scale) > slowest) return i + 1 < t.length ? t[i + 1]! : undefined;
    return undefined;
  };
  const x0 = lanes.tape[0]!;
  const l0 = lanes.peeled[0]!;
  const taut = 0.02 * (d.film?.peelForce ?? Number.POSITIVE_INFINITY);
  const found: Partial<Record<EventName, number | undefined>> = {
    "film taut": first((i) => lanes.tension[i]! > taut),
    "film peels": first((i) => lanes.peeled[i]! > l0 + 0.2e-6),
    "feed play closed": first((i) => lanes.mesh[i]! > 0),
    "tooth carries": first((i) => lanes.hole[i]! > newton),
    "tape moves": first((i) => Math.abs(lanes.tape[i]! - x0) > 5e-6),
    "tape ahead": first((i) => lanes.hole[i]! < -newton),
    "reel pulls": first((i) => lanes.web[i]! > newton),
    "nip slips": first((i) => lanes.slips[i]! > 0),
    "wheel stops": lastOver(lanes.wheelSpeed, d.wheel.radius),
    "tape stops": lastOver(lanes.tapeSpeed, 1),
  };
  for (const { what, t: when } of marks as readonly Mark[]) found[what] = when;
  return eventNames
    .flatMap((what) => (found[what] === undefined ? [] : [{ what, t: found[what]! }]))
    .sort((a, b) => a.t - b.t);
}
export const timeOf = (events: readonly Event[], what: EventName): number | undefined =>
  events.find((e) => e.what === what)?.t;
