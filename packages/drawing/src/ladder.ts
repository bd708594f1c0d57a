import { best, Room } from "./room.ts";
import { aloud, capital, counted, list } from "./say.ts";
import { box, type Drawing, group, line, type Point, path, type Segment, type Shape, strokes, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";
import { pointsAlong } from "./view.ts";

/** One check over the width: its margin (or share) at belief's median, and the 5 % and 95 % points about it. Widths in mm. */
export interface LadderPoint {
  readonly W: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** The line begins anew here: before it the check did not apply. */
  readonly anew?: true;
}
export interface LadderLine {
  readonly check: string;
  readonly name: string;
  /** Two points at one width are a jump. */
  readonly points: readonly LadderPoint[];
}
export interface LadderCrossing {
  readonly check: string;
  /** Where it crosses, mm; a label such as "between 12 and 16 (about 13.4)". */
  readonly W: number;
  readonly label: string;
  /** The verdict from there on. */
  readonly from: "depends" | "stops" | "feeds";
}
export interface LadderJump {
  readonly W: number;
  /** What takes a step there: "P1 8 to 12 mm". */
  readonly step: string;
}
export interface LadderInput {
  readonly unit: string;
  readonly kind: "margin" | "share";
  /** The line a check has to keep above: the margin of the allowance, or a share of 0.95. */
  readonly allowed: number;
  /** Widths the catalogue has, mm; those asked for are drawn heavier. */
  readonly widths: readonly number[];
  readonly wanted?: readonly number[];
  readonly lines: readonly LadderLine[];
  readonly crossings: readonly LadderCrossing[];
  readonly jumps: readonly LadderJump[];
}

/** Margin of every check over the width. The check that stops first is drawn heavy with its belief; what is below the line is hatched. */
export function ladder(
  input: LadderInput,
  { width, height }: { readonly width: number; readonly height: number },
): Drawing {
  const { lines, crossings, jumps, allowed, kind } = input;
  const all = lines.flatMap((l) => l.points);
  const ws = [...all.map((p) => p.W), ...input.widths];
  const [w0, w1] = [Math.min(...ws, 8), Math.max(...ws, 12)];
  const [top, bottom] = kind === "margin" ? [6.3, Math.max(-6, Math.min(-1, ...all.map((p) => p.value)))] : [1.02, 0];
  const frame = { x0: 44, x1: width - 96, y0: 66, y1: height - 46 };
  const x = (w: number): number => frame.x0 + ((w - w0) / (w1 - w0)) * (frame.x1 - frame.x0);
  const y = (v: number): number =>
    frame.y0 + ((top - Math.max(bottom, Math.min(top, v))) / (top - bottom)) * (frame.y1 - frame.y0);
  const raw = (v: number): number => frame.y0 + ((top - v) / (top - bottom)) * (frame.y1 - frame.y0);
  const clip = { box: [frame.x0, frame.y0] as Point, width: frame.x1 - frame.x0, height: frame.y1 - frame.y0 };
  const room = new Room({ x: frame.x0, y: 0, width: frame.x1 - frame.x0 + 8, height });
  const trouble = crossings.filter((c) => c.from !== "feeds");
  const first = trouble.length === 0 ? undefined : best(trouble, (c) => (c.from === "stops" ? 0 : 1000) + c.W);
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];

  shapes.push(box([frame.x0, y(allowed)], frame.x1 - frame.x0, frame.y1 - y(allowed), "", { fill: "outside" }));
  for (const w of input.widths) {
    const wanted = input.wanted?.includes(w) ?? true;
    shapes.push(line([x(w), frame.y0], [x(w), frame.y1], wanted ? "faint" : "hair"));
    const size = Math.max(4, Math.min(24, w * 0.42));
    shapes.push(
      box([x(w) - size / 2, frame.y1 + 6], size, 9, "thin of-cavity"),
      text([x(w), frame.y1 + 28], `${w}`, wanted ? "strong" : "", { anchor: "middle" }),
    );
  }
  shapes.push(text([frame.x1 + 14, frame.y1 + 28], "W, mm", ""));
  const ticks = kind === "margin" ? [6, 4, 2, 0, -2, -4].filter((t) => t >= bottom) : [1, 0.75, 0.5, 0.25, 0];
  for (const t of ticks)
    shapes.push(
      line([frame.x0 - 4, y(t)], [frame.x0, y(t)], "faint"),
      text([frame.x0 - 8, y(t) + 3.6], kind === "margin" ? `${t}`.replace("-", "−") : `${t * 100} %`, "", {
        anchor: "end",
      }),
    );

  const drawn = [...lines].sort((a, b) => Number(a.check === first?.check) - Number(b.check === first?.check));
  const inner: Shape[] = [];
  for (const l of drawn) {
    if (l.points.length === 0) continue;
    const isFirst = l.check === first?.check;
    const crosses = crossings.some((c) => c.check === l.check);
    const runs = runsOf(l.points);
    const stroke = (of: (p: LadderPoint) => number): Segment[] =>
      runs.flatMap((run) => strokes(run.map((p): Point => [x(p.W), raw(of(p))])));
    // Belief is drawn about the one that decides; about the others it would hide the lines.
    if (isFirst) {
      const rim = runs.flatMap((run) =>
        strokes(
          [
            ...run.map((p): Point => [x(p.W), raw(p.low)]),
            ...[...run].reverse().map((p): Point => [x(p.W), raw(p.high)]),
          ],
          true,
        ),
      );
      inner.push(path(rim, "ask-veil"), path(rim, "softly", { fill: "unknown" }));
      inner.push(
        path(
          stroke((p) => p.high),
          "ask-line dashed",
        ),
      );
    }
    const d = stroke((p) => p.value);
    inner.push(
      path(d, isFirst ? (first?.from === "stops" ? "fail-line heavy" : "ask-line") : crosses ? "outline" : "faint", {
        data: { check: l.check },
      }),
    );
    for (const run of runs) room.points(pointsAlong(strokes(run.map((p): Point => [x(p.W), y(p.value)])), 4), 2);
  }
  shapes.push(group(inner, { clip }));
  shapes.push(
    line([frame.x0, y(allowed)], [frame.x1, y(allowed)], "heavy"),
    line([frame.x0, frame.y0], [frame.x0, frame.y1], "thin"),
    line([frame.x0, frame.y1], [frame.x1, frame.y1], "thin"),
  );
  const allowedWords =
    kind === "margin" ? `allowed ${allowed.toFixed(1)}` : `feeds from ${Math.round(allowed * 100)} %`;
  shapes.push(text([frame.x1 - 4, y(allowed) + 14], allowedWords, "halo", { anchor: "end" }));
  room.fill({ x: frame.x1 - 90, y: y(allowed) + 3, width: 90, height: 14 });

  // Crossings: a diamond on the line, its words where there is room below it.
  for (const c of [...crossings].sort((a, b) => a.W - b.W)) {
    const at: Point = [x(c.W), y(allowed)];
    const name = lines.find((l) => l.check === c.check)?.name ?? c.check;
    // On a narrow drawing the place itself has to do: the widths it lies between stand below.
    const about = frame.x1 - frame.x0 < 400 ? /\(about [\d.]+\)/.exec(c.label)?.[0].slice(1, -1) : undefined;
    const words = `${name} ${c.from} ${about ?? c.label}`;
    const wide = textWidth(words, 10.5, true) + 4;
    const spots: Point[] = [];
    for (let dy = 20; dy < frame.y1 - at[1] - 4; dy += 14)
      for (const left of [false, true]) spots.push([left ? at[0] - 6 - wide : at[0] + 6, at[1] + dy]);
    for (let dy = 16; dy < at[1] - frame.y0; dy += 14)
      for (const left of [false, true]) spots.push([left ? at[0] - 6 - wide : at[0] + 6, at[1] - dy]);
    const spot = best(
      spots.length > 0 ? spots : [[at[0] + 6, at[1] - 8] as Point],
      (p) =>
        room.cost({ x: p[0], y: p[1] - 9, width: wide, height: 12 }) * 1.3 +
        Math.abs(p[1] - at[1]) * 0.12 +
        (p[1] < at[1] ? 4 : 0),
    );
    const is = c === first;
    shapes.push(
      line(
        at,
        [at[0], spot[1] + (spot[1] > at[1] ? 2 : -8)],
        is ? (c.from === "stops" ? "fail-line" : "ask-line") : "faint",
      ),
    );
    shapes.push(
      path(
        strokes(
          [
            [at[0], at[1] - 5],
            [at[0] + 5, at[1]],
            [at[0], at[1] + 5],
            [at[0] - 5, at[1]],
          ],
          true,
        ),
        c.from === "depends" ? "ask-line of-paper" : `outline ${is ? "of-fail" : "of-paper"}`,
        { data: { crossing: c.check, w: `${c.W}` } },
      ),
    );
    shapes.push(
      text(
        [spot[0] + (spot[0] < at[0] ? wide - 2 : 2), spot[1]],
        words,
        is ? (c.from === "stops" ? "is-fail halo" : "is-ask halo") : "dark halo",
        { anchor: spot[0] < at[0] ? "end" : "start" },
      ),
    );
    room.fill({ x: spot[0], y: spot[1] - 10, width: wide, height: 13 }, 10);
  }
  for (const j of jumps) {
    shapes.push(
      line([x(j.W), frame.y0 - 12], [x(j.W), frame.y0], "thin"),
      path(
        strokes(
          [
            [x(j.W) - 3, frame.y0 - 12],
            [x(j.W) + 3, frame.y0 - 12],
            [x(j.W), frame.y0 - 6],
          ],
          true,
        ),
        "of-ink2",
      ),
    );
  }
  jumpLabels(jumps, x, frame).forEach((s) => void shapes.push(s));
  const turning = new Set(crossings.map((c) => c.check));
  const atTop = kind === "margin" ? 6 - 1e-9 : 1 - 1e-9;
  const calm = drawn.filter(
    (l) => !turning.has(l.check) && l.points.length > 0 && l.points.every((p) => p.value >= atTop),
  );
  // Where many lie on the cap all the way they are counted, not named.
  const counted = calm.length > 3 ? calm : [];
  const rest =
    counted.length === 0 ? [] : [{ check: "", name: `${counted.length} others`, points: counted[0]!.points }];
  shapes.push(...endLabels([...rest, ...drawn.filter((l) => !counted.includes(l))], first?.check, frame, y));
  shapes.push(
    text([10, 17], "Width ladder", "t1 strong"),
    text([10, 31], `${kind} over W; striped: not known`, "quiet"),
  );
  const { stop, open } = firstOf(input);
  const right = (words: string, y: number, cls: string): void =>
    void shapes.push(text([width - 10, y], cutTo(words, 12, width - 110, true), cls, { anchor: "end" }));
  if (stop) right(sayCrossing(input, stop), 17, "t1 is-fail");
  if (open) right(sayCrossing(input, open), stop ? 31 : 17, stop ? "is-ask" : "t1 is-ask");
  if (!stop && !open) right("no check crosses the line", 17, "t1 dark");
  return { title: `Width ladder of ${input.unit}`, desc: ladderWords(input), width, height, shapes };
}

