import { power } from "../quantity/power.ts";
import { rootBetween } from "../study/root.ts";

/**
 * A shaft pressed along a soft nip: how evenly it presses.
 *
 *     EI w'''' + k w = k d,   v = 1 - w/d,   lambda = (k/(4 EI))^(1/4),   L = lambda l
 *     v(0) = 1,  v''(0) = kappa v'(0)                         root: kappa = k_th/(EI lambda); endless: clamped, 0: turns in a bearing
 *     v''(L) = v'''(L) = 0                                    far end free
 *     v''(L) = 0,  v'''(L) = -h (1 - v(L) - p/d)              far end in a hook, once w(l) > p; h = k_h/(EI lambda^3)
 *     v''(L) = 0,  v(L) = 1                                   far end in a bearing like the root
 *
 * v line force over that at the root; k line stiffness of the nip, N/m2, EI of the shaft, N m2 (two shafts carried alike: in series), d interference, l
 * length, m; k_th moment spring at the root, N m; k_h, p stiffness and play of a hook. Lengths in units of 1/lambda below.
 *
 * Winkler's foundation, linear beam. Root clamped and far end free: tip/root = 2 cosh L cos L/(cosh^2 L + cos^2 L), about 1 - L^4/2, mean/root
 * = (sinh 2L + sin 2L)/(2L (cosh^2 L + cos^2 L)). The least of v below 0 says that the nip has opened there: this linear figure then pulls where a nip
 * cannot. How far a nip that can't pull still touches is `touching`: where the far end is free, the shaft beyond the last touch bears nothing, so it
 * touches to the length whose tip is just bare, pi/2 on a clamped root. Shear of the shaft is left out: frame/shear.ts.
 */
export type FarEnd = "free" | "bearing" | { readonly stiffness: number; readonly play: number };
export interface Evenness {
  /** Line force at the far end, the least of all, and the mean, each over that at the root. */
  readonly tip: number;
  readonly least: number;
  readonly mean: number;
  /** Where the least stands, share of the length from the root. */
  readonly at: number;
}
/** Krylov's functions: value, and the three before it in the chain of derivatives (K1' = -4 K4, K2' = K1, K3' = K2, K4' = K3). */
function krylov(x: number): readonly [number, number, number, number] {
  const C = Math.cosh(x);
  const S = Math.sinh(x);
  const c = Math.cos(x);
  const s = Math.sin(x);
  return [C * c, (C * s + S * c) / 2, (S * s) / 2, (C * s - S * c) / 4];
}
type Krylov = ReturnType<typeof krylov>;
type State = readonly [v: number, slope: number, moment: number, shear: number];
const along = (state: State, x: number): State => stepped(state, krylov(x));
function stepped(state: State, by: Krylov): State {
  const v = state[0];
  const dv = state[1];
  const m = state[2];
  const q = state[3];
  const k1 = by[0];
  const k2 = by[1];
  const k3 = by[2];
  const k4 = by[3];
  return [
    v * k1 + dv * k2 + m * k3 + q * k4,
    -4 * v * k4 + dv * k1 + m * k2 + q * k3,
    -4 * v * k3 - 4 * dv * k4 + m * k1 + q * k2,
    -4 * v * k2 - 4 * dv * k3 - 4 * m * k4 + q * k1,
  ];
}
/** Beyond this the shaft is so soft that its far end knows nothing of its root, and the functions lose their digits. */
export const longest = 12;

/** `L` is lambda l, `kappa` the root's spring; `h` and the play of a hook are in units of EI lambda^3 and of the interference. */
export function evenness(L: number, kappa = Number.POSITIVE_INFINITY, far: FarEnd = "free"): Evenness {
  if (!(L > 0) || L > longest)
    throw new RangeError(`lambda l is ${L}; the equations are good from just above 0 to ${longest}`);
  if (!(kappa >= 0)) throw new RangeError(`the root's spring is ${kappa}; it must be 0 or more`);
  if (typeof far === "object" && !(far.stiffness >= 0))
    throw new RangeError(`the hook's stiffness is ${far.stiffness}; it must be 0 or more`);
  if (far === "free" && kappa === 0)
    throw new RangeError("a shaft that turns freely at its root needs a second bearing");
  const free = far === "bearing" ? undefined : solved(L, kappa, (end) => end[3]);
  const start =
    far === "free"
      ? free!
      : far === "bearing"
        ? solved(L, kappa, (end, one) => end[0] - one)
        : hooked(L, kappa, far, free!);
  return read(start, L);
}
function hooked(L: number, kappa: number, far: { stiffness: number; play: number }, free: State): State {
  if (1 - along(free, L)[0] <= far.play) return free;
  return Number.isFinite(far.stiffness)
    ? solved(L, kappa, (end, one) => end[3] + far.stiffness * (one - end[0] - one * far.play))
    : solved(L, kappa, (end, one) => end[0] - one * (1 - far.play));
}
/**
 * The root's state that meets v'' = 0 and a second condition at the far end. Both are linear in the state and in `one`, which is 1 for the part that
 * v(0) = 1 makes and 0 for the other two.
 */
