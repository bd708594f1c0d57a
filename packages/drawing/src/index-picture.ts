import {
  allowedTime,
  asWritten,
  firmwareConstantOf,
  holeStrength,
  type LaneName,
  laneAt,
  Realiser,
  type Scene,
  sceneIndex,
  showIn,
  sprocketInterval,
  sprocketWheel,
  type Told,
} from "@tapeworthy/core";
import type { Moment } from "./moment.ts";

/** Lanes of an index that are drawn, by the names core gives them; SI, one value a step. */
export const drawnLanes = [
  "t",
  "rotor",
  "wheel",
  "tape",
  "roller",
  "drawn",
  "wheelSpeed",
  "tapeSpeed",
  "rollerSpeed",
  "current",
  "peelCurrent",
  "hole",
  "tension",
  "web",
  "filmSlack",
  "webSlack",
] as const satisfies readonly LaneName[];
export type DrawnLane = (typeof drawnLanes)[number];

/** One index of a unit on a tape as plain data, SI: all that its drawing and its story need. It may cross to another thread. */
export interface IndexPicture {
  readonly unit: string;
  readonly tape: string;
  readonly lanes: Readonly<Record<DrawnLane, Float64Array>>;
  /** Least and most that the teeth let the tape stand off the wheel's travel, m, and the tooth that carries, at every step. */
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  readonly teeth: Int16Array;
  readonly radius: number;
  readonly ratio: number;
  /** Radius of the nip's lower roller; 0 where the film is left out. */
  readonly roller: number;
  /** What the index should move the tape by, m. */
  readonly travel: number;
  readonly events: readonly Told[];
  readonly said: readonly string[];
  /** When the tape is within 10 um of its end for good, s; without end where it never is. */
  readonly settled: number;
  /** Lines that are not to be passed; what the files give none of is left out. */
  readonly limits: {
    readonly time?: number;
    readonly speed: number;
    readonly hole?: number;
    readonly traction?: number;
    readonly stall?: number;
    readonly loop?: number;
  };
  readonly steps: { readonly taken: number; readonly unsolved: number; readonly unsolvedAt?: number };
  readonly withoutFilm?: string;
  /** The same unit at the least volts, hot. */
  readonly slowest: { readonly time: number; readonly finished: boolean };
}

/** Works out one index of a scene. Throws RangeError with the reason where it has none. */
export function indexPicture(scene: Scene): IndexPicture {
  const found = sceneIndex(scene);
  const { design, run, story, firmware, slowest, withoutFilm } = found;
  const { requirement, unit, tape } = scene;
  const loop = unit.reel?.["loop room"];
  const strength = unit.sprocket && holeStrength.reads(scene) ? holeStrength : undefined;
  const time = allowedTime.reads(scene) ? allowedTime : undefined;
  const real = new Realiser(
    scene,
    [requirement.filmSpeed, loop, strength, time, sprocketWheel, sprocketInterval].flatMap((q) => q ?? []),
  ).run(asWritten);
  const limit = (q: Parameters<typeof real.number>[0] | undefined): number | undefined => {
    const v = q && real.number(q);
    return v !== undefined && Number.isFinite(v) ? v : undefined;
  };
  const interval = sprocketInterval.value(
    real.inputsOf(sprocketInterval, scene) as Parameters<typeof sprocketInterval.value>[0],
  );
  const lanes = Object.fromEntries(drawnLanes.map((name) => [name, run.lanes[name]])) as IndexPicture["lanes"];
  const n = lanes.t.length;
  const [lo, hi, teeth] = [new Float64Array(n), new Float64Array(n), new Int16Array(n)];
  for (let i = 0; i < n; i++) {
    const phi = lanes.wheel[i]!;
    lo[i] = interval.lo(phi) - design.wheel.radius * phi;
    hi[i] = Math.max(lo[i]!, interval.hi(phi) - design.wheel.radius * phi);
    teeth[i] = interval.carrying(phi) ?? none;
  }
  const stall = firmwareConstantOf(firmware, "stall current");
  const limits = {
    time: limit(time),
    hole: limit(strength),
    traction: design.film?.traction,
    stall,
    loop: limit(loop),
  };
  return {
    unit: unit.name,
    tape: tape.name,
    lanes,
    lo,
    hi,
    teeth,
    radius: design.wheel.radius,
    ratio: design.feed.ratio,
    roller: design.film?.roller ?? 0,
    travel: design.commands.travel,
    events: story.events,
    said: story.said,
    settled: story.measures.time + Math.min(design.commands.feedStart, design.peel ? design.commands.peelStart : 1),
    limits: {
      speed: real.number(requirement.filmSpeed),
      ...(Object.fromEntries(Object.entries(limits).filter(([, v]) => v !== undefined)) as {
        readonly [K in keyof typeof limits]?: number;
      }),
    },
    steps: {
      taken: run.steps.taken,
      unsolved: run.steps.unsolved,
      ...(run.steps.unsolvedAt === undefined ? {} : { unsolvedAt: run.steps.unsolvedAt }),
    },
    ...(withoutFilm === undefined ? {} : { withoutFilm }),
    slowest: { time: slowest.time, finished: slowest.finished },
  };
}
/** No tooth carries. */
const none = -1000;

