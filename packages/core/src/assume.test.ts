import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Assumption, assumed, assumptionNames, assumptions } from "./assume.ts";
import { checks } from "./checks.ts";
import { chosen } from "./quantity/check.ts";
import { type Quantity, rootsOf } from "./quantity/model.ts";
import { unitOf } from "./quantity/units.ts";
import { scenes } from "./scene.fixture.ts";
import { asWritten, Realiser } from "./study/realise.ts";

const all = assumed();
const median = (name: Assumption) => new Realiser({} as never, [all[name]]).run(asWritten).number(all[name]);

// F5/E of polyester film: 98/4805 and 114/4500 MPa, two film makers' tables [read]; quotients by hand. [derived]
test("film is believed to spring back to no more than F5 over E allows", () => {
  expect(98 / 4805).toBeCloseTo(0.0204, 4);
  expect(114 / 4500).toBeCloseTo(0.0253, 4);
  for (const name of ["mismatch limit", "film elastic limit"] as const)
    expect(all[name].unknown).toMatchObject({ low: expect.closeTo(0.015, 12), high: expect.closeTo(0.025, 12) });
});
// 25 MPa over 2.4 and 1.6 GPa, property tables [read]; quotients by hand. [derived]
test("the carrier is believed to spring back to yield over modulus of impact polystyrene", () => {
  expect(all["carrier elastic limit"].unknown).toMatchObject({
    low: expect.closeTo(25 / 2400, 3),
    high: expect.closeTo(25 / 1600, 3),
  });
});
// A guess's ends are 95 % of belief on a logarithmic scale: the median is the root of their product. [derived]
test("the middle of 1.5 to 2.5 % is 1.94 %", () => expect(median("mismatch limit")).toBeCloseTo(0.019365, 6));

test("each has its own address, the unit it is meant in, and something that it means", () => {
  for (const name of assumptionNames) {
    expect(all[name].address).toBe(`assume/${name}`);
    expect(all[name].dimension).toEqual(unitOf(assumptions[name].unit).dimension);
    expect(assumptions[name].means.length).toBeGreaterThan(10);
  }
});
test("a figure without a published value is marked as a guess", () => {
  for (const name of assumptionNames) expect(all[name].letter).toBe("g");
});
test("any draw of a guess stays above nothing", () => {
  fc.assert(
    fc.property(fc.constantFrom(...assumptionNames), fc.double({ min: -6, max: 6, noNaN: true }), (name, z) => {
      const drawn = new Realiser({} as never, [all[name]]).run({ n: 1, unknown: () => z, scatter: () => undefined });
      expect(drawn.number(all[name])).toBeGreaterThan(0);
    }),
    { seed: 201, numRuns: 200 },
  );
});
describe("none is idle", () => {
  const used = new Set(
    scenes.flatMap(([, scene]) =>
      checks
        .filter((check) => check.absent(scene) === undefined)
        .flatMap((check) => [
          chosen(check.value, scene),
          chosen<Quantity>(check.atLeast, scene),
          chosen<Quantity>(check.atMost, scene),
          ...(check.beside?.(scene) ?? []),
        ])
        .flatMap((q) => (q ? [...rootsOf(q, scene)] : []))
        .map((given) => given.address),
    ),
  );
  test.each(assumptionNames)("some check rests on %s, or shows what does", (name) =>
    expect(used).toContain(`assume/${name}`),
  );
});
test("what is not assumed has no entry", () => {
  expect(Object.keys(all)).toEqual(assumptionNames);
  expect(Object.hasOwn(all, "gravity")).toBe(false);
});
