import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkNamed, checks } from "./checks.ts";
import { chosen, stations } from "./quantity/check.ts";
import { dimensionInUnits } from "./quantity/dimension.ts";
import { type Quantity, quantitiesIn } from "./quantity/model.ts";
import { showValue } from "./quantity/show.ts";
import { unitOf } from "./quantity/units.ts";
import { embossedTape, oneSeal, scene, scenes, sideCrossing } from "./scene.fixture.ts";
import { asWritten, Realiser } from "./study/realise.ts";

const sidesOf = (check: (typeof checks)[number], one: (typeof scenes)[number][1]) =>
  [chosen(check.value, one), chosen<Quantity>(check.atLeast, one), chosen<Quantity>(check.atMost, one)].filter(
    (q) => q !== undefined,
  );
const dimension = (q: Quantity) => dimensionInUnits(q.kind === "given" ? q.dimension : unitOf(q.unit).dimension);

test("every check is found by its own id and by no other", () => {
  for (const check of checks) expect(checkNamed(check.id)).toBe(check);
  fc.assert(
    fc.property(fc.string(), (id) => {
      fc.pre(!checks.some((c) => c.id === id));
      expect(checkNamed(id)).toBeUndefined();
    }),
    { seed: 211, numRuns: 200 },
  );
});
test("an id says a member and a claim, and no two are alike", () => {
  for (const { id } of checks) expect(id).toMatch(/^[a-z]+\.[a-z]+(-[a-z]+)*$/);
  expect(new Set(checks.map((c) => c.id)).size).toBe(checks.length);
});
test("the reading order is that of the stations the tape meets", () => {
  const order = checks.map((c) => c.station);
  expect(order).toEqual([...order].sort((a, b) => a - b));
  for (const station of order) expect(stations).toHaveProperty(String(station));
});
// The register of checks: severity of each, typed by hand. [read]
test("only what stops or breaks a tape may colour a cell: what enters the pick error, shortens life or annoys never does", () => {
  const softly = checks.filter((c) => c.severity !== "S").map((c) => `${c.id} ${c.severity}`);
  expect(softly).toEqual([
    "entry.leader N",
    "leaf.fatigue L",
    "leaf.relaxes L",
    "film.straight N",
    "film.seals A",
    "film.kern N",
    "film.bar N",
    "film.chatter N",
    "tape.seat A",
    "pick.half-step A",
    "pick.warms A",
    "pocket.floor A",
    "part.clings N",
    "hole.jam L",
    "nip.relaxes L",
    "joint.holds L",
    "drive.stops A",
    "drive.heats L",
    "brush.lasts L",
  ]);
});

describe.each(scenes)("%s", (_, one) => {
  const here = checks.filter((c) => c.absent(one) === undefined);
  test("a check that applies has a value, a bound and everything both read", () => {
    for (const check of here) {
      const sides = sidesOf(check, one);
      expect(sides.length, check.id).toBeGreaterThan(1);
      expect(() => new Realiser(one, sides), check.id).not.toThrow();
    }
  });
  test("its value and bounds are of one dimension", () => {
    for (const check of here) expect(new Set(sidesOf(check, one).map(dimension)).size, check.id).toBe(1);
  });
  test("its value is finite as written, and its sentence says it with its unit", () => {
    for (const check of here) {
      const beside = (check.beside?.(one) ?? []).filter((q) => q.reads(one) !== undefined);
      const told: Quantity[] = [];
      const all = new Set<Quantity>([...sidesOf(check, one), ...beside]);
      check.because((q) => {
        all.add(q);
        return "";
      }, one);
      const run = new Realiser(one, all).run(asWritten);
      for (const q of all)
        expect(run.number(q), `${check.id} ${q.kind === "model" ? q.id : q.address}`).toSatisfy(Number.isFinite);
      const sentence = check.because((q) => {
        told.push(q);
        return showValue(q, run.number(q));
      }, one);
      expect(told.length, check.id).toBeGreaterThan(0);
      expect(sentence, check.id).toMatch(/^[A-Z0-9−].*\.$/);
      expect(sentence).not.toContain("undefined");
    }
  });
  test("a check that does not apply says why in words", () => {
    for (const check of checks) {
      const why = check.absent(one);
      if (why !== undefined) expect(why.length, check.id).toBeGreaterThan(10);
    }
  });
});

test("a unit that leads no film is judged on its channel and its pockets alone", () => {
  const one = scene(oneSeal(), embossedTape(8));
  expect(checks.filter((c) => c.absent(one) === undefined).map((c) => c.id)).toEqual([
    "entry.play",
    "groove.depth",
    "groove.width",
    "groove.lips",
    "pocket.floor",
  ]);
});
test("a check never reads the other unit's numbers", () => {
  const one = scene(sideCrossing(12), embossedTape(12));
  const addresses = new Set<string>();
  const visit = (q: Quantity): void => {
    if (q.kind === "given") addresses.add(q.address);
    for (const inner of quantitiesIn(q.reads(one) ?? {})) visit(inner as Quantity);
  };
  for (const check of checks) for (const q of check.absent(one) ? [] : sidesOf(check, one)) visit(q);
  expect([...addresses].filter((a) => /^(overhead|bends|one seal)/.test(a))).toEqual([]);
  expect([...addresses].some((a) => a.startsWith("crossing 12/"))).toBe(true);
});
