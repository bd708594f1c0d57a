import { describe, expect, test } from "vitest";
import { embossedTape, oneSeal, scene, sideCrossing, written } from "../scene.fixture.ts";
import { isSoft, nipKind, noKind } from "./faces.ts";

const withFaces = (material: readonly string[], stiffness?: string) => {
  const unit = sideCrossing(12);
  const rollers = {
    ...unit.nip!.rollers!,
    material,
    ...(stiffness ? { "line stiffness": written("u/k", "k", stiffness, "N/mm^2") } : {}),
  };
  return scene({ ...unit, nip: { ...unit.nip!, rollers } }, embossedTape(12));
};
test("rubber gives way, plastic and metal don't, whatever stands behind the word", () => {
  for (const word of ["NBR", "nbr 60", "silicone", "TPU, printed"]) expect(isSoft(word)).toBe(true);
  for (const word of ["POM", "steel", "hard rubber substitute"]) expect(isSoft(word)).toBe(false);
});
describe("a nip is", () => {
  test.each([
    ["soft with one soft face", ["POM", "NBR"], undefined, "soft"],
    ["hard with two hard faces", ["POM", "steel"], undefined, "hard"],
    ["soft where its line stiffness is given", ["POM"], "400 N/mm^2", "soft"],
    ["neither where a face is unknown", ["POM", "velvet"], undefined, undefined],
  ])("%s", (_, faces, k, kind) => expect(nipKind(withFaces(faces, k))).toBe(kind));
  test("an unknown face is named, with the way out", () => {
    expect(noKind(withFaces(["POM", "velvet"]))).toBe(
      'nothing says whether a roller\'s face of "velvet" gives way under the film: give its line stiffness',
    );
    expect(noKind(withFaces(["POM"]))).toBeUndefined();
    expect(noKind(scene(oneSeal(8), embossedTape(8)))).toBe("the nip's rollers are not given");
  });
});
