import type { Quantity } from "../quantity/model.ts";

/** The standards' letters of one tape, each as it is on the reel. */
export interface TapeLetters {
  readonly W: Quantity;
  readonly E1: Quantity;
  readonly F: Quantity;
  readonly D0: Quantity;
  readonly P0: Quantity;
  readonly P1: Quantity;
  readonly P2: Quantity;
  readonly A0: Quantity;
  readonly B0: Quantity;
  readonly K0: Quantity;
  readonly T: Quantity;
  readonly T1: Quantity;
  readonly T2: Quantity;
  readonly B1: Quantity;
  readonly R: Quantity;
  readonly wall: Quantity;
}
