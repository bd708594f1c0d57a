import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, outside, overhead, scene, sideCrossing, written } from "../scene.fixture.ts";
import { grip, gripFace, noNip } from "./grip.ts";

const rolled = scene(sideCrossing(12), embossedTape(12));
const clutched = scene(overhead(24), embossedTape(24));
const plain = grip(rolled);
const slipping = grip(clutched);

// Coulomb, both faces at 0.3, by hand: the unpublished working notes print 8.43 N for 5.06 N and 4.17 N for 2.5 N. [derived]
describe("a nip with 0.3 on both faces pulls", () => {
  test.each([
    [8.43, 5.06],
    [4.17, 2.5],
  ])("pressed with %f N: %f N", (N, S) => expect(plain.value({ N, mu_1: 0.3, mu_2: 0.3 })).toBeCloseTo(S, 2));
});
test("two faces of 0.2 and 0.8 pull like two of 0.5", () => {
  expect(plain.value({ N: 6, mu_1: 0.2, mu_2: 0.8 })).toBeCloseTo(plain.value({ N: 6, mu_1: 0.5, mu_2: 0.5 }), 12);
});
// Torque over radius: 16 N mm at 5 mm is 3.2 N. [derived]
test("a clutch of 16 N mm on a roller of 5 mm holds the pull at 3.2 N, and at less where friction gives less", () => {
  const x = { N: 7, mu_1: 0.7, mu_2: 0.7, M: 16e-3, r_1: 5e-3 };
  expect(slipping.value(x)).toBeCloseTo(3.2, 12);
  expect(slipping.value({ ...x, N: 2 })).toBeCloseTo(2.8, 12);
});
test("no clutch ever makes a nip pull more, and a stronger clutch never less", () => {
  const force = fc.double({ min: 0.2, max: 40, noNaN: true });
  const friction = fc.double({ min: 0.05, max: 1.5, noNaN: true });
  const torque = fc.double({ min: 1e-3, max: 0.3, noNaN: true });
  fc.assert(
    fc.property(force, friction, friction, torque, torque, (N, mu_1, mu_2, p, q) => {
      const at = (M: number) => slipping.value({ N, mu_1, mu_2, M, r_1: 5e-3 });
      expect(at(Math.max(p, q))).toBeLessThanOrEqual(plain.value({ N, mu_1, mu_2 }));
      expect(at(Math.min(p, q))).toBeLessThanOrEqual(at(Math.max(p, q)));
    }),
    { seed: 91, numRuns: 200 },
  );
});

describe("which nip a unit has", () => {
  test("follows from whether its file gives a clutch", () => {
    expect(plain.id).toBe("nip.traction");
    expect(slipping.id).toBe("nip.traction-with-clutch");
  });
  test("grips the whole film where the file says so, else its own band", () => {
    expect(gripFace(rolled)).toBe(rolled.tape.film.width);
    expect(nominal(clutched, gripFace(clutched)!)).toBeCloseTo(0.3 * 21.3e-3, 9);
    expect(gripFace(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
});

describe("friction on the rollers", () => {
  const { nip, ...rest } = sideCrossing(12);
  const withNip = (more: object, film = {}) =>
    scene({ ...rest, nip: { ...nip, ...more } } as typeof rolled.unit, embossedTape(12, undefined, film));
  const textOf = (one: typeof rolled) => {
    const { mu_1, mu_2 } = grip(one).reads(one)! as Record<"mu_1" | "mu_2", { text: string }>;
    return [mu_1.text, mu_2.text];
  };
  // Catalogue: acetal 0.15 to 0.30, clean rubber 0.5 to 1.5. [memory]
  test("is that of each roller's own material", () =>
    expect(textOf(rolled)).toEqual(["0.15..0.30 guess", "0.5..1.5 guess"]));
  test("is the same on both where one material or one figure is given", () => {
    const film = { friction: { POM: written("tape/POM", "mu", "0.2 measured", "") } };
    expect(textOf(withNip({ rollers: { ...nip!.rollers, material: ["POM"] } }, film))).toEqual([
      "0.2 measured",
      "0.2 measured",
    ]);
    expect(textOf(clutched)).toEqual(["0.5..1.0 guess", "0.5..1.0 guess"]);
  });
  test("is missing for a material of no class", () => {
    const odd = withNip({ rollers: { ...nip!.rollers, material: ["porcelain"] } });
    expect(noNip(odd)).toBe("no friction is known on the nip's rollers");
    expect(grip(odd).reads(odd)).toBeUndefined();
  });
});

test("without a nip or its preload there is nothing to pull with", () => {
  expect(noNip(scene(oneSeal(), embossedTape(8)))).toBe("the unit has no nip");
  const { nip, ...rest } = sideCrossing(12);
  const { preload: _, ...unloaded } = nip!;
  expect(noNip(scene({ ...rest, nip: unloaded }, embossedTape(12)))).toBe("the nip's preload is not given");
  expect(noNip(rolled)).toBeUndefined();
});
test("a friction of 2 is outside the range", () =>
  expect(outside(plain, { N: 5, mu_1: 2, mu_2: 0.5 })).toEqual(["mu_1"]));
