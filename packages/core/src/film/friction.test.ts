import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, oneSeal, requirement, scene, sideCrossing, withBends, written } from "../scene.fixture.ts";
import { frictionOn, frictionOnBars, notLedToNip } from "./friction.ts";

const measured = written("tape/PETG", "mu", "0.24 measured", "");
const plain = scene(sideCrossing(12), embossedTape(12));
const known = scene(sideCrossing(12), embossedTape(12, undefined, { friction: { PETG: measured } }));
const fromUnit = written("unit/friction", "mu", "0.3", "");

describe("friction of a film on a material", () => {
  test("is what the tape file measured, before anything else", () => {
    expect(frictionOn(known, "PETG", fromUnit)).toBe(measured);
    expect(frictionOn(known, "petg", undefined)).toBe(measured);
  });
  test("is the unit file's where the tape file measured none on it", () => {
    expect(frictionOn(plain, "PETG", fromUnit)).toBe(fromUnit);
    expect(frictionOn(known, "POM", fromUnit)).toBe(fromUnit);
  });
  // Catalogue of materials: polyester film on acetal 0.15 to 0.30. [memory]
  test("is that of the material's class where no file says", () => {
    const pom = frictionOn(plain, "POM", undefined);
    expect(pom).toMatchObject({ text: "0.15..0.30 guess", letter: "g" });
  });
  test("is unknown on a material of no class, and without a material", () => {
    expect(frictionOn(plain, "porcelain", undefined)).toBeUndefined();
    expect(frictionOn(plain, undefined, undefined)).toBeUndefined();
  });
  test("never depends on how the material's name is capitalised", () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }), (upper) => {
        const name = [..."petg"].map((letter, i) => (upper[i] ? letter.toUpperCase() : letter)).join("");
        expect(frictionOn(known, name, fromUnit)).toBe(measured);
      }),
      { seed: 1 },
    );
  });
  test("on the bars of a unit that names no material is the project's assumption", () => {
    expect(frictionOnBars(scene(withBends(16), embossedTape(16)))).toBe(requirement.assume["film friction"]);
  });
});

describe("a film is not led to a nip", () => {
  const { film, ...rest } = sideCrossing(12);
  const { peel, guides, ...bare } = film;
  const without = (one: object) => scene({ ...rest, film: { ...bare, ...one } } as typeof plain.unit, embossedTape(12));
  test("when it is opened otherwise", () => {
    expect(notLedToNip(scene(oneSeal(), embossedTape(8)))).toBe(
      'the film is opened as "one seal", not peeled off whole',
    );
  });
  test("when there is no peel line", () => expect(notLedToNip(without({ guides }))).toBe("the film has no peel line"));
  test("when none of its guides is the nip", () => {
    expect(notLedToNip(without({ peel, guides: guides!.slice(0, 1) }))).toBe("the film is not led to a nip");
  });
  test("but is where it has all three", () => expect(notLedToNip(plain)).toBeUndefined());
});
