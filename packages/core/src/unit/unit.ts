import type { Given, Origin } from "../quantity/given.ts";
import type { Quantity } from "../quantity/model.ts";
import type { BuiltForLetter, UnitData } from "./unit-fields.ts";

/** Letters that come from the catalogue row of a unit's width, whatever tape is on the reel. */
export const rowLetters = ["W", "E1", "E2", "F", "S0", "D0", "P0", "P2", "R"] as const;
export type RowLetter = (typeof rowLetters)[number];

/**
 * One variant of a unit: the family's file cut for one width. A physical thing: it does not change with the tape on the reel.
 * Its members are the file's, each number a quantity.
 */
export interface Unit extends UnitData {
  readonly name: string;
  /** Nominal width of the catalogue row this variant is cut for, mm, as the standard names it. */
  readonly row: number;
  /** Catalogue letters at their nominal values, and the pockets the variant is built for. */
  readonly letters: Readonly<Partial<Record<RowLetter | BuiltForLetter, Quantity>>>;
  /** Every number of the variant by its address, for `--vary`, levers and the drill-down. */
  readonly givens: ReadonlyMap<string, Given>;
  readonly origin: Origin;
}

/** The guides from the peel line to the nip, the last one being the nip; undefined where the film is not led to one. */
export function guidesToNip(unit: Unit): NonNullable<UnitData["film"]["guides"]> | undefined {
  const { guides } = unit.film;
  const last = guides?.findIndex((g) => g.name === "nip") ?? -1;
  return guides && last >= 0 ? guides.slice(0, last + 1) : undefined;
}
/** The film is peeled whole and led over guides to a nip. */
export const leadsToNip = (unit: Unit): boolean => unit.film.opens === "whole width" && guidesToNip(unit) !== undefined;
