/**
 * Screws in printed plastic: how stiff they hold, how fast they let go.
 *
 *     k_b  = A_t E_s/l                                                                       screw, N/m
 *     k_m  = 0.5774 pi E d/(2 ln(5 (0.5774 l + 0.5 d)/(0.5774 l + 2.5 d)))                   clamped plastic: frusta of 30 degrees
 *     k_i  = 1/(1/k_b + 1/(q_i k_m))                                                         both in series; q_i for infill
 *     k_th = sum k_i x_i^2                                                                   against tipping, N m per rad
 *
 * d size, l plastic between head and thread, m; E its modulus, Pa, E_s 206 GPa; A_t stress area pi/4 (d - 0.938 p)^2 with the coarse pitch p (ISO 261,
 * memory); q_i 0.3 .. 1; x_i distance of each screw from the edge that the plate tips on, m. Frusta after Shigley (memory): head 1.5 d wide, 0.5 d <=
 * l. Good while the joint stays closed; once the screw has let go it is one-sided and much softer.
 */
const pitches: Readonly<Record<string, number>> = {
  M1: 0.25,
  "M1.6": 0.35,
  M2: 0.4,
  "M2.5": 0.45,
  M3: 0.5,
  M4: 0.7,
  M5: 0.8,
  M6: 1,
};
export interface Screw {
  /** Size, m, and stress area, m2. */
  readonly d: number;
  readonly area: number;
}
/** A screw by the word of a unit file; undefined where it is none that we know. */
export function screwNamed(size: string | undefined): Screw | undefined {
  const key = size?.trim().toUpperCase();
  const pitch = key !== undefined && Object.hasOwn(pitches, key) ? pitches[key]! : undefined;
  if (key === undefined || pitch === undefined) return undefined;
  const mm = Number(key.slice(1));
  return { d: mm * 1e-3, area: (Math.PI / 4) * (mm - 0.9382 * pitch) ** 2 * 1e-6 };
}
export const screwNames = Object.keys(pitches);
const steel = 206e9;

/** Stiffness of the plastic under a head of 1.5 d. */
export function clampedStiffness(d: number, l: number, E: number): number {
  if (!(d > 0) || !(l > 0) || !(E > 0))
    throw new RangeError(`clamped plastic needs d, l and E above 0; found ${d}, ${l}, ${E}`);
  return (0.5774 * Math.PI * E * d) / (2 * Math.log((5 * (0.5774 * l + 0.5 * d)) / (0.5774 * l + 2.5 * d)));
}
export function screwStiffness(screw: Screw, l: number, E: number, infill: number): number {
  if (!(infill > 0)) throw new RangeError(`a share of infill of ${infill} holds nothing`);
  return 1 / (l / (screw.area * steel) + 1 / (infill * clampedStiffness(screw.d, l, E)));
}
/** Moment stiffness of a row of screws about an edge or an axis, distances `x` from it. */
export const tippingStiffness = (k: number, x: readonly number[]): number => x.reduce((sum, v) => sum + k * v * v, 0);
