import { showIn, unitOf } from "@tapeworthy/core";
import { at, between, type DrawnLane, endOf, eventAt, type IndexPicture } from "./index-picture.ts";
import { aloud, capital, list } from "./say.ts";
import { box, circle, type Drawing, group, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";
import { ticks } from "./ticks.ts";

/** A line of a lane: its name, how it is drawn, and what it is at a time, SI. */
interface Line {
  readonly name: string;
  readonly cls: string;
  readonly of: (p: IndexPicture, i: number) => number;
  readonly now: (p: IndexPicture, t: number) => number;
}
interface Limit {
  readonly at: number;
  readonly words: string;
  /** Passing it is a fault; else it only says where something stands. */
  readonly binds: boolean;
}
interface Lane {
  readonly name: string;
  readonly shownIn: string;
  /** What is smaller than this fills no lane, SI: nothing that rests is blown up. */
  readonly least: number;
  readonly lines: readonly Line[];
  readonly limits: readonly Limit[];
  /** A region between two arrays, SI: where the tape may lie. */
  readonly band?: readonly [low: (p: IndexPicture, i: number) => number, high: (p: IndexPicture, i: number) => number];
}

const styles = {
  tape: "outline",
  wheel: "steel-line thinner",
  film: "film-line thinner",
  behind: "hidden-line",
} as const;
const lane = (
  name: string,
  cls: string,
  of: DrawnLane,
  scale: (p: IndexPicture) => number = () => 1,
  zero = false,
): Line => ({
  name,
  cls,
  of: (p, i) => ((p.lanes[of][i] ?? 0) - (zero ? p.lanes[of][0]! : 0)) * scale(p),
  now: (p, t) => (at(p, of, t) - (zero ? p.lanes[of][0]! : 0)) * scale(p),
});

/** What the lanes show, from above: places, how the tape lies on its teeth, speeds, currents, forces, slack. Without its film a unit has fewer lines. */
function lanesOf(p: IndexPicture): Lane[] {
  const film = p.roller > 0;
  const rim = (q: IndexPicture): number => q.radius;
  const { limits } = p;
  const limit = (v: number | undefined, words: string, binds = true): Limit[] =>
    v === undefined ? [] : [{ at: v, words, binds }];
  return [
    {
      name: "place",
      shownIn: "mm",
      least: 0.1e-3,
      lines: [
        lane("motor", styles.behind, "rotor", (q) => q.radius / q.ratio, true),
        lane("wheel", styles.wheel, "wheel", rim),
        lane("tape", styles.tape, "tape"),
        ...(film ? [lane("film", styles.film, "drawn")] : []),
      ],
      limits: limit(p.travel, `one pitch, ${showIn("mm", p.travel)}`, false),
    },
    {
      name: "tape on its teeth",
      shownIn: "mm",
      least: 0.1e-3,
      lines: [
        {
          name: "tape",
          cls: styles.tape,
          of: (q, i) => q.lanes.tape[i]! - q.lanes.wheel[i]! * q.radius,
          now: (q, t) => at(q, "tape", t) - at(q, "wheel", t) * q.radius,
        },
      ],
      limits: [],
      band: [(q, i) => q.lo[i]!, (q, i) => q.hi[i]!],
    },
    {
      name: "speed",
      shownIn: "mm/s",
      least: 10e-3,
      lines: [
        ...(film ? [lane("roller", styles.behind, "rollerSpeed", (q) => q.roller)] : []),
        lane("wheel", styles.wheel, "wheelSpeed", rim),
        lane("tape", styles.tape, "tapeSpeed"),
      ],
      limits: limit(limits.speed, `mean the checks take, ${showIn("mm/s", limits.speed)}`, false),
    },
    {
      name: "current",
      shownIn: "A",
      least: 0.05,
      lines: [lane("feed", styles.tape, "current"), ...(film ? [lane("peel", styles.film, "peelCurrent")] : [])],
      limits: limit(limits.stall, `counts as held fast, ${showIn("A", limits.stall ?? 0)}`, false),
    },
    {
      name: "force",
      shownIn: "N",
      least: 0.2,
      lines: [
        lane("reel", styles.behind, "web"),
        lane("tooth", styles.tape, "hole"),
        ...(film ? [lane("film", styles.film, "tension")] : []),
      ],
      limits: [
        ...limit(limits.hole, `a hole bears ${showIn("N", limits.hole ?? 0)}`),
        ...(film ? limit(limits.traction, `the nip slips at ${showIn("N", limits.traction ?? 0)}`, false) : []),
      ],
    },
    {
      name: "slack",
      shownIn: "mm",
      least: 0.2e-3,
      lines: [lane("reel", styles.behind, "webSlack"), ...(film ? [lane("film", styles.film, "filmSlack")] : [])],
      limits: limit(limits.loop, `room for a loop, ${showIn("mm", limits.loop ?? 0)}`),
    },
  ];
}

/** The part of an index that is shown, s. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}
export const stretchNames = ["whole", "start", "stop"] as const;
export type StretchName = (typeof stretchNames)[number];
/** The whole index; from its first command until the tape moves and a tooth carries it; from the brake to rest. */
export function stretchOf(p: IndexPicture, name: StretchName): Stretch {
  const end = endOf(p);
  const of = (what: string): number | undefined => p.events.find((e) => e.what === what)?.t;
  if (name === "start") {
    const last = Math.max(of("tape moves") ?? end / 4, of("tooth carries") ?? 0);
    return { from: 0, to: Math.min(end, Math.max(2e-3, last * 1.35)) };
  }
  const brake = of("brake") ?? end * 0.6;
  if (name === "stop") return { from: Math.max(0, brake - (end - brake) * 0.12), to: end };
  // The time it may take belongs to the picture where it is near.
  const { time } = p.limits;
  return { from: 0, to: time !== undefined && time > end && time < 1.35 * end ? time * 1.02 : end };
}

export interface LaneSize {
  readonly width: number;
  readonly height: number;
  readonly stretch?: StretchName;
}
/** Where the time runs on paper, px: what a page needs to lay its slider over. */
export interface LaneFrame {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly stretch: Stretch;
}
const flagRow = 30;
export function laneFrame(p: IndexPicture, { width, height, stretch = "whole" }: LaneSize): LaneFrame {
  const narrow = width < 620;
  return {
    x0: narrow ? 46 : 62,
    x1: width - (narrow ? 98 : 118),
    y0: flagRow + 4,
    y1: height - 34,
    stretch: stretchOf(p, stretch),
  };
}
const xAt = ({ x0, x1, stretch }: LaneFrame, t: number): number =>
  x0 + ((t - stretch.from) / (stretch.to - stretch.from || 1)) * (x1 - x0);
/** The time under a place on paper, within the index. */
export function timeAt(p: IndexPicture, frame: LaneFrame, x: number): number {
  const { x0, x1, stretch } = frame;
  const t = stretch.from + ((x - x0) / (x1 - x0)) * (stretch.to - stretch.from);
  return Math.min(endOf(p), Math.max(0, Math.min(stretch.to, Math.max(stretch.from, t))));
}

interface Laid {
  readonly lane: Lane;
  readonly y0: number;
  readonly y1: number;
  readonly low: number;
  readonly high: number;
}
function laid(p: IndexPicture, frame: LaneFrame): Laid[] {
  const all = lanesOf(p);
  const gap = 11;
  const weights = all.map((one) => (one.name === "place" ? 1.35 : 1));
  const unit = (frame.y1 - frame.y0 - gap * (all.length - 1)) / weights.reduce((a, b) => a + b, 0);
  let y = frame.y0;
  return all.map((one, k) => {
    const tall = unit * weights[k]!;
    const y0 = y;
    y += tall + gap;
    return { lane: one, y0, y1: y0 + tall, ...rangeOf(p, one, frame.stretch) };
  });
}
/** What a lane must hold: its lines over the time shown, and limits that are near. */
function rangeOf(
  p: IndexPicture,
  { lines, limits, band, least }: Lane,
  { from, to }: Stretch,
): { low: number; high: number } {
  const { t } = p.lanes;
  let [low, high] = [0, 0];
  const take = (v: number): void => {
    if (!Number.isFinite(v)) return;
    low = Math.min(low, v);
    high = Math.max(high, v);
  };
  for (let i = 0; i < t.length; i++) {
    if (t[i]! < from || t[i]! > to) continue;
    for (const one of lines) take(one.of(p, i));
    if (band) for (const f of band) take(f(p, i));
  }
  high = Math.max(high, low + least);
  const size = high - low;
  for (const limit of limits) if (limit.at < high + 1.2 * size) take(limit.at);
  const pad = (high - low) * 0.07 || 1e-6;
  return { low: low - pad, high: high + pad };
}
const yAt = ({ y0, y1, low, high }: Laid, v: number): number =>
  Math.max(y0, Math.min(y1, y1 - ((v - low) / (high - low)) * (y1 - y0)));

/**
 * One index over time: lanes under each other, events as numbered flags over them, limits as lines, when the tape is settled, and where a step
 * did not converge. What moves with the time, `indexCursor`, is a drawing of its own.
 */
export function indexLanes(p: IndexPicture, size: LaneSize): Drawing {
  const { width, height } = size;
  const frame = laneFrame(p, size);
  const { stretch } = frame;
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  const clip = { box: [frame.x0, 0] as Point, width: frame.x1 - frame.x0, height };
  const tall = (at: number, cls: string): Shape => line([at, frame.y0], [at, frame.y1], cls);
  for (const tick of ticks(
    stretch.from * 1e3,
    stretch.to * 1e3,
    Math.max(4, Math.min(12, (frame.x1 - frame.x0) / 70)),
  )) {
    const x = xAt(frame, tick / 1e3);
    shapes.push(tall(x, "grid"), text([x, frame.y1 + 14], figure(tick), "", { anchor: "middle" }));
  }
  shapes.push(text([frame.x0 - 8, frame.y1 + 14], "ms", "", { anchor: "end" }));
  const flags = flagShapes(p, frame);
  shapes.push(...flags.map((f) => f.leader));
  for (const one of laid(p, frame)) shapes.push(...laneShapes(p, frame, one, clip));
  shapes.push(...flags.map((f) => f.flag));
  const { time } = p.limits;
  const marks: { t: number; words: string; cls: string; textCls: string }[] = [];
  if (Number.isFinite(p.settled)) marks.push({ t: p.settled, words: "settled", cls: "heavy", textCls: "strong" });
  if (time !== undefined) {
    const late = !(p.settled <= time);
    marks.push({
      t: time,
      words: `may take ${showIn("ms", time)}`,
      cls: late ? "fail-line" : "thin",
      textCls: late ? "is-fail" : "",
    });
  }
  for (const m of marks) {
    const x = xAt(frame, m.t);
    if (x < frame.x0 - 0.5 || x > frame.x1 + 0.5) continue;
    const wide = textWidth(m.words, 10.5, true);
    const left = x - wide / 2 < frame.x0 || x + wide / 2 > frame.x1 || m.words !== "settled";
    shapes.push(
      line([x, frame.y0], [x, frame.y1 + 4], m.cls === "heavy" ? "thin" : m.cls, { data: { flag: m.words } }),
      path(
        strokes(
          [
            [x, frame.y1 + 1],
            [x - 4, frame.y1 + 8],
            [x + 4, frame.y1 + 8],
          ],
          true,
        ),
        m.textCls === "is-fail" ? "of-fail" : "of-ink",
      ),
      text([left ? x - 7 : x, frame.y1 + 28], m.words, `${m.textCls} halo`, { anchor: left ? "end" : "middle" }),
    );
  }
  const { unsolved, unsolvedAt } = p.steps;
  if (unsolved > 0 && unsolvedAt !== undefined) {
    const x = Math.max(frame.x0, Math.min(frame.x1, xAt(frame, unsolvedAt)));
    const words = `${unsolved} of ${p.steps.taken} steps did not converge, the first here`;
    const end = x + 8 + textWidth(words, 10.5, true) > frame.x1;
    shapes.push(
      group(
        [
          line([x, frame.y0], [x, frame.y1], "fail-line"),
          text([end ? x - 6 : x + 6, frame.y0 + 11], words, "is-fail halo", { anchor: end ? "end" : "start" }),
        ],
        { class: "unsolved" },
      ),
    );
  }
  return { title: `One index of ${p.unit} on ${p.tape}`, desc: indexWords(p), width, height, shapes };
}

function laneShapes(
  p: IndexPicture,
  frame: LaneFrame,
  l: Laid,
  clip: { readonly box: Point; readonly width: number; readonly height: number },
): Shape[] {
  const { lane: one, y0, y1 } = l;
  const { factor } = unitOf(one.shownIn);
  const shapes: Shape[] = [];
  const inside: Shape[] = [];
  const { t } = p.lanes;
  const stroke = (of: (q: IndexPicture, i: number) => number): Point[] => {
    const out: Point[] = [];
    for (let i = 0; i < t.length; i++) {
      const point: Point = [xAt(frame, t[i]!), yAt(l, of(p, i))];
      // What hides behind its neighbours on paper is left out.
      const last = out.at(-1);
      if (last && i + 1 < t.length && Math.abs(point[0] - last[0]) < 0.35 && Math.abs(point[1] - last[1]) < 0.35)
        continue;
      out.push(point);
    }
    return out;
  };
  shapes.push(box([frame.x0, y0], frame.x1 - frame.x0, y1 - y0, "of-well softly"));
  if (one.band) {
    const rim = strokes([...stroke(one.band[0]), ...stroke(one.band[1]).reverse()], true);
    inside.push(path(rim, "of-paper"), path(rim, "faint"));
    const end = t.length - 1;
    const [behind, ahead] = [yAt(l, one.band[0](p, end)), yAt(l, one.band[1](p, end))];
    if (behind - ahead > 26)
      shapes.push(
        text([frame.x1 - 4, ahead + 11], "ahead", "quiet", { anchor: "end" }),
        text([frame.x1 - 4, behind - 4], "behind, carried", "quiet halo", { anchor: "end" }),
      );
  }
  if (l.low < 0 && l.high > 0) inside.push(line([frame.x0, yAt(l, 0)], [frame.x1, yAt(l, 0)], "hair"));
  const said: { readonly y: number; readonly from: number }[] = [];
  for (const limit of one.limits) {
    const passed = limit.binds && one.lines.some((s) => t.some((_, i) => s.of(p, i) > limit.at));
    if (limit.at > l.high) {
      shapes.push(text([frame.x1 - 4, y0 + 10], `${limit.words} ↑`, "quiet halo", { anchor: "end" }));
      said.push({ y: y0 + 10, from: frame.x1 - 4 - textWidth(limit.words, 10.5) - 12 });
      continue;
    }
    const y = yAt(l, limit.at);
    const cls = passed ? "fail-line" : limit.binds ? "thin" : "axis";
    inside.push(line([frame.x0, y], [frame.x1, y], cls, { data: { limit: limit.words } }));
    if (limit.binds)
      inside.push(
        box([frame.x0, Math.max(y0, y - 5)], frame.x1 - frame.x0, Math.min(5, y - y0), "", {
          fill: passed ? "fails" : "outside",
        }),
      );
    // Words of two limits near each other stand side by side.
    const foot = y - y0 < 12 ? y + 11 : y - 3.5;
    const right = Math.min(frame.x1 - 4, ...said.filter((s) => Math.abs(s.y - foot) < 12).map((s) => s.from - 14));
    said.push({ y: foot, from: right - textWidth(limit.words, 10.5, passed) });
    shapes.push(text([right, foot], limit.words, passed ? "is-fail halo" : "halo", { anchor: "end" }));
  }
  for (const s of one.lines)
    inside.push(path(strokes(stroke(s.of)), s.cls, { data: { lane: `${one.name} ${s.name}` } }));
  // Lines are in the clip, words over them.
  const words = shapes.splice(1);
  shapes.push(group(inside, { clip }), ...words);
  shapes.push(line([frame.x0, y0], [frame.x0, y1], "thin"));
  const title = one.shownIn === "" ? one.name : `${one.name}, ${one.shownIn}`;
  shapes.push(text([frame.x0 + 5, y0 + 10.5], title, "strong halo"));
  const [low, high] = [l.low / factor, l.high / factor];
  for (const tick of ticks(low, high, Math.max(2, (y1 - y0) / 24))) {
    const y = yAt(l, tick * factor);
    if (y > y1 - 1 && tick !== 0) continue;
    shapes.push(
      line([frame.x0 - 3, y], [frame.x0, y], "faint"),
      text([frame.x0 - 6, y + 3.6], figure(tick), "", { anchor: "end" }),
    );
  }
  legendPlaces(l).forEach((y, k) => {
    const s = one.lines[k]!;
    shapes.push(line([frame.x1 + 8, y - 3.6], [frame.x1 + 24, y - 3.6], s.cls), text([frame.x1 + 29, y], s.name, ""));
  });
  return shapes;
}
/** Where the names of a lane's lines stand, from its top. */
function legendPlaces({ lane: { lines }, y0, y1 }: Laid): number[] {
  const step = Math.min(14, (y1 - y0) / lines.length);
  const first = y0 + (y1 - y0 - step * lines.length) / 2 + step * 0.5 + 3.6;
  return lines.map((_, k) => first + k * step);
}

/** Events as numbered flags, fanned out where many fall together; a leader goes to the moment itself. */
function flagShapes(p: IndexPicture, frame: LaneFrame): { readonly leader: Shape; readonly flag: Shape }[] {
  const shown = p.events
    .map((e, i) => ({ i, x: xAt(frame, e.t) }))
    .filter(({ x }) => x >= frame.x0 - 0.5 && x <= frame.x1 + 0.5);
  const places = fanned(
    shown.map(({ x }) => x),
    18,
    frame.x0 - 8,
    frame.x1 + 8,
  );
  return shown.map(({ i, x }, k) => {
    const to = places[k]!;
    return {
      leader: path(
        [
          ["M", to, 20],
          ["L", x, frame.y0 - 1],
          ["L", x, frame.y1],
        ],
        "hair",
      ),
      flag: group([circle([to, 11], 8, "balloon"), text([to, 15], `${i + 1}`, "strong", { anchor: "middle" })], {
        class: "flag",
        data: { event: `${i}` },
      }),
    };
  });
}
/** Places at least so far apart, in order, near where they belong and within bounds. */
export function fanned(wanted: readonly number[], step: number, low: number, high: number): number[] {
  const out: number[] = [];
  for (const x of wanted) out.push(Math.max(x, (out.at(-1) ?? low - step) + step, low));
  let last = high + step;
  for (let i = out.length - 1; i >= 0; i--) {
    out[i] = Math.min(out[i]!, last - step);
    last = out[i]!;
  }
  return out;
}

/** The moment on the lanes: a line through all of them, its time, and what every line is then. Lies over `indexLanes` of the same size. */
export function indexCursor(p: IndexPicture, t: number, size: LaneSize): Drawing {
  const { width, height } = size;
  const frame = laneFrame(p, size);
  const x = xAt(frame, t);
  const shapes: Shape[] = [];
  const last = eventAt(p, t);
  const words = sayTime(t);
  const wide = textWidth(words, 12, true);
  const shown = x >= frame.x0 - 0.5 && x <= frame.x1 + 0.5;
  if (shown)
    shapes.push(
      line([x, frame.y0 - 4], [x, frame.y1], "hand-line"),
      box([Math.min(frame.x1 - wide, Math.max(frame.x0, x - wide / 2)) - 4, frame.y1 + 3], wide + 8, 16, "of-paper"),
      text([Math.min(frame.x1 - wide / 2, Math.max(frame.x0 + wide / 2, x)), frame.y1 + 15], words, "t1 is-hand halo", {
        anchor: "middle",
      }),
    );
  for (const one of laid(p, frame)) {
    const { factor } = unitOf(one.lane.shownIn);
    legendPlaces(one).forEach((y, k) => {
      const v = one.lane.lines[k]!.now(p, t);
      if (shown && v >= one.low && v <= one.high) shapes.push(circle([x, yAt(one, v)], 2.4, "of-hand"));
      shapes.push(text([width - 8, y], reading(v / factor, one), "strong", { anchor: "end" }));
    });
  }
  return {
    title: "The moment shown",
    desc: `At ${showIn("ms", t, 3)}${last < 0 ? "" : `, after event ${last + 1}`}.`,
    width,
    height,
    shapes,
  };
}
/** A time of an index as its slider shows it, to a tenth of a millisecond. */
export const sayTime = (t: number): string => `${(t * 1e3).toFixed(1)} ms`;
/** As many decimals as the lane's size is worth: figures under the cursor keep their place. */
function reading(v: number, { low, high, lane: { shownIn } }: Laid): string {
  const size = (high - low) / unitOf(shownIn).factor;
  const decimals = Math.max(0, Math.min(3, 2 - Math.floor(Math.log10(size))));
  return (Math.abs(v) < 0.5 * 10 ** -decimals ? 0 : v).toFixed(decimals).replace("-", "−");
}

/** The index told: events in order, how it ends, what did not converge. */
export function indexWords(p: IndexPicture): string {
  const out = [
    `One index of ${p.unit} on ${p.tape}, ${showIn("ms", endOf(p))} from the first command to rest, motors cold.`,
    ...(p.withoutFilm === undefined ? [] : [`Its film is left out: ${p.withoutFilm}.`]),
    `${capital(list(p.events.map((e) => `at ${showIn("ms", e.t)} ${e.says}`)))}.`,
    ...p.said,
  ];
  return aloud(out.join(" "));
}
/** How far the tape stands within its play, 0 behind, 1 ahead; undefined where there is none. */
export function seatAt(p: IndexPicture, t: number): number | undefined {
  const [lo, hi] = [between(p, p.lo, t), between(p, p.hi, t)];
  const x = at(p, "tape", t) - at(p, "wheel", t) * p.radius;
  return hi - lo > 1e-9 ? Math.min(1, Math.max(0, (x - lo) / (hi - lo))) : undefined;
}

const figure = (v: number): string => `${Number(v.toPrecision(6))}`.replace("-", "−");
