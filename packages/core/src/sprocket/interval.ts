import { type Layer, OneTooth } from "./one-tooth.ts";
import type { ToothOutline } from "./outline.ts";

/**
 * The feasible interval of the tape over the wheel's angle: one quantity for interference, play, drive law and index error.
 *
 *     lo(theta) = max over teeth k of   front_k - k P - D/2        the teeth push from behind
 *     hi(theta) = min over teeth k of   rear_k  - k P + D/2        the tape runs ahead of its teeth
 *     front_k = front(theta + k d),  rear_k = -front(-theta - k d),  d = 2 pi/z
 *
 * X place of the tape along its neutral line (hole k stands at X + k P), m; theta angle of the wheel, rad; P pitch of the holes as it is,
 * 1 .. 5 mm; D what a tooth meets of a hole along the tape (`opening.ts`), m; z teeth, 4 .. 400. front() is that of `one-tooth.ts`, exact.
 *
 * Rigid teeth, holes that keep their shape, one pitch for all holes. hi - lo is least where a tooth enters or leaves; between the angles
 * where front() changes its form it is smooth, so its extremes are found by bracketing there. Where no tooth stands in the tape the interval
 * has no end.
 */
export interface ToothedWheel extends Layer {
  readonly teeth: number;
  readonly outline: ToothOutline;
  /** Pitch of the tape's holes, m. */
  readonly pitch: number;
  /** What a tooth meets of a hole along the tape, m. */
  readonly opening: number;
}
export interface FeasibleInterval {
  /** Angle from tooth to tooth; lo and hi go on by one pitch over it. */
  readonly step: number;
  readonly pitch: number;
  lo(theta: number): number;
  hi(theta: number): number;
  /** The tooth that pushes at lo, counted from the one nearest to upright, + downstream; undefined where none stands in the tape. */
  carrying(theta: number): number | undefined;
  /** Teeth that stand in the tape by more than `height`, m. */
  engaged(theta: number, height?: number): number;
  /** Fewest and most teeth over all angles that stand in the tape by more than `height`. */
  engagedOver(height?: number): readonly [fewest: number, most: number];
  /** The least hi - lo over all angles, and where. Infinity where no tooth ever stands in the tape. */
  least(): { readonly theta: number; readonly width: number };
  /** Greatest less least of lo(theta) less the mean travel: the transmission error. */
  error(): number;
  /** Greatest error of a step of half a pitch over all angles it may begin at, and the angle. */
  halfStep(): { readonly theta: number; readonly error: number };
  /** lo and hi less the mean travel at n angles from 0 to just under one step: what a simulation may interpolate. */
  table(n: number): { readonly lo: Float64Array; readonly hi: Float64Array };
}

