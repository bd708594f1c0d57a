import type { UnitShape } from "./unit-shape.ts";

/** Where wheel, tape and film stand at one moment of an index, each from where the drawing shows them at rest. */
export interface Moment {
  /** How far the tape has gone along its route, m; a little behind nought where a tooth must first take up its play. */
  readonly tape: number;
  /** How far the wheel has turned with the travel, rad. */
  readonly wheel: number;
  /** Film that has gone through the nip, m, and how far the lower roller has turned, rad. */
  readonly drawn: number;
  readonly roller: number;
  /** Force of a tooth on the tape, N: + it drives, - the tape bears forward on it. */
  readonly hole: number;
  /** Tooth that carries, counted from the one nearest to upright, + downstream; undefined where none is known. */
  readonly tooth?: number | undefined;
}

/** The same unit at a moment of an index: everything that moves stands where it stands then. */
export const atMoment = (shape: UnitShape, moment: Moment): UnitShape => ({ ...shape, moment });

/** How far the tape has been moved along its route, m. */
export const rideOf = (shape: UnitShape): number => shape.moment?.tape ?? 0;
/** Direction of one tooth, rad from x towards z, as the wheel stands. */
export const phaseOf = (shape: UnitShape): number => (shape.sprocket?.phase ?? 0) - (shape.moment?.wheel ?? 0);
