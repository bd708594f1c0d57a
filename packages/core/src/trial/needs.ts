/**
 * What must be known before a trial can be made, or read. Common practice, no source: a film is not pulled until it slips before one knows where it
 * breaks; a slope over speed begins at the slow peel.
 */
export interface Need {
  readonly card: string;
  readonly because: string;
}
const film: Need = { card: "film-break", because: "the film is pulled until it slips: know first where it breaks" };
const slow: Need = { card: "seal-strength", because: "the slow peel is its first point" };
const ofCards: Readonly<Record<string, readonly Need[]>> = {
  "roller-friction": [film],
  "peel-rate": [slow],
  "peel-jerks": [slow],
  "seal-ageing": [slow],
  "hot-winding": [{ card: "room", because: "it is read above the room" }],
  "heat-path": [{ card: "room", because: "it is read above the room" }],
};
const ofPieces: Readonly<Record<number, readonly Need[]>> = { 4: [slow], 7: [film] };

/** Cards that a card, or a trial piece of a station, needs first. */
export const needsOfCard = (card: string): readonly Need[] => ofCards[card] ?? [];
export const needsOfPiece = (station: number): readonly Need[] => ofPieces[station] ?? [];

/** From here on two questions fail together so often that the cheaper goes first: its answer moves the other's chances. */
export const togetherFrom = 0.5;
/** Correlation of two indicators over belief; 0 where one of them never changes. */
export function correlation(a: Uint8Array, b: Uint8Array, weights: Float64Array): number {
  let [all, x, y, xy] = [0, 0, 0, 0];
  for (let k = 0; k < weights.length; k++) {
    const w = weights[k]!;
    all += w;
    x += w * a[k]!;
    y += w * b[k]!;
    xy += w * a[k]! * b[k]!;
  }
  x /= all;
  y /= all;
  const spread = Math.sqrt(x * (1 - x) * y * (1 - y));
  return spread > 0 ? (xy / all - x * y) / spread : 0;
}
