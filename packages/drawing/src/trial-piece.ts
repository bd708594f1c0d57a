import { type Station, stations, type TrialPiece } from "@tapeworthy/core";
import { scaleBar } from "./frame.ts";
import { stationAnchor } from "./place.ts";
import { around, best, Room, rectAbout } from "./room.ts";
import { capital, counted, list } from "./say.ts";
import { box, circle, type Drawing, group, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { isDrawnElsewhere } from "./side-parts.ts";
import { sideBounds, sideGeometry } from "./side-view.ts";
import { textWidth } from "./text-width.ts";
import type { UnitShape } from "./unit-shape.ts";
import { Bounds, fitted, length, onPaper, pointsAlong, type View } from "./view.ts";

/** Axis that a hand turns, m; what its own motor turns needs nothing added. */
function crankAt(shape: UnitShape, { kept, turned }: TrialPiece): readonly [x: number, z: number] | undefined {
  if (turned !== "a hand crank") return undefined;
  const nip = shape.nip && ([shape.nip.axis[0], shape.nip.axis[1] - shape.nip.lower] as const);
  const wheel = shape.sprocket?.axis;
  return (kept.includes(7) ? nip : undefined) ?? (kept.includes(6) ? wheel : undefined) ?? nip ?? wheel;
}

/**
 * The trial piece in the side view: what lies within the cut in ink, the rest of the unit pale, the cut as a long dash-dot-dot line, and what is added to
 * turn it. Only the cut and a little around it is shown; the cut is there to see what stays, not as a part to print.
 */
export function trialPieceDrawing(
  shape: UnitShape,
  piece: TrialPiece,
  { width, height }: { readonly width: number; readonly height: number },
): Drawing {
  const shown = new Bounds();
  const whole = sideBounds(shape);
  for (const { x, z } of piece.outline) shown.add([x, z]);
  if (piece.outline.length < 3) {
    shown.add([whole.x0, whole.z0]);
    shown.add([whole.x1, whole.z1]);
  }
  // A little of the unit around it shows where the piece belongs.
  const around6 = 0.12 * Math.max(shown.width, shown.height);
  const framed = new Bounds();
  framed.add([
    Math.max(shown.x0 - around6, Math.min(whole.x0, shown.x0)),
    Math.max(shown.z0 - around6, Math.min(whole.z0, shown.z0)),
  ]);
  framed.add([
    Math.min(shown.x1 + around6, Math.max(whole.x1, shown.x1)),
    Math.min(shown.z1 + around6, Math.max(whole.z1, shown.z1)),
  ]);
  const view = fitted(framed, [14, 16], width - 28, height - 44);
  const cut = piece.outline.map(({ x, z }) => onPaper(view, [x, z]));
  const geometry = sideGeometry(shape, view);
  const shapes: Shape[] = [
    box([0, 0], width, height, "ground"),
    box([0, 0], width, height, "", { fill: "grid" }),
    group(geometry, { class: "pale" }),
  ];
  if (cut.length >= 3)
    shapes.push(
      path(strokes(cut, true), "of-paper"),
      group(geometry, { clip: { corners: cut }, class: "kept" }),
      path(strokes(cut, true), "hand-line cut", { data: { cut: piece.check } }),
    );
  const room = new Room({ x: 4, y: 4, width: width - 8, height: height - 8 });
  room.points(pointsAlong(strokes(cut, true), 4), 4);
  room.fill({ x: 4, y: height - 26, width: 150, height: 24 });
  for (const g of geometry) markRoom(room, g);
  const crank = crankAt(shape, piece);
  if (crank) shapes.push(...crankShapes(view, crank, room));
  shapes.push(...stationMarks(shape, piece, view, room, cut, { width, height }));
  shapes.push(...bodyNames(shape, piece, view, room, cut));
  // The cut is named where its line has room.
  const words = "cut line";
  const w = textWidth(words, 10.5, true);
  if (cut.length >= 3) {
    const spots = pointsAlong(strokes(cut, true), 9).flatMap((p): Point[] => [...around(p, [w / 2 + 8], 8)]);
    const spot = best(spots, (p) => room.cost(rectAbout(p, w + 6, 13)) + (inside(cut, p) ? 30 : 0));
    shapes.push(text([spot[0], spot[1] + 3.6], words, "is-hand halo", { anchor: "middle" }));
  }
  shapes.push(...scaleBar([14, height - 10], view.scale));
  return {
    title: `Trial piece for ${piece.check}, cut out of ${shape.unit}${shape.revision === "" ? "" : ` revision ${shape.revision}`}`,
    desc: trialPieceWords(piece),
    width,
    height,
    shapes,
  };
}
function markRoom(room: Room, s: Shape): void {
  if (s.kind === "group" || s.kind === "part") for (const one of s.shapes) markRoom(room, one);
  else if (s.kind === "path") room.points(pointsAlong(s.d, 5), 1.2);
  else if (s.kind === "circle")
    for (let a = 0; a < 24; a++)
      room.points([[s.at[0] + s.r * Math.cos(a * 0.262), s.at[1] + s.r * Math.sin(a * 0.262)]], 1.2);
}
/** Names of the bodies within the cut, where one has room; what spans more than the piece needs none. */
function bodyNames(shape: UnitShape, piece: TrialPiece, view: View, room: Room, cut: readonly Point[]): Shape[] {
  const across = (i: 0 | 1): number => Math.max(...cut.map((p) => p[i])) - Math.min(...cut.map((p) => p[i]));
  const area = across(0) * across(1);
  return shape.bodies.flatMap((b): Shape[] => {
    if (!piece.bodies.includes(b.name) || isDrawnElsewhere(shape, b) || b.outline.kind !== "box") return [];
    const [x0, y0] = onPaper(view, [b.outline.from[0], b.outline.to[1]]);
    const [x1, y1] = onPaper(view, [b.outline.to[0], b.outline.from[1]]);
    if ((x1 - x0) * (y1 - y0) > 0.4 * area) return [];
    const wide = textWidth(b.name, 10.5);
    const spots = [0.5, 0.25, 0.75].flatMap((fx): Point[] => {
      const x = x0 + (x1 - x0) * fx;
      return [
        [x, (y0 + y1) / 2],
        [x, y0 - 8],
        [x, y1 + 8],
      ];
    });
    const fits = spots.filter((p) => inside(cut, [p[0] - wide / 2, p[1]]) && inside(cut, [p[0] + wide / 2, p[1]]));
    if (fits.length === 0) return [];
    const cost = (p: Point): number => room.cost(rectAbout(p, wide + 4, 12));
    const spot = best(fits, cost);
    if (cost(spot) > 30) return [];
    room.fill(rectAbout(spot, wide, 12));
    return [text([spot[0], spot[1] + 3.6], b.name, "halo", { anchor: "middle" })];
  });
}
/** Whether a point lies in a convex cut. */
function inside(cut: readonly Point[], [x, y]: Point): boolean {
  let sign = 0;
  for (let i = 0; i < cut.length; i++) {
    const [a, b] = [cut[i]!, cut[(i + 1) % cut.length]!];
    const cross = (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]);
    if (cross === 0) continue;
    if (sign === 0) sign = Math.sign(cross);
    else if (Math.sign(cross) !== sign) return false;
  }
  return true;
}
/** A crank on its axis; no part of the unit, so its grip stands where it hides least. */
function crankShapes(view: View, at: readonly [number, number], room: Room): Shape[] {
  const hub = onPaper(view, at);
  const long = Math.max(26, Math.min(60, length(view, 14e-3)));
  const words = "hand crank added";
  const w = textWidth(words, 10.5, true);
  const grip = best(around(hub, [long], 24), (p) => room.cost(rectAbout(p, 16, 16)) + room.crossing(hub, p) * 0.5);
  room.fill(rectAbout(grip, 18, 18));
  room.points(pointsAlong(strokes([hub, grip]), 3), 4);
  const spot = best(
    around(grip, [16, 24, 34, 46, w / 2 + 14], 24),
    (p) => room.cost(rectAbout(p, w + 6, 13)) + Math.hypot(p[0] - grip[0], p[1] - grip[1]) * 0.2,
  );
  room.fill(rectAbout(spot, w + 6, 13));
  return [
    group(
      [
        line(hub, grip, "paper-line"),
        line(hub, grip, "hand-line"),
        circle(hub, 4, "hand-line thinner of-handbg"),
        circle(grip, 6, "hand-line of-handbg"),
      ],
      { class: "added", data: { added: "a hand crank" } },
    ),
    text([spot[0], spot[1] + 3.6], words, "is-hand halo", { anchor: "middle" }),
  ];
}
/** Numbers of the stations kept, as the balloons of the side view; of those whose place was cut away none but the check's own. */
function stationMarks(
  shape: UnitShape,
  { kept, station }: TrialPiece,
  view: View,
  room: Room,
  cut: readonly Point[],
  { width, height }: { readonly width: number; readonly height: number },
): Shape[] {
  return kept.flatMap((s): Shape[] => {
    const anchor = stationAnchor(shape, s);
    if (!anchor) return [];
    const tip = onPaper(view, anchor);
    if (s !== station && cut.length >= 3 && !inside(cut, tip)) return [];
    if (tip[0] < 4 || tip[0] > width - 4 || tip[1] < 4 || tip[1] > height - 4) return [];
    const at = best(
      around(tip, [18, 24, 32, 42, 54], 24),
      (p) =>
        room.cost(rectAbout(p, 22, 22)) * 1.4 +
        room.crossing(tip, p) * 0.4 +
        Math.hypot(p[0] - tip[0], p[1] - tip[1]) * 0.1,
    );
    room.fill(rectAbout(at, 22, 22));
    const chosen = s === station;
    const cls = (name: string): string => (chosen ? `${name} chosen` : name);
    return [
      group(
        [
          line(at, tip, cls("leader")),
          circle(tip, 1.7, cls("dot")),
          circle(at, 8.5, cls("balloon")),
          text([at[0], at[1] + 4], `${s}`, chosen ? "onhand" : "strong", { anchor: "middle" }),
        ],
        { class: "station", data: { station: `${s}` } },
      ),
    ];
  });
}

