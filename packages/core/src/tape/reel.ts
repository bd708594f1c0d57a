import { type Given, tabled } from "../quantity/given.ts";
import { citation } from "./catalogue.ts";
import type { Figure } from "./figures/figure.ts";
import { reelA, reelN } from "./figures/reels.ts";
import type { ReelOfTape } from "./tape.ts";

/**
 * The reel a tape comes on where its file says nothing: 178 mm with a hub of 50 to 60 mm up to 8 mm tape, 330 mm with a hub of 100 mm beyond.
 * Diameters are read on makers' sheets; which width comes on which is common practice, no source (12 mm tape comes on both).
 */
const as = (address: string, symbol: string, text: string, from: readonly (Figure | undefined)[]): Given =>
  tabled(address, symbol, text, [1, 0, 0, 0, 0], {
    cite: `${citation(from.flatMap((f) => f?.sources ?? []))}; which width comes on it: common practice`,
    how: "read",
  });
const small: ReelOfTape = {
  diameter: as("catalogue/reel 178/diameter", "A", "178 ±2 mm", [reelA[0]]),
  hub: as("catalogue/reel 178/hub", "N", "50..60 mm guess", [reelN[0], reelN[2]]),
};
const large: ReelOfTape = {
  diameter: as("catalogue/reel 330/diameter", "A", "330 mm", [reelA[1]]),
  hub: as("catalogue/reel 330/hub", "N", "100 mm", [reelN[4]]),
};
/** Widest tape that usually comes on the small reel, mm. */
const widestOnSmall = 8;

export const usualReel = (row: number): ReelOfTape => (row <= widestOnSmall ? small : large);
