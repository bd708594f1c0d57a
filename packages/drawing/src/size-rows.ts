import { figures, unitOf } from "@tapeworthy/core";
import { aloud, capital, counted, shortName } from "./say.ts";
import {
  box,
  circle,
  type Drawing,
  group,
  type Handle,
  line,
  type Point,
  path,
  type Shape,
  strokes,
  text,
} from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";

/** What ends a window on one side: the tape and the check that stops there. */
export interface SizeEnd {
  readonly tape: string;
  readonly check: string;
}
/** One free dimension. Numbers in SI; they are shown in `shownIn`. */
export interface SizeRow {
  readonly address: string;
  /** Numbers that move with it; itself alone where they are left out. */
  readonly members?: readonly string[];
  readonly name: string;
  readonly note?: string;
  readonly station?: number;
  readonly shownIn: string;
  readonly least: number;
  readonly most: number;
  /** As the file has it, and where it stands now. */
  readonly was: number;
  readonly now: number;
  /** Least gap over all wanted tapes as this one moves and the others stay; it holds from 0 up. In ascending order of `at`. */
  readonly curve: readonly { readonly at: number; readonly gap: number }[];
  /** The run about which every wanted tape feeds; null where no value feeds all. */
  readonly window: { readonly from: number; readonly to: number } | null;
  readonly ends?: { readonly from?: SizeEnd; readonly to?: SizeEnd };
}
export interface SizeRowsInput {
  readonly unit: string;
  /** What a gap is counted in: "sd" for its own standard deviations. */
  readonly gapIn: string;
  readonly rows: readonly SizeRow[];
}
export interface SizeRowsSize {
  readonly width: number;
  readonly height?: number;
}

interface Frame {
  readonly wide: boolean;
  /** Room beside the axis for the numbers of its ends. */
  readonly side: number;
  readonly x0: number;
  readonly x1: number;
  readonly top: number;
  readonly step: number;
  readonly height: number;
}
const wideFrom = 640;
/** Half a diamond, and where the number of a bound begins beside one that stands there: its target of 24 px may have a ring about it. */
const halfDiamond = 7;
const besideDiamond = 12 + 4;
function frameOf({ rows }: SizeRowsInput, { width, height = 0 }: SizeRowsSize): Frame {
  const wide = width >= wideFrom;
  const wanted = Math.max(
    26,
    ...rows.flatMap((r) => [r.least, r.most].map((v) => textWidth(figureIn(r, v), 10.5) + besideDiamond + 2)),
  );
  const [left, right] = wide ? [Math.min(220, width * 0.26), Math.min(170, width * 0.2)] : [0, 0];
  const top = wide ? 34 : 46;
  const least = wide ? 92 : 128;
  const step = Math.max(least, Math.min(least * 1.6, (height - top - 6) / (rows.length || 1)));
  const side = Math.min(wanted, width * 0.16);
  const x0 = left + side;
  return {
    wide,
    side,
    x0,
    x1: Math.max(x0 + 10, width - right - side),
    top,
    step,
    height: Math.max(height, top + step * Math.max(1, rows.length) + 6),
  };
}
const xOf = ({ x0, x1 }: Frame, { least, most }: SizeRow, v: number): number => {
  const share = most > least ? (v - least) / (most - least) : 0.5;
  return x0 + Math.max(0, Math.min(1, Number.isNaN(share) ? 0.5 : share)) * (x1 - x0);
};
/** Lines of a row, from its top down: name and result (narrow), what ends the window, the curve, its axis, the numbers under it. */
function rowAt({ wide, top, step }: Frame, i: number): { y: number; ends: number; y0: number; y1: number } {
  const y = top + i * step;
  const ends = y + (wide ? 13 : 44);
  return { y, ends, y0: ends + 5, y1: y + step - 34 };
}

/**
 * Free dimensions under each other: bounds as brackets, the curve of the least gap, the run where all feed, what ends it on either side, where
 * the number was and where it stands. The diamonds are what `sizeSliders` lets a hand take hold of.
 */
