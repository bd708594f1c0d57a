import { group, list, optional, quantity } from "./field.ts";

/** A pair of spur gears, involute, with the standard rack's teeth. */
export const gearPairFields = group("gears that join two shafts", {
  module: quantity("mm", "module", { least: 0.05, most: 5, lever: [0.2, 1], example: "0.5 mm" }),
  teeth: list(quantity("", "teeth", { least: 4, most: 400, example: "20" }), "teeth of the two gears"),
  "pressure angle": optional(
    quantity("deg", "pressure angle of the rack; 20 deg where it is left out", {
      least: 10,
      most: 30,
      example: "20 deg",
    }),
  ),
  shifts: optional(
    list(
      quantity("", "profile shift, in modules", { least: -1, most: 1.5, example: "0.3" }),
      "profile shifts of the two gears; none where they are left out",
    ),
  ),
  backlash: optional(
    quantity("mm", "backlash made into the teeth, at the pitch circle", {
      least: 0,
      most: 2,
      set: true,
      example: "0.08..0.20 mm",
    }),
  ),
  centre: optional(
    quantity("mm", "distance of the axes", { least: 0.5, most: 200, lever: [2, 60], example: "11.0 ±0.1 mm" }),
  ),
});
