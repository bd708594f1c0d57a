import type { Cite } from "../quantity/given.ts";

/** Which drawing shows the set-up. */
export const pictures = [
  "capstan",
  "tilt",
  "peel",
  "pull",
  "bars",
  "nip",
  "bend",
  "coil",
  "hole",
  "rock",
  "feeler",
  "drum",
  "thermometer",
  "probe",
  "camera",
  "calipers",
] as const;
export type Picture = (typeof pictures)[number];
/** What is taken anew for each row of a card: readings of one piece never stand for others. */
export type Piece = "reel" | "unit" | "part" | "print" | "motor";
export type Cost = "nothing to buy" | "a few coins" | "an instrument to borrow";

/** A number that is read off an instrument, once a reading. */
export interface Entry {
  readonly symbol: string;
  readonly name: string;
  /** As it is typed: gf, mm, deg. */
  readonly unit: string;
  /** Least step that the instrument shows, in `unit`. */
  readonly resolution: number;
  /** How far its nought may be off: half width, in `unit`. Every reading has the same. */
  readonly zero?: number;
  /** How far its scale may be off: half width, as a share. Every reading has the same. */
  readonly scale?: number;
  /** True where nought and less make sense. */
  readonly signed?: true;
  /** True where it is counted or chosen: what is written is so to the last bit, and a part of one is none. */
  readonly whole?: true;
  /** Of a choice: its last; the first is 1. */
  readonly most?: number;
}
/** A number of the set-up: the same in all readings. */
export interface Setting {
  readonly symbol: string;
  readonly name: string;
  readonly unit: string;
  /** As the card draws it, in `unit`. */
  readonly usual: number;
  /** How far it may be off: half width, in `unit`. */
  readonly within: number;
}
export type Row = Readonly<Record<string, number>>;

/**
 * One way to measure something with what a workshop has. Plain data; its equation is the code where the law fits the grammar
 * (`closed`), else `ofReading` or `ofPiece` solves it. Symbols of the equation are those of entries and settings, SI.
 */
export interface Method {
  readonly id: string;
  readonly title: string;
  readonly picture: Picture;
  readonly symbol: string;
  /** Coherent SI unit of what comes out, and the unit a person reads it in. */
  readonly unit: string;
  readonly shownIn: string;
  readonly form: "closed" | "solved";
  /** closed: the expression of one reading's value. solved: both sides, the symbol of what comes out among them. */
  readonly equation: string;
  /** solved: the value of one reading. */
  readonly ofReading?: (row: Row, set: Row) => number;
  /** solved: what the readings of one piece say only together, as a slope does. */
  readonly ofPiece?: (rows: readonly Row[], set: Row) => number;
  /** The lower and the upper end between which a limit was caught: its half width counts as the reading's resolution. */
  readonly between?: readonly [low: string, high: string];
  /** Pairs of which the first must be more than the second, and what to do where it isn't. */
  readonly order?: readonly { readonly more: string; readonly less: string; readonly hint: string }[];
  /** What a piece cannot come out below, SI, and where to look where it does. */
  readonly least?: { readonly value: number; readonly hint: string };
  readonly entries: readonly Entry[];
  readonly settings: readonly Setting[];
  readonly per: Piece;
  readonly pieces: number;
  readonly repeats: number;
  readonly minutes: number;
  readonly cost: Cost;
  readonly needs: readonly string[];
  readonly steps: readonly string[];
  readonly cautions: readonly Caution[];
  readonly source: Cite;
  /** What perfect instruments show for a value (SI) in the k-th reading: what to expect, and what the simulator starts from. */
  readonly shows: (value: number, set: Row, k: number) => Row;
  /** A case of the usual size: value in `shownIn`, sd between pieces and from reading to reading as shares of it. */
  readonly typical: { readonly value: number; readonly pieces: number; readonly readings: number };
  /** Readings of one piece as typed, settings as drawn, and what comes out in `shownIn`, worked by hand. */
  readonly example: { readonly rows: readonly (readonly number[])[]; readonly gives: number };
}

export const cautionWords = {
  eyes: "Something under tension can fly off: wear eye protection.",
  edges: "Edges of tape, film, strip and burrs cut: mind your fingers, wear gloves where you pull.",
  pinch: "Rollers, wheels and gears pinch, also when turned by hand: take the supply away first.",
  power: "First power-up on a current-limited supply, with hands and sleeves away and a way to cut the power.",
  spring: "A compressed or bent spring strikes when it is let go: hold it down while you loosen it.",
  heat: "Windings, regulators and test pieces get hot enough to burn: let them cool before you touch them.",
  static: "Handle board and parts as static-sensitive: earth yourself first.",
  weight: "A hanging weight falls: keep feet away and hang it low.",
  blade: "A blade slips: cut away from yourself, on a mat.",
} as const;
export type Caution = keyof typeof cautionWords;
/** Stands at the end of every card. */
export const localRules = "Local rules and licensed practice come first.";

/** Readings as they are typed: piece by piece, reading by reading, in the order of the entries; settings that differ from the card's. */
export interface Readings {
  readonly pieces: readonly (readonly (readonly number[])[])[];
  /** In the setting's unit. */
  readonly settings?: Readonly<Record<string, number>>;
}