export function sizeRows(input: SizeRowsInput, size: SizeRowsSize): Drawing {
  const { rows } = input;
  const { width } = size;
  const frame = frameOf(input, size);
  const { wide, x0, x1 } = frame;
  const shapes: Shape[] = [
    box([0, 0], width, frame.height, "ground"),
    text([10, 17], "Widen all windows", "t1 strong"),
  ];
  const scale = scaleOf(rows);
  const about = `least gap of all wanted tapes, in ${input.gapIn}, ${figures(scale.bottom)} to ${figures(scale.top)}; shaded: all feed`;
  const from = wide ? 20 + textWidth("Widen all windows", 12, true) : 10;
  shapes.push(text([from, wide ? 17 : 31], cutTo(about, 10.5, width - 10 - from), "quiet"));
  if (rows.length === 0) shapes.push(text([10, frame.top + 14], "no dimension is free", "dark"));

  const handles = sizeSliders(input, size);
  rows.forEach((r, i) => {
    const { y, ends, y0, y1 } = rowAt(frame, i);
    const inner: Shape[] = [line([0, y - 4], [width, y - 4], "hair")];
    const X = (v: number): number => xOf(frame, r, v);
    const Y = (gap: number): number => near(y1 - ((gap - scale.bottom) / (scale.top - scale.bottom)) * (y1 - y0));
    inner.push(...namesOf(r, frame, y, width));

    // The run where all feed, under the curve, and what ends it, over it.
    if (r.window) {
      const [a, b] = [X(r.window.from), X(r.window.to)];
      inner.push(
        box([a, y0], Math.max(2, b - a), y1 - y0, "of-cavity", { data: { window: r.address } }),
        line([a, y0], [a, y1], "pass-line"),
        line([Math.max(a + 2, b), y0], [Math.max(a + 2, b), y1], "pass-line"),
      );
    }
    inner.push(...endWords(r, frame, ends, X));
    const zero = Y(0);
    const points = r.curve.filter((p) => Number.isFinite(p.at) && !Number.isNaN(p.gap));
    let holds: Shape | undefined;
    if (scale.bottom < 0 && scale.top > 0)
      inner.push(line([x0, zero], [x1, zero], "hidden-line", { data: { holds: r.address } }));
    if (i === 0 && zero - y0 > 14 && points.length > 0) holds = text([x0 + 8, zero - 4], "holds above", "quiet halo");
    inner.push(
      group([path(strokes(points.map((p): Point => [X(p.at), Y(p.gap)])), "outline", { data: { curve: r.address } })], {
        clip: { box: [x0, y0 - 1], width: x1 - x0, height: y1 - y0 + 2 },
      }),
    );
    if (holds) inner.push(holds);
    if (points.length === 0) inner.push(text([x0 + 10, (y0 + y1) / 2], "not computed yet", "quiet halo"));
    // Bounds.
    inner.push(
      line([x0, y1], [x1, y1], "thin"),
      path(
        [
          ...strokes([
            [x0 + 5, y0 - 2],
            [x0, y0 - 2],
            [x0, y1 + 4],
            [x0 + 5, y1 + 4],
          ]),
          ...strokes([
            [x1 - 5, y0 - 2],
            [x1, y0 - 2],
            [x1, y1 + 4],
            [x1 - 5, y1 + 4],
          ]),
        ],
        "heavy",
        { data: { bounds: r.address } },
      ),
      text([Math.min(x0 - 6, X(r.now) - besideDiamond), y1 + 4], figureIn(r, r.least), "", { anchor: "end" }),
      text([Math.max(x1 + 6, X(r.now) + besideDiamond), y1 + 4], figureIn(r, r.most), ""),
    );
    inner.push(...nowAndWas(r, frame, y0, y1, X, handles[i]?.handle));
    shapes.push(group(inner, { data: { size: r.address } }));
  });
  return { title: `Free dimensions of ${input.unit}`, desc: sizeWords(input), width, height: frame.height, shapes };
}

