/**
 * Where the tape may lie on its teeth, against the wheel.
 *
 *     r_p phi + lo(phi) <= x <= r_p phi + hi(phi)
 *
 * r_p phi travel of the wheel at the pitch line, m; lo and hi periodic over one tooth pitch, m. At lo a tooth carries the tape on, at hi
 * the tape bears forward on the tooth. hi - lo is the play, the waviness of lo the transmission error.
 *
 * Held as samples over one pitch and read by a cubic through four of them (Catmull and Rom), so that slopes have no steps. Between samples
 * the kink where one tooth hands over to the next is rounded: by an eighth of the change of slope times the spacing of the samples.
 */
export interface ToothPlay {
  /** Wheel angle of one tooth pitch, rad; what is constant has any. */
  readonly pitch: number;
  readonly lo: Float64Array;
  readonly hi: Float64Array;
}
/** A play that does not change with the wheel's angle. */
export const constantPlay = (play: number): ToothPlay => ({
  pitch: 1,
  lo: Float64Array.of(-play / 2),
  hi: Float64Array.of(play / 2),
});
/** Samples of functions of the wheel's angle, each less r_p phi. */
export function sampledPlay(
  pitch: number,
  lo: (phi: number) => number,
  hi: (phi: number) => number,
  samples = 128,
): ToothPlay {
  if (!(pitch > 0)) throw new RangeError(`a tooth pitch of ${pitch} rad; it must be more than 0`);
  const at = (f: (phi: number) => number): Float64Array =>
    Float64Array.from({ length: samples }, (_, i) => f((i * pitch) / samples));
  return { pitch, lo: at(lo), hi: at(hi) };
}
export function isConstant(p: ToothPlay): boolean {
  return p.lo.length === 1;
}

/** Value of periodic samples at phi; the slope is written to slope[0]. */
export function periodic(samples: Float64Array, pitch: number, phi: number, slope: Float64Array): number {
  const n = samples.length;
  if (n === 1) {
    slope[0] = 0;
    return samples[0]!;
  }
  let at = (phi / pitch) * n;
  at -= Math.floor(at / n) * n;
  let i = Math.floor(at);
  const u = at - i;
  if (i >= n) i -= n;
  const b = samples[i]!;
  const a = samples[i === 0 ? n - 1 : i - 1]!;
  const c = samples[i + 1 < n ? i + 1 : i + 1 - n]!;
  const d = samples[i + 2 < n ? i + 2 : i + 2 - n]!;
  const p = 0.5 * (c - a);
  const q = a - 2.5 * b + 2 * c - 0.5 * d;
  const r = 1.5 * (b - c) + 0.5 * (d - a);
  slope[0] = ((p + u * (2 * q + 3 * r * u)) * n) / pitch;
  return b + u * (p + u * (q + u * r));
}