const named = (of: readonly Station[]): string => list(of.map((s) => `${s} ${stations[s]}`));
export interface PieceRow {
  readonly term: "Keep" | "Leave out" | "Turned" | "Parts" | "Print" | "Run" | "Settles";
  readonly words: string;
}
/** Keep, leave out, what turns it, what is printed; what is run and what it settles where somebody says so. */
export function trialPieceRows(
  { kept, left, turned, parts, mass, time }: TrialPiece,
  { run, settles }: { readonly run?: string; readonly settles?: string } = {},
): readonly PieceRow[] {
  const share = (s: number): string => (s > 0.995 ? "" : ` (${Math.max(1, Math.round(100 * s))} %)`);
  const print = [
    ...(mass === null ? [] : [`${(mass * 1e3).toPrecision(2).replace(/\.0$/, "")} g`]),
    ...(time === null ? [] : [`${(time / 3600).toPrecision(2).replace(/\.0$/, "")} h`]),
  ];
  const row = (term: PieceRow["term"], words: string | undefined): PieceRow[] =>
    words === undefined || words === "" ? [] : [{ term, words }];
  return [
    ...row("Keep", named(kept)),
    ...row("Leave out", left.length === 0 ? "nothing" : named(left)),
    ...row("Turned", turned === "nothing turns" ? "nothing turns" : `by ${turned}`),
    ...row("Parts", list(parts.map((p) => `${p.name}${share(p.share)}`))),
    ...row("Print", print.join(", ")),
    ...row("Run", run),
    ...row("Settles", settles),
  ];
}
export function trialPieceWords(piece: TrialPiece): string {
  const out = [`Side view of what ${piece.check} needs.`];
  for (const { term, words } of trialPieceRows(piece)) out.push(`${term}: ${words}.`);
  const xs = piece.outline.map((p) => p.x);
  const zs = piece.outline.map((p) => p.z);
  if (xs.length > 0)
    out.push(
      `The cut is ${Math.round((Math.max(...xs) - Math.min(...xs)) * 1e3)} mm long and ${Math.round((Math.max(...zs) - Math.min(...zs)) * 1e3)} mm high.`,
    );
  if (piece.bodies.length > 0)
    out.push(
      `${capital(counted(piece.bodies.length, "body").replace("bodys", "bodies"))} within it: ${list(piece.bodies)}.`,
    );
  return out.join(" ");
}
