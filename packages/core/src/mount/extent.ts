import { type Body, bodiesOf } from "../clearance/body.ts";
import { notLedToNip } from "../film/friction.ts";
import { type Path, path } from "../film/path.ts";
import type { Quantity } from "../quantity/model.ts";
import { onStrip, stripsOf } from "../route/corridor.ts";
import type { Outline, Point } from "../route/outline.ts";
import type { Prism } from "../route/prism.ts";
import type { Scene } from "../scene.ts";

/**
 * How far a unit reaches: across, and over its tape.
 *
 *     guide    c -+ (b/2 |u| + r sqrt(1 - u^2))      along y or z: half the film lies on it, and its radius stands out square to it
 *     lifted   greatest rho sin(alpha + a) over the turn, a from 0 to `by`
 *
 * c point of the guide's line, u its unit direction along that axis, r its radius, b width of the film the unit is built for; rho, alpha distance and
 * direction from the pivot. A guide counts as long as the film is wide; what holds it is a body. Keep-outs belong to the machine and do
 * not count. Exact for the outlines given (derived).
 */
export interface Reach {
  readonly from: number;
  readonly to: number;
}
export const nowhere: Reach = { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY };
export const together = (all: readonly Reach[]): Reach =>
  all.reduce((a, b) => ({ from: Math.min(a.from, b.from), to: Math.max(a.to, b.to) }), nowhere);

export const ownBodies = ({ unit }: Scene): readonly Body[] => bodiesOf(unit).filter((body) => !body.keepOut);
export const solidsOf = (bodies: readonly Body[]) => bodies.map((body) => body.solid);

/** The guides of the film, the nip and what follows it among them. */
export const readsGuides = ({ unit }: Scene) =>
  (unit.film.guides ?? []).map(({ through, along, radius }) => ({
    through,
    along,
    radius,
    film: filmOf(unit.letters.b),
  }));
/** Its width where the unit says it; a list, so that nothing stands where it does not. */
const filmOf = (b: Quantity | undefined): readonly Quantity[] => (b ? [b] : []);
interface GuideNumbers {
  readonly through: readonly [number, number, number];
  readonly along: readonly [number, number, number];
  readonly radius: number;
  readonly film: readonly number[];
}
export function reachOfGuide({ through, along, radius, film }: GuideNumbers, axis: 1 | 2): Reach {
  const size = Math.hypot(...along);
  if (!(size > 0)) throw new RangeError("a guide has no direction: its `along` is 0, 0, 0");
  const u = Math.abs(along[axis]) / size;
  const half = ((film[0] ?? 0) / 2) * u + radius * Math.sqrt(Math.max(0, 1 - u * u));
  return { from: through[axis] - half, to: through[axis] + half };
}

/** The film on its way to the nip: a list, so that a unit that leads none has none. */
export const readsLedFilm = (scene: Scene) => (notLedToNip(scene) ? [] : [{ path, b: scene.tape.film.width }]);
export function reachOfFilm({ path: led, b }: { readonly path: Path; readonly b: number }, axis: 1 | 2): Reach {
  // Straight fibres reach farthest at the ends of their spans.
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (const strip of stripsOf(led, led.start))
    for (let end = 0; end < 4; end++) {
      const at = onStrip(strip, end >> 1, end & 1 ? b / 2 : -b / 2)[axis];
      from = Math.min(from, at);
      to = Math.max(to, at);
    }
  return { from, to };
}

export const reachAcross = ({ y }: Prism): Reach => y;
/** Highest place of an outline, and of one that turns about a pivot from where it is. */
export function topOf({ parts, round }: Outline, turn?: { readonly about: Point; readonly by: number }): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const part of parts)
    for (let i = 0; i < part.length; i += 2)
      most = Math.max(most, turn ? raisedTo(part[i]!, part[i + 1]!, turn) : part[i + 1]!);
  return most + round;
}
function raisedTo(x: number, z: number, { about, by }: { readonly about: Point; readonly by: number }): number {
  const rho = Math.hypot(x - about.x, z - about.z);
  const alpha = Math.atan2(z - about.z, x - about.x);
  const [first, last] = by < 0 ? [alpha + by, alpha] : [alpha, alpha + by];
  // Straight up lies in the turn where a whole number of turns brings it there.
  const up = Math.PI / 2 + 2 * Math.PI * Math.ceil((first - Math.PI / 2) / (2 * Math.PI));
  return about.z + (up <= last ? rho : Math.max(rho * Math.sin(first), rho * Math.sin(last)));
}
