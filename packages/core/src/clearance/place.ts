import { markNames, markPosition } from "../route/pose.ts";
import type { Across } from "../route/prism.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";

/** Where a pair comes nearest, in numbers; SI, radians. */
export interface Spot {
  /** Nearest place of the second of the pair; y where it matters. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Place along the route, where the first of the pair rides on it. */
  readonly s?: number;
  /** Span of the film and how far along it, m; 0 is the one behind the peel line. */
  readonly span?: { readonly number: number; readonly along: number };
  /** Angle at which a turning body comes nearest, rad. */
  readonly turned?: number;
}

/** The y at which two stretches of y come nearest: the middle of what they share, or of what parts them. */
export const betweenAcross = (a: Across, b: Across): number => (Math.max(a.from, b.from) + Math.min(a.to, b.to)) / 2;

const mm = (v: number): string => {
  const size = Math.abs(v * 1e3);
  return `${(v * 1e3).toFixed(size < 9.95 ? 1 : 0)}`.replace(/^-/, "−").replace(/^−(0\.0|0)$/, "$1");
};
const named = (mark: string): string =>
  mark === "peel" ? "the peel line" : mark === "pick" ? "the pick position" : `the mark ${mark}`;

/** The spot in words: along the route by the nearest mark, along the film by its guides, else by x and z. */
export function spotInWords(scene: Scene, spot: Spot, guides: readonly string[]): string {
  if (spot.s !== undefined) {
    const mark = nearestMark(scene, spot.s);
    if (mark) return alongFrom(mark.name, spot.s - mark.s);
  }
  if (spot.span) {
    const { number, along } = spot.span;
    const where = along < 0.05e-3 ? "at the beginning of" : `${mm(along)} mm into`;
    return `${where} the span ${guides[number]} to ${guides[number + 1]}`;
  }
  const turned =
    spot.turned === undefined
      ? ""
      : `turned by ${((spot.turned * 180) / Math.PI).toFixed(1).replace(/^-/, "−")} degrees, `;
  return `${turned}at x ${mm(spot.x)}, y ${mm(spot.y)}, z ${mm(spot.z)} mm`;
}
function alongFrom(mark: string, off: number): string {
  if (Math.abs(off) < 0.05e-3) return `at ${named(mark)}`;
  return `${mm(Math.abs(off))} mm ${off < 0 ? "before" : "after"} ${named(mark)}`;
}
function nearestMark(scene: Scene, s: number): { readonly name: string; readonly s: number } | undefined {
  const { tape } = scene.unit;
  const marks = markNames(tape.route).flatMap((name) => {
    const at = markPosition(tape, name, "route");
    return at ? [{ name, at }] : [];
  });
  if (marks.length === 0) return undefined;
  const run = new Realiser(
    scene,
    marks.map((mark) => mark.at),
  ).run(asWritten);
  return marks
    .map(({ name, at }) => ({ name, s: run.number(at) }))
    .reduce((best, mark) => (Math.abs(mark.s - s) < Math.abs(best.s - s) ? mark : best));
}
