import type { Point } from "./scene.ts";

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export const rectAbout = ([x, y]: Point, width: number, height: number): Rect => ({
  x: x - width / 2,
  y: y - height / 2,
  width,
  height,
});

/** What of a sheet is taken already, on a fine grid: labels look for a place that hides least. */
export class Room {
  private readonly cell = 4;
  private readonly columns: number;
  private readonly rows: number;
  private readonly weight: Float64Array;
  /** Sums over all cells above and to the left, so that a box is four look-ups; made again after something was put down. */
  private readonly sums: Float64Array;
  private stale = false;
  readonly area: Rect;
  constructor(area: Rect) {
    this.area = area;
    this.columns = Math.max(1, Math.ceil(area.width / this.cell));
    this.rows = Math.max(1, Math.ceil(area.height / this.cell));
    this.weight = new Float64Array(this.columns * this.rows);
    this.sums = new Float64Array((this.columns + 1) * (this.rows + 1));
  }

  /** Marks points of a stroke. */
  points(points: readonly Point[], weight = 1): void {
    for (const [x, y] of points) {
      const i = this.at(x, y);
      if (i >= 0) this.weight[i] = Math.max(this.weight[i]!, weight);
    }
    this.stale = true;
  }
  /** Marks a filled box: a label, a block. */
  fill(rect: Rect, weight = 20): void {
    const [c0, c1, r0, r1] = this.cells(rect);
    for (let r = r0; r < r1; r++)
      for (let c = c0; c < c1; c++)
        this.weight[r * this.columns + c] = Math.max(this.weight[r * this.columns + c]!, weight);
    this.stale = true;
  }
  /** What a box there would hide; beyond the sheet costs most. */
  cost(rect: Rect): number {
    if (this.stale) this.add();
    const { area, sums } = this;
    const over =
      Math.max(0, area.x - rect.x) +
      Math.max(0, area.y - rect.y) +
      Math.max(0, rect.x + rect.width - area.x - area.width) +
      Math.max(0, rect.y + rect.height - area.y - area.height);
    const [c0, c1, r0, r1] = this.cells(rect);
    if (c1 <= c0 || r1 <= r0) return over * 40;
    const n = this.columns + 1;
    // Sums of tenths: the rounding takes the dust out that would make equal places unequal.
    const hidden = sums[r1 * n + c1]! - sums[r0 * n + c1]! - sums[r1 * n + c0]! + sums[r0 * n + c0]!;
    return over * 40 + Math.round(hidden * 1e6) / 1e6;
  }
  /** What a straight leader would cross. */
  crossing(from: Point, to: Point): number {
    const n = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / this.cell));
    let sum = 0;
    for (let k = 0; k <= n; k++) {
      const i = this.at(from[0] + ((to[0] - from[0]) * k) / n, from[1] + ((to[1] - from[1]) * k) / n);
      if (i >= 0) sum += this.weight[i]!;
    }
    return sum;
  }

  private at(x: number, y: number): number {
    const c = Math.floor((x - this.area.x) / this.cell);
    const r = Math.floor((y - this.area.y) / this.cell);
    return c >= 0 && r >= 0 && c < this.columns && r < this.rows ? r * this.columns + c : -1;
  }
  /** The cells a box touches: from, to (exclusive) of columns and rows. */
  private cells(rect: Rect): [number, number, number, number] {
    const { area, cell } = this;
    return [
      Math.max(0, Math.floor((rect.x - area.x) / cell)),
      Math.min(this.columns, Math.floor((rect.x + rect.width - area.x) / cell) + 1),
      Math.max(0, Math.floor((rect.y - area.y) / cell)),
      Math.min(this.rows, Math.floor((rect.y + rect.height - area.y) / cell) + 1),
    ];
  }
  private add(): void {
    const { columns, rows, weight, sums } = this;
    for (let r = 0; r < rows; r++) {
      let run = 0;
      for (let c = 0; c < columns; c++) {
        run += weight[r * columns + c]!;
        sums[(r + 1) * (columns + 1) + c + 1] = sums[r * (columns + 1) + c + 1]! + run;
      }
    }
    this.stale = false;
  }
}

/**
 * The candidate of least cost, the first of equals; so the same drawing always lands in the same place. What `more` adds (never less than
 * nothing) is asked only of candidates that still can win.
 */
export function best<T>(candidates: Iterable<T>, cost: (c: T) => number, more?: (c: T) => number): T {
  let found: T | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const c of candidates) {
    let now = cost(c);
    if (more && now < least) now += more(c);
    if (found === undefined || now < least - 1e-9) {
      found = c;
      least = now;
    }
  }
  if (found === undefined) throw new RangeError("no candidate to choose from");
  return found;
}

/** Places round an anchor, near ones first. */
export function* around(anchor: Point, distances: readonly number[], steps = 24): Generator<Point> {
  for (const d of distances)
    for (let i = 0; i < steps; i++) {
      const a = -Math.PI / 2 + (i * 2 * Math.PI) / steps;
      yield [anchor[0] + d * Math.cos(a), anchor[1] + d * Math.sin(a)];
    }
}
