import type { Finding } from "@tapeworthy/core";
import { filmStrokes } from "./film-line.ts";
import { off, poseOn } from "./route-line.ts";
import { sayAddress, sayGuess } from "./say.ts";
import { circle, type Point, path, type Segment, type Shape, strokes } from "./scene.ts";
import { alongRoute, faceOf, filmPathOnPaper, peelPlace, pickPlace } from "./side-parts.ts";
import type { Body, UnitShape } from "./unit-shape.ts";
import { length, onPaper, type View } from "./view.ts";

/** Something of the unit that a finding points at. */
export type Place =
  | { readonly kind: "span"; readonly from: string; readonly to: string }
  | { readonly kind: "guide"; readonly name: string }
  | { readonly kind: "bend"; readonly number: number }
  | { readonly kind: "station"; readonly station: number };

/** Where a finding acts: what its `where` names, else its station. */
export function placeOf(shape: UnitShape, finding: Pick<Finding, "where" | "station">): Place {
  const { where = "", station } = finding;
  const names = ["peel line", ...(shape.led?.guides.map((g) => g.name) ?? [])];
  const spans = shape.led?.spans ?? [];
  const span = spans.find((s) => where.includes(`span ${s.from} to ${s.to}`));
  if (span) return { kind: "span", from: span.from, to: span.to };
  const bend = /\bbend (\d+)/.exec(where);
  if (bend) return { kind: "bend", number: Number(bend[1]) };
  const guide = names.filter((name) => where.includes(`the ${name}`)).sort((a, b) => b.length - a.length)[0];
  return guide === undefined ? { kind: "station", station } : { kind: "guide", name: guide };
}

/** Where an unknown acts on the drawing, by its address: friction at the peel edge, preload at the nip, a pocket's figure in the groove. */
export function placeOfAddress(address: string): Place {
  const what = address.replace(/^(?:tapes\/[^/]*|[^/]*)\//, "");
  const station = /^nip|rollers|wander|tack|curl|clutch|torque|seal kind/.test(what)
    ? 7
    : /^film|friction|seal|ageing|rate|front|break|mismatch|square|elastic/.test(what)
      ? 4
      : /^sprocket|tooth|^P0|^D0|ten-pitch/.test(what)
        ? 6
        : /^hold-down/.test(what)
          ? 3
          : /drive|motor/.test(what)
            ? 8
            : /groove|section|^(T2?|K0|A0|B0|B1|wall)$|clearance|splice/.test(what)
              ? 2
              : 1;
  return { kind: "station", station };
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
      return hold && at((hold.from + 3 * hold.to) / 4, Math.max(hold.height, top));
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
      return motor ? boxMiddle(motor) : shape.sprocket?.axis;
    }
    case 9: {
      const board = bodyNamed(shape, /^board$/i, /board|supply|connector/i);
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
    case "bend": {
      const laid = bendOf(shape, place.number);
      return laid && off(poseOn(shape.route, (laid.from.s + laid.to.s) / 2), shape.lift);
    }
  }
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
