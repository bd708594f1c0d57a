import { group, optional, quantity, text, word } from "./field.ts";

/** A window in a cover or in a leaf. */
export const opening = group("window in the cover over the pick position", {
  x: quantity("mm", "length of the window along the travel", { lever: [0.5, 60] }),
  y: quantity("mm", "width of the window", { lever: [0.5, 200] }),
  at: optional(quantity("mm", "where its middle lies along the tape", { marks: "route", example: "pick" })),
});

/** What keeps the tape on the sprocket. Each kind has its own numbers; a number of another kind is no error and is not read. */
export const holdDown = group("what keeps the tape on the sprocket", {
  kind: word("how it holds", "leaf", "rib", "run-off bend"),
  material: optional(text("what it is made of")),
  thickness: optional(quantity("mm", "thickness of the leaf", { least: 0.005, most: 5, lever: [0.05, 1] })),
  "free length": optional(quantity("mm", "length from clamp to nose", { least: 1, most: 300, lever: [5, 80] })),
  width: optional(
    quantity("mm", "width of the leaf; beside a window of both its arms together", {
      least: 0.2,
      most: 200,
      lever: [1, 50],
    }),
  ),
  "outside width": optional(
    quantity("mm", "width of the whole leaf from edge to edge; arms and window together where it is left out", {
      least: 0.2,
      most: 200,
      lever: [1, 60],
      example: "12 mm",
    }),
  ),
  "tip width": optional(
    quantity("mm", "width of the leaf at its nose, where it tapers", { least: 0.2, most: 200, lever: [0.5, 50] }),
  ),
  "set radius": optional(
    quantity("mm", "radius the leaf is bent to before it is fitted, + towards the tape", {
      example: "80 mm",
    }),
  ),
  "clamp angle": optional(
    quantity("deg", "how steeply the leaf leaves its clamp towards the tape", {
      least: -60,
      most: 60,
      example: "8 deg",
    }),
  ),
  gap: optional(
    quantity("mm", "height between ledge and rib", { least: 0.05, most: 20, lever: [0.1, 5], example: "T + 0.25 mm" }),
  ),
  at: optional(
    quantity("mm", "where it presses, along the tape; at the wheel where it is left out", {
      marks: "route",
      example: "pick + 14 mm",
    }),
  ),
  span: optional(
    quantity("mm", "tape between the places where it rests on either side of the press", {
      least: 0.5,
      most: 300,
      lever: [2, 100],
      example: "20 mm",
    }),
  ),
  overhang: optional(
    quantity("mm", "tape from the last press line to the last tooth that must stay in its hole", {
      least: 0,
      most: 100,
      lever: [0, 30],
      example: "3 mm",
    }),
  ),
  from: optional(quantity("mm", "where it begins along the tape", { marks: "route" })),
  to: optional(quantity("mm", "where it ends along the tape", { marks: "route" })),
  radius: optional(quantity("mm", "radius of the bend", { least: 1, most: 2000, lever: [5, 200] })),
  turn: optional(quantity("deg", "angle of the bend, + turns up")),
  reach: optional(
    quantity("mm", "run-off bend: last contact on the wheel to where the bend pushes the tape", {
      least: 0.5,
      most: 200,
      lever: [2, 60],
      example: "12 mm",
    }),
  ),
  push: optional(
    quantity("mm", "run-off bend: how far it pushes the tape off its tangent there", {
      least: 0,
      most: 50,
      lever: [0, 10],
      example: "0.6 mm",
    }),
  ),
  friction: optional(quantity("", "friction against the tape", { least: 0, most: 3, example: "0.15..0.45 guess" })),
  "drag budget": optional(
    quantity("N", "friction it may add to the tape; a share of what a hole bears where it is left out", {
      least: 0.01,
      most: 50,
      example: "0.6 N",
    }),
  ),
  opening: optional(opening),
  preload: optional(quantity("N", "force on the tape", { least: 0, most: 50, lever: [0.1, 10] })),
});

/** Where the used tape leaves the unit. */
export const exit = group("where the used tape leaves, past the wheel", {
  unguided: optional(
    quantity("mm", "tape past the wheel that nothing holds from both faces", {
      least: 0.5,
      most: 300,
      lever: [2, 100],
      example: "12 mm",
    }),
  ),
  force: optional(
    quantity("N", "what a cutter or a chute asks of the tape that is pushed into it", {
      least: 0,
      most: 50,
      example: "0.1 N",
    }),
  ),
});

/** What turns with the reel. */
export const reelHolder = group("what the reel turns on", {
  drag: optional(
    quantity("N", "pull it takes to turn a full reel, at the tape", {
      least: 0,
      most: 20,
      lever: [0.01, 5],
      example: "0.2 N",
    }),
  ),
  "loop room": optional(
    quantity("mm", "slack tape that finds room between reel and entry", {
      least: 1,
      most: 1000,
      lever: [5, 200],
      example: "30 mm",
    }),
  ),
});
