import type { Path, Vector } from "../film/path.ts";
import { type Part, reachAlong, separation } from "./convex.ts";
import { combined, type Prism } from "./prism.ts";

/**
 * The room the free film fills between its guides, and its least gap to a body.
 *
 *     S(t, y) = c + y u + t (run + y fan)        a span of the film: straight fibres between two lines in space
 *     g = min over t, y of d(S, body) - h/2      d signed distance of a place to the body
 *
 * t 0 .. 1 along the span; y -b/2 .. b/2 across the film, m; c middle of the film at the span's start, u how its fibres lie along the
 * line there (u/sin of the angle between fibre and line); h thickness of the room kept for the film, m: 0.5e-3 holds its flutter
 * (judgement). Any straight line meets such a strip bilinearly, so n·S over a piece of it is least at one of the piece's four corners;
 * with n the nearest direction, that bounds d from below, and pieces that can't hold the least fall away (branch and bound; derived).
 *
 * Where the film passes through a body the depth is that of its deepest point. Bars and rollers count as lines, as in the film's path.
 */
export interface Strip {
  readonly start: Vector;
  readonly across: Vector;
  readonly run: Vector;
  readonly fan: Vector;
}
export interface CorridorGap {
  readonly gap: number;
  /** Which span, how far along it (0 .. 1), where across the film (m from its middle), and the place itself. */
  readonly span: number;
  readonly along: number;
  readonly y: number;
  readonly film: Vector;
}

/** The spans of a film path as strips, from the middle of the film on the peel line. */
export function stripsOf({ spans }: Pick<Path, "spans">, peel: Vector): Strip[] {
  const out: Strip[] = [];
  let start = peel;
  // On the peel line the film lies square.
  let across: Vector = [0, 1, 0];
  for (const { run, fan } of spans) {
    out.push({ start, across, run, fan });
    start = [start[0] + run[0], start[1] + run[1], start[2] + run[2]];
    across = [across[0] + fan[0], across[1] + fan[1], across[2] + fan[2]];
  }
  return out;
}

/** A place of a strip: t along the span, y from the film's middle. */
export function onStrip({ start, across, run, fan }: Strip, t: number, y: number): Vector {
  return [
    start[0] + y * across[0] + t * (run[0] + y * fan[0]),
    start[1] + y * across[1] + t * (run[1] + y * fan[1]),
    start[2] + y * across[2] + t * (run[2] + y * fan[2]),
  ];
}

/** How far above the true least the result may lie, m. */
const within = 5e-7;
const deepest = 40;

/** Least gap of the film's corridor to a body; undefined where it stays at `below` or more. */
export function corridorGap(
  strips: readonly Strip[],
  width: number,
  thickness: number,
  body: Prism,
  below?: undefined,
): CorridorGap;
export function corridorGap(
  strips: readonly Strip[],
  width: number,
  thickness: number,
  body: Prism,
  below?: number,
): CorridorGap | undefined;
export function corridorGap(
  strips: readonly Strip[],
  width: number,
  thickness: number,
  body: Prism,
  below = Number.POSITIVE_INFINITY,
): CorridorGap | undefined {
  if (!(width > 0 && thickness >= 0))
    throw new RangeError(`a film ${width} m wide in a room ${thickness} m thick is none`);
  if (strips.length === 0) throw new RangeError("the film passes no guide: it has no corridor");
  for (const strip of strips)
    if (![...onStrip(strip, 0, width / 2), ...onStrip(strip, 1, -width / 2)].every(Number.isFinite))
      throw new RangeError("a span of the film ends at no place: a number of its guides is not finite");
  let least = below + thickness / 2;
  let found: { span: number; t: number; y: number } | undefined;
  const half = width / 2;
  strips.forEach((strip, span) => {
    for (const part of body.outline.parts) {
      const offer = (t: number, y: number): Near => {
        const near = toBody(onStrip(strip, t, y), part, body);
        if (near.d < least) {
          least = near.d;
          found = { span, t, y };
        }
        return near;
      };
      const look = (t0: number, t1: number, y0: number, y1: number, depth: number): void => {
        const t = (t0 + t1) / 2;
        const y = (y0 + y1) / 2;
        const { n, wall, core } = offer(t, y);
        const height = (at: number, across: number): number => {
          const p = onStrip(strip, at, across);
          return n[0] * p[0] + n[1] * p[1] + n[2] * p[2] - wall;
        };
        const a = height(t0, y0);
        const b = height(t0, y1);
        const c = height(t1, y0);
        const d = height(t1, y1);
        const lowest = Math.min(a, b, c, d);
        const bound = Math.max(core, lowest);
        if (bound >= least - within || depth >= deepest) return;
        // The least often stands at the film's edge or end: the corner the bound points to.
        offer(lowest === a || lowest === b ? t0 : t1, lowest === a || lowest === c ? y0 : y1);
        if (bound >= least - within) return;
        // Halve the way along which the bound is looser: how far the plane falls, and how far the distance rises above it.
        const here = height(t, y);
        const loose = (tp: number, yp: number, tq: number, yq: number): number => {
          const hp = height(tp, yp);
          const hq = height(tq, yq);
          const rise = offer(tp, yp).d - hp;
          return here - Math.min(hp, hq) + Math.max(rise, offer(tq, yq).d - hq);
        };
        const deeper = depth + 1;
        if (loose(t0, y, t1, y) >= loose(t, y0, t, y1)) {
          const isFarFirst = c + d < a + b;
          if (isFarFirst) look(t, t1, y0, y1, deeper);
          look(t0, t, y0, y1, deeper);
          if (!isFarFirst) look(t, t1, y0, y1, deeper);
        } else {
          const isFarFirst = b + d < a + c;
          if (isFarFirst) look(t0, t1, y, y1, deeper);
          look(t0, t1, y0, y, deeper);
          if (!isFarFirst) look(t0, t1, y, y1, deeper);
        }
      };
      look(0, 1, -half, half, 0);
    }
  });
  if (!found) return undefined;
  const { span, t, y } = found;
  return { gap: least - thickness / 2, span, along: t, y, film: onStrip(strips[span]!, t, y) };
}

interface Near {
  readonly d: number;
  /** Unit direction from the body to the place, and the body's reach along it. */
  readonly n: Vector;
  readonly wall: number;
  /** No place is deeper than half the body's width along that direction. */
  readonly core: number;
}
/** Signed distance of a place to a convex body, and the plane that shows it. */
function toBody(place: Vector, part: Part, { outline, y: { from, to } }: Prism): Near {
  const y = place[1];
  const s = separation(part, [place[0], place[2]]);
  const inPlane = s.d - outline.round;
  const above = y - to > from - y;
  const across = above ? y - to : from - y;
  const d = combined(inPlane, across);
  const both = inPlane > 0 && across > 0;
  const share = both ? inPlane / d : inPlane >= across ? 1 : 0;
  const rest = both ? across / d : share === 1 ? 0 : 1;
  const n: Vector = [share * s.nx, above ? rest : -rest, share * s.nz];
  // Reach along n of the part, its rounding and the stretch of y: the nearest point of each lies on it.
  const wall = share * (s.nx * s.ax + s.nz * s.az + outline.round) + rest * (above ? to : -from);
  const back = share * (reachAlong(part, -s.nx, -s.nz) + outline.round) + rest * (above ? -from : to);
  return { d, n, wall, core: -(wall + back) / 2 };
}
