import { barCentre, edgeCentre, type FilmStroke, filmStrokes } from "./film-line.ts";
import { phaseOf, rideOf } from "./moment.ts";
import { between, off, poseOn } from "./route-line.ts";
import { circle, group, line, type Point, path, type Segment, type Shape, strokes } from "./scene.ts";
import { fromHeight, type ToothPoint } from "./tooth-line.ts";
import type { Body, Outline, UnitShape } from "./unit-shape.ts";
import { length, onPaper, type View } from "./view.ts";

/** A stroke that follows the route at a height off the underside. Bends stay arcs. */
export function alongRoute(
  shape: UnitShape,
  view: View,
  s0: number,
  s1: number,
  height: number,
  begin = true,
): Segment[] {
  const d: Segment[] = [];
  const pieces = between(shape.route, s0, s1);
  const first = pieces[0]?.from ?? poseOn(shape.route, s0);
  if (begin) d.push(["M", ...onPaper(view, off(first, height))]);
  for (const { piece, to } of pieces) {
    const end = onPaper(view, off(to, height));
    const radius = "line" in piece ? 0 : piece.radius - Math.sign(piece.turn) * height;
    if ("line" in piece || radius <= 1e-9) d.push(["L", ...end]);
    else d.push(["A", ...end, length(view, radius), Math.abs(piece.turn) > Math.PI, piece.turn < 0]);
  }
  return d;
}
/** The same stroke travelled back. */
function backAlong(shape: UnitShape, view: View, s0: number, s1: number, height: number): Segment[] {
  const pieces = between(shape.route, s0, s1);
  const last = pieces.at(-1)?.to ?? poseOn(shape.route, s1);
  const d: Segment[] = [["L", ...onPaper(view, off(last, height))]];
  for (const { piece, from } of [...pieces].reverse()) {
    const end = onPaper(view, off(from, height));
    const radius = "line" in piece ? 0 : piece.radius - Math.sign(piece.turn) * height;
    if ("line" in piece || radius <= 1e-9) d.push(["L", ...end]);
    else d.push(["A", ...end, length(view, radius), Math.abs(piece.turn) > Math.PI, piece.turn > 0]);
  }
  return d;
}
/** A band that follows the route between two heights. */
export const band = (shape: UnitShape, view: View, s0: number, s1: number, low: number, high: number): Segment[] => [
  ...alongRoute(shape, view, s0, s1, high),
  ...backAlong(shape, view, s0, s1, low),
  ["Z"],
];

const mark = (shape: UnitShape, name: string): number | undefined => shape.marks.find((m) => m.name === name)?.s;
/** Where the parts are picked; the end of the route where nothing is marked. */
export const pickPlace = (shape: UnitShape): number => mark(shape, "pick") ?? shape.route.end.s;
export const peelPlace = (shape: UnitShape): number | undefined => mark(shape, "peel");
/** Centres of the pockets on the drawn route: the one at the pick and whole pitches from it, moved on by what an index has moved the tape. */
export function pocketPlaces(shape: UnitShape): number[] {
  const { start, end } = shape.route;
  const half = shape.letters.A0 / 2 + shape.letters.wall;
  const pitch = shape.letters.P1;
  const pick = pickPlace(shape) + rideOf(shape);
  const out: number[] = [];
  for (let n = Math.ceil((start.s + half - pick) / pitch); pick + n * pitch <= end.s - half; n++)
    out.push(pick + n * pitch);
  return out;
}

