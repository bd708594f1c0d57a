import { expect, test } from "vitest";
import { fieldAt } from "./field-at.ts";
import { builtForLetters, unitFields } from "./unit-fields.ts";

test.each([
  ["nip.preload", unitFields.members.nip.of.members.preload.of],
  ["film.guides.shoulder.through.2", "y"],
  ["film.guides.back edge.radius", "radius of the bar or roller"],
  ["film.guides.no. 2 bar.along.3", "along z"],
  ["tape.route.4.arc.radius", "radius at the underside"],
  ["nip.rollers.radius.1", "radius"],
  ["nip.rollers.grip", "width of the band"],
  ["clearances.tape pocket / board", "wanted gap"],
  ["bodies.side wall.box.3", "to x"],
  ["let.gap", "a name of your own"],
  ["built for.24.A0", builtForLetters.A0],
] as const)("%s is found among the fields of a unit", (path, expected) => {
  const found = fieldAt(path);
  if (typeof expected === "string") expect(found?.means).toBe(expected);
  else expect(found).toBe(expected);
});
test.each(["", "nip", "nip.preloads", "nip.preload.1", "film.guides.shoulder", "tape.place.mark", "built for.24.W"])(
  "%j leads to no number",
  (path) => expect(fieldAt(path)).toBeUndefined(),
);
