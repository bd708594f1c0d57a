import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { guidesToNip, leadsToNip } from "../unit/unit.ts";

/** A vector in metres: along the travel, across from the sprocket-side edge, towards the cover film. */
export type Vector = readonly [x: number, y: number, z: number];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const plus = (a: Vector, b: Vector, k = 1): Vector => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const norm = (a: Vector): number => Math.sqrt(dot(a, a));
const scaled = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
const arc = (x: number): number => Math.asin(Math.max(-1, Math.min(1, x)));
const between = (a: Vector, b: Vector): number => {
  const cross = Math.hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]);
  return Math.atan2(cross, dot(a, b));
};

/** A guide: a line in space that the film lies on, its width along `along` (not normalised), bent over `radius`. */
export interface Guide {
  readonly through: Vector;
  readonly along: Vector;
  /** A roller turns with the film; a fixed bar rubs. */
  readonly rolls: boolean;
}
export interface Span {
  readonly length: number;
  /** Start of the span, and how the point of fibre y (from the middle) moves with y at its two ends. */
  readonly run: Vector;
  readonly fan: Vector;
  /** Angle between the two guides, seen along the span, rad. */
  readonly twist: number;
}
export interface Path {
  readonly spans: readonly Span[];
  /** Turn of the film at the peel edge and at each guide between, rad. The nip itself is not among them. */
  readonly wraps: readonly number[];
  /** Turn over the peel edge and all fixed bars, which rubs, rad. */
  readonly rubbed: number;
  /** Lean of the film against the peel line and the nip, kink over each guide between, rad; 0 is strain-free. */
  readonly leans: readonly number[];
  /** Angle between film and tape at the peel line, rad: 180 degrees lies flat back over the tape. */
  readonly peelAngle: number;
  readonly length: number;
}

/**
 * Middle line of the film from the peel line over the guides to the nip, and how its fibres fan out.
 *
 * Fibre y of the film meets the line of guide i at `c_i + y u_i / sin(beta_i)`, beta_i the angle between fibre and line: on a 45
 * degree bar the film covers sqrt(2) of its width. At the peel line and the nip the film lies square. A strip over a smooth bar keeps
 * its component along the bar, so a kink (difference of the lean before and after) of 0 is the condition for a strain-free wrap.
 * Guides count as lines: their radius does not move the film. A line has no head or tail: the film takes the sense nearer to the
 * guide before, so a half turn between two parallel guides can't be said. Throws RangeError where two lines share a point of the path.
 */
export function filmPath(peel: Vector, guides: readonly Guide[]): Path {
  const lines: Guide[] = [{ through: peel, along: [0, 1, 0], rolls: false }, ...guides];
  const u = lines.map((g) => {
    const n = norm(g.along);
    if (!(n > 0)) throw new RangeError("a guide has no direction: its `along` is 0, 0, 0");
    return scaled(g.along, 1 / n);
  });
  const run: Vector[] = [];
  const d: Vector[] = [];
  for (let i = 0; i + 1 < lines.length; i++) {
    const r = minus(lines[i + 1]!.through, lines[i]!.through);
    const n = norm(r);
    if (!(n > 1e-9)) throw new RangeError("two guides of the film stand at the same place");
    run.push(r);
    d.push(scaled(r, 1 / n));
  }
  const last = lines.length - 1;
  const reach = u.map((along, i) => {
    if (i === 0 || i === last) return 1;
    const c = dot(d[i - 1]!, along);
    return 1 / Math.sqrt(Math.max(1e-6, 1 - c * c));
  });
  const across = (i: number, dir: Vector): Vector => plus(u[i]!, dir, -dot(u[i]!, dir));
  const spans: Span[] = [];
  for (let i = 0; i < last; i++) {
    const dir = d[i]!;
    const ends = (): [Vector, Vector] => [across(i, dir), across(i + 1, dir)];
    if (dot(...ends()) < -1e-12) u[i + 1] = scaled(u[i + 1]!, -1);
    const [a, b] = ends();
    const twist = norm(a) > 1e-9 && norm(b) > 1e-9 ? between(a, b) : 0;
    const fan = minus(scaled(u[i + 1]!, reach[i + 1]!), scaled(u[i]!, reach[i]!));
    spans.push({ length: norm(run[i]!), run: run[i]!, fan, twist });
  }
  const wraps = d.slice(0, -1).map((dir, i) => between(dir, d[i + 1]!));
  const peelAngle = between([1, 0, 0], d[0]!);
  const kinks = wraps.map((_, i) => arc(dot(u[i + 1]!, d[i + 1]!)) - arc(dot(u[i + 1]!, d[i]!)));
  const leans = [arc(dot(u[0]!, d[0]!)), ...kinks, arc(dot(u[last]!, d[last - 1]!))];
  return {
    spans,
    wraps: [peelAngle, ...wraps],
    rubbed: wraps.reduce((sum, w, i) => sum + (guides[i]!.rolls ? 0 : w), peelAngle),
    leans,
    peelAngle,
    length: spans.reduce((sum, s) => sum + s.length, 0),
  };
}

/** Names of the guides as the finding says them: the peel line first. */
export const guideNames = (scene: Scene): string[] => ["peel line", ...(guidesToNip(scene.unit) ?? []).map((g) => g.name)];

/** The film path of a scene; absent where the film is not peeled whole and led to a nip. */
export const path = model({
  id: "film.path",
  symbol: "path",
  unit: "",
  title: "path of the film from the peel line to the nip",
  equation: "points c_i + y*u_i/sin(beta_i) on the guides' lines, straight between",
  form: "solved",
  origin: { cite: "geometry of straight fibres between lines; a strip over a smooth bar is developable", how: "derived" },
  reads: (scene) => {
    const { unit, tape } = scene;
    const guides = guidesToNip(unit);
    if (!leadsToNip(unit) || !guides || !unit.film.peel) return undefined;
    const top: Quantity = unit.tape["rests on"] === "cover side" ? unit.letters.T! : tape.letters.T;
    return {
      x: peelX(scene) as Quantity,
      E1: unit.letters.E1!,
      F: unit.letters.F!,
      z: top,
      guides: guides.map((g) => ({ through: g.through, along: g.along, rolls: g.kind === "roller" })),
    };
  },
  value: ({ x, E1, F, z, guides }) => filmPath([x, E1 + F, z], guides),
});
/** x of the peel line: its place along the tape, seen in the side view. */
const peelX = ({ unit }: Scene): Quantity => unit.film.peel!.at;

const reading = { form: "solved", origin: { cite: "read off the film path", how: "derived" } } as const;
export const peelAngle = model({
  id: "film.peel-angle",
  symbol: "theta",
  unit: "1",
  shownIn: "deg",
  title: "angle between film and tape at the peel line",
  equation: "angle between the travel and the first span",
  ...reading,
  reads: () => ({ path }),
  value: ({ path: p }) => p.peelAngle,
});
export const wrapOverBars = model({
  id: "film.wrap",
  symbol: "w",
  unit: "1",
  shownIn: "deg",
  title: "turn of the film over the peel edge and all fixed bars",
  equation: "theta + sum of the turns at fixed bars",
  ...reading,
  reads: () => ({ path }),
  value: ({ path: p }) => p.rubbed,
});
export const pathLength = model({
  id: "film.length",
  symbol: "L",
  unit: "m",
  title: "length of the film from the peel line to the nip",
  equation: "sum of the spans",
  ...reading,
  reads: () => ({ path }),
  value: ({ path: p }) => p.length,
});
