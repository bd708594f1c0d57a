import { expect, test } from "vitest";
import { rubbing } from "./design.ts";
import { inventedDesign } from "./drives.ts";
import { wormFriction } from "./worm.ts";

// Lead 9.46 deg, friction 0.03, 14.5 deg: 0.839 by a textbook's worked example (machine design, worm gearing). [memory]
test("a worm of a textbook has the efficiency it prints", () => {
  const rad = Math.PI / 180;
  expect(Math.abs(wormFriction(9.46 * rad, 0.03, 14.5 * rad).forward - 0.839)).toBeLessThan(0.003);
});
// cos a tan l = mu, by hand. [derived]
test("a worm locks from the friction on at which its backward efficiency is nothing", () => {
  const limit = Math.cos(0.349) * Math.tan(0.0873);
  expect(wormFriction(0.0873, limit, 0.349).backward).toBeCloseTo(0, 12);
  expect(wormFriction(0.0873, 1.01 * limit, 0.349).backward).toBeLessThan(0);
  expect(wormFriction(0.0873, 0.99 * limit, 0.349).backward).toBeGreaterThan(0);
});
test("a worm without a lead, with friction below nothing, or that jams is refused in words", () => {
  expect(() => wormFriction(0, 0.1, 0.349)).toThrow("a worm has more than 0");
  expect(() => wormFriction(0.1, -0.1, 0.349)).toThrow("it must be 0 or more");
  expect(() => wormFriction(1.5, 0.4, 0.349)).toThrow("jams");
});
test("gears that rub more lose more, with a worm and without one", () => {
  const { feed } = inventedDesign();
  const plain = { ...feed, worm: undefined };
  for (const d of [feed, plain]) {
    expect(rubbing(d, 1.2).forward).toBeLessThan(d.forward);
    expect(rubbing(d, 1).forward).toBeCloseTo(d.forward, 12);
  }
});
