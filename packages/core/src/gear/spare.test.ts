import { expect, test } from "vitest";
import { type Margins, spareOf, worstOf } from "./spare.ts";

const good: Margins = {
  name: "good",
  usable: 1.5,
  contactRatio: 1.5,
  backlash: 0.1,
  clearance: 0.2,
  basePitch: 1,
  undercut: false,
};
test("the least of contact, backlash and clearance is what is left", () => {
  expect(spareOf(good, 1.1)).toBeCloseTo(0.1, 12);
  expect(spareOf({ ...good, usable: 1.15 }, 1.1)).toBeCloseTo(0.05, 12);
  expect(spareOf({ ...good, backlash: -0.02 }, 1.1)).toBeCloseTo(-0.02, 12);
  expect(spareOf({ ...good, clearance: 0.01 }, 1.1)).toBeCloseTo(0.01, 12);
});
test("the worst mesh is named with what fails it", () => {
  const bad = { ...good, name: "bad" };
  expect(worstOf([good, { ...bad, backlash: -0.02 }], 1.1)).toBe("bad: backlash");
  expect(worstOf([{ ...bad, clearance: -0.1 }, good], 1.1)).toBe("bad: room at the roots");
  expect(worstOf([{ ...bad, usable: 1, undercut: true }, good], 1.1)).toBe("bad: contact, cut short by undercut");
  expect(worstOf([{ ...bad, usable: 1, contactRatio: 1 }, good], 1.1)).toBe("bad: contact");
});
