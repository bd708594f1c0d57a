import type { Check, Given, Requirement, Scene, Tape, Unit } from "@tapeworthy/core";
import type { Curve, CurveSpec } from "./curve.ts";
import type { WallDrawing } from "./wall-drawing.ts";

/** The invented units and tapes that the walls are shown on: those of the tests. */
export interface Invented {
  sideCrossing(width?: number): Unit;
  heldByLeaf(width?: number): Unit;
  heldByRib(width?: number): Unit;
  withBends(width?: number): Unit;
  withGears(width?: number): Unit;
  embossedTape(width?: number, seal?: "heat activated" | "pressure sensitive"): Tape;
  halfPitchTape(): Tape;
  readonly requirement: Requirement;
  readonly driven: { sheetScene(): Scene };
}
/** One picture of a wall: a curve, and how it is drawn. */
export interface Picture extends WallDrawing {
  readonly curve: Omit<CurveSpec, "checks"> & { readonly checks: readonly string[] };
}
/** Where a trade's design stops: what happens, why it does not carry over, what moves it. */
export interface Wall {
  /** Name of its pictures: docs/images/walls/NAME.svg. */
  readonly name: string;
  readonly title: string;
  /** Which invented unit it is shown on. */
  readonly shownOn: string;
  readonly pictures: readonly Picture[];
  /** The words, with numbers from the curves. */
  words(curves: readonly Curve[]): { readonly happens: string; readonly moves: string };
  /** Checks whose pages it leads to. */
  readonly see: readonly string[];
}
export type CheckNamed = (id: string) => Check;

/** A number of a scene by its path under a tree of it; a message where it is none. */
export function givenOf(q: unknown, what: string): Given {
  if (typeof q === "object" && q !== null && "kind" in q && q.kind === "given") return q as Given;
  throw new TypeError(`${what} is no number that somebody gave`);
}
