import type { Station, Verdict } from "@tapeworthy/core";
import { arrow, dimension, sayMeasure } from "./dimension.ts";
import { driveAnchor, driveLines, sayDrive } from "./drive-parts.ts";
import { filmStrokes } from "./film-line.ts";
import { frameShapes, scaleBar, zoneAt, zonesFor } from "./frame.ts";
import { holdDownShapes } from "./hold-parts.ts";
import { anchorOf, highlightShapes, type Place, sayPlace, stationAnchor } from "./place.ts";
import { around, best, type Rect, Room, rectAbout } from "./room.ts";
import { off, poseOn } from "./route-line.ts";
import { capital, counted, list, mmShort, stationWords } from "./say.ts";
import { circle, type Drawing, group, line, type Point, part, path, type Segment, type Shape, text } from "./scene.ts";
import {
  alongRoute,
  band,
  bodyShapes,
  faceOf,
  filmPathOnPaper,
  filmShapes,
  floorShapes,
  guideShapes,
  holeShapes,
  isDrawnElsewhere,
  keepOutShapes,
  lieOf,
  nipShapes,
  outlinePath,
  peelPlace,
  pickPlace,
  pocketPlaces,
  tapeShapes,
  wheelShapes,
} from "./side-parts.ts";
import { cutTo, textWidth } from "./text-width.ts";
import type { Body, UnitShape } from "./unit-shape.ts";
import { verdictMark } from "./verdict-mark.ts";
import { Bounds, fitted, length, onPaper, pointsAlong, type View } from "./view.ts";

export interface SideOptions {
  /** Worst verdict of each station's checks: shown at its balloon. */
  readonly stations?: Readonly<Partial<Record<Station, Verdict>>>;
  /** The station whose finding is open. */
  readonly chosen?: Station;
  /** A span, guide, bend or station to mark. */
  readonly highlight?: Place;
  /** Where balloons and detail stood before: while a hand moves something they keep their places. */
  readonly keep?: Placed;
  /** An unknown marked where it acts: what it is, and what is believed of it. */
  readonly asked?: Asked;
  /** Marks of which a page shows one at a time, each in a group of class "overlay" of its own. */
  readonly overlays?: readonly Overlay[];
  /** Name under which the unit's geometry is shared with other drawings of the page. */
  readonly share?: string;
}
export interface Asked {
  readonly place: Place;
  readonly label: string;
  readonly note: string;
}
/** What a finding points at, and the unknown that decides it. */
export interface Overlay {
  readonly name: string;
  readonly place: Place;
  readonly asked?: Asked;
}
/** What was put where there was room. */
export interface Placed {
  readonly balloons: Readonly<Partial<Record<Station, Point>>>;
  readonly detail?: { readonly at: Point; readonly r: number };
  /** How metres became pixels, in the side view and in the plan below it. */
  readonly view?: View;
  readonly plan?: { readonly view: View; readonly tall: number };
  readonly sections?: { readonly groove: View; readonly nip?: View };
}
export interface SizedOptions extends SideOptions {
  readonly width: number;
  readonly height: number;
}

/** What the drawing must hold (m): route, film, guides and bodies; of rooms kept out only what lies among them. */
export function sideBounds(shape: UnitShape): Bounds {
  const bounds = new Bounds();
  const { route, section, letters, lift } = shape;
  for (const { from, to } of route.pieces)
    for (const pose of [from, poseOn(route, (from.s + to.s) / 2), to])
      for (const height of [lift + letters.T, -section.depth.value - 2e-3]) bounds.add(off(pose, height));
  if (route.pieces.length === 0) bounds.add(off(route.start, 0), 10e-3);
  if (shape.led) {
    for (let i = 0; i < shape.led.spans.length; i++) for (const corner of faceOf(shape, i)) bounds.add(corner);
    for (const g of shape.led.guides) bounds.add([g.through[0], g.through[2]], g.radius * 1.2);
  }
  if (shape.nip) {
    bounds.add([shape.nip.axis[0], shape.nip.axis[1] + shape.nip.upper], shape.nip.upper);
    bounds.add([shape.nip.axis[0], shape.nip.axis[1] - shape.nip.lower], shape.nip.lower);
  }
  if (shape.sprocket) bounds.add(shape.sprocket.axis, shape.sprocket.tip);
  for (const b of shape.bodies)
    if (b.outline.kind === "box") {
      bounds.add(b.outline.from);
      bounds.add(b.outline.to);
    } else if (b.outline.kind === "circle") bounds.add(b.outline.at, b.outline.r);
    else for (const c of b.outline.corners) bounds.add(c);
  return bounds;
}