function solved(L: number, kappa: number, second: (end: State, one: number) => number): State {
  // One unknown is the root's turn, the other its shear.
  const turn: State = Number.isFinite(kappa) ? (kappa > 1 ? [0, 1 / kappa, 1, 0] : [0, 1, kappa, 0]) : [0, 0, 1, 0];
  const base = along([1, 0, 0, 0], L);
  const a = along(turn, L);
  const b = along([0, 0, 0, 1], L);
  const [r1, r2] = [-base[2], -second(base, 1)];
  const [a2, b2] = [second(a, 0), second(b, 0)];
  const det = a[2] * b2 - b[2] * a2;
  const x = (r1 * b2 - b[2] * r2) / det;
  const y = (a[2] * r2 - r1 * a2) / det;
  return [1, x * turn[1], x * turn[2], y];
}
function read(start: State, L: number): Evenness {
  const end = along(start, L);
  const mean = (start[3] - end[3]) / (4 * L);
  // The least of a few places, the longer waves of which stand wide apart, then where the slope is nought beside it.
  const steps = 8 + Math.ceil(4 * L);
  const h = L / steps;
  const one = krylov(h);
  let best = 0;
  let value = 1;
  let before = start;
  let state = start;
  let last = start;
  for (let i = 1; i <= steps; i++) {
    last = state;
    state = i === steps ? end : stepped(state, one);
    if (state[0] >= value) continue;
    best = i;
    value = state[0];
    before = last;
  }
  if (best === 0 || best === steps) return { tip: end[0], least: value, mean, at: best / steps };
  // Between its neighbours v falls, then rises: Newton on the slope, from the middle, kept between them by halving.
  let low = 0;
  let high = 2 * h;
  let x = h;
  let there = along(before, x);
  for (let i = 0; i < 60; i++) {
    if (there[1] < 0) low = x;
    else high = x;
    const next = x - there[1] / there[2];
    const to = next > low && next < high ? next : (low + high) / 2;
    const done = Math.abs(to - x) < 1e-9 * h;
    x = to;
    there = along(before, x);
    if (done) break;
  }
  return { tip: end[0], least: there[0], mean, at: ((best - 1) * h + x) / L };
}

/** Length from the root over which a shaft with a free far end touches, in units of 1/lambda: all of L, or to where a shorter one would be bare. */
export function touching(L: number, kappa = Number.POSITIVE_INFINITY): number {
  if (evenness(L, kappa).tip >= 0) return L;
  return rootBetween((x) => evenness(x, kappa).tip, 1e-6, Math.min(L, Math.PI / 2 + 1e-9), 1e-12) ?? 0;
}

/** Length by which a beam on a foundation is soft: 1/lambda, m. */
export const lambdaOf = (k: number, EI: number): number => power(k / (4 * EI), 0.25);
/** Two shafts that flex one against the other. */
export const inSeries = (EI_1: number, EI_2: number): number => 1 / (1 / EI_1 + 1 / EI_2);

/**
 * A hard nip, whose interference is smaller than any shaft's error: what counts is how far the sprung carrier lets its roller lie down on the other.
 *
 *     q = 6 k_phi phi_0/(N l),   tip/root = (1 - q)/(1 + q)
 *
 * k_phi torsion of the carrier, N m per rad; phi_0 how far out of parallel the rollers stand, rad; N force, N; l length, m. A line force linear along
 * l with the sum N and the moment k_phi phi_0. Below 0 one end is open.
 */
export function hardEvenness(k_phi: number, phi_0: number, N: number, l: number): number {
  if (!(N > 0) || !(l > 0)) throw new RangeError(`a nip pressed with ${N} N over ${l} m has no evenness`);
  const q = (6 * k_phi * phi_0) / (N * l);
  return (1 - q) / (1 + q);
}
