import type { Point, Segment } from "./scene.ts";

/** How metres become pixels of the sheet: so many px a millimetre, and where the origin lies. Up is up. */
export interface View {
  readonly scale: number;
  readonly origin: Point;
}
export const onPaper = ({ scale, origin }: View, [x, z]: readonly [number, number]): Point => [
  origin[0] + x * 1e3 * scale,
  origin[1] - z * 1e3 * scale,
];
/** A length on paper, px. */
export const length = (view: View, metres: number): number => metres * 1e3 * view.scale;

/** Bounds of points, grown by what is put in. */
export class Bounds {
  x0 = Number.POSITIVE_INFINITY;
  x1 = Number.NEGATIVE_INFINITY;
  z0 = Number.POSITIVE_INFINITY;
  z1 = Number.NEGATIVE_INFINITY;
  add([x, z]: readonly [number, number], around = 0): void {
    this.x0 = Math.min(this.x0, x - around);
    this.x1 = Math.max(this.x1, x + around);
    this.z0 = Math.min(this.z0, z - around);
    this.z1 = Math.max(this.z1, z + around);
  }
  get width(): number {
    return this.x1 - this.x0;
  }
  get height(): number {
    return this.z1 - this.z0;
  }
}

/** The view that fits bounds (m) into a box on paper; no larger than `most` px a millimetre. */
export function fitted(
  bounds: Bounds,
  at: Point,
  width: number,
  height: number,
  most = Number.POSITIVE_INFINITY,
): View {
  const scale =
    Math.floor(Math.min(width / (bounds.width * 1e3), height / (bounds.height * 1e3), most) * 100) / 100 || 0.01;
  const x = at[0] + (width - bounds.width * 1e3 * scale) / 2 - bounds.x0 * 1e3 * scale;
  const y = at[1] + (height - bounds.height * 1e3 * scale) / 2 + bounds.z1 * 1e3 * scale;
  return { scale, origin: [x, y] };
}

/** Points along a path, near enough to mark the room it takes. */
export function pointsAlong(d: readonly Segment[], step = 5): Point[] {
  const out: Point[] = [];
  let at: Point | undefined;
  let first: Point | undefined;
  const to = (end: Point): void => {
    if (at) {
      const long = Math.hypot(end[0] - at[0], end[1] - at[1]);
      const n = Math.max(1, Math.ceil(long / step));
      for (let i = 1; i <= n; i++) out.push([at[0] + ((end[0] - at[0]) * i) / n, at[1] + ((end[1] - at[1]) * i) / n]);
    } else out.push(end);
    at = end;
  };
  for (const seg of d) {
    if (seg[0] === "Z") {
      if (first) to(first);
      continue;
    }
    const end: Point = seg[0] === "C" ? [seg[5], seg[6]] : [seg[1], seg[2]];
    if (seg[0] === "M") {
      at = undefined;
      first = end;
    }
    to(end);
  }
  return out;
}
