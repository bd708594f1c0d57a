import type { Assumption } from "./assume.ts";
import type { Given } from "./quantity/given.ts";
import type { Quantity } from "./quantity/model.ts";
import type { Tape } from "./tape/tape.ts";
import type { Rail } from "./unit/supply-fields.ts";
import type { Unit } from "./unit/unit.ts";

/** One unit variant, one tape on its reel, and what is asked of the pair: all that the models know. */
export interface Scene {
  readonly unit: Unit;
  readonly tape: Tape;
  readonly requirement: Requirement;
}

export interface Requirement {
  /** Share of unit-reel pairs that may break a window. */
  readonly allowPairs: number;
  /** Share of indexes that may go wrong, mean over pairs; undefined where project.yaml allows none in particular. */
  readonly misfeeds?: number;
  /** Mean speed of the film relative to the tape while it peels. */
  readonly filmSpeed: Given;
  /** How many times the pull on the film must stay below its break. */
  readonly breakSafety: Given;
  /** Time for one index; undefined where project.yaml asks for none. */
  readonly indexTime?: Given;
  /** Indexes a second, mean over a run; undefined where the unit indexes without a pause. */
  readonly indexRate?: Given;
  /** Indexes that a unit should last. */
  readonly life?: Given;
  /** Temperature of the air around the unit; where it is left out, `assume["room temperature"]`. */
  readonly ambient?: Given;
  /** Force with which the pick tool pushes a part, and how far its spring gives; where left out, what is assumed of them. */
  readonly pickForce?: Given;
  readonly pickTravel?: Given;
  /** Radius that the pick tool forgives; undefined where project.yaml gives none. */
  readonly pickTool?: Given;
  /** Share of indexes that the pick radius holds; 99.7 % where left out. */
  readonly pickShare?: Given;
  /** How a unit's pick place is taught; one point where left out. */
  readonly calibration?: Calibration;
  /** Package families with what the tool forgives of each; where left out, those of accuracy/yield.ts. */
  readonly pickFamilies?: readonly PickFamily[];
  /** The rail that feeds the units; undefined where project.yaml gives none. */
  readonly supply?: Rail;
  /** Whether the peel front is clamped (1) or swings (0), where a unit file does not say. */
  readonly front: Given;
  /** Judgements and figures that no file gives, each with its range and source; project.yaml may give its own. */
  readonly assume: Readonly<Record<Assumption, Given>>;
}

/** not at all; once with another reel of the same tape; cold and warm. */
export type Calibration = "none" | "one point" | "two points";
/** A package family: what of the pick error its parts forgive. */
export interface PickFamily {
  readonly name: string;
  readonly radius: Given;
  /** Greatest turn, rad; any where left out. */
  readonly turn?: Given;
}

/** A letter, mark or `let` name of a unit file and what it stands for. */
export type Names = Readonly<Record<string, Quantity>>;