/** Throws RangeError, with words, for a wheel or a tape that is none. */
export function feasibleInterval(wheel: ToothedWheel): FeasibleInterval {
  complain(wheel);
  const { teeth, pitch: P, opening: D, outline } = wheel;
  const tooth = new OneTooth(outline, wheel);
  const d = (2 * Math.PI) / teeth;
  const { widest } = tooth;

  const loIn = (theta: number): number => {
    let best = Number.NEGATIVE_INFINITY;
    for (let k = Math.ceil((-widest - theta) / d); k <= Math.floor((widest - theta) / d); k++) {
      const v = tooth.front(theta + k * d) - k * P;
      if (v > best) best = v;
    }
    return best - D / 2;
  };
  // Within half a step of upright, so that far turns lose no digits.
  const lo = (theta: number): number => {
    const n = Math.round(theta / d);
    return loIn(theta - n * d) + n * P;
  };
  const hi = (theta: number): number => -lo(-theta);
  const width = (theta: number): number => hi(theta) - lo(theta);
  const engaged = (theta: number, height = 0): number => {
    let n = 0;
    for (let k = Math.ceil((-widest - theta) / d); k <= Math.floor((widest - theta) / d); k++)
      if (tooth.height(theta + k * d) > height) n++;
    return n;
  };

  const carrying = (theta: number): number | undefined => {
    const from = theta - Math.round(theta / d) * d;
    let best = Number.NEGATIVE_INFINITY;
    let which: number | undefined;
    for (let k = Math.ceil((-widest - from) / d); k <= Math.floor((widest - from) / d); k++) {
      const v = tooth.front(from + k * d) - k * P;
      if (v > best) {
        best = v;
        which = k;
      }
    }
    return which;
  };

  let known: Float64Array | undefined;
  /** Angles in one step, from 0, between which front() of every tooth keeps its form, for lo and hi alike. */
  const turnings = (): Float64Array => {
    if (known) return known;
    const all = tooth
      .turnings()
      .filter((a) => Math.abs(a) <= widest + d)
      .flatMap((a) => [a, -a])
      .map((a) => a - d * Math.floor(a / d));
    known = inOrder([...all, 0, d / 2, d], 1e-10 * d);
    return known;
  };
  /** Greatest f over one step (or its first part); f may be the larger of several smooth functions, with steps at the turnings. */
  const greatest = (f: (theta: number) => number, upTo = d, at = turnings()): { theta: number; value: number } => {
    const hair = 1e-9 * d;
    // Twice what a point that turns about the axis rises over half the distance of two samples, at both ends of the interval.
    const bulge = (between: number): number => 0.5 * outline.reach * between * between;
    let best = { theta: 0, value: Number.NEGATIVE_INFINITY };
    const take = (theta: number, value: number): void => {
      if (value > best.value) best = { theta, value };
    };
    const inner: [from: number, to: number, most: number][] = [];
    for (let i = 0; i + 1 < at.length && at[i]! < upTo - hair; i++) {
      const [from, to] = [at[i]!, Math.min(upTo, at[i + 1]!)];
      take(from, f(from));
      if (to - from < 4 * hair) continue;
      const parts = Math.min(6, Math.max(2, Math.ceil((12 * (to - from)) / d)));
      const points = Array.from({ length: parts + 1 }, (_, n) =>
        n === 0 ? from + hair : n === parts ? to - hair : from + ((to - from) * n) / parts,
      );
      const values = points.map(f);
      points.forEach((theta, n) => {
        const v = values[n]!;
        take(theta, v);
        if (v >= (values[n - 1] ?? v) && v >= (values[n + 1] ?? v) && Number.isFinite(v))
          inner.push([points[Math.max(0, n - 1)]!, points[Math.min(parts, n + 1)]!, v + bulge((to - from) / parts)]);
      });
    }
    // A hump between two points so near rises little above them: look only into those that can win, the likeliest first.
    inner.sort((p, q) => q[2] - p[2]);
    for (const [from, to, most] of inner)
      if (most > best.value) {
        const theta = humpOf(f, from, to);
        take(theta, f(theta));
      }
    return best;
  };

  return {
    step: d,
    pitch: P,
    lo,
    hi,
    engaged,
    carrying,
    engagedOver: (height = 0) => {
      let fewest = Number.POSITIVE_INFINITY;
      let most = 0;
      // A tooth's height falls from upright outward: the count changes where a point of it passes the height.
      const edge = edgeOf((a) => tooth.height(a) - height, widest);
      for (const a of [0, d / 2, edge - d * Math.floor(edge / d), d - (edge - d * Math.floor(edge / d))])
        for (const theta of [a - 1e-9 * d, a, a + 1e-9 * d]) {
          const n = engaged(theta, height);
          fewest = Math.min(fewest, n);
          most = Math.max(most, n);
        }
      return [fewest, most];
    },
    least: () => {
      // hi - lo is the same at theta and -theta.
      const { theta, value } = greatest((a) => {
        const w = width(a);
        return w === Number.POSITIVE_INFINITY ? Number.NEGATIVE_INFINITY : -w;
      }, d / 2);
      return { theta, width: -value };
    },
    error: () => {
      const off = (theta: number): number => lo(theta) - (P * theta) / d;
      const [most, least] = [greatest(off).value, greatest((a) => -off(a)).value];
      return Number.isFinite(most) && Number.isFinite(least) ? most + least : Number.POSITIVE_INFINITY;
    },
    halfStep: () => {
      // Half a step on, the same with the other sign: half of the angles tell all.
      const both = inOrder(
        [...turnings()].flatMap((a) => [a, a < d / 2 ? a + d / 2 : a - d / 2]),
        1e-10 * d,
      );
      const { theta, value } = greatest((a) => Math.abs(lo(a + d / 2) - lo(a) - P / 2), d / 2, both);
      return { theta, error: value >= 0 ? value : Number.POSITIVE_INFINITY };
    },
    table: (n) => {
      const theta = Array.from({ length: n }, (_, i) => (d * i) / n);
      return {
        lo: Float64Array.from(theta, (a) => lo(a) - (P * a) / d),
        hi: Float64Array.from(theta, (a) => hi(a) - (P * a) / d),
      };
    },
  };
}

