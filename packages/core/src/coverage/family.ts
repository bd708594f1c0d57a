import type { Given } from "../quantity/given.ts";
import type { Scene } from "../scene.ts";

/**
 * A unit over continuous width, on one tape a width. Widths in mm, as the standards name them.
 *
 * Everything is linear between two catalogue widths but for steps: P1 and R are those of the row above, an override of one width holds half
 * way to its neighbours, and a tolerance of the catalogue is the wider of two rows. So a family is a row of pieces, each smooth inside.
 */
export interface WidthFamily {
  /** Its file, without .yaml; its name. */
  readonly unit: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** Catalogue widths from one end to the other. */
  readonly rows: readonly number[];
  /** The ladder's tapes, by width. */
  readonly tapes: readonly { readonly W: number; readonly tape: string }[];
  /** Widths it is made in that the ladder leaves out, or runs through without a tape of their own. */
  readonly leftOut: readonly { readonly W: number; readonly why: string }[];
  /** In order; the first is the least width by itself. */
  readonly pieces: readonly WidthPiece[];
}
/** Widths over which nothing takes a step. */
export interface WidthPiece {
  readonly from: number;
  readonly to: number;
  /** It goes on from the piece before without a step. */
  readonly joined: boolean;
  /** What takes a step just above `from`. */
  readonly steps: readonly WidthStep[];
  /** The unit on its tape at a width of the piece; at `from` just above it. A sentence where the unit cannot be cut to that width. */
  scene(W: number): Scene | string;
}
export interface WidthStep {
  /** "P1 8 to 12 mm" */
  readonly text: string;
  /** The numbers that take it. */
  gives(scene: Scene): readonly (Given | undefined)[];
  /** A word takes it, such as how the film is sealed: a check may begin or cease to apply. */
  readonly word?: true;
}