/** Geometry alone, in the order in which things cover each other. */
export function sideGeometry(shape: UnitShape, view: View): Shape[] {
  return [
    group(bodyShapes(shape, view, "behind"), { class: "bodies" }),
    group(bodyShapes(shape, view, "cut"), { class: "bodies" }),
    group(floorShapes(shape, view), { class: "floor" }),
    group(tapeShapes(shape, view), { class: "tape" }),
    group(wheelShapes(shape, view), { class: "wheel" }),
    // The wheel stands before the cut: the carrier is drawn over it again where the teeth come through.
    group(wheelTop(shape, view), { class: "holes" }),
    group(filmShapes(shape, view), { class: "film" }),
    group(guideShapes(shape, view), { class: "guides" }),
    group(nipShapes(shape, view), { class: "nip" }),
    group(nipFilm(shape, view), { class: "film" }),
    group(holdDownShapes(shape, view), { class: "hold-down" }),
    group(driveLines(shape, view), { class: "drives" }),
    group(bodyShapes(shape, view, "before"), { class: "bodies" }),
  ];
}
function wheelTop(shape: UnitShape, view: View): Shape[] {
  const wheel = shape.sprocket;
  if (!wheel) return [];
  const { letters, lift } = shape;
  const half = Math.min(wheel.tip, 2.6 * letters.P0);
  const [whole, ...teeth] = wheelShapes(shape, view);
  const near: Rect = {
    x: onPaper(view, wheel.axis)[0] - length(view, half),
    y: onPaper(view, off(poseOn(shape.route, wheel.s), lift + wheel.tip))[1],
    width: length(view, 2 * half),
    height: length(view, wheel.tip),
  };
  const carrier = path(band(shape, view, wheel.s - half, wheel.s + half, lift, lift + letters.T), "carrier");
  const edge = onPaper(view, off(poseOn(shape.route, wheel.s), lift))[1];
  // Only what stands above the underside: the tips in their holes.
  const tips = group([{ ...whole!, class: "outline of-paper" } as Shape, ...teeth.slice(0, 0)], {
    clip: {
      box: [near.x, edge - length(view, wheel.tip - wheel.body) - 2],
      width: near.width,
      height: length(view, wheel.tip - wheel.body) + 2,
    },
  });
  return [carrier, ...holeShapes(shape, view), tips];
}
/** Between the rollers the film is seen again, thin: it passes them, it does not end there. */
function nipFilm(shape: UnitShape, view: View): Shape[] {
  if (!shape.led || !shape.nip) return [];
  return [path(filmPathOnPaper(view, filmStrokes(shape.led, shape.nip)), "film-line")];
}

/** The side view with its words in a region of a sheet. */
export interface Region {
  readonly shapes: readonly Shape[];
  readonly view: View;
  readonly placed: Placed;
  /** Overlays by their names, not yet among the shapes. */
  readonly overlays: ReadonlyMap<string, { readonly marks: readonly Shape[]; readonly asked: readonly Shape[] }>;
}

export function sideRegion(
  shape: UnitShape,
  area: Rect,
  options: SideOptions & { readonly detail?: boolean; readonly cuts?: boolean; readonly view?: View } = {},
): Region {
  const bounds = sideBounds(shape);
  const head = 26;
  const view =
    options.view ?? fitted(bounds, [area.x + 34, area.y + head + 34], area.width - 68, area.height - head - 76);
  const room = new Room(area);
  const geometry = sideGeometry(shape, view);
  takeRoom(shape, view, room);
  room.fill({ x: area.x, y: area.y, width: Math.min(area.width, 330), height: head - 2 });
  const shown = { box: [area.x + 1, area.y + head] as Point, width: area.width - 2, height: area.height - head - 1 };
  const shapes: Shape[] = [
    group(keepOutShapes(shape, view), { clip: shown, class: "keep-out" }),
    ...(options.share === undefined ? geometry : [part(`${options.share}-side`, geometry)]),
  ];
  room.fill({ x: area.x + 6, y: area.y + area.height - 28, width: 150, height: 28 });
  const marks = [...markShapes(shape, view, room), ...(options.cuts ? cutMarks(shape, view, room) : [])];
  const dims = dimensionShapes(shape, view, room);
  const detail = options.detail ? detailShapes(shape, view, room, area, options) : undefined;
  const names = bodyNames(shape, view, room, area);
  const high = options.highlight ? highlightShapes(shape, view, options.highlight) : [];
  const asked = options.asked ? askedShapes(shape, view, room, options.asked, true) : [];
  const { shapes: rings, balloons } = balloonShapes(shape, view, room, options);
  shapes.push(
    group(marks, { class: "marks" }),
    group(dims, { class: "dimensions" }),
    ...(detail?.shapes ?? []),
    group(names, { class: "names" }),
    ...high,
    ...asked,
    group(rings, { class: "balloons" }),
  );
  shapes.push(
    text([area.x + 10, area.y + 18], "Side view", "t1 strong"),
    text(
      [area.x + 16 + textWidth("Side view", 12, true), area.y + 18],
      cutTo(`with ${shape.tape}, cut along the pocket row`, 10.5, 320),
      "quiet",
    ),
  );
  shapes.push(...scaleBar([area.x + 16, area.y + area.height - 10], view.scale));
  const overlays = new Map(
    (options.overlays ?? []).map((o) => [
      o.name,
      { marks: highlightShapes(shape, view, o.place), asked: o.asked ? askedShapes(shape, view, room, o.asked) : [] },
    ]),
  );
  return {
    shapes,
    view,
    placed: { balloons, ...(detail ? { detail: { at: detail.at, r: detail.r } } : {}) },
    overlays,
  };
}

