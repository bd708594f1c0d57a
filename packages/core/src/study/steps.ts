/** Work done a piece at a time: between two pieces it may be left for a while, or for good. */
export type Steps<T> = Generator<undefined, T, undefined>;

/** The result of work done in one go. */
export function finished<T>(steps: Steps<T>): T {
  for (;;) {
    const piece = steps.next();
    if (piece.done) return piece.value;
  }
}
