import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { commanded, rubbing, troubles } from "./design.ts";
import { inventedDesign, randomDesign, seeded } from "./drives.ts";

const d = inventedDesign();
const { worm: _, ...gears } = d.feed;

describe("a gearing that rubs more", () => {
  // Losses 1/0.8 - 1 = 0.25 forward and 1 - 0.76 = 0.24 backward, twice: 1/1.5 and 0.52. By hand. [derived]
  test("twice as much loses twice as much a turn, driven either way", () => {
    const twice = rubbing({ ...gears, forward: 0.8, backward: 0.76 }, 2);
    expect(twice.forward).toBeCloseTo(2 / 3, 12);
    expect(twice.backward).toBeCloseTo(0.52, 12);
  });
  // A screw with square threads: tan(lead)/tan(lead + atan(mu)) forward, tan(lead - atan(mu))/tan(lead) backward, textbooks. [memory]
  test("is, of a worm with square threads, the screw with so many times the friction", () => {
    const [lead, mu] = [0.2, 0.05];
    const square = rubbing({ ...d.feed, worm: { lead, friction: mu, pressure: 0 } }, 3);
    const phi = Math.atan(3 * mu);
    expect(square.forward).toBeCloseTo(Math.tan(lead) / Math.tan(lead + phi), 12);
    expect(square.backward).toBeCloseTo(Math.tan(lead - phi) / Math.tan(lead), 12);
    expect(square.worm!.friction).toBeCloseTo(0.15, 12);
  });
  test("once as much is the same, and more never gives more", () => {
    for (const one of [d.feed, { ...gears, forward: 0.8, backward: 0.76 }]) {
      expect(rubbing(one, 1).forward).toBeCloseTo(one.forward, 12);
      expect(rubbing(one, 1).backward).toBeCloseTo(one.backward, 12);
      const times = fc.double({ min: 0, max: 4, noNaN: true });
      fc.assert(
        fc.property(times, times, (a, b) => {
          const [less, more] = [rubbing(one, Math.min(a, b)), rubbing(one, Math.max(a, b))];
          expect(more.forward).toBeLessThanOrEqual(less.forward + 1e-12);
          expect(more.backward).toBeLessThanOrEqual(less.backward + 1e-12);
        }),
        { seed: 75, numRuns: 100 },
      );
    }
  });
});
test("other commands change nothing but the commands", () => {
  const other = commanded(d, { travel: 8e-3 });
  expect(other).toEqual({ ...d, commands: { ...d.commands, travel: 8e-3 } });
  expect(d.commands.travel).toBe(4e-3);
});
test("two hundred designs drawn at random are sound, and each number of a drive that is no number is named once", () => {
  const random = seeded(11);
  for (let i = 0; i < 200; i++) expect(troubles(randomDesign(random)), `design ${i}`).toEqual([]);
  for (const name of Object.keys(gears)) {
    const broken = { ...d, feed: { ...d.feed, [name]: Number.NaN } };
    expect(troubles(broken), name).toHaveLength(1);
    expect(troubles(broken)[0]).toMatch(/NaN/);
  }
});
