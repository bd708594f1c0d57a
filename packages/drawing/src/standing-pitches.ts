import type { Thinned } from "./thinned.ts";

/** A pitch of a tape and what of a trace's ripple comes again with it. */
export interface PitchShare {
  readonly name: string;
  /** m. */
  readonly pitch: number;
  /** Share of the ripple's variance at the pitch and its overtones, as the statistics have it; undefined where they can't tell. */
  readonly share: number | undefined;
}
/** A pitch that stands out of a trace. */
export interface StandingPitch {
  readonly name: string;
  readonly pitch: number;
  readonly share: number;
  /** Where its first peak within the plateau lies, m. */
  readonly first: number;
}
const [waves, shortest] = [4, 3];
/** A thousandth of chi-squared with 8 degrees of freedom lies above it: 26.12 (tables; memory). */
const surprising = 26.12 / (2 * waves);

/**
 * Which pitches of a tape stand out of a trace's ripple, and where their peaks lie.
 *
 *     stands out:  share - shorter > 26.12/8 / m,   m = L/p
 *     peak:        greatest of  sum over k <= 4 of a_k cos(2 pi k s/p) + b_k sin(2 pi k s/p)  over whole periods of the plateau
 *
 * share    of the ripple's variance, at the pitch and three overtones, 0 .. 1     shorter  the share of another pitch whose waves are among them
 * p, L     pitch and length of the plateau, m     m  periods, from 3 on
 * a, b     of the trace without its trend, by sums over its points: a thinned trace has them at equal steps of the paper, nearly
 *
 * Noise that is as strong at every wave up to the third overtone gives each of the 4 m waves that the plateau can tell apart, on average, 1/(4 m) of its
 * variance, so the pitch and its overtones get 1/m; over that it is spread as chi-squared with 8 degrees of freedom over 8. Once in a thousand
 * traces it gets more than 3.27/m, which is what is called standing out. Noise that is finer or slower gives a pitch less. It stops holding for what
 * wanders at nearly the pitch without being locked to it: a few periods of that look the same (derived).
 */
export function standingPitches(
  pitches: readonly PitchShare[],
  plateau: readonly [from: number, to: number],
  trace: Thinned,
): StandingPitch[] {
  const length = plateau[1] - plateau[0];
  const known = pitches.filter((p) => p.pitch > 0 && p.share !== undefined);
  const out: StandingPitch[] = [];
  for (const { name, pitch, share } of known) {
    if (!(length >= shortest * pitch)) continue;
    // One pitch, two names.
    const same = known.filter((p) => Math.abs(p.pitch - pitch) < 1e-9);
    if (same[0]!.name !== name) continue;
    const among = known.find((p) => isOvertone(pitch, p.pitch));
    if (share! - (among?.share ?? 0) <= (surprising * pitch) / length) continue;
    const first = firstPeak(trace, plateau, pitch);
    if (first !== undefined) out.push({ name: same.map((p) => p.name).join(" = "), pitch, share: share!, first });
  }
  return out;
}
/** Whether the waves of a shorter pitch are among those of a longer one. */
function isOvertone(pitch: number, other: number): boolean {
  const k = Math.round(pitch / other);
  return k >= 2 && k <= waves && Math.abs(pitch / other - k) < 1e-6;
}
const phases = 96;
function firstPeak({ x, y }: Thinned, [from, to]: readonly [number, number], pitch: number): number | undefined {
  const end = from + Math.floor((to - from) / pitch + 1e-9) * pitch;
  const at: number[] = [];
  const v: number[] = [];
  for (let i = 0; i < x.length; i++)
    if (x[i]! >= from && x[i]! < end && Number.isFinite(y[i]!)) {
      at.push(x[i]! - from);
      v.push(y[i]!);
    }
  const n = at.length;
  const mean = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / n;
  const [ma, mv] = [mean(at), mean(v)];
  let [aa, av] = [0, 0];
  for (let i = 0; i < n; i++) {
    aa += (at[i]! - ma) ** 2;
    av += (at[i]! - ma) * (v[i]! - mv);
  }
  if (!(aa > 0)) return undefined;
  const bare = v.map((one, i) => one - mv - (av / aa) * (at[i]! - ma));
  // A wave takes two columns of the paper, each with up to four points.
  const most = Math.max(1, Math.min(waves, Math.floor((n * pitch) / (8 * (end - from)))));
  const parts = Array.from({ length: most }, (_, k) => {
    const w = (2 * Math.PI * (k + 1)) / pitch;
    let [a, b] = [0, 0];
    for (let i = 0; i < n; i++) {
      a += bare[i]! * Math.cos(w * at[i]!);
      b += bare[i]! * Math.sin(w * at[i]!);
    }
    return { w, a, b };
  });
  let best = 0;
  let top = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < phases; j++) {
    const s = (j * pitch) / phases;
    const height = parts.reduce((sum, { w, a, b }) => sum + a * Math.cos(w * s) + b * Math.sin(w * s), 0);
    if (height > top) [best, top] = [s, height];
  }
  return from + best;
}