/** Marks what the strokes take, so that words keep off them. */
function takeRoom(shape: UnitShape, view: View, room: Room): void {
  const { route, section, letters, lift } = shape;
  const d: Segment[][] = [];
  for (let h = -section.depth.value - 2e-3; h <= lift + letters.T + 1e-9; h += 1e-3)
    d.push(alongRoute(shape, view, route.start.s, route.end.s, h));
  for (const points of d) room.points(densePoints(points), 2);
  for (const b of shape.bodies)
    room.points(pointsAlong(outlinePath(view, b.outline), 3), isDrawnElsewhere(shape, b) ? 0 : 1.2);
  for (const b of shape.keepOut) room.points(pointsAlong(outlinePath(view, b.outline), 3), 0.8);
  if (shape.led) {
    room.points(pointsAlong(filmPathOnPaper(view, filmStrokes(shape.led, shape.nip)), 3), 4);
    for (let i = 0; i < shape.led.spans.length; i++) {
      const corners = faceOf(shape, i).map((p) => onPaper(view, p));
      for (let t = 0; t <= 40; t++)
        for (let u = 0; u <= 10; u++) {
          const mix = (p: Point, q: Point, k: number): Point => [p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k];
          room.points([mix(mix(corners[0]!, corners[1]!, t / 40), mix(corners[3]!, corners[2]!, t / 40), u / 10)], 3);
        }
    }
    for (const g of shape.led.guides)
      room.fill(
        rectAbout(
          onPaper(view, [g.through[0], g.through[2]]),
          length(view, g.radius * 2) + 6,
          length(view, g.radius * 2) + 6,
        ),
        2,
      );
  }
  const rounds: [readonly [number, number], number][] = [];
  if (shape.nip)
    rounds.push(
      [[shape.nip.axis[0], shape.nip.axis[1] - shape.nip.lower], shape.nip.lower],
      [[shape.nip.axis[0], shape.nip.axis[1] + shape.nip.upper], shape.nip.upper],
    );
  if (shape.sprocket) rounds.push([shape.sprocket.axis, shape.sprocket.tip]);
  for (const [at, r] of rounds) {
    const [x, y] = onPaper(view, at);
    const px = length(view, r);
    for (let q = 0.15; q <= 1; q += 0.12)
      for (let a = 0; a < 40; a++)
        room.points([[x + px * q * Math.cos(a * 0.157), y + px * q * Math.sin(a * 0.157)]], 1.6);
  }
}
const densePoints = (d: readonly Segment[]): Point[] => pointsAlong(d, 3);

function markLines(shape: UnitShape, view: View): Shape[] {
  const { route, lift, letters, section } = shape;
  return shape.marks.map((mark) => {
    const pose = poseOn(route, mark.s);
    const px = 1 / (view.scale * 1e3);
    return line(
      onPaper(view, off(pose, -section.depth.value - 14 * px)),
      onPaper(view, off(pose, lift + letters.T + 26 * px)),
      "axis",
      { data: { mark: mark.name } },
    );
  });
}
/** Pick and peel as axes, travel as an arrow. */
function markShapes(shape: UnitShape, view: View, room: Room): Shape[] {
  const shapes = markLines(shape, view);
  for (const one of shapes) if (one.kind === "path") room.points(pointsAlong(one.d, 3), 2);
  const { route, lift } = shape;
  const { heading } = route.start;
  const tip = onPaper(view, off(route.start, lift));
  const at = (px: number): Point => [tip[0] - px * Math.cos(heading), tip[1] + px * Math.sin(heading)];
  shapes.push(
    line(at(30), at(5), "dim"),
    arrow(at(5), -heading),
    text([at(18)[0], at(18)[1] + 14], "reel", "quiet halo", { anchor: "middle" }),
  );
  room.fill({ x: at(30)[0], y: at(18)[1] - 4, width: 26, height: 20 }, 5);
  return shapes;
}

/** Where the sections are taken: heavy strokes and letters, off what they would hide. */
function cutMarks(shape: UnitShape, view: View, room: Room): Shape[] {
  const shapes: Shape[] = [];
  const rectAt = (from: Point, way: Point, d: number): Rect => ({
    x: from[0] + way[0] * (d + 4) - 14,
    y: from[1] + way[1] * (d + 4) - 6,
    width: 18,
    height: 12,
  });
  const costAt = (from: Point, way: Point, d: number): number => room.cost(rectAt(from, way, d)) + d * 0.1;
  const stroke = (from: Point, way: Point, letter: string, distances: readonly number[]): void => {
    const d = best(distances, (one) => costAt(from, way, one));
    const [a, b]: [Point, Point] = [
      [from[0] + way[0] * d, from[1] + way[1] * d],
      [from[0] + way[0] * (d + 8), from[1] + way[1] * (d + 8)],
    ];
    shapes.push(
      line(a, b, "heavy"),
      text([a[0] - 5, (a[1] + b[1]) / 2 + 4], letter, "t1 strong halo", { anchor: "end" }),
    );
    room.fill(rectAt(from, way, d));
  };
  // Across a pocket before the peel line: of the first few the one whose marks hide least.
  const pick = pickPlace(shape);
  const peel = peelPlace(shape) ?? pick;
  const first = pick - Math.ceil((pick - peel) / shape.letters.P1 + 0.4) * shape.letters.P1;
  const ends = (s: number) => {
    const pose = poseOn(shape.route, s);
    const up: Point = [-Math.sin(pose.heading), -Math.cos(pose.heading)];
    return [
      { from: onPaper(view, off(pose, shape.lift + shape.letters.T)), way: up, distances: [4, 10, 18] },
      {
        from: onPaper(view, off(pose, -shape.section.depth.value)),
        way: [-up[0], -up[1]] as Point,
        distances: [9, 16, 24],
      },
    ];
  };
  const pockets = [0, 1, 2, 3, 4, 5]
    .map((n) => first - n * shape.letters.P1)
    .filter((s, n) => n === 0 || s > shape.route.start.s + shape.letters.A0);
  const s = best(
    pockets,
    (one) =>
      ends(one).reduce((sum, e) => sum + Math.min(...e.distances.map((d) => costAt(e.from, e.way, d))), 0) +
      ((first - one) / shape.letters.P1) * 3,
  );
  for (const { from, way, distances } of ends(s)) stroke(from, way, "A", distances);
  if (shape.nip) {
    const [x, z] = shape.nip.axis;
    stroke(onPaper(view, [x, z + 2 * shape.nip.upper]), [0, -1], "B", [6, 12, 20, 30, 42, 56]);
    stroke(onPaper(view, [x, z - 2 * shape.nip.lower]), [0, 1], "B", [6, 12, 20, 30, 42, 56]);
  }
  return shapes;
}

