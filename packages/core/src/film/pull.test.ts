import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  oneSeal,
  outside,
  overhead,
  punchedTape,
  scene,
  sideCrossing,
} from "../scene.fixture.ts";
import { bearablePull, checkPull, filmPull, nearPull } from "./pull.ts";

const pull = (P: number, mu: number, w: number) => filmPull.value({ P, mu, w });

// Worked exercises on rope friction, as their texts print them. [read]
describe("rope friction of published exercises", () => {
  test("exercise 27, engineering mechanics: 100 kg over 270 degrees at 0.2 are held with 382.26 N", () => {
    expect(pull(382.26, 0.2, 1.5 * Math.PI) / 981).toBeCloseTo(1, 4);
  });
  test("rope round a bollard: 1000 N at 0.25 over 1.5 turns hold 10550.72 N", () => {
    expect(pull(1000, 0.25, 3 * Math.PI)).toBeCloseTo(10550.72, 1);
  });
  test("2000 N at 0.25 over 2.5 turns need 39 N, printed without decimals", () => {
    expect(2000 / pull(1, 0.25, 5 * Math.PI)).toBeCloseTo(39, -0.3);
  });
});
// (1 + mu dphi)^n over a million steps, validation/independent/film.py. [derived]
describe("at a friction of 0.3", () => {
  test.each([
    [180, 2.56633],
    [360, 6.58605],
    [720, 43.3759],
  ])("%i degrees of fixed bars multiply the peel by %f", (turn, times) => {
    expect(pull(1, 0.3, (turn * Math.PI) / 180)).toBeCloseTo(times, 3);
  });
});
// 1.3 N at 5 mm/s, 16^0.15 faster, one fold over the peel edge at 0.3: 1.3 x 1.5157 x 2.5663, by hand. [derived]
test("the limit seal of 12 mm tape wants 5.06 N behind one fold", () => {
  expect(pull(1.3 * 16 ** 0.15, 0.3, Math.PI)).toBeCloseTo(5.06, 2);
  expect(pull(1 * 16 ** 0.15, 0.3, Math.PI)).toBeCloseTo(3.89, 2);
});
test("a film that breaks at 10 N bears 6.67 N with a safety of 1.5", () => {
  expect(bearablePull.value({ F_b: 10, s: 1.5 })).toBeCloseTo(6.6667, 4);
});

const turn = fc.double({ min: 0, max: 6, noNaN: true });
test("two bars in a row pull as one bar of both turns", () => {
  fc.assert(
    fc.property(turn, turn, fc.double({ min: 0.05, max: 0.6, noNaN: true }), (first, second, mu) => {
      expect(pull(pull(1, mu, first), mu, second) / pull(1, mu, first + second)).toBeCloseTo(1, 12);
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("a friction of 0.9 is outside the range", () => {
  expect(outside(filmPull, { P: 1, mu: 0.9, w: 1 })).toEqual(["mu"]);
});
describe("in a scene", () => {
  test("where only the peel edge rubs, the nip pulls no more than behind the edge", () => {
    const one = scene(overhead(24), embossedTape(24));
    expect(nominal(one, filmPull)).toBeCloseTo(nominal(one, nearPull), 12);
  });
  test("behind the edge of a crossing the film is pulled less than at its nip", () => {
    const one = scene(sideCrossing(12), embossedTape(12));
    expect(nominal(one, nearPull)).toBeLessThan(nominal(one, filmPull));
  });
  test("a film opened along one seal has no pull to bear", () => {
    expect(checkPull.absent(scene(oneSeal(), punchedTape()))).toBe(
      'the film is opened as "one seal", not peeled off whole',
    );
  });
});
