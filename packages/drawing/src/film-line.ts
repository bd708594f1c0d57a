import type { FilmShape, UnitShape } from "./unit-shape.ts";

type Flat = readonly [x: number, z: number];
/** A circle the film lies on: its centre to the left (+1) or right (-1) of the travel. */
interface Turn {
  readonly at: Flat;
  readonly r: number;
  readonly side: 1 | -1;
}
/** A place the film passes in the side view: over which circle it comes and over which it goes. */
interface Stop {
  readonly point: Flat;
  readonly coming: Turn | undefined;
  readonly going: Turn | undefined;
}
/** A stroke of the film in the side view, m: straight, or round a circle. */
export type FilmStroke =
  | { readonly kind: "straight"; readonly from: Flat; readonly to: Flat }
  | {
      readonly kind: "round";
      readonly from: Flat;
      readonly to: Flat;
      readonly at: Flat;
      readonly r: number;
      readonly side: 1 | -1;
    };

const unit = ([x, z]: Flat): Flat => {
  const long = Math.hypot(x, z);
  return long > 0 ? [x / long, z / long] : [1, 0];
};
const minus = (a: Flat, b: Flat): Flat => [a[0] - b[0], a[1] - b[1]];
const cross = (a: Flat, b: Flat): number => a[0] * b[1] - a[1] * b[0];
const isAcross = (along: readonly [number, number, number]): boolean => Math.abs(along[1]) > 0.999;

/** Centre of a bar: inside the bend, so that the guide's line lies on its face. */
export function barCentre(film: FilmShape, i: number): Flat {
  const g = film.guides[i]!;
  const here: Flat = [g.through[0], g.through[2]];
  const before: Flat =
    i === 0 ? [film.peel[0], film.peel[2]] : [film.guides[i - 1]!.through[0], film.guides[i - 1]!.through[2]];
  const next = film.guides[i + 1];
  const into = unit(minus(here, before));
  const out = next ? unit(minus([next.through[0], next.through[2]], here)) : into;
  const bend: Flat = [out[0] - into[0], out[1] - into[1]];
  const turned = Math.hypot(...bend) > 1e-6 ? unit(bend) : ([-into[1], into[0]] as const);
  return [here[0] + turned[0] * g.radius, here[1] + turned[1] * g.radius];
}

/** Centre of the edge the film folds over: it stands on the tape, the film leaves it at the peel line. */
export const edgeCentre = (film: FilmShape): Flat => [
  film.peel[0] - film.edgeRadius * Math.sin(film.heading),
  film.peel[2] + film.edgeRadius * Math.cos(film.heading),
];

/**
 * The middle line of the film in the side view, from the peel line to the last guide, laid round the edge, the bars and the rollers that
 * stand across it. film/path.ts takes guides as lines; so the strokes pass each guide's own point and leave its radius room.
 */
export function filmStrokes(film: FilmShape, nip: UnitShape["nip"]): FilmStroke[] {
  const stops = stopsOf(film, nip);
  const out: FilmStroke[] = [];
  let from: Flat = stops[0]!.point;
  for (let i = 0; i + 1 < stops.length; i++) {
    const [a, b] = [stops[i]!, stops[i + 1]!];
    const [leave, reach] = tangent(a.going, a.point, b.coming, b.point);
    if (a.going) out.push({ kind: "round", from, to: leave, ...a.going });
    out.push({ kind: "straight", from: leave, to: reach });
    if (b.coming && b.coming !== b.going) {
      out.push({ kind: "round", from: reach, to: b.point, ...b.coming });
      from = b.point;
    } else from = reach;
  }
  return out;
}

function stopsOf(film: FilmShape, nip: UnitShape["nip"]): Stop[] {
  const places: Flat[] = [[film.peel[0], film.peel[2]], ...film.guides.map((g): Flat => [g.through[0], g.through[2]])];
  const travel: Flat = [Math.cos(film.heading), Math.sin(film.heading)];
  const first = unit(minus(places[1]!, places[0]!));
  const edge: Turn | undefined =
    cross(travel, first) > 0 || film.peelAngle > 1.5
      ? { at: edgeCentre(film), r: film.edgeRadius, side: 1 }
      : undefined;
  const start: Stop = { point: places[0]!, coming: undefined, going: edge };
  return [start, ...film.guides.map((_, i) => stopAt(film, nip, places, i))];
}

function stopAt(film: FilmShape, nip: UnitShape["nip"], places: readonly Flat[], i: number): Stop {
  const g = film.guides[i]!;
  const [before, point, next] = [places[i]!, places[i + 1]!, places[i + 2]];
  if (!isAcross(g.along)) return { point, coming: undefined, going: undefined };
  const into = unit(minus(point, before));
  const out = next && unit(minus(next, point));
  if (g.name === "nip" && nip) {
    // Between the rollers the film runs along the common tangent, level, whichever way it is going.
    const level: Flat = [into[0] < 0 ? -1 : 1, 0];
    const roller = (turned: number): Turn | undefined => {
      if (Math.abs(turned) < 1e-6) return undefined;
      const side = turned > 0 ? 1 : -1;
      const above = level[0] * side > 0;
      const r = above ? nip.upper : nip.lower;
      return { at: [point[0], point[1] + (above ? r : -r)], r, side };
    };
    return { point, coming: roller(cross(into, level)), going: out && roller(cross(level, out)) };
  }
  const turned = out ? cross(into, out) : 0;
  if (Math.abs(turned) < 1e-6) return { point, coming: undefined, going: undefined };
  const turn: Turn = { at: barCentre(film, i), r: g.radius, side: turned > 0 ? 1 : -1 };
  return { point, coming: turn, going: turn };
}

/** The straight stroke between two circles (or points), tangent to both. */
function tangent(a: Turn | undefined, pointA: Flat, b: Turn | undefined, pointB: Flat): [Flat, Flat] {
  const from = a?.at ?? pointA;
  const to = b?.at ?? pointB;
  const [p, q] = [a ? a.side * a.r : 0, b ? b.side * b.r : 0];
  const e = minus(to, from);
  const long = Math.hypot(...e);
  if (!(Math.abs(p - q) < long)) return [pointA, pointB];
  const sine = (p - q) / long;
  const cosine = Math.sqrt(1 - sine * sine);
  const [ex, ez] = [e[0] / long, e[1] / long];
  // Left normal of the stroke; the circle's centre lies its signed radius to the left of it.
  const n: Flat = [-ez * cosine - ex * sine, ex * cosine - ez * sine];
  return [
    [from[0] - p * n[0], from[1] - p * n[1]],
    [to[0] - q * n[0], to[1] - q * n[1]],
  ];
}