/** The carrier: its far edge as a grey band, what is cut of it dark, pockets at their pitch, parts up to the pick. */
export function tapeShapes(shape: UnitShape, view: View): Shape[] {
  const { letters, lift, drop, route } = shape;
  const [s0, s1] = [route.start.s, route.end.s];
  const under = lift;
  const top = lift + letters.T;
  const places = pocketPlaces(shape);
  const half = letters.A0 / 2;
  const shapes: Shape[] = [];
  // During an index the pocket that stood at the pick is empty already.
  const pick = pickPlace(shape) + rideOf(shape);
  const last = shape.moment ? pick - letters.P1 / 2 : pick;
  for (const s of places) {
    const corner = (ds: number, height: number): Point => {
      // A rigid pocket hangs from its two rims: in a bend they lie on the arc, its walls along the middle's normal.
      const rim = poseOn(route, s + ds);
      const at = off(rim, under);
      const h = height - under;
      const { heading } = poseOn(route, s);
      return onPaper(view, [at[0] - h * Math.sin(heading), at[1] + h * Math.cos(heading)]);
    };
    const data = { pocket: `${Math.round((s - pick) / letters.P1)}` };
    const outer = half + letters.wall;
    if (shape.kind === "embossed") {
      shapes.push(
        path(
          strokes([
            corner(-outer, under),
            corner(-outer, under - drop),
            corner(outer, under - drop),
            corner(outer, under),
          ]),
          "carrier",
          { data },
        ),
      );
      shapes.push(
        path(
          strokes(
            [corner(-half, top), corner(-half, top - letters.K0), corner(half, top - letters.K0), corner(half, top)],
            true,
          ),
          "of-cavity",
        ),
      );
    }
    if (s <= last + 1e-9) {
      const floor = shape.kind === "punched" ? under : top - letters.K0;
      const [side, room] = [half * 0.87, Math.min(letters.K0, top - floor)];
      shapes.push(
        path(
          strokes(
            [
              corner(-side, floor),
              corner(-side, floor + room * 0.78),
              corner(side, floor + room * 0.78),
              corner(side, floor),
            ],
            true,
          ),
          "of-part",
        ),
      );
    }
  }
  // Behind the cut the carrier's far edge closes the view; the cut itself leaves the pockets open.
  const land = path(band(shape, view, s0, s1, under, top), "of-land");
  const cuts: Segment[] = [];
  let from = s0;
  for (const s of places) {
    cuts.push(...band(shape, view, from, s - half, under, top));
    from = s + half;
  }
  cuts.push(...band(shape, view, from, s1, under, top));
  return [land, ...shapes, path(cuts, "carrier", { data: { what: "carrier" } })];
}

/** The groove's floor: its face is given, how far it reaches down is not, so the hatch under it has no lower edge. */
export function floorShapes(shape: UnitShape, view: View): Shape[] {
  const depth = shape.section.depth.value;
  const { start, end } = shape.route;
  const thick = Math.min(2e-3, 7 / (view.scale * 1e3));
  return [
    path(band(shape, view, start.s, end.s, -depth - thick, -depth), "", { fill: "hatch" }),
    path(alongRoute(shape, view, start.s, end.s, -depth), "outline", { data: { what: "floor" } }),
  ];
}

/** One flank of a tooth from the wheel's body to the middle of its tip, as core's outline has it; a straight one where it has none. */
export function outlineOfTooth(wheel: NonNullable<UnitShape["sprocket"]>): ToothPoint[] {
  const line = fromHeight(wheel.outline, wheel.body);
  if (line.length > 1) return line;
  const half = (r: number): number =>
    Math.max(wheel.along * 0.08, wheel.along / 2 - (r - wheel.pitch) * Math.tan(wheel.flank));
  return [
    [wheel.body, half(wheel.body)],
    [wheel.tip, half(wheel.tip)],
    [wheel.tip, 0],
  ];
}

/** A wheel with its teeth, their flanks and tips as core's outline has them. */
export function wheelShapes(shape: UnitShape, view: View): Shape[] {
  const wheel = shape.sprocket;
  if (!wheel) return [];
  const centre = onPaper(view, wheel.axis);
  const at = (r: number, a: number): Point => [
    centre[0] + length(view, r) * Math.cos(a),
    centre[1] - length(view, r) * Math.sin(a),
  ];
  const flank = outlineOfTooth(wheel);
  const turn = (rho: number, half: number): readonly [r: number, angle: number] => [
    Math.hypot(rho, half),
    Math.atan2(half, rho),
  ];
  const phase = phaseOf(shape);
  const d: Segment[] = [];
  const root = length(view, wheel.body);
  const [footR, foot] = turn(...flank[0]!);
  for (let i = 0; i < wheel.teeth; i++) {
    const a = phase - (i * 2 * Math.PI) / wheel.teeth;
    const rise = at(footR, a + foot);
    d.push(i === 0 ? ["M", ...rise] : ["A", ...rise, root, false, true]);
    for (const [rho, half] of flank.slice(1)) {
      const [r, by] = turn(rho, half);
      d.push(["L", ...at(r, a + by)]);
    }
    for (const [rho, half] of [...flank].reverse().slice(1)) {
      const [r, by] = turn(rho, half);
      d.push(["L", ...at(r, a - by)]);
    }
  }
  const first = at(footR, phase + foot);
  d.push(["A", ...first, root, false, true], ["Z"]);
  const reach = length(view, wheel.tip) + 7;
  return [
    path(d, "outline veil", { data: { what: "wheel", teeth: `${wheel.teeth}` } }),
    circle(centre, length(view, wheel.pitch), "axis", { data: { what: "pitch circle" } }),
    circle(centre, Math.max(2.5, length(view, 2e-3)), "outline"),
    line([centre[0] - reach, centre[1]], [centre[0] + reach, centre[1]], "axis"),
    line([centre[0], centre[1] - reach], [centre[0], centre[1] + reach], "axis"),
  ];
}
/** The sprocket holes about the wheel: gaps in the carrier, with the teeth in them. */
export function holeShapes(shape: UnitShape, view: View): Shape[] {
  const { sprocket, letters, lift, route } = shape;
  if (!sprocket) return [];
  const first = pickPlace(shape) + letters.P2 + rideOf(shape);
  const shapes: Shape[] = [];
  for (let n = -2; n <= 2; n++) {
    const s = first + (Math.round((sprocket.s - first) / letters.P0) + n) * letters.P0;
    if (s - letters.D0 / 2 < route.start.s || s + letters.D0 / 2 > route.end.s) continue;
    shapes.push(
      path(band(shape, view, s - letters.D0 / 2, s + letters.D0 / 2, lift, lift + letters.T), "of-paper", {
        data: { hole: `${n}` },
      }),
    );
  }
  return shapes;
}