const inOrder = (numbers: readonly number[], apart: number): Float64Array => {
  const all = [...numbers].sort((p, q) => p - q);
  return Float64Array.from(all.filter((a, i) => i === 0 || a - all[i - 1]! > apart));
};
/**
 * Place of the greatest value of a function with one hump between two points: parabolas through three points where they fit, golden section
 * where they do not. Brent 1973, ch. 5 (memory). To a millionth of the distance: a hump is flat at its top, so its height is right to rounding.
 */
function humpOf(f: (x: number) => number, low: number, high: number): number {
  const g = (3 - Math.sqrt(5)) / 2;
  const near = 1e-6 * (high - low);
  let [a, b] = [low, high];
  let x = a + g * (b - a);
  let [w, v] = [x, x];
  let fx = -f(x);
  let [fw, fv] = [fx, fx];
  let step = 0;
  let last = 0;
  for (let i = 0; i < 100; i++) {
    const middle = (a + b) / 2;
    if (Math.abs(x - middle) <= 2 * near - (b - a) / 2) break;
    let isFitted = false;
    if (Math.abs(last) > near) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      const before = last;
      last = step;
      if (Math.abs(p) < Math.abs((q * before) / 2) && p > q * (a - x) && p < q * (b - x)) {
        step = p / q;
        const u = x + step;
        if (u - a < 2 * near || b - u < 2 * near) step = middle > x ? near : -near;
        isFitted = true;
      }
    }
    if (!isFitted) {
      last = (x < middle ? b : a) - x;
      step = g * last;
    }
    const u = x + (Math.abs(step) >= near ? step : step > 0 ? near : -near);
    const fu = -f(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      [v, fv, w, fw, x, fx] = [w, fw, x, fx, u, fu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) [v, fv, w, fw] = [w, fw, u, fu];
      else if (fu <= fv || v === x || v === w) [v, fv] = [u, fu];
    }
  }
  return x;
}
/** Where a function that is positive at 0 and falls turns to 0, by halving; 0 where it begins below. */
function edgeOf(f: (a: number) => number, widest: number): number {
  let low = 0;
  let high = Math.max(0, widest);
  if (!(f(0) > 0)) return 0;
  while (high - low > 1e-13) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}

const mm = (x: number): string => `${+(x * 1e3).toFixed(3)} mm`;
function complain({ teeth, baseRadius, thickness, neutral, wrap, pitch, opening }: ToothedWheel): void {
  if (!(Number.isInteger(teeth) && teeth >= 4))
    throw new RangeError(`a wheel with ${teeth} teeth is none: it needs a whole number of 4 or more`);
  if (!(baseRadius > 0))
    throw new RangeError(`the wheel's axis lies ${mm(baseRadius)} below the tape's underside; it must be above 0`);
  if (!(thickness > 0)) throw new RangeError(`a tape ${mm(thickness)} thick is none`);
  if (!(neutral >= 0 && neutral <= 1))
    throw new RangeError(`the neutral line lies at ${neutral} of the tape's thickness`);
  if (!(wrap >= 0 && wrap <= Math.PI)) throw new RangeError("the tape lies round the wheel by 0 to 180 deg, not more");
  if (!(pitch > 0)) throw new RangeError(`holes at a pitch of ${mm(pitch)} are none`);
  if (!Number.isFinite(opening)) throw new RangeError("a tooth meets no opening of the hole");
}
