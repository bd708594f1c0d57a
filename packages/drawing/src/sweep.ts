import { type CheckSweep, figures, type SweepInput, type SweepPoint, showIn, unitOf } from "@tapeworthy/core";
import { aloud, capital, sayAddress, shortName } from "./say.ts";
import { box, type Drawing, group, line, type Point, path, type Segment, type Shape, strokes, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";
import { ticks } from "./ticks.ts";

/** Room of a check to its bound over one number: the middle of belief, its 5 and 95 % points about it, where it stands now. */
export function sweepDrawing(
  sweep: CheckSweep,
  { width, height }: { readonly width: number; readonly height: number },
): Drawing {
  const { along, points, family } = sweep;
  const frame = { x0: 66, x1: width - (family ? 118 : 24), y0: 44, y1: height - 50 };
  const ends = [points, ...(family?.curves.map((c) => c.points) ?? [])]
    .flat()
    .flatMap(({ room }) => [room.low, room.middle, room.high])
    .filter(Number.isFinite);
  const [v0, v1] = [Math.min(0, ...ends), Math.max(0, ...ends)];
  const pad = (v1 - v0) * 0.08 || 1;
  const [low, high] = [v0 - pad, v1 + pad];
  const x = (at: number): number =>
    frame.x0 + ((at - along.from) / (along.to - along.from || 1)) * (frame.x1 - frame.x0);
  const y = (v: number): number =>
    Math.max(frame.y0, Math.min(frame.y1, frame.y1 - ((v - low) / (high - low)) * (frame.y1 - frame.y0)));
  const shapes: Shape[] = [
    box([0, 0], width, height, "ground"),
    box([frame.x0, y(0)], frame.x1 - frame.x0, frame.y1 - y(0), "", { fill: "outside" }),
  ];
  for (const tick of ticks(along.from / unitOf(along.shownIn).factor, along.to / unitOf(along.shownIn).factor, 7)) {
    const at = x(tick * unitOf(along.shownIn).factor);
    shapes.push(
      line([at, frame.y0], [at, frame.y1], "hair"),
      text([at, frame.y1 + 16], figuresOf(tick), "", { anchor: "middle" }),
    );
  }
  const { factor } = unitOf(sweep.shownIn);
  for (const tick of ticks(low / factor, high / factor, 6))
    shapes.push(
      line([frame.x0 - 4, y(tick * factor)], [frame.x0, y(tick * factor)], "faint"),
      text([frame.x0 - 8, y(tick * factor) + 3.6], figuresOf(tick), "", { anchor: "end" }),
    );
  const clip = { box: [frame.x0, frame.y0] as Point, width: frame.x1 - frame.x0, height: frame.y1 - frame.y0 };
  const stroke = (list: readonly SweepPoint[], of: (p: SweepPoint) => number): Segment[] =>
    strokes(list.filter((p) => Number.isFinite(of(p))).map((p): Point => [x(p.at), y(of(p))]));
  const band = points.filter(({ room }) => Number.isFinite(room.low) && Number.isFinite(room.high));
  const rim = strokes(
    [
      ...band.map((p): Point => [x(p.at), y(p.room.low)]),
      ...[...band].reverse().map((p): Point => [x(p.at), y(p.room.high)]),
    ],
    true,
  );
  const inner: Shape[] = band.length > 1 ? [path(rim, "ask-veil"), path(rim, "softly", { fill: "unknown" })] : [];
  const labels: Shape[] = [];
  family?.curves.forEach(({ at, points: list }, i) => {
    if (i === 1) return;
    inner.push(
      path(
        stroke(list, (p) => p.room.middle),
        i === 0 ? "hidden-line" : "thin",
        { data: { curve: `${i}` } },
      ),
    );
    const last = list.at(-1);
    if (last) labels.push(text([frame.x1 + 6, y(last.room.middle) + 3.6], showIn(family.along.shownIn, at), ""));
  });
  inner.push(
    path(
      stroke(points, (p) => p.room.middle),
      "outline heavy",
      { data: { sweep: sweep.check } },
    ),
  );
  shapes.push(group(inner, { clip }));
  if (family) {
    const last = points.at(-1)!;
    labels.push(
      text([frame.x1 + 6, y(last.room.middle) + 3.6], showIn(family.along.shownIn, family.along.drawn), "strong"),
      text([frame.x1 + 6, frame.y0 - 8], sayAddress(family.along.address), "quiet"),
    );
    apart(labels);
  }
  shapes.push(
    ...labels,
    line([frame.x0, y(0)], [frame.x1, y(0)], "heavy"),
    line([frame.x0, frame.y0], [frame.x0, frame.y1], "thin"),
    line([frame.x0, frame.y1], [frame.x1, frame.y1], "thin"),
    text([frame.x1 - 4, y(0) + 14], "does not hold below the line", "halo", { anchor: "end" }),
  );
  const now = x(along.drawn);
  const words = `now ${showIn(along.shownIn, along.drawn, 3)}`;
  const wide = textWidth(words, 12, true);
  shapes.push(
    line([now, frame.y0], [now, frame.y1], "hand-line"),
    text([Math.min(frame.x1 - wide / 2, Math.max(frame.x0 + wide / 2, now)), frame.y0 - 6], words, "t1 is-hand halo", {
      anchor: "middle",
    }),
  );
  for (const at of turnsOf(points))
    shapes.push(
      line([x(at), y(0) - 7], [x(at), y(0) + 7], "fail-line heavy", { data: { turn: `${at}` } }),
      text([x(at), y(0) - 11], showIn(along.shownIn, at, 3), "is-fail halo", { anchor: "middle" }),
    );
  const unit = sweep.shownIn === "" ? "" : `, ${sweep.shownIn}`;
  shapes.push(
    text(
      [10, 18],
      [{ text: `Room of ${shortName(sweep.check)}`, class: "strong" }, { text: `${unit}; striped: not known` }],
      "t1",
    ),
    text([frame.x1, height - 12], nameOf(along), "dark", { anchor: "end" }),
  );
  return { title: `Sweep of ${sweep.check}`, desc: sweepWords(sweep), width, height, shapes };
}
const nameOf = ({ address, shownIn }: SweepInput): string =>
  `${sayAddress(address)}${shownIn === "" ? "" : `, ${shownIn}`}`;

/** Where the middle of belief crosses nought. */
function turnsOf(points: readonly SweepPoint[]): number[] {
  return points.flatMap((p, i) => {
    const q = points[i + 1];
    if (!q) return [];
    const [a, b] = [p.room.middle, q.room.middle];
    return Number.isFinite(a) && Number.isFinite(b) && a >= 0 !== b >= 0 ? [p.at + ((q.at - p.at) * a) / (a - b)] : [];
  });
}
export function sweepWords({ check, along, points, family }: CheckSweep): string {
  const say = (v: number): string => showIn(along.shownIn, v, 3);
  const turns = turnsOf(points);
  const drawn = points.find((p) => p.at === along.drawn);
  const out = [
    `Room of ${shortName(check)} to its bound over ${sayAddress(along.address)}, from ${say(along.from)} to ${say(along.to)}; it stands at ${say(along.drawn)}${drawn ? `, where it ${drawn.room.middle >= 0 ? "holds" : "does not hold"} in the middle of belief` : ""}.`,
    turns.length === 0
      ? "In the middle of belief it turns nowhere between."
      : `In the middle of belief it turns at ${turns.map(say).join(" and ")}.`,
  ];
  for (const { at, points: list } of family?.curves ?? []) {
    const mine = turnsOf(list);
    out.push(
      `${capital(sayAddress(family!.along.address))} at ${showIn(family!.along.shownIn, at, 3)}: ${mine.length === 0 ? "turns nowhere" : `turns at ${mine.map(say).join(" and ")}`}.`,
    );
  }
  return aloud(out.join(" "));
}
const figuresOf = (v: number): string =>
  Math.abs(v) < 1e-12 ? "0" : figures(Number(v.toPrecision(6)), 6).replace(/\.?0+$/, "");
/** Labels under each other are moved apart. */
function apart(labels: Shape[]): void {
  const texts = labels.filter((s) => s.kind === "text").sort((a, b) => a.at[1] - b.at[1]);
  let last = Number.NEGATIVE_INFINITY;
  for (const one of texts) {
    const at = Math.max(one.at[1], last + 13);
    last = at;
    (one as { at: Point }).at = [one.at[0], at];
  }
}