export const endOf = ({ lanes: { t } }: IndexPicture): number => t[t.length - 1]!;
/** A lane at a time, linear between its steps. */
export const at = ({ lanes }: IndexPicture, lane: DrawnLane, t: number): number =>
  laneAt(lanes as Parameters<typeof laneAt>[0], lane, t);
/** An array of the picture at a time, linear between steps. */
export function between({ lanes: { t: times } }: IndexPicture, values: Float64Array, t: number): number {
  const i = stepAt(times, t);
  const span = (times[i + 1] ?? times[i]!) - times[i]!;
  const part = span > 0 ? Math.min(1, Math.max(0, (t - times[i]!) / span)) : 0;
  return values[i]! + part * ((values[i + 1] ?? values[i]!) - values[i]!);
}
/** The last step at or before a time. */
export function stepAt(times: Float64Array, t: number): number {
  let [low, high] = [0, times.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle]! <= t) low = middle;
    else high = middle;
  }
  return times[high]! <= t ? high : low;
}

/** Where everything stands at a time of the index. */
export function momentOf(picture: IndexPicture, t: number): Moment {
  const tooth = picture.teeth[stepAt(picture.lanes.t, t)]!;
  return {
    tape: at(picture, "tape", t),
    wheel: at(picture, "wheel", t),
    drawn: at(picture, "drawn", t),
    roller: at(picture, "roller", t),
    hole: at(picture, "hole", t),
    tooth: tooth === none ? undefined : tooth,
  };
}

/** What happened last at a time: its place in the list of events; -1 before the first. */
export const eventAt = ({ events }: IndexPicture, t: number): number =>
  events.reduce((last, e, i) => (e.t <= t + 1e-9 ? i : last), -1);
/** The time of the neighbouring event, for a hand that goes from one to the next; the ends where there is none. */
export function nextEvent(picture: IndexPicture, t: number, way: 1 | -1): number {
  const times = picture.events.map((e) => e.t);
  return way > 0
    ? (times.find((v) => v > t + 1e-6) ?? endOf(picture))
    : ([...times].reverse().find((v) => v < t - 1e-6) ?? 0);
}

/** A moment of the index said aloud: time, places, forces, what happened last. */
export function sayMoment(picture: IndexPicture, t: number): string {
  const mm = (lane: "tape" | "drawn"): string => showIn("mm", at(picture, lane, t) - picture.lanes[lane][0]!);
  const last = picture.events[eventAt(picture, t)];
  const film = picture.roller > 0;
  const hole = at(picture, "hole", t);
  return [
    showIn("ms", t),
    `tape ${mm("tape")} on`,
    `wheel ${showIn("mm", at(picture, "wheel", t) * picture.radius)}`,
    ...(film ? [`film ${mm("drawn")}`] : []),
    `tooth ${hole < -0.005 ? "is pushed with" : "pushes with"} ${showIn("N", Math.abs(hole))}`,
    ...(film ? [`film pulls with ${showIn("N", at(picture, "tension", t))}`] : []),
    ...(last ? [`last: ${last.says}`] : []),
  ]
    .join(", ")
    .replaceAll("−", "minus ");
}
