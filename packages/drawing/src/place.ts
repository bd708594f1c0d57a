import type { Finding } from "@tapeworthy/core";
import { driveAnchor } from "./drive-parts.ts";
import { filmStrokes } from "./film-line.ts";
import { holdPlace } from "./hold-shape.ts";
import { off, poseOn } from "./route-line.ts";
import { sayAddress, sayGuess, stationWords } from "./say.ts";
import { circle, type Point, path, type Segment, type Shape, strokes } from "./scene.ts";
import { alongRoute, band, faceOf, filmPathOnPaper, outlinePath, peelPlace, pickPlace } from "./side-parts.ts";
import type { Body, UnitShape } from "./unit-shape.ts";
import { length, onPaper, type View } from "./view.ts";

/** Something of the unit that a finding points at. */
export type Place =
  | { readonly kind: "span"; readonly from: string; readonly to: string }
  | { readonly kind: "guide"; readonly name: string }
  | { readonly kind: "bend"; readonly number: number }
  | { readonly kind: "drive"; readonly name: "feed" | "peel" }
  | { readonly kind: "tooth" }
  /** A stretch of the tape: the open pockets, what it is held along, its way out. */
  | { readonly kind: "stretch"; readonly of: "open pockets" | "hold-down" | "run-off" }
  | { readonly kind: "body"; readonly name: string }
  | { readonly kind: "station"; readonly station: number };

/** A place in words. */
export function sayPlace(place: Place): string {
  switch (place.kind) {
    case "span":
      return `the span from ${place.from} to ${place.to}`;
    case "guide":
      return `the ${place.name}`;
    case "bend":
      return `bend ${place.number} of the route`;
    case "drive":
      return `the ${place.name} drive`;
    case "tooth":
      return "the teeth in their holes";
    case "stretch":
      return place.of === "open pockets" ? "the open pockets, from the peel line to the pick" : `the ${place.of}`;
    case "body":
      return place.name;
    case "station":
      return `station ${place.station}, ${stationWords[place.station - 1]}`;
  }
}

/** Where checks act whose station is larger than that. */
const placesOfChecks: readonly (readonly [ids: RegExp, place: Place])[] = [
  [/^(tooth\.(?!disc)|hole\.|tape\.seat|pick\.half-step)/, { kind: "tooth" }],
  [/^hold\.opening$/, { kind: "station", station: 5 }],
  [/^(hold|leaf)\./, { kind: "stretch", of: "hold-down" }],
  [/^part\./, { kind: "stretch", of: "open pockets" }],
  [/^tape\.push$/, { kind: "stretch", of: "run-off" }],
  [/^drive\.(time|stops)$/, { kind: "drive", name: "feed" }],
];

/** Where a finding acts: what its `where` names, else its station. */
export function placeOf(
  shape: UnitShape,
  finding: Pick<Finding, "where" | "station"> & { readonly check?: string },
): Place {
  const { where = "", station, check = "" } = finding;
  const names = ["peel line", ...(shape.led?.guides.map((g) => g.name) ?? [])];
  const spans = shape.led?.spans ?? [];
  const span = spans.find((s) => where.includes(`span ${s.from} to ${s.to}`));
  if (span) return { kind: "span", from: span.from, to: span.to };
  const bend = /\bbend (\d+)/.exec(where);
  if (bend) return { kind: "bend", number: Number(bend[1]) };
  const guide = names.filter((name) => where.includes(`the ${name}`)).sort((a, b) => b.length - a.length)[0];
  if (guide !== undefined) return { kind: "guide", name: guide };
  const name = /\b(feed|peel) drive/.exec(where)?.[1] as "feed" | "peel" | undefined;
  const meant: Place | undefined =
    name && station === 8 ? { kind: "drive", name } : placesOfChecks.find(([ids]) => ids.test(check))?.[1];
  // What the unit does not have can't be pointed at: then its station is.
  return meant && anchorOf(shape, meant) ? meant : { kind: "station", station };
}

