/** A number on a grid of steps of ten, without an exponent and without dust: 0.30000000000000004 at 0.01 is "0.30". */
export function printed(v: number, step: number): string {
  const places = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return places > 15 ? String(v) : v.toFixed(places);
}
