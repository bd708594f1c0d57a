import { group, optional, quantity, word } from "./field.ts";

const tooth = group("one tooth", {
  "height above tape": quantity("mm", "tip above the tape's underside", {
    least: 0.05,
    most: 10,
    lever: [0.3, 2.5],
  }),
  along: quantity("mm", "thickness along the tape at the pitch line", { least: 0.1, most: 10, lever: [0.5, 1.4] }),
  across: quantity("mm", "thickness across the tape", { least: 0.05, most: 10, lever: [0.3, 1.2] }),
  "across at tip": optional(
    quantity("mm", "thickness across the tape at the tip; as below where it is left out", {
      least: 0.01,
      most: 10,
      example: "0.40 ±0.05 mm",
    }),
  ),
  corner: optional(quantity("mm", "corner radius of its section, seen from above", { least: 0, most: 5 })),
  front: optional(
    word("its section, seen from above: square but for its corner radius, or round-ended", "square", "round"),
  ),
  shape: optional(
    word("its flanks, seen from the side: straight, or the involute of the wheel's pitch line", "straight", "involute"),
  ),
  flank: optional(
    quantity("deg", "half angle of its straight flanks", { least: 0, most: 45, lever: [0, 30], example: "22 deg" }),
  ),
  "tip radius": optional(quantity("mm", "radius at the corners of its tip, seen from the side", { least: 0, most: 5 })),
});

/** The toothed wheel that drives the tape. */
export const sprocketFields = group("the wheel that drives the tape", {
  teeth: quantity("", "number of teeth", { least: 4, most: 400, example: "24" }),
  at: quantity("mm", "where along the tape; P2 and whole P0 from the pick", {
    marks: "route",
    example: "pick + 14 mm",
  }),
  y: optional(
    quantity("mm", "middle of its teeth from the tape's sprocket-side edge; E1 where it is left out", {
      least: 0.2,
      most: 10,
      lever: [1.5, 2],
      example: "1.75 ±0.05 mm",
    }),
  ),
  "axis below tape": quantity("mm", "its axis below the tape's underside", { example: "teeth*P0/(2*pi) - T/2" }),
  wrap: optional(
    quantity("deg", "angle over which the tape lies round the wheel; it runs flat past where this is left out", {
      least: 0,
      most: 180,
      lever: [0, 120],
      example: "38 deg",
    }),
  ),
  tooth,
  runout: optional(
    quantity("mm", "how far its pitch line runs out over a turn on its shaft, greatest less least", {
      least: 0,
      most: 2,
      lever: [0.005, 0.2],
      example: "0.03 mm",
    }),
  ),
  disc: optional(
    group("the wheel's disc across the tape", { from: quantity("mm", "from y"), to: quantity("mm", "to y") }),
  ),
  material: optional(word("what it is made of")),
});
