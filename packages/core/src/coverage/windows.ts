import type { Steps } from "../study/steps.ts";
import type { Free } from "./free.ts";
import { lowPoint, lowPointBelow } from "./low-point.ts";
import { type SizedTape, sizingDraws } from "./sized-tape.ts";

/**
 * The window of each free dimension while the others stay: the least gap over all tapes along its bounds, where all feed, and what ends that run on
 * either side. Quick enough to be drawn anew at every step of a drag.
 *
 *     G_c(u, x) = G_c(u, p) + sum over i of (G_c(u, p with x_i) - G_c(u, p))
 *
 * p  a place where every dimension was tabled, at `knots` places within its bounds, linear between them
 *
 * So a curve is exact (as sized-tape.ts has it) along each dimension through p, at its knots; away from p in several dimensions at once, what two of
 * them do together is lost. `table` again where the drag has ended.
 */
export interface DimensionWindow {
  readonly path: string;
  /** Distances from what is drawn, SI, from the lower bound to the upper one. */
  readonly at: Float64Array;
  /** Least gap over all tapes there, in standard deviations. */
  readonly least: Float64Array;
  /** Runs in which all feed, set-aside checks apart. */
  readonly runs: readonly WindowRun[];
}
export interface WindowRun {
  readonly from: number;
  readonly to: number;
  /** What has the least gap just beyond its ends; undefined where the bound ends it. */
  readonly below?: Ender;
  readonly above?: Ender;
}
export interface Ender {
  readonly tape: string;
  readonly check: string;
}
export const windowPoints = 91;
const knots = 25;

export class Windows {
  private readonly free: readonly Free[];
  private readonly tapes: readonly SizedTape[];
  private place: readonly number[] = [];
  /** By tape and check its gaps at the place. */
  private base: readonly (readonly Float64Array[])[] = [];
  /** By dimension, tape and check (undefined where it does not rest on the dimension) what each knot adds to them. */
  private adds: readonly (readonly (readonly (readonly Float64Array[] | undefined)[])[])[] = [];

  /** The least that any knot adds, draw by draw. */
  private lowest: readonly (readonly (readonly (Float64Array | undefined)[])[])[] = [];

  constructor(tapes: readonly SizedTape[], free: readonly Free[]) {
    this.tapes = tapes.filter((tape) => tape.touched.some(({ id }) => !tape.aside.has(id)));
    this.free = free;
  }

  /** Tables every dimension about a place, one tape at one knot a step. */
  *table(x: readonly number[]): Steps<void> {
    const base = this.tapes.map((tape) => tape.at(x).map((column) => column.slice()));
    yield;
    const adds: (readonly (readonly (readonly Float64Array[] | undefined)[])[])[] = [];
    for (const [i, f] of this.free.entries()) {
      const ofTape: (readonly (readonly Float64Array[] | undefined)[])[] = [];
      for (const [t, tape] of this.tapes.entries()) {
        const mine = tape.touched.map(({ id }, c) =>
          tape.restsOn[c]!.has(i) && !tape.aside.has(id) ? ([] as Float64Array[]) : undefined,
        );
        for (let n = 0; n < knots && mine.some((one) => one); n++) {
          const gaps = tape.at(x.map((v, j) => (j === i ? f.least + ((f.most - f.least) * n) / (knots - 1) : v)));
          for (const [c, list] of mine.entries()) list?.push(gaps[c]!.map((g, k) => g - base[t]![c]![k]!));
          yield;
        }
        ofTape.push(mine);
      }
      adds.push(ofTape);
    }
    this.place = x;
    this.base = base;
    this.adds = adds;
    this.lowest = adds.map((ofTape) => ofTape.map((mine) => mine.map((list) => list && lowestOf(list))));
  }

  /** The window of every dimension with all of them at the distances x. */
  at(x: readonly number[]): DimensionWindow[] {
    // What the other dimensions add where they stand, for each dimension: all of it less its own.
    const here = this.tapes.map((tape, t) =>
      tape.touched.map((_, c) => {
        const gaps = this.base[t]![c]!.slice();
        for (const i of this.free.keys()) this.add(gaps, i, t, c, x[i]!);
        return gaps;
      }),
    );
    return this.free.map((f, i) => this.along(f, i, x, here));
  }
  private add(gaps: Float64Array, i: number, t: number, c: number, x: number, sign = 1): void {
    const list = this.adds[i]![t]![c];
    if (!list || x === this.place[i]) return;
    const { least, most } = this.free[i]!;
    const s = Math.min(knots - 1, Math.max(0, ((x - least) / (most - least)) * (knots - 1)));
    const n = Math.min(knots - 2, Math.floor(s));
    const [a, b, w] = [list[n]!, list[n + 1]!, s - n];
    for (let k = 0; k < gaps.length; k++) gaps[k]! += sign * ((1 - w) * a[k]! + w * b[k]!);
  }

