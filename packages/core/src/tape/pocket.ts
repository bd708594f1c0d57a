import { noLength } from "../quantity/bound.ts";
import { model } from "../quantity/model.ts";
import type { TapeKind } from "./tape.ts";

/**
 * The embossed pocket from outside.
 *
 *     drop = K_0 + t_w - T      below the tape's underside, m
 *     L    = A_0 + 2 t_w        along the travel, m
 *
 * K_0 depth, T thickness of the carrier, t_w thickness of walls and floor, A_0 length inside; all m. Draft of the walls is left out:
 * the bottom of a real pocket is shorter than its mouth, so both are upper values. Pockets in board have no walls of their own: t_w is 0 there.
 */
export const pocketDrop = model({
  id: "tape.drop",
  symbol: "drop",
  unit: "m",
  title: "pocket below the tape's underside",
  equation: "K_0 + t_w - T",
  form: "closed",
  origin: {
    cite: "EIA-481-D p. 13, figure of the embossed tape: K0 from the top surface, walls of the carrier's thickness",
    how: "derived",
  },
  reads: ({ tape }) =>
    tape.kind === "embossed" ? { K_0: tape.letters.K0, t_w: tape.letters.wall, T: tape.letters.T } : undefined,
  value: ({ K_0, t_w, T }) => K_0 + t_w - T,
});
export const pocketLength = model({
  id: "tape.pocket-length",
  symbol: "L",
  unit: "m",
  title: "outside length of a pocket",
  equation: "A_0 + 2*t_w",
  form: "closed",
  origin: { cite: "geometry of the pocket", how: "derived" },
  reads: ({ tape }) => ({ A_0: tape.letters.A0, t_w: tape.kind === "embossed" ? tape.letters.wall : noLength }),
  value: ({ A_0, t_w }) => A_0 + 2 * t_w,
});
export const noPockets = (kind: TapeKind): string | undefined =>
  kind === "embossed" ? undefined : `${kind} tape has no pockets below its underside`;
