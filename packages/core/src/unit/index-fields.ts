import { type DataOf, group, optional, quantity, word } from "./field.ts";

/** What the unit's firmware does in one index. */
export const indexFields = group("how the firmware makes one index", {
  stop: word(
    "how the feed motor is stopped: braked a lead before the end by its own count, slowed down before that, or braked by a count at the wheel",
    "open loop",
    "two speeds",
    "count at the wheel",
  ),
  "wheel counts": optional(
    quantity("counts", "counts per turn of the wheel, where it is counted there", {
      least: 4,
      most: 1_000_000,
      example: "1024 counts",
    }),
  ),
  "slow share": optional(
    quantity("", "share of the volts in the slow approach", {
      least: 0.05,
      most: 1,
      lever: [0.15, 0.9],
      example: "0.4",
    }),
  ),
  "slow over": optional(
    quantity("mm", "travel of the slow approach", { least: 0, most: 50, lever: [0.1, 3], example: "0.8 mm" }),
  ),
  "peel lead": optional(
    quantity("ms", "how long before the feed motor the peel motor starts", {
      least: 0,
      most: 500,
      lever: [0, 60],
      example: "12 ms",
    }),
  ),
  hold: optional(
    quantity("ms", "how long the peel motor stays on after the feed motor's brake", {
      least: 0,
      most: 2000,
      lever: [0, 100],
      example: "20 ms",
    }),
  ),
});
export type IndexData = DataOf<typeof indexFields>;