  /** A check that stays has the least gap. */
  private take(
    least: Float64Array,
    ends: (Ender | undefined)[],
    n: number,
    low: number,
    tape: SizedTape,
    row: Float64Array,
    gaps: readonly Float64Array[],
  ): void {
    const k = row.indexOf(low);
    const check = tape.touched.find(({ id }, c) => gaps[c]![k] === low && !tape.aside.has(id));
    least[n] = low;
    ends[n] = check && { tape: tape.tape, check: check.id };
  }

  private along(f: Free, i: number, x: readonly number[], here: readonly (readonly Float64Array[])[]): DimensionWindow {
    const at = Float64Array.from(
      { length: windowPoints },
      (_, n) => f.least + ((f.most - f.least) * n) / (windowPoints - 1),
    );
    const least = new Float64Array(windowPoints).fill(Number.POSITIVE_INFINITY);
    const ends = new Array<Ender | undefined>(windowPoints);
    const row = new Float64Array(sizingDraws);
    const still = new Float64Array(sizingDraws);
    for (const [t, tape] of this.tapes.entries()) {
      const lists = this.adds[i]![t]!;
      // Of those that stay only the least counts; of those that move only such as come below what the others leave.
      tape.least(
        here[t]!.map((gaps, c) => (lists[c] ? beyond : gaps)),
        still,
      );
      const top = lowPoint(still, tape.weight);
      const moved: { readonly c: number; readonly gaps: Float64Array; readonly list: readonly Float64Array[] }[] = [];
      for (const [c, list] of lists.entries()) {
        if (!list) continue;
        const gaps = here[t]![c]!.slice();
        this.add(gaps, i, t, c, x[i]!, -1);
        const lowest = this.lowest[i]![t]![c]!;
        if (gaps.some((g, k) => g + lowest[k]! < top)) moved.push({ c, gaps, list });
      }
      if (moved.length === 0) {
        for (let n = 0; n < windowPoints; n++)
          if (top < least[n]!) this.take(least, ends, n, top, tape, still, here[t]!);
        continue;
      }
      for (let n = 0; n < windowPoints; n++) {
        row.set(still);
        const s = (n / (windowPoints - 1)) * (knots - 1);
        const m = Math.min(knots - 2, Math.floor(s));
        const w = s - m;
        for (const { gaps, list } of moved) leastInto(row, gaps, list[m]!, list[m + 1]!, w);
        if (!lowPointBelow(row, tape.weight, least[n]!)) continue;
        const low = lowPoint(row, tape.weight);
        const k = row.indexOf(low);
        const one = moved.find(({ gaps, list }) => gaps[k]! + (1 - w) * list[m]![k]! + w * list[m + 1]![k]! === low);
        if (one) {
          least[n] = low;
          ends[n] = { tape: tape.tape, check: tape.touched[one.c]!.id };
        } else this.take(least, ends, n, low, tape, row, here[t]!);
      }
    }
    return { path: f.path, at, least, runs: runsOf(at, least, ends) };
  }
}
const beyond = new Float64Array(sizingDraws).fill(Number.POSITIVE_INFINITY);

const lowestOf = (list: readonly Float64Array[]): Float64Array =>
  list[0]!.map((_, k) => Math.min(...list.map((knot) => knot[k]!)));
function leastInto(row: Float64Array, gaps: Float64Array, a: Float64Array, b: Float64Array, w: number): void {
  for (let k = 0; k < sizingDraws; k++) {
    const v = gaps[k]! + (1 - w) * a[k]! + w * b[k]!;
    if (v < row[k]!) row[k] = v;
  }
}

/** Where the least gap is nought or more, straight between two points. */
export function runsOf(at: Float64Array, least: Float64Array, ends: readonly (Ender | undefined)[]): WindowRun[] {
  const out: WindowRun[] = [];
  const root = (a: number, b: number): number => at[a]! + ((at[b]! - at[a]!) * least[a]!) / (least[a]! - least[b]!);
  for (let n = 0; n < at.length; n++) {
    if (!(least[n]! >= 0)) continue;
    let last = n;
    while (last + 1 < at.length && least[last + 1]! >= 0) last++;
    const below = n > 0 ? ends[n - 1] : undefined;
    const above = last + 1 < at.length ? ends[last + 1] : undefined;
    out.push({
      from: n > 0 ? root(n - 1, n) : at[n]!,
      to: last + 1 < at.length ? root(last, last + 1) : at[last]!,
      ...(below ? { below } : {}),
      ...(above ? { above } : {}),
    });
    n = last;
  }
  return out;
}
