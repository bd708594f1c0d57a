import { describe, expect, test } from "vitest";
import { believed } from "../quantity/law.ts";
import { materialFigure, materialNamed, unknownMaterial } from "./catalogue.ts";

describe("a material is found by the words of a unit file", () => {
  test.each([
    ["spring steel 1.4310", "spring steel 1.4310"],
    ["Spring steel 1.4310, slit edges", "spring steel 1.4310"],
    ["spring steel", "spring steel"],
    ["Spring steel C75S, hardened", "spring steel c75s"],
    ["1.1248", "spring steel c75s"],
    ["301 full hard", "301 full hard"],
    ["PETG", "petg"],
    ["printed PLA", "pla"],
    ["POM", "pom"],
    ["PC", "pc"],
  ])("%s", (text, name) => {
    expect(materialNamed(text)?.name).toBe(name);
  });
  test("as whole words only: PC is not in PCB, 11.4310 is no steel", () => {
    expect(materialNamed("PCB")).toBeUndefined();
    expect(materialNamed("11.4310")).toBeUndefined();
  });
  // 1.1274 is C100S (memory): the catalogue must not give C75S for it.
  test("and 1.1274 is not C75S", () => {
    expect(materialNamed("1.1274")).toBeUndefined();
  });
});
test("a misspelt material is asked about by the word that is near", () => {
  expect(unknownMaterial("spring stel")).toBe(
    'no figures are known of "spring stel" as a spring. Did you mean "spring steel"?',
  );
  expect(unknownMaterial("cheese")).toBe('no figures are known of "cheese" as a spring');
});

// Strip 1.4310, EN 10151 data page: class +C1700 holds 1700 to 1900 MPa. [read]
test("a temper narrows the strength", () => {
  const plain = materialFigure(materialNamed("spring steel 1.4310")!, "strength")!;
  const hard = materialFigure(materialNamed("spring steel 1.4310 +C1700")!, "strength")!;
  expect(plain.text).toBe("1150..1900 MPa guess");
  expect(hard.text).toBe("1700..1900 MPa guess");
  expect(hard.address).toBe("catalogue/strength of spring steel 1.4310 +C1700");
  expect(materialFigure(materialNamed("spring steel 1.4310 C1700")!, "strength")).toBe(hard);
});
// 965 over 1276 MPa, 301 full hard. [derived from read]
test("a tabled yield stands as its share of the strength", () => {
  const share = materialFigure(materialNamed("301 full hard")!, "yieldShare")!;
  expect(share.text).toBe("0.7563");
  expect(share.letter).toBe("d");
});
test("a figure is one object, and a span is an unknown within it", () => {
  const petg = materialNamed("PETG")!;
  const E = materialFigure(petg, "E")!;
  expect(materialFigure(materialNamed("printed PETG, 0.2 mm layers")!, "E")).toBe(E);
  expect(believed(E.unknown!, -2)).toBeGreaterThan(1.9e9);
  expect(believed(E.unknown!, 2)).toBeLessThan(3.1e9);
  expect(materialFigure(petg, "fatigue")).toBeUndefined();
});