function dimensionShapes(shape: UnitShape, view: View, room: Room): Shape[] {
  const shapes: Shape[] = [];
  const { route, section, lift, letters } = shape;
  const below = (s: number, px: number): Point =>
    onPaper(view, off(poseOn(route, s), -section.depth.value - px / (view.scale * 1e3)));
  const level = (s: number): boolean => Math.abs(Math.sin(poseOn(route, s).heading)) < 1e-6;
  // Peel to pick, pick to wheel: under the floor, one line.
  const chain: { from: number; to: number; words: string; address?: string | undefined; value?: number }[] = [];
  const pick = pickPlace(shape);
  for (const step of shape.steps) {
    const [a, b] = [shape.marks.find((m) => m.name === step.from)!.s, shape.marks.find((m) => m.name === step.to)!.s];
    const { address, value } = step.measure;
    chain.push({ from: a, to: b, words: sayMeasure(step.measure), address, value });
  }
  if (shape.sprocket && Math.abs(shape.sprocket.s - pick) > 1e-6)
    chain.push({
      from: Math.min(pick, shape.sprocket.s),
      to: Math.max(pick, shape.sprocket.s),
      words: mmShort(Math.abs(shape.sprocket.s - pick)),
    });
  for (const one of chain) {
    if (!level(one.from) || !level(one.to)) continue;
    const [a, b] = [below(one.from, 4), below(one.to, 4)];
    const wide = textWidth(one.words, 12);
    const tight = b[0] - a[0] < Math.max(18, wide - 30);
    const rectAt = (offset: number, at: "start" | "end" | "middle"): Rect => {
      const over = Math.max(3, (wide - (b[0] - a[0])) / 2);
      const from = at === "start" ? a[0] - wide - 24 : a[0] - over;
      const to = at === "end" ? b[0] + wide + 24 : b[0] + over;
      return { x: from, y: a[1] + offset - 15, width: to - from, height: 20 };
    };
    const places = [24, 32, 40, 50, 62, 76, 92, 110].flatMap((offset) =>
      (tight ? (["start", "end"] as const) : (["middle"] as const)).map((at) => ({ offset, at })),
    );
    const { offset, at } = best(places, (p) => room.cost(rectAt(p.offset, p.at)) + p.offset * 0.25);
    // What lies before the pick moves at its far end: the pick stays where it is placed.
    const hold = { value: one.value ?? 0, end: one.from < pick ? "from" : "to" } as const;
    shapes.push(dimension(a, b, { off: offset, words: one.words, address: one.address, at, hold }));
    room.fill(rectAt(offset, at));
    for (const p of [a, b])
      room.points(
        pointsAlong(
          [
            ["M", p[0], p[1]],
            ["L", p[0], p[1] + offset],
          ],
          3,
        ),
        2,
      );
  }
  // Pitch of the pockets, over the tape upstream of the peel.
  const peel = peelPlace(shape) ?? pick;
  const words = `P1 ${mmShort(letters.P1)}`;
  const firsts = pocketPlaces(shape).filter(
    (p) => p + letters.P1 < peel - letters.P1 * 0.4 && level(p) && level(p + letters.P1),
  );
  const spots = firsts.map((p) => {
    const [a, b] = [p, p + letters.P1].map((q) =>
      onPaper(view, off(poseOn(route, q), lift + letters.T + 2 / (view.scale * 1e3))),
    ) as [Point, Point];
    const wide = Math.max(
      b[0] - a[0] + 8,
      b[0] - a[0] < textWidth(words, 12) + 16 ? b[0] - a[0] + textWidth(words, 12) + 14 : 0,
    );
    return { a, b, rect: { x: a[0] - 4, y: a[1] - 37, width: wide, height: 35 } };
  });
  const free = spots.filter((p) => room.cost(p.rect) < 60);
  if (free.length > 0) {
    const { a, b, rect } = best(free.reverse(), (p) => room.cost(p.rect));
    shapes.push(dimension(a, b, { off: -20, words }));
    room.fill(rect);
  }
  // Bends: radius at the underside.
  let bend = 0;
  for (const { from, piece, to } of route.pieces) {
    if (!("radius" in piece)) continue;
    bend++;
    const middle = poseOn(route, (from.s + to.s) / 2);
    const rim = onPaper(view, off(middle, -section.depth.value - 2e-3));
    const inward = piece.turn < 0 ? -1 : 1;
    const rimIn = piece.turn < 0 ? rim : onPaper(view, off(middle, lift + letters.T));
    const foot: Point = [
      rimIn[0] - inward * 46 * Math.sin(middle.heading),
      rimIn[1] - inward * 46 * Math.cos(middle.heading),
    ];
    const words = `R${mmShort(piece.radius)}`;
    const wide = textWidth(words, 12);
    shapes.push(
      line(foot, rimIn, "dim"),
      arrow(rimIn, Math.atan2(rimIn[1] - foot[1], rimIn[0] - foot[0])),
      text([foot[0], foot[1] + (inward < 0 ? 12 : -4)], words, "dim-text halo", {
        anchor: "middle",
        data: { bend: `${bend}` },
      }),
    );
    room.fill({ x: foot[0] - wide / 2 - 3, y: foot[1] - 4, width: wide + 6, height: 20 });
    room.points(
      pointsAlong(
        [
          ["M", ...foot],
          ["L", ...rimIn],
        ],
        3,
      ),
      3,
    );
  }
  // The fold at the peel line.
  if (shape.led) {
    const { peel: at, heading, peelAngle } = shape.led;
    const centre = onPaper(view, [at[0], at[2]]);
    const r = Math.max(26, length(view, 7e-3));
    const on = (a: number, q = r): Point => [centre[0] + q * Math.cos(a), centre[1] - q * Math.sin(a)];
    const end = heading + peelAngle;
    shapes.push(
      path(
        [
          ["M", ...on(heading)],
          ["A", ...on(end), r, peelAngle > Math.PI, false],
        ],
        "dim",
      ),
      arrow(on(end), -(end + Math.PI / 2) + 0.12),
    );
    const words = `θ ${((peelAngle * 180) / Math.PI).toFixed(0)}°`;
    const wide = textWidth(words, 12);
    const spot = best(
      [0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.15].map((t) => on(heading + peelAngle * t, r + 12)),
      (p) => room.cost({ x: p[0] - wide / 2, y: p[1] - 8, width: wide, height: 13 }),
    );
    shapes.push(text([spot[0], spot[1] + 4], words, "dim-text halo", { anchor: "middle" }));
    room.fill({ x: spot[0] - wide / 2, y: spot[1] - 8, width: wide, height: 13 });
    for (let t = 0; t <= 1; t += 0.05) room.points([on(heading + peelAngle * t)], 2);
  }
  return shapes;
}
function bodyNames(shape: UnitShape, view: View, room: Room, area: Rect): Shape[] {
  const shapes: Shape[] = [];
  const all = [
    ...shape.bodies.filter((b) => !isDrawnElsewhere(shape, b)).map((b) => ({ b, out: false })),
    ...shape.keepOut.map((b) => ({ b, out: true })),
  ];
  for (const { b, out } of all) {
    const bounds = new Bounds();
    const o = b.outline;
    if (o.kind === "circle") bounds.add(o.at, o.r);
    else for (const c of o.kind === "box" ? [o.from, o.to] : o.corners) bounds.add(c);
    const [x0, y0] = onPaper(view, [bounds.x0, bounds.z1]);
    const [x1, y1] = onPaper(view, [bounds.x1, bounds.z0]);
    const inside = {
      x0: Math.max(area.x + 4, x0),
      x1: Math.min(area.x + area.width - 4, x1),
      y0: Math.max(area.y + 28, y0),
      y1: Math.min(area.y + area.height - 4, y1),
    };
    if (inside.x1 - inside.x0 < 4 || inside.y1 - inside.y0 < 4) continue;
    const lie = lieOf(shape, b);
    const words = out
      ? `${b.name}, kept out`
      : lie === "before"
        ? `${b.name}, in front`
        : lie === "behind"
          ? `${b.name}, behind`
          : b.name;
    const wide = textWidth(words, 10.5);
    const tall = 11;
    const spots: Point[] = [];
    for (const fx of [0.5, 0.25, 0.75, 0.1, 0.9])
      for (const fy of [0.5, 0.3, 0.7, 0.12, 0.88]) {
        const p: Point = [inside.x0 + (inside.x1 - inside.x0) * fx, inside.y0 + (inside.y1 - inside.y0) * fy];
        if (
          p[0] - wide / 2 > inside.x0 + 5 &&
          p[0] + wide / 2 < inside.x1 - 5 &&
          p[1] - tall / 2 > inside.y0 &&
          p[1] + tall / 2 < inside.y1
        )
          spots.push(p);
      }
    const outsideSpots: Point[] = [0.5, 0.3, 0.7, 0.1, 0.9].flatMap((f): Point[] => [
      [inside.x0 + (inside.x1 - inside.x0) * f, inside.y1 + 9],
      [inside.x0 + (inside.x1 - inside.x0) * f, inside.y0 - 8],
      [inside.x1 + wide / 2 + 6, inside.y0 + (inside.y1 - inside.y0) * f],
      [inside.x0 - wide / 2 - 6, inside.y0 + (inside.y1 - inside.y0) * f],
    ]);
    const spot = best(
      [...spots, ...outsideSpots],
      (p) =>
        room.cost({ x: p[0] - wide / 2 - 2, y: p[1] - tall / 2 - 1, width: wide + 4, height: tall + 2 }) +
        (spots.includes(p) ? 0 : 6) +
        14 * all.filter((one) => one.b !== b && covers(view, one.b, p)).length,
    );
    const board = b.part === "board" || /board/i.test(b.name);
    shapes.push(
      text([spot[0], spot[1] + 3.6], cutTo(words, 10.5, 170), out ? "quiet halo" : board ? "is-board halo" : "halo", {
        anchor: "middle",
      }),
    );
    room.fill({ x: spot[0] - wide / 2, y: spot[1] - tall / 2, width: wide, height: tall });
  }
  for (const drive of shape.drives) {
    const tip = onPaper(view, driveAnchor(drive));
    const words = `${drive.name} ${sayDrive(drive)}`;
    const wide = textWidth(words, 10.5);
    const spot = best(
      around(tip, [20, 28, 38, 50, 64], 24),
      (p) => room.cost(rectAbout(p, wide + 4, 14)) + Math.hypot(p[0] - tip[0], p[1] - tip[1]) * 0.12,
    );
    // What stands off its drive is tied to it.
    const edge: Point = [
      Math.max(spot[0] - wide / 2, Math.min(spot[0] + wide / 2, tip[0])),
      spot[1] + (spot[1] < tip[1] ? 6 : -7),
    ];
    if (Math.hypot(edge[0] - tip[0], edge[1] - tip[1]) > 22) shapes.push(line(edge, tip, "leader"));
    shapes.push(text([spot[0], spot[1] + 3.6], words, "quiet halo", { anchor: "middle" }));
    room.fill(rectAbout(spot, wide, 12));
  }
  return shapes;
}

