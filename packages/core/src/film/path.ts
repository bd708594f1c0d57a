import { model, type Quantity } from "../quantity/model.ts";
import { poseAt } from "../route/pose.ts";
import type { Scene } from "../scene.ts";
import { guidesToNip, leadsToNip } from "../unit/unit.ts";

/** A vector in metres: along the travel, across from the sprocket-side edge, towards the cover film. */
export type Vector = readonly [x: number, y: number, z: number];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const plus = (a: Vector, b: Vector, k = 1): Vector => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const norm = (a: Vector): number => Math.sqrt(dot(a, a));
const arc = (x: number): number => Math.asin(Math.max(-1, Math.min(1, x)));

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
/** The film path of one realisation. Kept as plain numbers: thousands of them live at once. */
export class Path {
  /** Middle of the film on the peel line. */
  readonly start: Vector;
  /** Turn of the film at the peel edge and at each guide between, rad. The nip itself is not among them. */
  readonly wraps: readonly number[];
  /** Turn over the peel edge and all fixed bars, which rubs, rad. */
  readonly rubbed: number;
  /** Lean of the film against the peel line and the nip, kink over each guide between, rad; 0 is strain-free. */
  readonly leans: readonly number[];
  readonly length: number;
  private readonly packed: readonly number[];
  constructor(
    packed: readonly number[],
    wraps: readonly number[],
    rubbed: number,
    leans: readonly number[],
    length: number,
    start: Vector,
  ) {
    this.packed = packed;
    this.wraps = wraps;
    this.rubbed = rubbed;
    this.leans = leans;
    this.length = length;
    this.start = start;
  }
  /** Angle between film and tape at the peel line, rad: 180 degrees lies flat back over the tape. */
  get peelAngle(): number {
    return this.wraps[0]!;
  }
  get spans(): readonly Span[] {
    const out: Span[] = [];
    const p = this.packed;
    for (let i = 0; i < p.length; i += 8)
      out.push({
        run: [p[i]!, p[i + 1]!, p[i + 2]!],
        fan: [p[i + 3]!, p[i + 4]!, p[i + 5]!],
        length: p[i + 6]!,
        twist: p[i + 7]!,
      });
    return out;
  }
}

/**
 * Middle line of the film from the peel line over the guides to the nip, and how its fibres fan out.
 *
 * Fibre y of the film meets the line of guide i at `c_i + y u_i / sin(beta_i)`, beta_i the angle between fibre and line: on a 45
 * degree bar the film covers sqrt(2) of its width. At the peel line and the nip the film lies square. A strip over a smooth bar keeps
 * its component along the bar, so a kink (difference of the lean before and after) of 0 is the condition for a strain-free wrap.
 * `heading` is the tape's direction at the peel line, rad above the horizontal. Guides count as lines: their radius does not move the
 * film. The sense of `along` counts: it points to the edge of the film that lay
 * farther from the sprocket holes, so a quarter turn to the left is not one to the right. Only a turn of more than 135 degrees is taken
 * the other way round: nobody threads a half turn between parallel guides. Throws RangeError where two lines share a point of the path.
 */
