import { none } from "../quantity/dimension.ts";
import { type Given, tabled } from "../quantity/given.ts";

/**
 * Places that nobody chooses: where the wheel stands in its turn, which side of its play a tape keeps to.
 *
 *     t in [-1, 1], even
 *
 * Each is a number like any other, nought as written, with a scatter between its limits at the level at which it changes: so it is an axis of
 * the draws, has an address, and can be named by a share. What it moves is said by the term that reads it (chain.ts).
 */
const origin = { cite: "any place is as likely as another", how: "judgement" } as const;
const place = (name: string, level: "reel" | "unit" | "index"): Given =>
  tabled(`pick/${name}`, "t", "0 ±1", none, origin, level);

export const places = {
  /** Fixed for a unit. */
  restPhase: place("phase of a tooth at rest", "unit"),
  side: place("side of its play that the tape keeps to", "unit"),
  taught: place("how warm it was when its place was taught", "unit"),
  /** Fixed for a reel. */
  bow: place("bow of the tape's edge, as a share of what it may be", "reel"),
  /** New with every index. */
  wheelTurn: place("place of the wheel in its turn", "index"),
  hole: place("place of a single hole", "index"),
  seat: place("side of the teeth", "index"),
  halfStep: place("which half of a hole pitch", "index"),
  stop: place("stop of the wheel", "index"),
  count: place("place within a count of the wheel", "index"),
  drag: place("drag within a run", "index"),
  settle: place("rest of the settling", "index"),
  warm: place("how warm it has grown", "index"),
  sideways: place("place of the tape in its play", "index"),
  partAlong: place("place of the part along its pocket", "index"),
  partAcross: place("place of the part across its pocket", "index"),
  partTurn: place("turn of the part in its pocket", "index"),
  lift: place("height of the tape under its lips", "index"),
} as const;