/** A name inside another body would name that one; a wall that spans everything takes no harm. */
function covers(view: View, b: Body, [x, y]: Point): boolean {
  const o = b.outline;
  if (o.kind !== "box") return false;
  const [[x0, y0], [x1, y1]] = [onPaper(view, [o.from[0], o.to[1]]), onPaper(view, [o.to[0], o.from[1]])];
  return (x1 - x0) * (y1 - y0) < 30000 && x > x0 && x < x1 && y > y0 && y < y1;
}

function balloonShapes(
  shape: UnitShape,
  view: View,
  room: Room,
  options: SideOptions,
): { shapes: Shape[]; balloons: Partial<Record<Station, Point>> } {
  const shapes: Shape[] = [];
  const balloons: Partial<Record<Station, Point>> = {};
  for (let i = 1 as Station; i <= 9; i++) {
    const anchor = stationAnchor(shape, i);
    if (!anchor) continue;
    const tip = onPaper(view, anchor);
    const verdict = options.stations?.[i];
    const marked = verdict === "stops" || verdict === "depends";
    // The mark stands at the balloon's upper right and needs its own room.
    const taken = (p: Point): Rect =>
      marked ? { x: p[0] - 13, y: p[1] - 21, width: 36, height: 34 } : rectAbout(p, 25, 25);
    const at =
      options.keep?.balloons[i] ??
      best(
        around(tip, [30, 40, 52, 66, 84, 106], 32),
        (p) => room.cost(taken(p)) * 1.4 + Math.hypot(p[0] - tip[0], p[1] - tip[1]) * 0.1,
        (p) => room.crossing(tip, p) * 0.6,
      );
    const state = options.chosen === i ? "chosen" : verdict === "stops" || verdict === "depends" ? verdict : "";
    const cls = (name: string) => (state === "" ? name : `${name} ${state}`);
    const one: Shape[] = [
      line(at, tip, cls("leader")),
      circle(tip, 1.7, cls("dot")),
      circle(at, 9.5, cls("balloon")),
      text([at[0], at[1] + 4.2], `${i}`, state === "chosen" ? "t1 onhand" : "t1 strong", { anchor: "middle" }),
    ];
    if (verdict === "stops" || verdict === "depends") one.push(verdictMark(verdict, [at[0] + 9, at[1] - 18], 11));
    shapes.push(group(one, { class: "station", data: { station: `${i}` } }));
    balloons[i] = at;
    room.fill(taken(at));
    room.points(
      pointsAlong(
        [
          ["M", ...tip],
          ["L", ...at],
        ],
        3,
      ),
      3,
    );
  }
  return { shapes, balloons };
}

