import { pointwise, type TwoLevels, twoLevels } from "@tapeworthy/core";
import { type Row, row } from "./row.ts";

/** g = 4 + 0.8 T + 0.6 U + W, W spread over four coordinates: reel, unit, index. */
const limits = pointwise(6, {
  g: (z) => 4 + 0.8 * z[0]! + 0.6 * z[1]! + (z[2]! + z[3]! + z[4]! + z[5]!) / 2,
});
let known: TwoLevels | undefined;
const found = (): TwoLevels => {
  known ??= twoLevels(limits, { seed: 3, reel: [0], unit: [1], limit: 0.01, places: 2000 });
  return known;
};
const source =
  "closed form of the linear case, one integral; tolerance three times the estimator's spread at 2000 places";

/** Two levels against the closed form of a plane. */
export function misfeedRows(): Row[] {
  const two = found();
  const claim = (id: string, expected: number, got: number, share: number): Row =>
    row({ id: `misfeed.twolevel.${id}`, model: "two levels", expected, got, near: { share }, source, how: "derived" });
  return [
    claim("mean", 0.002338867490523633, two.mean, 0.09),
    claim("median pair", 3.167124183311986e-5, two.median, 0.25),
    claim("pair at 99 %", 0.047099493843951915, two.p99, 0.25),
    claim("1000 clean", 0.7638803001157437, two.clean(1000), 0.02),
    claim("100000 clean", 0.3561266351087174, two.clean(100_000), 0.04),
    claim("1000 clean if all were alike", 0.09617297236251934, Math.exp(1000 * Math.log1p(-two.mean)), 0.25),
    claim("units over 1e-2", 0.04443690488864736, two.unitsOver ?? Number.NaN, 0.15),
    // Phi(-(b - z_p sqrt 0)/sqrt(0.8^2 + 0.6^2)) with z_p of 1e-2.
    claim("pairs over 1e-2", 0.0471, two.pairsOver ?? Number.NaN, 0.15),
  ];
}