/** The stretches of a line over which it goes on. */
function runsOf(points: readonly LadderPoint[]): LadderPoint[][] {
  const out: LadderPoint[][] = [];
  for (const p of points) {
    const last = out.at(-1);
    if (!last || p.anew) out.push([p]);
    else last.push(p);
  }
  return out;
}

function jumpLabels(
  jumps: readonly LadderJump[],
  x: (w: number) => number,
  frame: { readonly x0: number; readonly x1: number; readonly y0: number },
): Shape[] {
  let until = Number.NEGATIVE_INFINITY;
  return [...jumps]
    .sort((a, b) => a.W - b.W)
    .flatMap((j) => {
      const wide = textWidth(j.step, 10.5);
      const from = Math.max(frame.x0, Math.min(frame.x1 - wide, x(j.W) - wide / 2));
      // Steps that stand too close are read in the words beside the drawing.
      if (from < until + 6) return [];
      until = from + wide;
      return [text([from, frame.y0 - 15], j.step, "halo", { data: { jump: `${j.W}` } })];
    });
}

/** Names at the right end, moved apart so that none covers another. */
function endLabels(
  lines: readonly LadderLine[],
  first: string | undefined,
  frame: { readonly x1: number; readonly y0: number; readonly y1: number },
  y: (v: number) => number,
): Shape[] {
  const wanted = lines
    .flatMap((l) => (l.points.length > 0 ? [{ l, at: y(l.points.at(-1)!.value) }] : []))
    .sort((a, b) => a.at - b.at || (a.l.check < b.l.check ? -1 : 1));
  const step = Math.min(12, (frame.y1 - frame.y0) / Math.max(1, wanted.length));
  let last = frame.y0 - step;
  const placed = wanted.map((one) => {
    last = Math.max(one.at, last + step);
    return { ...one, to: last };
  });
  let limit = frame.y1;
  for (const one of [...placed].reverse()) {
    one.to = Math.min(one.to, limit);
    limit = one.to - step;
  }
  return placed.flatMap(({ l, at, to }) => [
    ...(Math.abs(at - to) > 2 ? [line([frame.x1, at], [frame.x1 + 9, to], "hair")] : []),
    text([frame.x1 + 12, to + 3.6], l.name, l.check === first ? "is-fail" : "", {}),
  ]);
}