function askedShapes(shape: UnitShape, view: View, room: Room, asked: Asked, keepsRoom = false): Shape[] {
  const anchor = anchorOf(shape, asked.place);
  if (!anchor) return [];
  const tip = onPaper(view, anchor);
  const wide = Math.max(textWidth(asked.label, 10.5, true), textWidth(asked.note, 10.5)) + 6;
  const at = best(
    around(tip, [50, 66, 84, 104, 128, 150], 32),
    (p) =>
      room.cost(rectAbout(p, wide, 30)) * 1.4 +
      room.crossing(tip, p) * 0.8 +
      Math.hypot(p[0] - tip[0], p[1] - tip[1]) * 0.08,
  );
  const left = at[0] < tip[0];
  const foot: Point = [at[0] + (left ? wide / 2 : -wide / 2), at[1]];
  if (keepsRoom) room.fill(rectAbout(at, wide, 30));
  return [
    group(
      [
        circle(tip, 7, "ask-line heavy"),
        line(
          foot,
          [
            tip[0] + (foot[0] - tip[0]) * (7 / Math.max(8, Math.hypot(foot[0] - tip[0], foot[1] - tip[1]))),
            tip[1] + (foot[1] - tip[1]) * (7 / Math.max(8, Math.hypot(foot[0] - tip[0], foot[1] - tip[1]))),
          ],
          "ask-line",
        ),
        text([foot[0] + (left ? -4 : 4), at[1] - 3], asked.label, "is-ask halo", { anchor: left ? "end" : "start" }),
        text([foot[0] + (left ? -4 : 4), at[1] + 10], asked.note, "is-ask halo", { anchor: left ? "end" : "start" }),
      ],
      { class: "asked" },
    ),
  ];
}

