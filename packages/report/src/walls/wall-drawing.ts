import { type BeliefPoints, figures, type Quantity, showIn, shownUnit, unitOf } from "@tapeworthy/core";
import { box, type Drawing, group, line, type Point, path, type Shape, strokes, text } from "@tapeworthy/drawing";
import type { Curve, CurvePoint } from "./curve.ts";

export interface WallDrawing {
  /** What the number along the foot is called. */
  readonly along: string;
  /** What the value is called, where its own title is too long for a picture. */
  readonly value?: string;
  /** Greatest value shown, in the value's coherent unit; what is higher leaves the picture. */
  readonly top?: number;
  readonly bottom?: number;
  /** Places of other invented units or tapes of the same family, by name. */
  readonly marks?: readonly { readonly at: number; readonly name: string }[];
}
const size = { width: 720, height: 320 } as const;

/** The value over one number with its window: what lies outside is shaded, what is not known striped, and each turn carries its number. */
export function wallDrawing(curve: Curve, { along: foot, value: name, top, bottom, marks = [] }: WallDrawing): Drawing {
  const { width, height } = size;
  const frame = { x0: 62, x1: width - 20, y0: 40, y1: height - 46 };
  const { points, value, least, most, along, turns } = curve;
  const [first, last] = [points[0]!.at, points.at(-1)!.at];
  const all = points.flatMap((p) => [p.value, p.least, p.most].flatMap((q) => (q ? [q.low, q.middle, q.high] : [])));
  const finite = all.filter(Number.isFinite);
  const [v0, v1] = [bottom ?? Math.min(0, ...finite), top ?? Math.max(...finite) * 1.06];
  const x = (at: number): number => frame.x0 + ((at - first) / (last - first)) * (frame.x1 - frame.x0);
  const y = (v: number): number => {
    const share = (Math.max(v0, Math.min(v1, v)) - v0) / (v1 - v0);
    return frame.y1 - share * (frame.y1 - frame.y0);
  };
  const sound = (of: (p: CurvePoint) => BeliefPoints | undefined): readonly (readonly [CurvePoint, BeliefPoints])[] =>
    points.flatMap((p) => {
      const q = of(p);
      return q && [q.low, q.middle, q.high].every(Number.isFinite) ? [[p, q] as const] : [];
    });
  const over = (of: (p: CurvePoint) => BeliefPoints | undefined, pick: keyof BeliefPoints): Point[] =>
    sound(of).map(([p, q]): Point => [x(p.at), y(q[pick])]);
  const band = (of: (p: CurvePoint) => BeliefPoints | undefined): Shape[] => {
    const rim = strokes([...over(of, "low"), ...over(of, "high").reverse()], true);
    return [path(rim, "ask-veil"), path(rim, "softly", { fill: "unknown" })];
  };
  const beyond = (of: (p: CurvePoint) => BeliefPoints | undefined, edge: number): Shape => {
    const bound = over(of, "middle");
    return path(strokes([...bound, [bound.at(-1)![0], edge], [bound[0]![0], edge]], true), "", { fill: "outside" });
  };
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  const inner: Shape[] = [
    ...(least ? [beyond((p) => p.least, frame.y1)] : []),
    ...(most ? [beyond((p) => p.most, frame.y0)] : []),
    ...(least ? band((p) => p.least) : []),
    ...(most ? band((p) => p.most) : []),
    ...band((p) => p.value),
    ...(least ? [path(strokes(over((p) => p.least, "middle")), "fail-line heavy")] : []),
    ...(most ? [path(strokes(over((p) => p.most, "middle")), "fail-line heavy")] : []),
    path(strokes(over((p) => p.value, "middle")), "outline heavy", { data: { curve: value.id } }),
  ];
  const feet = unitOf(along.shownIn);
  for (const tick of ticks(first / feet.factor, last / feet.factor, 8)) {
    const at = x(tick * feet.factor);
    shapes.push(
      line([at, frame.y0], [at, frame.y1], "hair"),
      text([at, frame.y1 + 16], figuresOf(tick), "", { anchor: "middle" }),
    );
  }
  const unit = shownUnit(value);
  const { factor } = unitOf(unit === "" ? "1" : unit);
  for (const tick of ticks(v0 / factor, v1 / factor, 6))
    shapes.push(
      line([frame.x0 - 4, y(tick * factor)], [frame.x0, y(tick * factor)], "faint"),
      text([frame.x0 - 8, y(tick * factor) + 3.6], figuresOf(tick), "", { anchor: "end" }),
    );
  shapes.push(
    group(inner, { clip: { box: [frame.x0, frame.y0], width: frame.x1 - frame.x0, height: frame.y1 - frame.y0 } }),
  );
  shapes.push(
    line([frame.x0, frame.y0], [frame.x0, frame.y1], "thin"),
    line([frame.x0, frame.y1], [frame.x1, frame.y1], "thin"),
  );
  const side = (words: string, of: (p: CurvePoint) => BeliefPoints | undefined): void => {
    const there = over(of, "middle")[2];
    if (there && there[1] > frame.y0 + 1)
      shapes.push(text([frame.x0 + 8, Math.min(frame.y1, there[1]) - 6], words, "is-fail halo"));
  };
  if (least) side("at least", (p) => p.least);
  if (most) side("at most", (p) => p.most);
  for (const { at, name: word } of marks) {
    const here = curve.at(at).value.middle;
    shapes.push(
      line([x(at), y(here) - 5], [x(at), y(here) + 5], "heavy"),
      text([x(at), Math.max(frame.y0 + 12, y(here) - 10)], word, "halo", { anchor: "middle" }),
    );
  }
  for (const at of turns) {
    const here = y(curve.at(at).value.middle);
    shapes.push(
      line([x(at), here - 8], [x(at), here + 8], "fail-line heavy", { data: { turn: `${at}` } }),
      text([x(at) + 6, Math.min(frame.y1 - 6, here + 18)], showIn(along.shownIn, at, 2), "is-fail halo", {
        anchor: x(at) > frame.x1 - 60 ? "end" : "start",
      }),
    );
  }
  if (curve.drawn >= first && curve.drawn <= last)
    shapes.push(
      line([x(curve.drawn), frame.y0], [x(curve.drawn), frame.y1], "hand-line dashed"),
      text([x(curve.drawn), frame.y0 - 6], `drawn ${showIn(along.shownIn, curve.drawn, 2)}`, "is-hand halo", {
        anchor: x(curve.drawn) > frame.x1 - 50 ? "end" : x(curve.drawn) < frame.x0 + 50 ? "start" : "middle",
      }),
    );
  const title = name ?? value.title;
  shapes.push(
    text(
      [10, 18],
      [{ text: title, class: "strong" }, { text: `${unit === "" ? "" : `, ${unit}`}; shaded: outside its window` }],
      "t1",
    ),
    text([frame.x1, height - 10], `${foot}${along.shownIn === "" ? "" : `, ${along.shownIn}`}`, "dark", {
      anchor: "end",
    }),
    text([10, height - 10], "striped: not known", "quiet"),
  );
  return { title: `${title} over ${foot}`, desc: inWords(curve, title, foot), width, height, shapes };
}
/** The same aloud. */
function inWords(curve: Curve, title: string, foot: string): string {
  const { points, value, least, most, turns, along } = curve;
  const say = (q: Quantity, v: number): string => showIn(shownUnit(q), v);
  const ends = [points[0]!, points.at(-1)!]
    .map((p) => `${say(value, p.value.middle)} at ${showIn(along.shownIn, p.at)}`)
    .join(" and ");
  const bounds = [
    ...(least ? [`at least ${say(least, points[0]!.least!.middle)}`] : []),
    ...(most ? [`at most ${say(most, points[0]!.most!.middle)}`] : []),
  ].join(" and ");
  const where =
    turns.length === 0
      ? "It crosses no bound there."
      : `It crosses a bound at ${turns.map((t) => showIn(along.shownIn, t)).join(" and ")}.`;
  return `${title} over ${foot}: ${ends}; wanted at the left end ${bounds}. ${where}`;
}
/** Whole steps of 1, 2 or 5 times a power of ten. */
function ticks(from: number, to: number, count: number): number[] {
  const rough = (to - from) / count;
  const size10 = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((k) => k * size10).find((s) => s >= rough)!;
  const first = Math.ceil(from / step - 1e-9);
  return Array.from({ length: Math.floor(to / step + 1e-9) - first + 1 }, (_, i) => (first + i) * step);
}
const figuresOf = (v: number): string => {
  if (Math.abs(v) < 1e-12) return "0";
  const shown = figures(Number(v.toPrecision(6)), 6);
  return shown.includes(".") ? shown.replace(/\.?0+$/, "") : shown;
};
