import { figures, unitOf } from "@tapeworthy/core";
import { best, type Rect, Room } from "./room.ts";
import { aloud, capital, counted } from "./say.ts";
import { box, type Drawing, group, line, type Point, path, type Segment, type Shape, strokes, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";
import type { Thinned } from "./thinned.ts";
import { ticks } from "./ticks.ts";

/** How a number of a log is shown: a unit of ours, or words with what one of them is in SI and where its nought lies. */
export type ShownAs = string | { readonly words: string; readonly factor: number; readonly zero?: number };
export interface LogLane {
  readonly name: string;
  readonly shownIn: ShownAs;
  /** Whose trace it is: of the film, of its edge, of anything else. */
  readonly style?: "film" | "seal";
  /** SI, as `thinned` leaves it. */
  readonly trace: Thinned;
  /** Of what lies inside the plateau, SI. */
  readonly mean?: number;
  readonly sd?: number;
  readonly limits?: readonly { readonly at: number; readonly words: string }[];
  /** Kept and marked, never taken out. */
  readonly outliers?: readonly {
    readonly along: number;
    readonly value: number;
    readonly row?: number;
    readonly words?: string;
  }[];
  readonly statistics?: readonly { readonly term: string; readonly words: string; readonly strong?: boolean }[];
}
export interface LogTraceInput {
  readonly title: string;
  readonly along: { readonly name: string; readonly shownIn: ShownAs };
  /** The stretch shown, SI. */
  readonly from: number;
  readonly to: number;
  readonly plateau?: readonly [from: number, to: number];
  /** Pitches that come again in the trace of the first lane, m, each from its first peak; shown along the travel. */
  readonly pitches?: readonly {
    readonly name: string;
    readonly pitch: number;
    readonly first?: number;
    /** Share of the ripple that comes again with it. */
    readonly share?: number;
  }[];
  readonly lanes: readonly LogLane[];
}
export interface LogSize {
  readonly width: number;
  readonly height: number;
}
/** Where the trace lies on paper, px. */
export interface LogFrame {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly from: number;
  readonly to: number;
}

const flagRow = 38;
const gap = 26;
const axisRow = 20;
const wideFrom = 620;
const combRow = 13;
const statisticRow = 15;
/** Statistics stand beside the lanes, or under them where there is no room. */
const under = (lane: LogLane, width: number): number =>
  width >= wideFrom ? 0 : Math.ceil((lane.statistics?.length ?? 0) / 2) * statisticRow + 4;

export function logFrame(input: LogTraceInput, { width, height }: LogSize): LogFrame {
  const wide = width >= wideFrom;
  const side = wide && input.lanes.some((l) => (l.statistics?.length ?? 0) > 0);
  return {
    x0: wide ? 56 : 46,
    x1: width - (side ? 206 : 18),
    y0: flagRow,
    y1: height - axisRow - 4 - combRow * combs(input).length,
    from: input.from,
    to: input.to,
  };
}
const combs = (input: LogTraceInput): NonNullable<LogTraceInput["pitches"]> =>
  (input.pitches ?? []).filter((p) => p.pitch > 0 && input.to > input.from);
export const xAlong = ({ x0, x1, from, to }: LogFrame, v: number): number =>
  x0 + Math.max(0, Math.min(1, (v - from) / (to - from || 1))) * (x1 - x0);
/** What lies under a place on paper, within the stretch shown. */
export const alongAt = ({ x0, x1, from, to }: LogFrame, x: number): number =>
  from + Math.max(0, Math.min(1, (x - x0) / (x1 - x0 || 1))) * (to - from);

interface Scale {
  readonly words: string;
  readonly of: (si: number) => number;
}
function scaleOf(shown: ShownAs): Scale {
  if (typeof shown !== "string") {
    const { words, factor, zero = 0 } = shown;
    return { words, of: (v) => v / factor - zero };
  }
  const { factor } = unitOf(shown);
  return { words: shown.replace(/^1\//, "/"), of: (v) => v / factor };
}
const withUnit = ({ words }: Scale, number: string): string => (words === "" ? number : `${number} ${words}`);
const plain = (v: number): string => `${Number(v.toPrecision(6))}`.replace("-", "−");

interface Laid {
  readonly lane: LogLane;
  readonly scale: Scale;
  readonly y0: number;
  readonly y1: number;
  readonly low: number;
  readonly high: number;
}
function laid(input: LogTraceInput, frame: LogFrame, width: number): Laid[] {
  const below = input.lanes.map((l) => under(l, width));
  const room = frame.y1 - frame.y0 - gap * (input.lanes.length - 1) - below.reduce((a, b) => a + b, 0);
  const tall = Math.max(24, room / (input.lanes.length || 1));
  let y = frame.y0;
  return input.lanes.map((lane, i) => {
    const y0 = y;
    y += tall + below[i]! + gap;
    return { lane, scale: scaleOf(lane.shownIn), y0, y1: y0 + tall, ...rangeOf(lane, frame) };
  });
}
/** What a lane must hold: its trace over the stretch shown, its mean, and limits that are near. */
function rangeOf(
  { trace, limits, mean, sd, outliers }: LogLane,
  { from, to }: LogFrame,
): { low: number; high: number } {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = (v: number): void => {
    if (!Number.isFinite(v)) return;
    low = Math.min(low, v);
    high = Math.max(high, v);
  };
  for (let i = 0; i < trace.y.length; i++) if (trace.x[i]! >= from && trace.x[i]! <= to) take(trace.y[i]!);
  if (mean !== undefined) for (const s of [-1, 1]) take(mean + s * (sd ?? 0));
  for (const o of outliers ?? []) if (o.along >= from && o.along <= to) take(o.value);
  if (!(high >= low)) return { low: 0, high: 1 };
  // Nought belongs to it where it is near.
  const size = high - low || Math.abs(high) || 1;
  if (low > 0 && low < 0.7 * size) low = 0;
  if (high < 0 && -high < 0.7 * size) high = 0;
  for (const { at } of limits ?? []) if (at > low - 0.8 * size && at < high + 0.8 * size) take(at);
  const pad = (high - low) * 0.08 || size * 0.1;
  return { low: low === 0 ? low : low - pad, high: high === 0 ? high : high + pad };
}
const yAt = ({ y0, y1, low, high }: Laid, v: number): number =>
  Math.max(y0, Math.min(y1, y1 - ((v - low) / (high - low)) * (y1 - y0)));

/**
 * A log over travel or time, one lane a quantity: the trace, in the plateau its mean and one sd to either side, limits as dashed lines, outliers
 * as open triangles, pitches as combs under the lanes and as faint lines behind the first of them, at the peaks that come again with a pitch. The flags of the plateau are a drawing of their own that lies over it, `plateauFlags`.
 */
export function logTrace(input: LogTraceInput, size: LogSize): Drawing {
  const { width, height } = size;
  const frame = logFrame(input, size);
  const { x0, x1 } = frame;
  const along = scaleOf(input.along.shownIn);
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  const lanes = laid(input, frame, width);
  const axisAt = lanes.at(-1)?.y1 ?? frame.y0;
  const combsAt = axisAt + axisRow + 2;
  const foot = combsAt + combs(input).length * combRow;
  lanes.forEach((one, i) => {
    shapes.push(...laneShapes(input, frame, one, i === 0));
    shapes.push(...statisticShapes(one, frame, width, i === lanes.length - 1 ? foot : one.y1));
  });
  combs(input).forEach((p, i) => {
    shapes.push(combShape(input, frame, p, combsAt + i * combRow, width));
  });
  let free = Number.NEGATIVE_INFINITY;
  const name = `${along.words}${along.words === "" ? "" : " of "}${input.along.name}`;
  const named = textWidth(name, 10.5);
  const outside = x1 + 14 + named < width;
  for (const v of ticks(along.of(frame.from), along.of(frame.to))) {
    const share = (v - along.of(frame.from)) / (along.of(frame.to) - along.of(frame.from));
    const x = x0 + share * (x1 - x0);
    const words = plain(v);
    const half = textWidth(words, 10.5) / 2;
    shapes.push(...lanes.map((l) => line([x, l.y1], [x, l.y1 + 4], "faint")));
    if (x - half < free + 8 || (!outside && x + half > x1 - named - 8)) continue;
    shapes.push(text([x, axisAt + 16], words, "", { anchor: "middle" }));
    free = x + half;
  }
  shapes.push(
    outside
      ? text([x1 + 14, axisAt + 16], name, "quiet")
      : text([x1, axisAt + 16], name, "quiet halo", { anchor: "end" }),
  );
  return {
    title: input.title,
    desc: logWords(input),
    width,
    height: Math.max(height, foot + (lanes.at(-1) ? under(lanes.at(-1)!.lane, width) : 0) + 2),
    shapes,
  };
}

function laneShapes(input: LogTraceInput, frame: LogFrame, l: Laid, first: boolean): Shape[] {
  const { lane, scale, y0, y1 } = l;
  const { x0, x1 } = frame;
  const style = lane.style === undefined ? "" : ` ${lane.style}`;
  const [a, b] = input.plateau ? [xAlong(frame, input.plateau[0]), xAlong(frame, input.plateau[1])] : [x0, x1];
  const inside: Shape[] = [];
  if (input.plateau) inside.push(box([a, y0], b - a, y1 - y0, "of-well", { data: { plateau: lane.name } }));
  if (first) inside.push(...pitchMarks(input, frame, l));
  if (l.low < 0 && l.high > 0) inside.push(line([x0, yAt(l, 0)], [x1, yAt(l, 0)], "hair"));
  if (lane.mean !== undefined && lane.sd !== undefined && lane.sd > 0) {
    const [top, foot] = [yAt(l, lane.mean + lane.sd), yAt(l, lane.mean - lane.sd)];
    inside.push(box([a, top], b - a, foot - top, `spread${style}`, { data: { spread: lane.name } }));
  }
  const d = traceOn(l, frame);
  inside.push(path(d, `trace${style}`, { data: { trace: lane.name } }));
  if (lane.mean !== undefined)
    inside.push(line([a, yAt(l, lane.mean)], [b, yAt(l, lane.mean)], "outline", { data: { mean: lane.name } }));
  // Words keep off the trace.
  const room = new Room({ x: x0, y: y0 - 2, width: x1 - x0, height: y1 - y0 + 4 });
  room.points(onPaperOf(d), 3);
  if (input.plateau) for (const x of [a, b]) room.fill({ x: x - 2, y: y0, width: 4, height: y1 - y0 }, 4);
  const over: Shape[] = [];
  const title = scale.words === "" ? lane.name : `${lane.name}, ${scale.words}`;
  for (const o of lane.outliers ?? []) {
    if (o.along < frame.from || o.along > frame.to) continue;
    const tip: Point = [xAlong(frame, o.along), Math.max(y0 + 10, yAt(l, o.value) - 3)];
    const wide = 5;
    over.push(
      path(
        strokes(
          [
            [tip[0], tip[1]],
            [tip[0] + wide, tip[1] - 9],
            [tip[0] - wide, tip[1] - 9],
          ],
          true,
        ),
        "tight-line",
        { data: { outlier: `${o.row ?? o.along}` } },
      ),
    );
    room.fill({ x: tip[0] - wide, y: tip[1] - 9, width: 2 * wide, height: 10 });
  }
  // One word for many triangles that crowd; each its own where they stand apart.
  for (const { words, at } of outlierWords(input, frame, l)) {
    const w = textWidth(words, 10.5, true);
    const spots = [at[0] + 9, at[0] - 9 - w].flatMap((x) => [-1, -13, 9].map((dy): Point => [x, at[1] + dy]));
    const spot = best(spots, (p) => room.cost(lineBox(p, w)));
    over.push(text(spot, words, "is-tight halo"));
    room.fill(lineBox(spot, w));
  }
  for (const limit of lane.limits ?? []) {
    const w = textWidth(limit.words, 10.5);
    if (limit.at > l.high || limit.at < l.low) {
      const up = limit.at > l.high;
      if (limit.words === "") continue;
      const words = `${limit.words} ${up ? "↑" : "↓"}`;
      const wide = textWidth(words, 10.5);
      const spots = placesAlong(a + 6, b - 6 - wide, x0 + 4, x1 - 4 - wide).flatMap((x): Point[] =>
        [0, 12].map((dy): Point => [x, up ? y0 + 11 + dy : y1 - 4 - dy]),
      );
      const spot = best(spots, (p) => room.cost(lineBox(p, wide)));
      over.push(text(spot, words, "halo", { data: { beyond: limit.words } }));
      room.fill(lineBox(spot, wide));
      continue;
    }
    const y = yAt(l, limit.at);
    inside.push(line([x0, y], [x1, y], "limit-line", { data: { limit: limit.words } }));
    if (limit.words === "") continue;
    const spots = placesAlong(a + 6, b - 6 - w, x0 + 4, x1 - 4 - w).flatMap((x): Point[] =>
      [y - 4, y + 12].map((v): Point => [x, v]),
    );
    const spot = best(spots, (p) => room.cost(lineBox(p, w)));
    over.push(text(spot, limit.words, "dark halo"));
    room.fill(lineBox(spot, w));
  }
  const clip = { box: [x0, y0] as Point, width: x1 - x0, height: y1 - y0 };
  const shapes: Shape[] = [
    group(inside, { clip }),
    ...over,
    line([x0, y0], [x0, y1], "thin"),
    line([x0, y1], [x1, y1], "thin"),
    text([6, y0 - 7], title, "strong halo"),
  ];
  let free = Number.POSITIVE_INFINITY;
  for (const tick of ticks(scale.of(l.low), scale.of(l.high))) {
    const share = (tick - scale.of(l.low)) / (scale.of(l.high) - scale.of(l.low));
    const y = y1 - share * (y1 - y0);
    if (y > free - 18) continue;
    shapes.push(line([x0 - 3, y], [x0, y], "faint"), text([x0 - 6, y + 3.6], plain(tick), "", { anchor: "end" }));
    free = y;
  }
  return shapes;
}
/** Where words may begin: at the plateau's end first, then leftwards along it, then beyond it. */
const placesAlong = (from: number, to: number, low: number, high: number): number[] =>
  [1, 0, 0.5, 0.75, 0.25, 0.875, 0.625, 0.375, 0.125]
    .map((f) => from + (to - from) * f)
    .concat(high, low)
    .map((x) => Math.max(low, Math.min(high, x)));
const lineBox = ([x, y]: Point, w: number): Rect => ({ x: x - 1, y: y - 9, width: w + 2, height: 12 });
function onPaperOf(d: readonly Segment[]): Point[] {
  const out: Point[] = [];
  let last: Point | undefined;
  for (const seg of d) {
    if (seg[0] === "Z") continue;
    const end: Point = [seg[1] as number, seg[2] as number];
    if (last && seg[0] === "L") {
      const n = Math.max(1, Math.ceil(Math.hypot(end[0] - last[0], end[1] - last[1]) / 4));
      for (let k = 1; k < n; k++)
        out.push([last[0] + ((end[0] - last[0]) * k) / n, last[1] + ((end[1] - last[1]) * k) / n]);
    }
    out.push(end);
    last = end;
  }
  return out;
}
function traceOn(l: Laid, frame: LogFrame): Segment[] {
  const d: Segment[] = [];
  const { x, y } = l.lane.trace;
  const px = (v: number): number =>
    frame.x0 + ((v - frame.from) / (frame.to - frame.from || 1)) * (frame.x1 - frame.x0);
  let pen: "M" | "L" = "M";
  for (let i = 0; i < x.length; i++) {
    if (Number.isNaN(y[i]!)) {
      pen = "M";
      continue;
    }
    d.push([pen, Math.max(frame.x0 - 4, Math.min(frame.x1 + 4, px(x[i]!))), yAt(l, y[i]!)]);
    pen = "L";
  }
  return d;
}
/** Where each outlier is named: by its row and place; of many that crowd the first, and how many. */
function outlierWords(input: LogTraceInput, frame: LogFrame, l: Laid): { words: string; at: Point }[] {
  const along = scaleOf(input.along.shownIn);
  const shown = (l.lane.outliers ?? [])
    .filter((o) => o.along >= frame.from && o.along <= frame.to)
    .sort((p, q) => p.along - q.along);
  const groups: (typeof shown)[] = [];
  for (const o of shown) {
    const last = groups.at(-1)?.at(-1);
    if (last && xAlong(frame, o.along) - xAlong(frame, last.along) < 70) groups.at(-1)!.push(o);
    else groups.push([o]);
  }
  return groups.map((g) => {
    const top = g.reduce((p, q) => (q.value > p.value ? q : p));
    const where = `${withUnit(along, plain(Number(along.of(top.along).toPrecision(4))))}${top.row === undefined ? "" : `, row ${top.row}`}`;
    const words =
      g.length > 1
        ? `${g.length} outliers, kept`
        : `${top.words === undefined ? where : `${top.words}, ${where}`}, kept`;
    return { words, at: [xAlong(frame, top.along), Math.max(l.y0 + 10, yAt(l, top.value) - 3)] };
  });
}
function statisticShapes({ lane, y0, y1 }: Laid, { x0, x1 }: LogFrame, width: number, below: number): Shape[] {
  const rows = lane.statistics ?? [];
  const wide = width >= wideFrom;
  const most = wide ? Math.max(1, Math.floor((y1 - y0 + 6) / statisticRow)) : rows.length;
  const [left, right] = wide ? [x1 + 14, width - 12] : [x0, x1];
  const half = (right - left) / 2;
  return rows.slice(0, most).flatMap(({ term, words, strong }, i): Shape[] => {
    const column = wide ? 0 : i % 2;
    const y = wide ? y0 + 10 + i * statisticRow : below + 14 + Math.floor(i / 2) * statisticRow;
    const from = left + column * half;
    const to = wide ? right : from + half - (column === 0 ? 10 : 0);
    const cls = strong ? "t1 strong" : "t1 dark";
    const w = textWidth(words, 12, strong);
    return [
      text([from, y], cutTo(term, 10.5, Math.max(20, to - from - w - 8)), "quiet"),
      text([to, y], cutTo(words, 12, to - from, strong), cls, { anchor: "end" }),
    ];
  });
}
type Pitch = NonNullable<LogTraceInput["pitches"]>[number];
const toothAt = ({ plateau }: LogTraceInput, frame: LogFrame, { first }: Pitch): number =>
  first ?? plateau?.[0] ?? frame.from;
const pitchOnPaper = ({ pitch }: Pitch, frame: LogFrame): number =>
  (pitch / (frame.to - frame.from)) * (frame.x1 - frame.x0);
/** Faint lines behind the trace where its peaks are expected; none where they would be a hatch, none where another pitch has one already. */
function pitchMarks(input: LogTraceInput, frame: LogFrame, { y0, y1 }: Laid): Shape[] {
  const to = input.plateau?.[1] ?? frame.to;
  const drawn: number[] = [];
  return combs(input)
    .filter((p) => p.first !== undefined && pitchOnPaper(p, frame) >= 9)
    .sort((p, q) => q.pitch - p.pitch)
    .map((p) => {
      const d: Segment[] = [];
      for (let v = toothAt(input, frame, p); v <= to + 1e-12; v += p.pitch) {
        const x = xAlong(frame, v);
        if (drawn.some((other) => Math.abs(other - x) < 3)) continue;
        drawn.push(x);
        d.push(["M", x, y0], ["L", x, y1]);
      }
      return path(d, "hair", { data: { peaks: p.name } });
    });
}
/** Teeth a pitch apart from its first peak, else from where the plateau begins; a tenth as many where they would run together. */
function combShape(input: LogTraceInput, frame: LogFrame, p: Pitch, y: number, width: number): Shape {
  const { name, pitch, share } = p;
  const along = scaleOf(input.along.shownIn);
  const to = input.plateau?.[1] ?? frame.to;
  const from = toothAt(input, frame, p);
  const every = [1, 2, 5, 10, 20, 50, 100].find((k) => k * pitchOnPaper(p, frame) >= 4) ?? 1000;
  const d: Segment[] = [];
  for (let v = from; v <= to + 1e-12; v += pitch * every) {
    const x = xAlong(frame, v);
    d.push(["M", x, y], ["L", x, y + 6]);
  }
  d.push(["M", xAlong(frame, from), y], ["L", xAlong(frame, to), y]);
  const named = `${name} ${withUnit(along, plain(Number(along.of(pitch).toPrecision(3))))}`;
  const isNamed = textWidth(named, 10.5) <= frame.x0 - 8;
  const says = [
    ...(isNamed ? [] : [named]),
    ...(every > 1 ? [`every ${every}th`] : []),
    ...(share === undefined ? [] : [`${percentOf(share)} of the ripple`]),
  ].join(", ");
  const room = width - 6 - (frame.x1 + 14);
  return group(
    [
      path(d, "thin", { data: { comb: name } }),
      text([frame.x0 - 6, y + 8], isNamed ? named : name, "quiet", { anchor: "end" }),
      ...(says !== "" && textWidth(says, 10.5) <= room ? [text([frame.x1 + 14, y + 8], says, "quiet")] : []),
    ],
    { class: "comb" },
  );
}

const percentOf = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

/** One end of the plateau as a thing that a hand, a key or a typed number moves. Numbers SI. */
export interface PlateauSlider {
  readonly which: "from" | "to";
  readonly name: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** A key's step, and a larger one. */
  readonly step: number;
  readonly large: number;
  readonly words: string;
  readonly at: Point;
  /** No smaller than a finger's 24 px. */
  readonly target: Rect;
}
export function plateauSliders(input: LogTraceInput, size: LogSize): readonly PlateauSlider[] {
  if (!input.plateau) return [];
  const frame = logFrame(input, size);
  const along = scaleOf(input.along.shownIn);
  const one = Math.abs(along.of(1) - along.of(0));
  const rough = ((frame.to - frame.from) * one) / 200;
  const ten = 10 ** Math.floor(Math.log10(rough || 1));
  const step = ([1, 2, 5, 10].find((m) => m * ten >= rough * (1 - 1e-9)) ?? 10) * ten * (1 / one);
  const [from, to] = input.plateau;
  const words = (v: number): string => withUnit(along, plain(Number(along.of(v).toPrecision(4))));
  const round = (v: number): number => Number(v.toPrecision(12));
  return (["from", "to"] as const).map((which): PlateauSlider => {
    const value = which === "from" ? from : to;
    const x = xAlong(frame, value);
    // Between neighbours half the way each: targets don't lie over one another.
    const middle = (xAlong(frame, from) + xAlong(frame, to)) / 2;
    const left = which === "from" ? x - 14 : Math.max(x - 14, middle);
    const right = which === "from" ? Math.min(x + 14, Math.max(middle, x - 14 + 24)) : x + 14;
    return {
      which,
      name: which === "from" ? "the plateau begins" : "the plateau ends",
      value,
      low: which === "from" ? frame.from : round(Math.min(frame.to, from + step)),
      high: which === "from" ? round(Math.max(frame.from, to - step)) : frame.to,
      step,
      large: 10 * step,
      words: words(value),
      at: [x, 12],
      target: { x: left, y: 0, width: Math.max(24, right - left), height: 26 },
    };
  });
}
/** The two flags of the plateau. Lies over `logTrace` of the same size, and is all that changes while a hand moves one. */
export function plateauFlags(input: LogTraceInput, size: LogSize): Drawing {
  const { width, height } = size;
  const frame = logFrame(input, size);
  const lanes = laid(input, frame, width);
  const foot = lanes.at(-1)?.y1 ?? frame.y1;
  const sliders = plateauSliders(input, size);
  const shapes: Shape[] = sliders.map(({ which, at: [x] }) =>
    group(
      [
        line([x, 17], [x, foot + 2], "hand-line thinner"),
        path(
          strokes(
            [
              [x - 6, 4],
              [x + 6, 4],
              [x + 6, 12],
              [x, 18],
              [x - 6, 12],
            ],
            true,
          ),
          "hand-line thinner of-handbg",
        ),
      ],
      { class: "flag", data: { flag: which } },
    ),
  );
  const [from, to] = sliders;
  if (from && to) {
    const words = `plateau ${from.words.replace(/ .*$/, "")} to ${to.words}`;
    const w = textWidth(words, 10.5, true);
    const between = to.at[0] - from.at[0] - 24;
    // Where it has no room between the flags it stands beside them.
    const x =
      w <= between
        ? (from.at[0] + to.at[0]) / 2
        : from.at[0] - 12 - w > frame.x0
          ? from.at[0] - 12 - w / 2
          : Math.min(width - 4 - w / 2, to.at[0] + 12 + w / 2);
    shapes.push(text([x, 15], words, "is-hand halo", { anchor: "middle" }));
  }
  return {
    title: "Plateau",
    desc: sliders.map((s) => `${capital(s.name)} at ${s.words}.`).join(" "),
    width,
    height,
    shapes,
  };
}

/** The log told: what it runs over, its plateau, and of every lane its statistics, limits and outliers. */
export function logWords(input: LogTraceInput): string {
  const along = scaleOf(input.along.shownIn);
  const at = (v: number): string => withUnit(along, plain(Number(along.of(v).toPrecision(4))));
  const out = [
    `${capital(input.lanes.map((l) => l.name).join(" and "))} over ${at(input.to - input.from)} of ${input.along.name}.`,
  ];
  if (input.plateau) out.push(`Plateau from ${at(input.plateau[0])} to ${at(input.plateau[1])}.`);
  for (const { name, pitch, first, share } of combs(input)) {
    const peak = first === undefined ? "" : `, its first peak at ${at(first)}`;
    out.push(
      share === undefined
        ? `${name} of ${at(pitch)} is marked${peak}.`
        : `${percentOf(share)} of the ripple comes again with every ${name} of ${at(pitch)}${peak}.`,
    );
  }
  for (const lane of input.lanes) {
    const scale = scaleOf(lane.shownIn);
    const rows = (lane.statistics ?? []).map((s) => `${s.term} ${s.words}`);
    if (rows.length > 0) out.push(`${capital(lane.name)}: ${rows.join(", ")}.`);
    for (const limit of lane.limits ?? []) if (limit.words !== "") out.push(`Limit: ${limit.words}.`);
    const odd = lane.outliers ?? [];
    if (odd.length > 0)
      out.push(
        `${counted(odd.length, "outlier")}, kept: ${odd
          .slice(0, 5)
          .map((o) => `${withUnit(scale, figures(scale.of(o.value), 3))} at ${at(o.along)}`)
          .join(", ")}${odd.length > 5 ? ` and ${odd.length - 5} more` : ""}.`,
      );
  }
  return aloud(out.join(" "));
}
