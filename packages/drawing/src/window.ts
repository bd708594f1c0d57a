import { type DecisiveFinding, type Finding, figures, showIn, unitOf } from "@tapeworthy/core";
import { aloud, capital, middleOf, sayAddress, sayGuess, stoppingSide } from "./say.ts";
import { box, type Drawing, line, type Point, path, type Segment, type Shape, strokes, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";

/** A value against its window: where it stands as written, how it scatters, how far belief lets it go. SI. */
export interface WindowInput {
  readonly title: string;
  /** Unit the numbers are read in: "mm", "N", "%". */
  readonly shownIn: string;
  readonly value: number;
  readonly least?: number;
  readonly most?: number;
  /** Standard deviation of the scatter, drawn as a bell. */
  readonly scatter?: number;
  /** The value with the unknowns at their kind and at their unkind ends; a guess is a stripe, never a bell. */
  readonly belief?: { readonly kind: number; readonly unkind: number };
  /** The unknown that decides, drawn on its own axis below. */
  readonly decisive?: DecisiveFinding;
}

/**
 * The window of a finding. Its corners are gaps with the unknowns at their kind and unkind ends, bound and all; they are shown as the value
 * they would leave with the bound as written. Where that would turn a length or a force negative it is the bound that moves: then the room
 * up to it is shown instead, which has to stay above 0. `scatter` comes from whoever drew it. Undefined where there is no value or bound.
 */
export function windowOf(f: Finding, shownIn: string, scatter?: number): WindowInput | undefined {
  const { least, most } = f.bounds;
  if (f.value === null || (least === undefined && most === undefined)) return undefined;
  const byMost = least === undefined || (most !== undefined && most - f.value < f.value - least);
  const bound = byMost ? most! : least!;
  const { corners } = f;
  const open = corners !== undefined && Math.abs(corners.best - corners.worst) > 1e-15;
  const at = (gap: number): number => (byMost ? bound - gap : bound + gap);
  const more = { ...(scatter === undefined ? {} : { scatter }), ...(f.decisive ? { decisive: f.decisive } : {}) };
  const negative = open && f.value >= 0 && bound > 0 && Math.min(at(corners.best), at(corners.worst)) < 0;
  if (negative) {
    const room = byMost ? bound - f.value : f.value - bound;
    return {
      title: `room of ${f.check}`,
      shownIn,
      value: room,
      least: 0,
      belief: { kind: corners.best, unkind: corners.worst },
      ...more,
    };
  }
  return {
    title: f.check,
    shownIn,
    value: f.value,
    ...(least === undefined ? {} : { least }),
    ...(most === undefined ? {} : { most }),
    ...(open ? { belief: { kind: at(corners.best), unkind: at(corners.worst) } } : {}),
    ...more,
  };
}

/** Bounds as brackets, what is outside them hatched, scatter as a bell, belief as stripes; below, the unknown that decides with its tipping value. */
export function windowDrawing(input: WindowInput, { width }: { readonly width: number }): Drawing {
  const { value, least, most, scatter = 0, belief, decisive } = input;
  // Without a bell the window is flat.
  const tall = scatter > 0 ? 40 : 22;
  const axis = tall + 34;
  const below = decisive && !decisive.words ? 96 : 0;
  const height = axis + 34 + below;
  const marks = [
    value,
    ...(least === undefined ? [] : [least]),
    ...(most === undefined ? [] : [most]),
    ...(belief ? [belief.kind, belief.unkind] : [value]).flatMap((v) => [v - 3.2 * scatter, v + 3.2 * scatter]),
  ];
  const [v0, v1] = [Math.min(...marks), Math.max(...marks)];
  const pad = (v1 - v0) * 0.13 || Math.abs(value) * 0.2 || 1;
  const [from, to] = [v0 - pad, v1 + pad];
  const L = 8;
  const x = (v: number): number => L + ((v - from) / (to - from)) * (width - 2 * L);
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  const say = (v: number) => showIn(input.shownIn, v);
  if (least !== undefined) shapes.push(box([L, axis - tall], x(least) - L, tall, "", { fill: "outside" }));
  if (most !== undefined) shapes.push(box([x(most), axis - tall], width - L - x(most), tall, "", { fill: "outside" }));
  const fails = (v: number): boolean => (least !== undefined && v < least) || (most !== undefined && v > most);

  if (belief) {
    const [a, b] = [x(Math.min(belief.kind, belief.unkind)), x(Math.max(belief.kind, belief.unkind))];
    shapes.push(
      box([a, axis + 1], Math.max(1.5, b - a), 7, "of-paper"),
      box([a, axis + 1], Math.max(1.5, b - a), 7, "ask-line", { fill: "unknown", data: { belief: "range" } }),
    );
  }
  if (scatter > 0) {
    const bells: readonly [number, string][] = belief
      ? [
          [belief.kind, "thin bell-kind"],
          [belief.unkind, "outline"],
        ]
      : [[value, "outline"]];
    for (const [centre, cls] of bells) shapes.push(...bell(centre, scatter, x, axis, from, to, cls, fails));
  }
  shapes.push(line([L, axis], [width - L, axis], "thin"));
  for (const [bound, sign, word] of [
    [least, -1, "at least"],
    [most, 1, "at most"],
  ] as const) {
    if (bound === undefined) continue;
    const at = x(bound);
    shapes.push(
      path(
        strokes([
          [at + sign * 5, axis - tall - 4],
          [at, axis - tall - 4],
          [at, axis + 9],
          [at + sign * 5, axis + 9],
        ]),
        "heavy",
        { data: { bound: word, at: `${at}` } },
      ),
    );
    const words = `${word} ${say(bound)}`;
    const half = textWidth(words, 10.5, true) / 2;
    shapes.push(
      text([Math.max(L + half, Math.min(width - L - half, at)), axis - tall - 10], words, "strong", {
        anchor: "middle",
      }),
    );
  }
  // The value as written: a stroke through the axis with its number under it.
  const at = x(value);
  shapes.push(
    path(
      strokes([
        [at, axis - tall + 4],
        [at, axis + 10],
      ]),
      fails(value) ? "fail-line heavy" : "outline",
      { data: { value: `${at}` } },
    ),
  );
  const words = say(value);
  const half = textWidth(words, 12, true) / 2;
  const vx = Math.max(L + half, Math.min(width - L - half, at));
  shapes.push(text([vx, axis + 23], words, fails(value) ? "t1 is-fail halo" : "t1 strong halo", { anchor: "middle" }));
  if (belief) {
    let free: readonly [number, number] = [vx - half - 6, vx + half + 6];
    for (const [end, word] of [
      [belief.kind, "kind"],
      [belief.unkind, "unkind"],
    ] as const) {
      const t = `${word} ${say(end)}`;
      const wide = textWidth(t, 10.5);
      const centre = Math.max(L + wide / 2, Math.min(width - L - wide / 2, x(end)));
      const moved = centre < vx ? Math.min(centre, free[0] - wide / 2) : Math.max(centre, free[1] + wide / 2);
      if (moved - wide / 2 < L - 4 || moved + wide / 2 > width - L + 4) continue;
      shapes.push(text([moved, axis + 23], t, "halo", { anchor: "middle" }));
      free = centre < vx ? [moved - wide / 2 - 6, free[1]] : [free[0], moved + wide / 2 + 6];
    }
  }
  if (decisive && !decisive.words)
    shapes.push(
      ...unknownAxis(
        decisive,
        width,
        axis + 34 + 58,
        belief && { kind: x(belief.kind), unkind: x(belief.unkind), y: axis + 30 },
      ),
    );
  return { title: `Window of ${input.title}`, desc: windowWords(input), width, height, shapes };
}

function bell(
  centre: number,
  sd: number,
  x: (v: number) => number,
  axis: number,
  from: number,
  to: number,
  cls: string,
  fails: (v: number) => boolean,
): Shape[] {
  const d: Segment[] = [];
  const bad: Point[] = [];
  for (let i = -35; i <= 35; i++) {
    const v = centre + (i / 10) * sd;
    if (v < from || v > to) continue;
    const p: Point = [x(v), axis - 36 * Math.exp((-i * i) / 200)];
    d.push([d.length === 0 ? "M" : "L", ...p]);
    if (fails(v)) bad.push(p);
  }
  const tail =
    bad.length > 1
      ? [path(strokes([[bad[0]![0], axis], ...bad, [bad.at(-1)![0], axis]], true), "", { fill: "fails" })]
      : [];
  return [...tail, path(d, cls)];
}

/** The guess on its own axis; a pale band ties its kind and unkind ends to those of the value. */
function unknownAxis(
  d: DecisiveFinding,
  width: number,
  y: number,
  ends: { readonly kind: number; readonly unkind: number; readonly y: number } | undefined,
): Shape[] {
  const L = 8;
  const { low, high } = d.guess;
  const { tipping } = d;
  const seen = [low, high, ...(tipping === null ? [] : [tipping])];
  const [a, b] = [Math.min(...seen), Math.max(...seen)];
  const pad = (b - a) * 0.22 || Math.abs(a) * 0.2 || 1;
  const u = (v: number): number => L + ((v - (a - pad)) / (b - a + 2 * pad)) * (width - 2 * L);
  const shapes: Shape[] = [];
  const side = stoppingSide(d);
  if (ends && side) {
    const [kind, unkind] = side === "above" ? [u(low), u(high)] : [u(high), u(low)];
    shapes.push(
      path(
        strokes(
          [
            [ends.kind, ends.y],
            [ends.unkind, ends.y],
            [unkind, y - 9],
            [kind, y - 9],
          ],
          true,
        ),
        "ask-veil",
      ),
    );
  }
  if (tipping !== null && side)
    shapes.push(
      side === "above"
        ? box([u(tipping), y - 8], width - L - u(tipping), 8, "", { fill: "fails" })
        : box([L, y - 8], u(tipping) - L, 8, "", { fill: "fails" }),
    );
  shapes.push(
    line([L, y], [width - L, y], "thin"),
    box([u(low), y - 8], u(high) - u(low), 8, "of-paper"),
    box([u(low), y - 8], u(high) - u(low), 8, "ask-line", { fill: "unknown", data: { guess: "range" } }),
  );
  const { factor } = unitOf(d.shownIn);
  for (const v of [low, high])
    shapes.push(
      line([u(v), y], [u(v), y + 4], "faint"),
      text([u(v), y + 15], figures(v / factor), "", { anchor: "middle" }),
    );
  if (tipping !== null) {
    const t = u(tipping);
    const words = side ? `stops ${side} ${showIn(d.shownIn, tipping)}` : `tips at ${showIn(d.shownIn, tipping)}`;
    const half = textWidth(words, 10.5, true) / 2;
    shapes.push(
      line([t, y - 17], [t, y + 6], "fail-line heavy", { data: { tipping: `${t}` } }),
      path(
        strokes(
          [
            [t - 4.5, y - 22],
            [t + 4.5, y - 22],
            [t, y - 16],
          ],
          true,
        ),
        "of-fail",
      ),
      text([Math.max(L + half, Math.min(width - L - half, t)), y - 27], words, "is-fail halo", { anchor: "middle" }),
    );
  }
  const name = `${sayAddress(d.address)}${d.shownIn === "" ? "" : `, ${d.shownIn}`}`;
  shapes.push(
    text([width - L, y + 31], name, "dark", { anchor: "end" }),
    text([L, y + 31], "striped: not known", "quiet"),
  );
  return shapes;
}

export function windowWords(input: WindowInput): string {
  const { value, least, most, scatter, belief, decisive } = input;
  const say = (v: number) => showIn(input.shownIn, v);
  const bound = [
    ...(least === undefined ? [] : [`at least ${say(least)}`]),
    ...(most === undefined ? [] : [`at most ${say(most)}`]),
  ].join(" and ");
  const out = [`${capital(input.title)} is ${say(value)}; it must be ${bound}.`];
  if (scatter) out.push(`It scatters with a standard deviation of ${say(scatter)}.`);
  if (belief)
    out.push(
      `What is not known puts it between ${say(belief.kind)} at the kind end and ${say(belief.unkind)} at the unkind end.`,
    );
  if (decisive) {
    const side = stoppingSide(decisive);
    const tip =
      decisive.tipping === null || decisive.words
        ? ""
        : side
          ? ` It stops ${side} ${showIn(decisive.shownIn, decisive.tipping)}.`
          : ` It tips at ${showIn(decisive.shownIn, decisive.tipping)}.`;
    out.push(
      `It hangs on ${sayAddress(decisive.address)}: ${sayGuess(decisive)}, middle ${decisive.words ? "either" : showIn(decisive.shownIn, middleOf(decisive.guess))}.${tip}`,
    );
  }
  return aloud(out.join(" "));
}
