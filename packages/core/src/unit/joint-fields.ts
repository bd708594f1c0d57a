import { group, list, optional, quantity, text, word } from "./field.ts";

/** A joint of the frame: screws, a bushing, a hook. */
const joint = group("a joint", {
  name: text("what it joins"),
  screws: optional(quantity("", "number of screws", { least: 1, most: 40, example: "3" })),
  size: optional(word("size of the screws: M2, M3")),
  insert: optional(text("insert they go into")),
  side: optional(word("which side of the tape", "near", "far", "both")),
  spacing: optional(quantity("mm", "distance between the screws", { least: 0.5, most: 500, lever: [2, 100] })),
  clamped: optional(
    quantity("mm", "plastic between the screw's head and its thread", { least: 0.3, most: 100, example: "6 mm" }),
  ),
  arm: optional(
    quantity("mm", "from the screws to where the load acts; half the nip's shaft where it is left out", {
      least: 0,
      most: 500,
      example: "10 mm",
    }),
  ),
  carries: optional(word("what loads it; the nip where it is left out", "nip", "nothing")),
  kind: optional(word("kind of joint", "bushing", "hooked", "screwed")),
  play: optional(quantity("mm", "play", { set: true, example: "0.02..0.05 mm" })),
});
export const joints = list(joint, "joints of the frame");

/** What carries a roller of the nip across the film. */
export const shaft = group("the rollers' shafts and what carries them", {
  diameter: quantity("mm", "diameter of a shaft", { least: 0.5, most: 50, lever: [1, 12], example: "4 mm" }),
  length: optional(
    quantity("mm", "from what carries it to the far end of the grip; the grip's width where it is left out", {
      least: 1,
      most: 300,
      lever: [3, 250],
      example: "b + 4 mm",
    }),
  ),
  carried: word("from which side", "one side", "both sides", "hooked"),
  material: optional(word("what it is made of; steel where it is left out")),
});
