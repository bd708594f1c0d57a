import type { Given, Origin } from "../quantity/given.ts";
import type { Quantity } from "../quantity/model.ts";
import type { TapeLetters } from "./letters.ts";

/** Embossed plastic, its pockets hanging below; punched board, its pockets closed by films above and below; pressed board, its pockets with a floor. */
export type TapeKind = "embossed" | "punched" | "pressed";
export const tapeKinds = ["embossed", "punched", "pressed"] as const satisfies readonly TapeKind[];

/** The cover film of one tape. What its file does not give is an unknown with its range and source. */
export interface CoverFilm {
  /** How it is sealed; undefined where the file does not say. */
  readonly sealed: "heat activated" | "pressure sensitive" | undefined;
  readonly width: Quantity;
  /** Width of one seal track, and its distance from the film's edge. */
  readonly track: Quantity;
  readonly inset: Quantity;
  /** Peel force of both tracks in the standard's test, with that test's angle and speed. */
  readonly seal: Quantity;
  readonly testAngle: Quantity;
  readonly testSpeed: Quantity;
  readonly rate: Quantity;
  readonly ageing: Quantity;
  readonly break: Quantity;
  readonly tack: Quantity;
  readonly curl: Quantity;
  /** Charge of the inner face by area, where it was measured. */
  readonly charge?: Quantity;
  /** Modulus and thickness of the stretched and of the sealing layer; Poisson's ratio. */
  readonly E1: Quantity;
  readonly h1: Quantity;
  readonly E2: Quantity;
  readonly h2: Quantity;
  readonly nu: Quantity;
  /** Friction on a material, in lower case: measured on this film, and that of the material's class. */
  readonly friction: Readonly<Record<string, Quantity>>;
  /** On a tape between two of which one has it measured: friction on a material, from what would hold there without that. */
  readonly frictionBeside?: Readonly<Record<string, (without: Quantity) => Quantity>>;
  readonly frictionOfClass: Readonly<Record<string, Given>>;
}

/** A carrier tape with its cover film, as it comes off the reel. */
export interface Tape {
  readonly name: string;
  readonly part: string;
  /** The part that lies in its pockets, as far as the file gives it: mass, height, length along the travel, width across. */
  readonly partMass?: Quantity;
  readonly partHeight?: Quantity;
  readonly partLength?: Quantity;
  readonly partWidth?: Quantity;
  readonly kind: TapeKind;
  /** Nominal width of the catalogue row it belongs to, mm. */
  readonly row: number;
  readonly letters: TapeLetters;
  /** Bow of the edge over 250 mm. */
  readonly camber: Quantity;
  /** Error over ten sprocket hole pitches. */
  readonly tenPitch: Quantity;
  /** Films that run under the lips: 2 on punched tape, else 1. */
  readonly films: Given;
  readonly film: CoverFilm;
  readonly reel: ReelOfTape;
  /** Bending stiffness along the tape, N m2, and the radius it keeps off the hub, m, where they were measured. */
  readonly stiffness?: Quantity;
  readonly setRadius?: Quantity;
  /** Where this tape leaves the catalogue; it goes on all the same. */
  readonly departures: readonly Departure[];
  readonly givens: ReadonlyMap<string, Given>;
  readonly origin: Origin;
}
/** The reel a tape comes on: outside and hub diameter, m; mass of the full reel where somebody weighed it, kg. */
export interface ReelOfTape {
  readonly diameter: Quantity;
  readonly hub: Quantity;
  readonly mass?: Quantity;
}
/** A figure of a tape outside the catalogue's, with what the catalogue says and its source. */
export interface Departure {
  readonly letter: string;
  readonly found: string;
  readonly catalogue: string;
  readonly source: string;
  readonly origin: Origin;
}
