import { type DataOf, group, list, map, optional, quantity, text, word } from "../unit/field.ts";
import { tapeKinds } from "./tape.ts";

const layer = (means: string) =>
  group(means, {
    modulus: quantity("GPa", "Young's modulus", { least: 0.001, most: 20, example: "4.5 GPa" }),
    thickness: quantity("um", "thickness", { least: 0, most: 500, example: "16 um" }),
  });

/** One tape file: a tape measured, or copied from a drawing. W, A0, B0, K0 and P1 suffice. */
export const tapeFields = group("a carrier tape with its cover film", {
  format: word("version of this notation", "1"),
  tape: text("name of the tape"),
  note: optional(text("anything worth knowing, in words")),
  part: optional(text("what lies in it, in words")),
  "part mass": optional(quantity("mg", "mass of one part", { least: 0.01, most: 500_000, example: "80 mg" })),
  "part height": optional(
    quantity("mm", "height of one part as it lies in its pocket", { least: 0.02, most: 60, example: "1.75 mm" }),
  ),
  "part length": optional(
    quantity("mm", "length of one part along the travel", { least: 0.05, most: 200, example: "6.0 mm" }),
  ),
  "part width": optional(
    quantity("mm", "width of one part across the tape", { least: 0.05, most: 200, example: "5.0 mm" }),
  ),
  kind: optional(word("kind of carrier tape; embossed where it is left out", ...tapeKinds)),
  W: quantity("mm", "width of the tape", { least: 3, most: 210, example: "12.0 ±0.3 mm" }),
  A0: quantity("mm", "pocket length along the travel", { least: 0.05, most: 200 }),
  B0: quantity("mm", "pocket width across the tape", { least: 0.05, most: 200 }),
  K0: quantity("mm", "pocket depth; for punched tape the height of the part's hole", { least: 0.05, most: 60 }),
  P1: quantity("mm", "pocket pitch", { least: 0.5, most: 200, example: "8 mm" }),
  T: optional(quantity("mm", "thickness of the carrier", { least: 0.05, most: 2, example: "0.30 mm" })),
  T1: optional(quantity("mm", "thickness of the cover film", { least: 0.005, most: 0.5, example: "0.06 mm" })),
  T2: optional(quantity("mm", "height from under the pocket to the top of the film", { least: 0.05, most: 60 })),
  wall: optional(
    quantity("mm", "thickness of the pocket's walls and floor; that of the carrier where it is left out", {
      least: 0.03,
      most: 2,
      example: "0.30 mm",
    }),
  ),
  B1: optional(quantity("mm", "outside width of the embossed pocket", { least: 0.05, most: 200 })),
  E1: optional(quantity("mm", "hole row to edge", { least: 0.5, most: 5 })),
  F: optional(quantity("mm", "hole row to middle of the pocket", { least: 0.5, most: 120 })),
  D0: optional(quantity("mm", "diameter of the sprocket holes", { least: 0.3, most: 3, example: "1.55 ±0.05 mm" })),
  P0: optional(quantity("mm", "pitch of the sprocket holes", { least: 1, most: 5 })),
  P2: optional(quantity("mm", "sprocket hole to pocket, along the travel", { least: -5, most: 5 })),
  camber: optional(
    quantity("mm", "bow of the edge over 250 mm, in the plane of the tape", { least: 0, most: 10, example: "0.4 mm" }),
  ),
  stiffness: optional(
    quantity(
      "N*mm^2",
      "bending stiffness along the tape, pockets and all, measured: a strip hung from a table's edge",
      {
        least: 0.1,
        most: 100000,
        example: "45 N*mm^2 measured",
      },
    ),
  ),
  "set radius": optional(
    quantity("mm", "radius it keeps when it comes off the hub, measured: rise over a chord", {
      least: 5,
      most: 100000,
      example: "90 mm measured",
    }),
  ),
  reel: optional(
    group("the reel it comes on", {
      diameter: quantity("mm", "outside diameter", { least: 50, most: 700, example: "178 mm" }),
      hub: quantity("mm", "diameter of the hub", { least: 10, most: 400, example: "55 mm" }),
      mass: optional(quantity("g", "mass of the full reel", { least: 1, most: 20000, example: "210 g" })),
    }),
  ),
  film: optional(
    group("the cover film", {
      kind: optional(word("how it is sealed", "heat activated", "pressure sensitive")),
      width: optional(quantity("mm", "width of the film", { least: 0.5, most: 220 })),
      "seal track": optional(quantity("mm", "width of one seal track", { least: 0.05, most: 10 })),
      inset: optional(quantity("mm", "edge of the film to the edge of its seal track", { least: 0, most: 10 })),
      seal: optional(
        quantity("N", "peel force of both tracks in the standard's test", {
          least: 0.001,
          most: 20,
          example: "0.45 N per reel sd 20 % per index sd 8 % measured",
        }),
      ),
      "rate exponent": optional(
        quantity("", "exponent of the peel force with speed", { least: -0.5, most: 1, example: "0.12 measured" }),
      ),
      ageing: optional(quantity("", "peel force over that of new film", { least: 0.01, most: 20, example: "1" })),
      break: optional(
        quantity("N", "pull at which the film breaks", { least: 0.1, most: 500, example: "14 N measured" }),
      ),
      tack: optional(
        quantity("J/m^2", "energy to lift a peeled seal off a surface again", {
          least: 0,
          most: 1000,
          example: "0.05 J/m^2 measured",
        }),
      ),
      charge: optional(
        quantity("mA*ms/m^2", "charge of the film's inner face where it has just been peeled, by area (uC/m2)", {
          least: 0,
          most: 1000,
          example: "8 mA*ms/m^2 measured",
        }),
      ),
      curl: optional(
        quantity("1/m", "curvature the film keeps from the peel edge, + towards the roller it might stick to", {
          example: "20 /m measured",
        }),
      ),
      friction: optional(
        map(
          quantity("", "friction of this film", { least: 0, most: 3, example: "0.22 measured" }),
          "friction of this film by what it rubs on: PETG, POM, NBR, steel",
        ),
      ),
      stretched: optional(layer("the stretched (polyester) layer, outside")),
      sealing: optional(layer("the sealing layer, inside")),
    }),
  ),
  departs: optional(
    list(text("a known departure from the catalogue, in words"), "departures already known and accepted"),
  ),
});
export type TapeData = DataOf<typeof tapeFields>;