/** What the circle shows larger: peel and pick, or the teeth in their holes while a finding about them is open. */
function detailOf(
  shape: UnitShape,
  place: Place | undefined,
): { readonly middle: readonly [number, number]; readonly reach: number; readonly name: string } | undefined {
  const wheel = shape.sprocket;
  if (place?.kind === "tooth" && wheel) {
    const middle = off(poseOn(shape.route, wheel.s), shape.lift + shape.letters.T / 2);
    return { middle, reach: 1.35 * shape.letters.P0, name: "H, teeth in their holes " };
  }
  const peel = shape.led ? ([shape.led.peel[0], shape.led.peel[2]] as const) : undefined;
  if (!peel) return undefined;
  const pick = off(poseOn(shape.route, pickPlace(shape)), shape.lift);
  return {
    middle: [(peel[0] + pick[0]) / 2, (peel[1] + pick[1]) / 2],
    reach: Math.hypot(peel[0] - pick[0], peel[1] - pick[1]) / 2 + 3.5e-3,
    name: "P, peel and pick ",
  };
}
/** What a tooth meets of its hole: the round hole is wider in its middle than where the tooth's corners stand. */
function openingMarks(shape: UnitShape, view: View): Shape[] {
  const { sprocket, letters, lift } = shape;
  if (!sprocket?.opening) return [];
  const first = pickPlace(shape) + letters.P2;
  const near = first + Math.round((sprocket.s - first) / letters.P0) * letters.P0;
  return [-1, 0, 1].flatMap((n) =>
    [-1, 1].map((side) => {
      const s = near + n * letters.P0 + (side * sprocket.opening!) / 2;
      const pose = poseOn(shape.route, s);
      const px = 3 / (view.scale * 1e3);
      return line(onPaper(view, off(pose, lift - px)), onPaper(view, off(pose, lift + letters.T + px)), "rim-line");
    }),
  );
}

/** A circle that shows a part of the drawing larger. */
function detailShapes(
  shape: UnitShape,
  view: View,
  room: Room,
  area: Rect,
  { keep, highlight }: SideOptions,
): { shapes: Shape[]; at: Point; r: number } | undefined {
  const shown = detailOf(shape, highlight);
  if (!shown) return undefined;
  const { middle, reach } = shown;
  const kept = keep?.detail;
  const small = length(view, reach);
  const tip = onPaper(view, middle);
  const candidates: { at: Point; r: number }[] = [];
  const teeth = highlight?.kind === "tooth";
  // What is looked at closely is shown larger than what only goes along.
  const most = teeth
    ? Math.max(92, Math.min(180, area.height * 0.33))
    : Math.max(92, Math.min(150, area.height * 0.25));
  for (const r of [1, 0.91, 0.83, ...(teeth ? [] : [0.74, 0.65])].map((part) => Math.round(most * part)))
    if (r / small >= 1.5)
      for (let x = area.x + r + 8; x <= area.x + area.width - r - 8; x += 10)
        for (let y = area.y + r + 8; y <= area.y + area.height - r - 26; y += 8) candidates.push({ at: [x, y], r });
  if (candidates.length === 0) return undefined;
  const cost = (c: { at: Point; r: number }): number =>
    hiddenOf(shape, view, c) +
    room.cost({ x: c.at[0] - c.r - 4, y: c.at[1] - c.r - 4, width: 2 * c.r + 8, height: 2 * c.r + 26 }) +
    Math.hypot(c.at[0] - tip[0], c.at[1] - tip[1]) * 0.06 +
    (most - c.r) * 1.2;
  const { at, r } = kept ?? best(candidates, cost, (c) => room.crossing(tip, c.at) * 0.7);
  const times = Math.floor((r / small) * 10) / 10;
  const scale = Math.round(view.scale * times * 100) / 100;
  const inner: View = { scale, origin: [at[0] - middle[0] * 1e3 * scale, at[1] + middle[1] * 1e3 * scale] };
  const [dx, dy] = [at[0] - tip[0], at[1] - tip[1]];
  const far = Math.hypot(dx, dy) || 1;
  const rs = r / times;
  room.fill(rectAbout(at, 2 * r + 8, 2 * r + 26));
  room.fill({ x: at[0] - 60, y: at[1] + r, width: 120, height: 18 });
  room.points(
    pointsAlong(
      [
        ["M", ...tip],
        ["L", ...at],
      ],
      3,
    ),
    3,
  );
  const shapes = [
    group(
      [
        circle(at, r, "of-paper"),
        group(
          [
            ...keepOutShapes(shape, inner),
            ...sideGeometry(shape, inner),
            ...markLines(shape, inner),
            ...(teeth ? openingMarks(shape, inner) : []),
          ],
          {
            clip: { circle: at, r },
          },
        ),
        circle(at, r, "outline"),
        circle(tip, rs, "thin"),
        line(
          [tip[0] + (dx / far) * rs, tip[1] + (dy / far) * rs],
          [at[0] - (dx / far) * r, at[1] - (dy / far) * r],
          "thin",
        ),
        text(
          [at[0], at[1] + r + 14],
          [
            { text: shown.name, class: "strong" },
            { text: `×${times}`, class: "quiet" },
          ],
          "halo",
          { anchor: "middle" },
        ),
      ],
      { class: "detail" },
    ),
  ];
  return { shapes, at, r };
}