/** Strokes of the film's middle line as one path. */
export function filmPathOnPaper(view: View, list: readonly FilmStroke[]): Segment[] {
  const d: Segment[] = [];
  for (const one of list) {
    if (d.length === 0) d.push(["M", ...onPaper(view, one.from)]);
    if (one.kind === "straight") d.push(["L", ...onPaper(view, one.to)]);
    else {
      const angle = (p: readonly [number, number]) => Math.atan2(p[1] - one.at[1], p[0] - one.at[0]);
      const turned = one.side * (angle(one.to) - angle(one.from));
      const whole = ((turned % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      // A hair the wrong way round is no turn at all.
      if (whole > 2 * Math.PI - 0.35) d.push(["L", ...onPaper(view, one.to)]);
      else d.push(["A", ...onPaper(view, one.to), length(view, one.r), whole > Math.PI, one.side < 0]);
    }
  }
  return d;
}

/** Corners of a span of film in the side view, edge to edge. */
export function faceOf(shape: UnitShape, i: number): readonly (readonly [x: number, z: number])[] {
  const span = shape.led!.spans[i]!;
  const half = shape.film.width / 2;
  const edge = (end: 0 | 1, side: 1 | -1): readonly [number, number] => [
    span.ends[end][0] + side * half * span.fans[end][0],
    span.ends[end][2] + side * half * span.fans[end][2],
  ];
  return [edge(0, 1), edge(1, 1), edge(1, -1), edge(0, -1)];
}
const spread = (corners: readonly (readonly [number, number])[]): number =>
  Math.max(
    Math.hypot(corners[0]![0] - corners[3]![0], corners[0]![1] - corners[3]![1]),
    Math.hypot(corners[1]![0] - corners[2]![0], corners[1]![1] - corners[2]![1]),
  );

/** The film on the tape, its folds, spans and what it passes. */
export function filmShapes(shape: UnitShape, view: View): Shape[] {
  const { lift, letters, route } = shape;
  const peel = peelPlace(shape);
  const top = lift + letters.T;
  const shapes: Shape[] = [];
  const until = shape.led ? Math.min(peel ?? route.end.s, route.end.s) : (peel ?? route.end.s);
  shapes.push(
    path(alongRoute(shape, view, route.start.s, until, top), "film-line", { data: { what: "film on the tape" } }),
  );
  if (shape.kind === "punched")
    shapes.push(path(alongRoute(shape, view, route.start.s, route.end.s, lift), "film-edge"));
  const led = shape.led;
  if (!led) return shapes;
  for (let i = 0; i < led.spans.length; i++) {
    const corners = faceOf(shape, i);
    if (length(view, spread(corners)) < 1) continue;
    const [a, b, c, d] = corners.map((p) => onPaper(view, p));
    shapes.push(
      path(strokes([a!, b!, c!, d!], true), "film-face"),
      path([...strokes([a!, b!]), ...strokes([d!, c!])], "film-edge", { data: { span: `${i + 1}` } }),
    );
  }
  const laid = filmStrokes(led, shape.nip);
  shapes.push(path(filmPathOnPaper(view, laid), "film-line", { data: { what: "film" } }));
  const last = led.guides.at(-1)!;
  if (last.name === "nip") {
    const from = onPaper(view, [last.through[0], last.through[2]]);
    const before = led.spans.at(-1)!.ends[0];
    const way = before[0] < last.through[0] ? 1 : -1;
    shapes.push(
      path(
        [
          ["M", ...from],
          ["L", from[0] + way * 14, from[1]],
        ],
        "film-line far",
      ),
    );
  }
  return shapes;
}

/** Guides: bars that stand across the film as circles, others as their outline from the side; the edge as a wedge under the fold. */
export function guideShapes(shape: UnitShape, view: View): Shape[] {
  const led = shape.led;
  if (!led) return [];
  const shapes: Shape[] = [...edgeShapes(shape, view)];
  led.guides.forEach((g, i) => {
    if (g.name === "nip" && shape.nip) return;
    const data = { guide: g.name };
    const r = length(view, g.radius);
    if (Math.abs(g.along[1]) > 0.999) {
      const centre = onPaper(view, barCentre(led, i));
      shapes.push(
        circle(centre, r, g.rolls ? "outline of-paper" : "outline", {
          data,
          ...(g.rolls ? {} : { fill: "counterhatch" as const }),
        }),
      );
      return;
    }
    // Its line seen from the side: as long as the film lies on it and a little more.
    const span = led.spans[i] ?? led.spans.at(-1)!;
    const half = (shape.film.width / 2) * Math.hypot(...span.fans[1]) + 1.5e-3;
    const [ux, uz] = [g.along[0], g.along[2]];
    const seen = Math.hypot(ux, uz);
    const [dx, dz] = seen > 1e-9 ? [ux / seen, uz / seen] : [1, 0];
    const end = (side: 1 | -1): Point =>
      onPaper(view, [g.through[0] + side * half * ux, g.through[2] + side * half * uz]);
    const [p, q] = [end(1), end(-1)];
    const [nx, ny] = [dz * r, dx * r];
    shapes.push(
      path(
        strokes(
          [
            [p[0] - nx, p[1] - ny],
            [p[0] + nx, p[1] + ny],
            [q[0] + nx, q[1] + ny],
            [q[0] - nx, q[1] - ny],
          ],
          true,
        ),
        "outline of-paper",
        { data },
      ),
    );
    shapes.push(line([p[0] + dx * 5, p[1] - dz * 5], [q[0] - dx * 5, q[1] + dz * 5], "axis"));
  });
  return shapes;
}

/** The edge the film folds over and the blade behind it, drawn within the fold: its length is not given. */
function edgeShapes(shape: UnitShape, view: View): Shape[] {
  const led = shape.led!;
  const c = edgeCentre(led);
  const r = led.edgeRadius;
  const shapes: Shape[] = [];
  const fold = led.peelAngle;
  if (fold > 1.9) {
    const next = led.guides[0]!.through;
    const reach = Math.min(7e-3, 0.7 * Math.hypot(next[0] - led.peel[0], next[2] - led.peel[2]));
    const back = led.heading + Math.PI;
    const out = led.heading + fold;
    const low: readonly [number, number] = [c[0] + r * Math.sin(led.heading), c[1] - r * Math.cos(led.heading)];
    const high: readonly [number, number] = [c[0] + r * Math.sin(out), c[1] - r * Math.cos(out)];
    const far = (p: readonly [number, number], a: number): Point =>
      onPaper(view, [p[0] + reach * Math.cos(a), p[1] + reach * Math.sin(a)]);
    shapes.push(
      path(
        [
          ["M", ...onPaper(view, low)],
          ["A", ...onPaper(view, high), length(view, r), fold > Math.PI, false],
          ["L", ...far(high, out)],
          ["L", ...far(low, back)],
          ["Z"],
        ],
        "of-steel",
        { data: { guide: "peel line" } },
      ),
    );
    return shapes;
  }
  return [circle(onPaper(view, c), length(view, r), "of-steel", { data: { guide: "peel line" } })];
}

/** The two rollers of the nip: rubber is crossed, a hard face is plain. */
export function nipShapes(shape: UnitShape, view: View): Shape[] {
  const nip = shape.nip;
  if (!nip) return [];
  const shapes: Shape[] = [];
  const pair = [
    { r: nip.lower, side: -1, face: nip.faces[0] },
    { r: nip.upper, side: 1, face: nip.faces[1] ?? nip.faces[0] },
  ] as const;
  for (const { r, side, face } of pair) {
    const centre = onPaper(view, [nip.axis[0], nip.axis[1] + side * r]);
    const px = length(view, r);
    shapes.push(circle(centre, px, "outline of-paper", { data: { what: side < 0 ? "lower roller" : "upper roller" } }));
    if (isRubber(face)) shapes.push(circle(centre, px, "outline", { fill: "rubber" }));
    shapes.push(circle(centre, Math.max(2.5, px * 0.27), "outline of-paper"));
    shapes.push(
      line([centre[0] - px - 5, centre[1]], [centre[0] + px + 5, centre[1]], "axis"),
      line([centre[0], centre[1] - px - 5], [centre[0], centre[1] + px + 5], "axis"),
    );
  }
  return shapes;
}
export const isRubber = (face: string | undefined): boolean =>
  /^(NBR|EPDM|NR|CR|PU|TPU|FKM|silicone|rubber|polyurethane)$/i.test(face ?? "");

/** How a body lies to the plane of the cut, which runs through the middle of the pockets. */
export type Lie = "cut" | "behind" | "before";
export const lieOf = (shape: UnitShape, body: Body): Lie =>
  body.y[1] < shape.middle ? "before" : body.y[0] > shape.middle ? "behind" : "cut";

export function outlinePath(view: View, outline: Outline): Segment[] {
  if (outline.kind === "box") {
    const [x0, z0] = outline.from;
    const [x1, z1] = outline.to;
    return strokes(
      [onPaper(view, [x0, z0]), onPaper(view, [x1, z0]), onPaper(view, [x1, z1]), onPaper(view, [x0, z1])],
      true,
    );
  }
  if (outline.kind === "polygon")
    return strokes(
      outline.corners.map((c) => onPaper(view, c)),
      true,
    );
  const [cx, cy] = onPaper(view, outline.at);
  const r = length(view, outline.r);
  return [["M", cx - r, cy], ["A", cx + r, cy, r, false, true], ["A", cx - r, cy, r, false, true], ["Z"]];
}
/** Bodies that the drawing shows as what they are, so their envelope is not drawn again. */
export function isDrawnElsewhere(shape: Pick<UnitShape, "sprocket" | "nip">, body: Body): boolean {
  const { outline } = body;
  if (outline.kind !== "circle") return false;
  const near = (p: readonly [number, number]): boolean =>
    Math.hypot(outline.at[0] - p[0], outline.at[1] - p[1]) < 0.3e-3;
  if (shape.sprocket && near(shape.sprocket.axis)) return true;
  const { nip } = shape;
  return (
    nip !== undefined && (near([nip.axis[0], nip.axis[1] - nip.lower]) || near([nip.axis[0], nip.axis[1] + nip.upper]))
  );
}
export function bodyShapes(shape: UnitShape, view: View, lie: Lie): Shape[] {
  return shape.bodies
    .filter((b) => lieOf(shape, b) === lie && !isDrawnElsewhere(shape, b))
    .map((b) => {
      const d = outlinePath(view, b.outline);
      const board = b.part === "board" || /board/i.test(b.name);
      const data = { body: b.name };
      if (lie === "before") return path(d, board ? "board-line phantom" : "phantom", { data });
      if (board) return path(d, "board-line of-body", { data });
      return path(d, lie === "cut" ? "outline of-body" : "thin of-body", { data });
    });
}
/** Room that belongs to something else: its outline with a slanted rim inside. */
export function keepOutShapes(shape: UnitShape, view: View): Shape[] {
  return shape.keepOut.map((b) => {
    const data = { body: b.name };
    const whole = outlinePath(view, b.outline);
    return group([
      path([...whole, ...innerRim(view, b.outline, 7)], "", { fill: "outside" }),
      path(whole, "phantom", { data }),
    ]);
  });
}
/** The outline drawn the other way round and a rim smaller, so that only the rim is filled; a polygon is filled whole. */
function innerRim(view: View, outline: Outline, rim: number): Segment[] {
  if (outline.kind === "polygon") return [];
  if (outline.kind === "circle") {
    const [cx, cy] = onPaper(view, outline.at);
    const r = length(view, outline.r) - rim;
    return r <= 0
      ? []
      : [["M", cx - r, cy], ["A", cx + r, cy, r, false, false], ["A", cx - r, cy, r, false, false], ["Z"]];
  }
  const [x0, y0] = onPaper(view, outline.from);
  const [x1, y1] = onPaper(view, outline.to);
  if (x1 - x0 <= 2 * rim || y0 - y1 <= 2 * rim) return [];
  return strokes(
    [
      [x0 + rim, y0 - rim],
      [x0 + rim, y1 + rim],
      [x1 - rim, y1 + rim],
      [x1 - rim, y0 - rim],
    ],
    true,
  );
}