export function filmPath(peel: Vector, guides: readonly Guide[], heading = 0): Path {
  const last = guides.length;
  const packed: number[] = [];
  const wraps: number[] = [];
  const leans: number[] = [];
  let length = 0;
  let rubbed = 0;
  // Point, line and direction of the span before; the tape brings the film along the travel, square on the peel line.
  let [x, y, z] = peel;
  let [ax, ay, az] = [0, 1, 0];
  let [ex, ey, ez] = [Math.cos(heading), 0, Math.sin(heading)];
  let reachBefore = 1;
  let leanBefore = 0;
  // Plain arithmetic throughout: this runs once a draw, and small vectors would cost more than the numbers in them.
  for (let i = 0; i < last; i++) {
    const { through, along } = guides[i]!;
    const size = Math.sqrt(along[0] * along[0] + along[1] * along[1] + along[2] * along[2]);
    if (!(size > 0)) throw new RangeError("a guide has no direction: its `along` is 0, 0, 0");
    let bx = along[0] / size;
    let by = along[1] / size;
    let bz = along[2] / size;
    const rx = through[0] - x;
    const ry = through[1] - y;
    const rz = through[2] - z;
    const l = Math.sqrt(rx * rx + ry * ry + rz * rz);
    if (!(l > 1e-9)) throw new RangeError("two guides of the film stand at the same place");
    const dx = rx / l;
    const dy = ry / l;
    const dz = rz / l;
    const cx = ey * dz - ez * dy;
    const cy = ez * dx - ex * dz;
    const cz = ex * dy - ey * dx;
    const wrap = Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), ex * dx + ey * dy + ez * dz);
    wraps.push(wrap);
    if (i === 0 || !guides[i - 1]!.rolls) rubbed += wrap;
    const alongA = ax * dx + ay * dy + az * dz;
    let alongB = bx * dx + by * dy + bz * dz;
    leans.push(arc(alongA) - leanBefore);
    // Components across the span: a - (a.d) d and b - (b.d) d. Their product tells how far the next line is turned.
    const acrossA = Math.sqrt(Math.max(0, 1 - alongA * alongA));
    const acrossB = Math.sqrt(Math.max(0, 1 - alongB * alongB));
    let inner = ax * bx + ay * by + az * bz - alongA * alongB;
    if (inner < -Math.SQRT1_2 * acrossA * acrossB - 1e-12) {
      bx = -bx;
      by = -by;
      bz = -bz;
      alongB = -alongB;
      inner = -inner;
    }
    const twist =
      acrossA > 1e-9 && acrossB > 1e-9 ? Math.acos(Math.max(-1, Math.min(1, inner / (acrossA * acrossB)))) : 0;
    // The film covers more of a line it does not meet squarely; at the peel line and the nip it lies square.
    const reach = i + 1 === last ? 1 : 1 / Math.max(1e-3, acrossB);
    packed.push(
      rx,
      ry,
      rz,
      bx * reach - ax * reachBefore,
      by * reach - ay * reachBefore,
      bz * reach - az * reachBefore,
      l,
      twist,
    );
    length += l;
    leanBefore = arc(alongB);
    if (i + 1 === last) leans.push(leanBefore);
    reachBefore = reach;
    [x, y, z] = through;
    ax = bx;
    ay = by;
    az = bz;
    ex = dx;
    ey = dy;
    ez = dz;
  }
  return new Path(packed, wraps, rubbed, leans, length, peel);
}

/** Names of the guides as the finding says them: the peel line first. */
export const guideNames = (scene: Scene): string[] => [
  "peel line",
  ...(guidesToNip(scene.unit) ?? []).map((g) => g.name),
];

/** The film path of a scene; absent where the film is not peeled whole and led to a nip. */
export const path = model({
  id: "film.path",
  symbol: "path",
  unit: "",
  title: "path of the film from the peel line to the nip",
  equation: "points c_i + y*u_i/sin(beta_i) on the guides' lines, straight between",
  form: "solved",
  origin: {
    cite: "geometry of straight fibres between lines; a strip over a smooth bar is developable",
    how: "derived",
  },
  reads: (scene) => {
    const { unit, tape } = scene;
    const guides = guidesToNip(unit);
    if (!leadsToNip(unit) || !guides || !unit.film.peel) return undefined;
    const top: Quantity = unit.tape["rests on"] === "cover side" ? unit.letters.T! : tape.letters.T;
    return {
      pose: poseAt(unit.tape, unit.film.peel.at),
      E1: unit.letters.E1!,
      F: unit.letters.F!,
      T: top,
      guides: guides.map((g) => ({ through: g.through, along: g.along, rolls: g.kind === "roller" })),
    };
  },
  value: ({ pose, E1, F, T, guides }) =>
    filmPath([pose.x - T * Math.sin(pose.heading), E1 + F, pose.z + T * Math.cos(pose.heading)], guides, pose.heading),
});

const reading = { form: "solved", origin: { cite: "read off the film path", how: "derived" } } as const;
export const peelAngle = model({
  id: "film.peel-angle",
  symbol: "theta",
  unit: "1",
  shownIn: "deg",
  title: "angle between film and tape at the peel line",
  equation: "angle between the travel and the first span",
  ...reading,
  costly: true,
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
  costly: true,
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
  costly: true,
  reads: () => ({ path }),
  value: ({ path: p }) => p.length,
});