/** What a circle hides of the bodies that have a name inside, by their area; a wall that spans everything takes no harm. */
function hiddenOf(shape: UnitShape, view: View, { at, r }: { readonly at: Point; readonly r: number }): number {
  return shape.bodies
    .filter((b) => !isDrawnElsewhere(shape, b))
    .reduce((sum, b) => {
      if (b.outline.kind !== "box") return sum;
      const [x0, y0] = onPaper(view, [b.outline.from[0], b.outline.to[1]]);
      const [x1, y1] = onPaper(view, [b.outline.to[0], b.outline.from[1]]);
      const area = (x1 - x0) * (y1 - y0);
      if (area > 30000 || area <= 0) return sum;
      const across = Math.max(0, Math.min(x1, at[0] + r) - Math.max(x0, at[0] - r));
      const down = Math.max(0, Math.min(y1, at[1] + r) - Math.max(y0, at[1] - r));
      return sum + (90 * across * down) / area;
    }, 0);
}

/** The side view as a drawing of its own, with frame and zones. */
export function sideView(shape: UnitShape, options: SizedOptions): Drawing & { readonly placed: Placed } {
  const { width, height } = options;
  const zones = zonesFor(width);
  const area: Rect = { x: zones.edge, y: zones.edge, width: width - zones.edge, height: height - zones.edge };
  const region = sideRegion(shape, area, { ...options, detail: width >= 700 });
  const marked = options.highlight && anchorOf(shape, options.highlight);
  const zone = marked && zoneAt(onPaper(region.view, marked), width, height, zones);
  return {
    title: `${shape.unit}${shape.revision === "" ? "" : `, revision ${shape.revision}`}, side view with ${shape.tape}`,
    desc: sideWords(shape, options),
    width,
    height,
    shapes: [
      { kind: "box", at: [0, 0], width, height, class: "ground" },
      ...region.shapes,
      ...[...region.overlays].map(([name, { marks, asked }]) =>
        group([...marks, ...asked], { class: "overlay", data: { overlay: name } }),
      ),
      ...frameShapes(width, height, zones, zone),
    ],
    placed: region.placed,
  };
}

/** What the side view shows, said aloud. */
export function sideWords(shape: UnitShape, options: SideOptions = {}): string {
  const { led, sprocket, nip, letters } = shape;
  const say = (v: number) => `${mmShort(v).replace("−", "minus ")} mm`;
  const out = [
    `Drawn to scale from the side, cut along the pocket row; the tape travels from left to right. Tape ${shape.tape}: ${shape.kind}, ${say(letters.W)} wide, pockets every ${say(letters.P1)}${shape.drop > 0 ? `, hanging ${say(shape.drop)} below the carrier` : ""}.`,
  ];
  for (const step of shape.steps)
    out.push(`From ${step.from} to ${step.to} ${say(step.measure.value)} along the tape.`);
  const bends = shape.route.pieces.flatMap(({ piece }) => ("radius" in piece ? [piece] : []));
  out.push(
    bends.length === 0
      ? "The route is straight."
      : `The route has ${counted(bends.length, "bend")}: ${list(bends.map((b) => `${((Math.abs(b.turn) * 180) / Math.PI).toFixed(0)} degrees ${b.turn > 0 ? "up" : "down"} at radius ${say(b.radius)}`))}.`,
  );
  if (led) {
    const led2 = led.guides.map((g) => g.name);
    out.push(
      `The film folds by ${((led.peelAngle * 180) / Math.PI).toFixed(0)} degrees at the peel line and passes ${list(led2)}; ${say(led.length)} from the peel line to the nip.`,
    );
    const twisted = led.spans.filter((s) => s.twist > 0.01);
    if (twisted.length > 0)
      out.push(
        `It turns ${list(twisted.map((s) => `by ${((s.twist * 180) / Math.PI).toFixed(0)} degrees from ${s.from} to ${s.to}`))}.`,
      );
  }
  if (shape.trouble) out.push(`The film's path can't be drawn: ${shape.trouble}.`);
  if (nip)
    out.push(
      `Nip of two rollers, radius ${say(nip.lower)} and ${say(nip.upper)}, ${say(nip.axis[0])} along and ${say(nip.axis[1])} up from the origin.`,
    );
  if (sprocket)
    out.push(
      `Sprocket wheel of ${sprocket.teeth} teeth, pitch radius ${say(sprocket.pitch)}, ${say(Math.abs(sprocket.s - pickPlace(shape)))} ${sprocket.s >= pickPlace(shape) ? "behind" : "before"} the pick.`,
    );
  const names = shape.bodies.filter((b) => !isDrawnElsewhere(shape, b)).map((b) => b.name);
  if (names.length > 0) out.push(`Bodies: ${list(names)}.`);
  if (shape.keepOut.length > 0) out.push(`Kept out of: ${list(shape.keepOut.map((b) => b.name))}.`);
  const open = Object.entries(options.stations ?? {}).filter(([, v]) => v === "stops" || v === "depends");
  if (open.length > 0)
    out.push(`${capital(list(open.map(([n, v]) => `station ${n}, ${stationWords[Number(n) - 1]}, ${v}`)))}.`);
  const h = options.highlight;
  if (h) out.push(`Marked: ${sayPlace(h)}.`);
  if (options.asked) out.push(`Not known: ${options.asked.label}, ${options.asked.note}.`);
  return out.join(" ");
}