const nameOf = ({ lines }: LadderInput, check: string): string => lines.find((l) => l.check === check)?.name ?? check;
const sayCrossing = (input: LadderInput, c: LadderCrossing): string =>
  `${c.from} ${c.label}, ${nameOf(input, c.check)}`;
/** The first width at which anything stops, and the first before it at which it comes to depend. */
function firstOf({ crossings }: LadderInput): { stop: LadderCrossing | undefined; open: LadderCrossing | undefined } {
  const first = (from: LadderCrossing["from"]) =>
    [...crossings].filter((c) => c.from === from).sort((a, b) => a.W - b.W)[0];
  const [stop, open] = [first("stops"), first("depends")];
  return { stop, open: open && (!stop || open.W < stop.W) ? open : undefined };
}

export function ladderWords(input: LadderInput): string {
  const { lines, jumps, widths, kind } = input;
  const { stop, open } = firstOf(input);
  const first =
    [open, stop].flatMap((c) => (c ? [sayCrossing(input, c)] : [])).join("; ") || "no check crosses the line";
  const out = [
    `${capital(kind)} of ${counted(lines.length, "check")} over the tape's width, ${Math.min(...widths)} to ${Math.max(...widths)} mm.`,
    `${capital(first)}.`,
  ];
  for (const c of [...input.crossings].sort((a, b) => a.W - b.W))
    if (c !== stop && c !== open) out.push(`${capital(nameOf(input, c.check))}: ${c.from} ${c.label}.`);
  if (jumps.length > 0) out.push(`Steps: ${list(jumps.map((j) => `${j.step} at ${j.W} mm`))}.`);
  return aloud(out.join(" "));
}