/** Stations by what an address or a judgement is called, the first that fits. */
const stationsOfAddresses: readonly (readonly [named: RegExp, station: number])[] = [
  [/^(hold-down|leaf )|^peel lift share|^rest bow/, 3],
  [/^supply|^(contact|loop|bridge) (resistance|inductance)|^trace rise/, 9],
  [/^(part |pick |knock|hop |floor |speed change|warming)|expansion$|swelling$/, 5],
  [
    /^nip|rollers|wander|tack|curl|clutch|torque|seal kind|soft nip|^joint|^(printed creep|steel relaxation|screw preload)/,
    7,
  ],
  [
    /drive|motor|^gear|^worm|^locking|^rotor|^bush|winding|^magnet|^case to air|^room temperature|^brush|^shaft inertia|^index|^stop allowance/,
    8,
  ],
  [/^sprocket|tooth|^P0|^D0|ten-pitch|^hole |^half-step|^neutral line|^push limit|^exit/, 6],
  [
    /^reel|^loop |^wound|^storage|^free time|hysteresis|^board set|^creep|^carrier (modulus|elastic)|^board modulus|^pocket walls/,
    1,
  ],
  [/groove|section|^(T2?|K0|A0|B0|B1|wall)$|clearance|splice|^(tape|wall) friction|^stick rise/, 2],
  [/^film|friction|seal|ageing|rate|front|break|mismatch|square|elastic/, 4],
];
/** Where an unknown acts on the drawing, by its address: friction at the peel edge, preload at the nip, a pocket's figure in the groove. */
export function placeOfAddress(address: string): Place {
  const what = address.replace(/^(?:tapes\/[^/]*|[^/]*)\//, "").replace(/^per width\.\d+\./, "");
  return { kind: "station", station: stationsOfAddresses.find(([named]) => named.test(what))?.[1] ?? 1 };
}

/** The unknown that decides a finding, as the drawing marks it where it acts; undefined where nothing decides. */
export function askedOf(finding: Pick<Finding, "decisive">): { place: Place; label: string; note: string } | undefined {
  const d = finding.decisive;
  return (
    d && {
      place: placeOfAddress(d.address),
      label: sayAddress(d.address),
      note: d.words ? sayGuess(d) : `guess ${sayGuess(d)}`,
    }
  );
}

const boxMiddle = (b: Body): readonly [number, number] => {
  if (b.outline.kind === "circle") return b.outline.at;
  // A box is pointed at beside its middle, where its name stands.
  if (b.outline.kind === "box")
    return [b.outline.from[0] * 0.14 + b.outline.to[0] * 0.86, b.outline.from[1] * 0.78 + b.outline.to[1] * 0.22];
  const n = b.outline.corners.length;
  return b.outline.corners.reduce<readonly [number, number]>(
    (sum, c) => [sum[0] + c[0] / n, sum[1] + c[1] / n],
    [0, 0],
  );
};
const bodyNamed = (shape: UnitShape, ...patterns: readonly RegExp[]): Body | undefined => {
  for (const pattern of patterns) {
    const found = shape.bodies.find((b) => pattern.test(b.name) || pattern.test(b.part ?? ""));
    if (found) return found;
  }
  return undefined;
};

const boardOf = (shape: UnitShape): Body | undefined => bodyNamed(shape, /^board$/i, /board|supply|connector/i);

/** The point of the side view (m) that a station's balloon points at; undefined where the unit has no such member. */
export function stationAnchor(shape: UnitShape, station: number): readonly [x: number, z: number] | undefined {
  const { route, lift, letters } = shape;
  const at = (s: number, height: number) => off(poseOn(route, s), height);
  const top = lift + letters.T;
  const peel = peelPlace(shape) ?? pickPlace(shape);
  switch (station) {
    case 1:
      return at(route.start.s + Math.min(9e-3, (peel - route.start.s) * 0.15), top);
    case 2:
      return at(route.start.s + (peel - route.start.s) * 0.42, -shape.section.depth.value);
    case 3: {
      const hold = shape.holdDown;
      return hold && off(holdPlace(hold, route), Math.max(hold.height, top));
    }
    case 4:
      return shape.led
        ? [shape.led.peel[0], shape.led.peel[2]]
        : peelPlace(shape) === undefined
          ? undefined
          : at(peel, top);
    case 5:
      return at(pickPlace(shape), top);
    case 6: {
      const wheel = shape.sprocket;
      return wheel && [wheel.axis[0] + wheel.body * Math.cos(-0.9), wheel.axis[1] + wheel.body * Math.sin(-0.9)];
    }
    case 7:
      return shape.nip?.axis;
    case 8: {
      const motor = bodyNamed(shape, /feed motor|feed drive/i, /motor/i, /drive|worm/i);
      const [drive] = shape.drives;
      return motor ? boxMiddle(motor) : drive ? driveAnchor(drive) : shape.sprocket?.axis;
    }
    case 9: {
      const board = boardOf(shape);
      return board && boxMiddle(board);
    }
    default:
      return undefined;
  }
}

/** The point (m) a place is pointed at. */
export function anchorOf(shape: UnitShape, place: Place): readonly [x: number, z: number] | undefined {
  switch (place.kind) {
    case "station":
      return stationAnchor(shape, place.station);
    case "guide": {
      if (place.name === "peel line") return stationAnchor(shape, 4);
      const g = shape.led?.guides.find((one) => one.name === place.name);
      return g && [g.through[0], g.through[2]];
    }
    case "span": {
      const span = shape.led?.spans.find((s) => s.from === place.from && s.to === place.to);
      return span && [(span.ends[0][0] + span.ends[1][0]) / 2, (span.ends[0][2] + span.ends[1][2]) / 2];
    }
    case "drive": {
      const drive = shape.drives.find((d) => d.name === place.name);
      return drive && driveAnchor(drive);
    }
    case "tooth": {
      const wheel = shape.sprocket;
      return wheel && off(poseOn(shape.route, wheel.s), shape.lift + shape.letters.T);
    }
    case "stretch": {
      const reach = stretchOf(shape, place.of);
      return reach && off(poseOn(shape.route, (reach[0] + reach[1]) / 2), shape.lift + shape.letters.T);
    }
    case "body": {
      const body = shape.bodies.find((b) => b.name === place.name);
      return body && boxMiddle(body);
    }
    case "bend": {
      const laid = bendOf(shape, place.number);
      return laid && off(poseOn(shape.route, (laid.from.s + laid.to.s) / 2), shape.lift);
    }
  }
}
/** From where to where along the tape. */
function stretchOf(
  shape: UnitShape,
  of: Extract<Place, { kind: "stretch" }>["of"],
): readonly [number, number] | undefined {
  const { holdDown, sprocket, route } = shape;
  if (of === "hold-down") return holdDown && [holdDown.from, Math.max(holdDown.to, holdDown.from + 1e-3)];
  if (of === "run-off") return sprocket && route.end.s > sprocket.s ? [sprocket.s, route.end.s] : undefined;
  const peel = peelPlace(shape);
  const pick = pickPlace(shape);
  return peel !== undefined && peel < pick ? [peel, pick + shape.letters.A0 / 2] : undefined;
}
const bendOf = (shape: UnitShape, number: number) =>
  shape.route.pieces.filter(({ piece }) => "radius" in piece)[number - 1];

/** The place marked on the side view: a dashed line of the hand's colour about it. Empty where the drawing has no such place. */
export function highlightShapes(shape: UnitShape, view: View, place: Place): Shape[] {
  const data = { highlight: place.kind };
  const ring = (at: Point, r: number): Shape[] => [circle(at, r, "hand-line dashed flash", { data })];
  const anchor = anchorOf(shape, place);
  if (!anchor) return [];
  const middle = onPaper(view, anchor);
  if (place.kind === "stretch") {
    const [from, to] = stretchOf(shape, place.of)!;
    const high = shape.lift + shape.letters.T;
    const [low, up] = place.of === "hold-down" ? [high - 1e-3, high + 3e-3] : [-shape.drop - 1e-3, high + 1.2e-3];
    const px = 3 / (view.scale * 1e3);
    const d = band(shape, view, from - px, to + px, low - px, up + px);
    return [path(d, "hand-veil"), path(d, "hand-line dashed flash", { data })];
  }
  if (place.kind === "drive") {
    const drive = shape.drives.find((one) => one.name === place.name)!;
    const reach = drive.worm ? Math.max(drive.worm.long / 2, drive.worm.radius) : 0;
    const around: Shape[] = ring(middle, length(view, reach) + 7);
    return drive.wheel === undefined
      ? around
      : [
          circle(onPaper(view, drive.axis), length(view, drive.wheel) + 4, "hand-line dashed flash", { data }),
          ...around,
        ];
  }
  if (place.kind === "tooth") return ring(middle, Math.max(12, length(view, shape.letters.P0 * 0.75)));
  if (place.kind === "body") {
    const body = shape.bodies.find((b) => b.name === place.name)!;
    return [
      path(outlinePath(view, body.outline), "hand-veil"),
      path(outlinePath(view, body.outline), "hand-line dashed flash", { data }),
    ];
  }
  if (place.kind === "station" && place.station === 9) {
    const board = boardOf(shape);
    if (board) return highlightShapes(shape, view, { kind: "body", name: board.name });
  }
  if (place.kind === "bend") {
    const { from, to } = bendOf(shape, place.number)!;
    const d: Segment[] = [
      ...alongRoute(shape, view, from.s, to.s, shape.lift + shape.letters.T + 2.2e-3),
      ...alongRoute(shape, view, from.s, to.s, -shape.section.depth.value - 3e-3),
    ];
    return [path(d, "hand-line dashed flash", { data })];
  }
  if (place.kind === "span") {
    const i = shape.led!.spans.findIndex((s) => s.from === place.from && s.to === place.to);
    const [a, b, c, d] = faceOf(shape, i).map((p) => onPaper(view, p)) as [Point, Point, Point, Point];
    return [
      path(strokes(rimOf([a, b, c, d], 7), true), "hand-veil"),
      path(strokes(rimOf([a, b, c, d], 7), true), "hand-line dashed flash", { data }),
    ];
  }
  if (place.kind === "guide") {
    const r =
      place.name === "peel line"
        ? shape.led!.edgeRadius
        : place.name === "nip" && shape.nip
          ? Math.max(shape.nip.lower, shape.nip.upper) * 1.5
          : (shape.led!.guides.find((g) => g.name === place.name)?.radius ?? 0);
    return ring(middle, length(view, r) + 9);
  }
  if (place.station === 7 && shape.nip)
    return ring(middle, length(view, Math.max(shape.nip.lower, shape.nip.upper) * 2) + 7);
  if (place.station === 6 && shape.sprocket)
    return ring(onPaper(view, shape.sprocket.axis), length(view, shape.sprocket.tip) + 7);
  if (place.station === 4 && shape.led) {
    const d = filmPathOnPaper(view, filmStrokes(shape.led, shape.nip));
    return [path(d, "hand-line dashed flash", { data }), ...ring(middle, 13)];
  }
  return ring(middle, 15);
}

/** The outline of four corners moved outward, whatever sense they are listed in and however thin the figure is. */
function rimOf([a, b, c, d]: readonly [Point, Point, Point, Point], by: number): Point[] {
  const from: Point = [(a[0] + d[0]) / 2, (a[1] + d[1]) / 2];
  const to: Point = [(b[0] + c[0]) / 2, (b[1] + c[1]) / 2];
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const u: Point = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  const n: Point = [-u[1], u[0]];
  const half = (p: Point, q: Point): number => Math.abs((p[0] - q[0]) * n[0] + (p[1] - q[1]) * n[1]) / 2 + by;
  const [h0, h1] = [half(a, d), half(b, c)];
  const at = (m: Point, along: number, across: number): Point => [
    m[0] + u[0] * along + n[0] * across,
    m[1] + u[1] * along + n[1] * across,
  ];
  return [at(from, -by, h0), at(to, by, h1), at(to, by, -h1), at(from, -by, -h0)];
}