/** Name and result: at the sides where there is room, else over the curve. */
function namesOf(r: SizeRow, { wide, side, x0, x1 }: Frame, y: number, width: number): Shape[] {
  const out: Shape[] = [];
  const [result, under] = resultOf(r);
  const left = r.station === undefined ? 10 : 32;
  if (r.station !== undefined)
    out.push(circle([18, y + 11], 8, "balloon"), text([18, y + 14.6], `${r.station}`, "dark", { anchor: "middle" }));
  if (wide) {
    const room = x0 - side - left - 4;
    const from = x1 + side + 2;
    out.push(
      text([left, y + 15], cutTo(r.name, 12, room, true), "t1 strong"),
      ...(r.note === undefined ? [] : [text([left, y + 29], cutTo(r.note, 10.5, room), "quiet")]),
      text([from, y + 15], cutTo(result, 10.5, width - 8 - from, true), "strong"),
      text([from, y + 29], cutTo(under, 10.5, width - 8 - from), r.window ? "quiet" : "is-fail"),
    );
    return out;
  }
  const half = (width - 20 - (left - 10)) * 0.56;
  const rest = width - 10 - left - 10;
  const wideResult = Math.min(textWidth(result, 10.5, true) + 3, rest - half);
  const wideUnder = Math.min(textWidth(under, 10.5, true) + 3, rest - half * 0.6);
  out.push(
    text([left, y + 13], cutTo(r.name, 12, rest - wideResult, true), "t1 strong"),
    text([width - 10, y + 13], cutTo(result, 10.5, rest - half, true), "strong", { anchor: "end" }),
    ...(r.note === undefined ? [] : [text([left, y + 27], cutTo(r.note, 10.5, rest - wideUnder), "quiet")]),
    text([width - 10, y + 27], cutTo(under, 10.5, wideUnder, true), r.window ? "quiet" : "is-fail", { anchor: "end" }),
  );
  return out;
}
const isMoved = (r: SizeRow): boolean => figureIn(r, r.was) !== figureIn(r, r.now);
function resultOf(r: SizeRow): [string, string] {
  const unit = r.shownIn === "" ? "" : ` ${r.shownIn}`;
  return [
    isMoved(r) ? `from ${figureIn(r, r.was)} to ${figureIn(r, r.now)}${unit}` : `stays ${figureIn(r, r.now)}${unit}`,
    r.window ? `all feed ${figureIn(r, r.window.from)} to ${figureIn(r, r.window.to)}` : "no value feeds all",
  ];
}

/** What ends the window on either side, in one line over the curve: outside of its end where there is room, else inside; never over each other. */
function endWords(r: SizeRow, { x0, x1 }: Frame, y: number, X: (v: number) => number): Shape[] {
  if (!r.window) return [];
  const say = (end: SizeEnd | undefined): string | undefined => end && `${end.tape} ${stops(end)}`;
  const [left, right] = [say(r.ends?.from), say(r.ends?.to)];
  const [a, b] = [X(r.window.from), X(r.window.to)];
  const gap = 12;
  const full = x1 - x0;
  const wide = (words: string | undefined): number => (words === undefined ? 0 : textWidth(words, 10.5) + 2);
  let [wl, wr] = [wide(left), wide(right)];
  // Each may have what the other leaves of the row, but at least half.
  const half = (full - gap) / 2;
  if (wl + wr + gap > full)
    [wl, wr] = wl <= half ? [wl, full - gap - wl] : wr <= half ? [full - gap - wr, wr] : [half, half];
  const out: Shape[] = [];
  // Where it begins: ending at the window's end if that leaves both inside the row.
  let l = Math.max(x0, a - wl);
  let s = Math.min(x1 - wr, b);
  if (left !== undefined && right !== undefined && l + wl + gap > s) {
    const over = l + wl + gap - s;
    l = Math.max(x0, l - over);
    s = Math.min(x1 - wr, Math.max(s, l + wl + gap));
    l = Math.max(x0, Math.min(l, s - gap - wl));
  }
  if (left !== undefined) out.push(text([l, y], fitted(r.ends!.from!, wl), "dark", { data: { ends: "from" } }));
  if (right !== undefined) out.push(text([s, y], fitted(r.ends!.to!, wr), "dark", { data: { ends: "to" } }));
  return out;
}

const stops = ({ check }: SizeEnd): string => `${shortName(check)} stops`;
/** The name of a tape gives way before that of its check. */
function fitted(end: SizeEnd, room: number): string {
  const words = stops(end);
  const left = room - textWidth(` ${words}`, 10.5);
  return left < textWidth("8…", 10.5) ? cutTo(words, 10.5, room) : `${cutTo(end.tape, 10.5, left)} ${words}`;
}

/** The caret where it was, the diamond where it stands, their numbers under the axis, moved apart where they would meet. */
function nowAndWas(
  r: SizeRow,
  { x0, x1 }: Frame,
  y0: number,
  y1: number,
  X: (v: number) => number,
  handle: Handle | undefined,
): Shape[] {
  const out: Shape[] = [];
  const [n, w] = [X(r.now), X(r.was)];
  const moved = isMoved(r);
  const nowWords = figureIn(r, r.now);
  const outside = r.was < r.least || r.was > r.most;
  const wasWords = `was ${figureIn(r, r.was)}`;
  const halfNow = textWidth(nowWords, 12, true) / 2 + 2;
  const halfWas = textWidth(wasWords, 10.5) / 2 + 2;
  let [tn, tw] = [n, w];
  if (moved) {
    const apart = halfNow + halfWas + 6;
    if (Math.abs(tn - tw) < apart) {
      const way = n >= w ? 1 : -1;
      tw = tn - way * apart;
      // At the rim the other gives way.
      const inside = Math.max(x0 - 20 + halfWas, Math.min(x1 + 20 - halfWas, tw));
      tn += inside - tw;
      tw = inside;
    }
    // Where it was outside of the bounds the caret points that way.
    const [to, c] = [r.was < r.least ? -1 : 1, y1 + 7];
    const caret: Point[] = outside
      ? [
          [w + to, c],
          [w - to * 7, c - 5],
          [w - to * 7, c + 5],
        ]
      : [
          [w, y1 + 2],
          [w - 5, y1 + 10],
          [w + 5, y1 + 10],
        ];
    out.push(
      path(strokes(caret, true), "hand-line thinner of-paper", {
        data: { was: r.address, ...(outside ? { outside: "true" } : {}) },
      }),
      text([tw, y1 + 26], wasWords, "quiet halo", { anchor: "middle" }),
    );
    if (Math.abs(n - w) > 18) {
      const way = n > w ? 1 : -1;
      out.push(line([w + way * 9, y1 + 6], [n - way * 10, y1 + 6], "leader chosen"));
    }
  }
  const d = strokes(
    [
      [n, y1 - halfDiamond],
      [n + halfDiamond, y1],
      [n, y1 + halfDiamond],
      [n - halfDiamond, y1],
    ],
    true,
  );
  out.push(
    line([n, y0 - 2], [n, y1 - halfDiamond], "leader chosen"),
    group(
      [
        path(d, "hand-line of-paper", { data: { now: r.address } }),
        text([tn, y1 + 26], nowWords, "t1 is-hand halo", { anchor: "middle" }),
      ],
      handle ? { class: "grab", handle } : {},
    ),
  );
  return out;
}

/** One scale of gaps for all rows, so that curves can be compared: what lies deep below nought is cut. */
function scaleOf(rows: readonly SizeRow[]): { top: number; bottom: number } {
  const gaps = rows.flatMap((r) => r.curve.map((p) => p.gap)).filter(Number.isFinite);
  const most = Math.max(0, ...gaps);
  const least = Math.min(0, ...gaps);
  if (most === 0 && least === 0) return { top: 1, bottom: -1 };
  const top = most > 0 ? most * 1.08 : -0.25 * least;
  return { top, bottom: Math.max(least, -1.5 * top) };
}

/** What lies far off the sheet need not be told exactly. */
const near = (px: number): number => (Number.isNaN(px) ? 0 : Math.max(-1e5, Math.min(1e5, px)));

/** A number of a file where it stands: two decimals, or three figures where it is small. */
function figureIn({ shownIn }: SizeRow, v: number): string {
  const shown = v / unitOf(shownIn).factor;
  if (!Number.isFinite(shown)) return figures(shown);
  const rounded = Math.abs(shown) >= 1 ? Number(shown.toFixed(2)) : Number(shown.toPrecision(3));
  return Math.abs(shown) >= 1e5 || (shown !== 0 && Math.abs(shown) < 1e-4)
    ? figures(shown)
    : `${rounded === 0 ? 0 : rounded}`.replace("-", "−");
}

/** A diamond as a slider: where a page may take hold of it, and what it says of itself. */
export interface SizeSlider {
  readonly address: string;
  /** Its `along` tells how far the number grows: `grownBy`. */
  readonly handle: Handle;
  readonly aria: {
    readonly role: "slider";
    readonly "aria-label": string;
    readonly "aria-orientation": "horizontal";
    readonly "aria-valuemin": number;
    readonly "aria-valuemax": number;
    readonly "aria-valuenow": number;
    readonly "aria-valuetext": string;
  };
}
export function sizeSliders(input: SizeRowsInput, size: SizeRowsSize): SizeSlider[] {
  const frame = frameOf(input, size);
  return input.rows.map((r, i): SizeSlider => {
    const { factor } = unitOf(r.shownIn);
    const plain = (v: number): number => (Number.isFinite(v) ? Number((v / factor).toPrecision(9)) : 0);
    const growth = (frame.x1 - frame.x0) / (r.most - r.least);
    // Bounds without a number between them leave nothing to take hold of.
    const along = growth > 0 && Number.isFinite(growth) ? growth : 0;
    return {
      address: r.address,
      handle: {
        members: r.members ?? [r.address],
        name: r.name,
        at: [xOf(frame, r, r.now), rowAt(frame, i).y1],
        along: [along, 0],
      },
      aria: {
        role: "slider",
        "aria-label": r.name,
        "aria-orientation": "horizontal",
        "aria-valuemin": plain(r.least),
        "aria-valuemax": plain(r.most),
        "aria-valuenow": plain(r.now),
        "aria-valuetext": aloud(valueText(r)),
      },
    };
  });
}
function valueText(r: SizeRow): string {
  const unit = r.shownIn === "" ? "" : ` ${r.shownIn}`;
  const was = isMoved(r) ? `, was ${figureIn(r, r.was)}` : "";
  return `${figureIn(r, r.now)}${unit}${was}; ${resultOf(r)[1]}`;
}

/** The rows told: where each stands, from where it came, the run where all feed and what ends it. */
export function sizeWords({ unit, rows }: SizeRowsInput): string {
  if (rows.length === 0) return `No dimension of ${unit} is free.`;
  const out = [`${capital(counted(rows.length, "free dimension"))} of ${unit}.`];
  for (const r of rows) {
    const u = r.shownIn === "" ? "" : ` ${r.shownIn}`;
    const ends = [
      ...(r.ends?.from ? [`below it ${shortName(r.ends.from.check)} stops ${r.ends.from.tape}`] : []),
      ...(r.ends?.to ? [`above it ${shortName(r.ends.to.check)} stops ${r.ends.to.tape}`] : []),
    ];
    out.push(
      `${capital(r.name)}: ${figureIn(r, r.now)}${u}${isMoved(r) ? `, was ${figureIn(r, r.was)}` : ", stays"}, between ${figureIn(r, r.least)} and ${figureIn(r, r.most)}; ${resultOf(r)[1]}${r.window && ends.length > 0 ? `, ${ends.join(", ")}` : ""}.`,
    );
  }
  return aloud(out.join(" "));
}
