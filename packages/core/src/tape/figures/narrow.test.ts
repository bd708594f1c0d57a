import { expect, test } from "vitest";
import { E1, P0, tenPitchError } from "./every-width.ts";
import { narrow } from "./narrow.ts";
import { allowedPitches } from "./pitch.ts";

// Typed by hand from the same recollection; nothing was read. [memory]
test("4 mm tape has its hole row 0.9 mm from the edge, its pockets 1.8 mm from that, every millimetre", () => {
  expect(narrow.W).toMatchObject({ value: 4, tol: [-0.08, 0.08] });
  expect(narrow.D0).toMatchObject({ value: 0.8, tol: [-0.04, 0.04] });
  expect(narrow.E1).toMatchObject({ value: 0.9, tol: [-0.05, 0.05] });
  expect(narrow.F).toMatchObject({ value: 1.8, tol: [-0.02, 0.02] });
  expect(narrow.P0).toMatchObject({ value: 2, tol: [-0.04, 0.04] });
  expect(narrow.P2).toMatchObject({ value: 1, tol: [-0.02, 0.02] });
  expect(allowedPitches(narrow.P1)).toEqual([{ value: 1, tol: [-0.02, 0.02] }]);
});
test("nothing of it is called read, and all of it is of low confidence", () => {
  for (const [letter, figure] of Object.entries(narrow)) {
    expect(["memory", "derived"], letter).toContain(figure.how);
    expect(figure.confidence, letter).toBe("low");
    if (figure.how === "derived") expect(figure.note, letter).toMatch(/8 mm|4 mm|holes/);
  }
});
// Geometry of the tape. [derived]
test("pocket and film fit beside the hole row, and its holes are no wheel's for wider tape", () => {
  const free = narrow.W.value - narrow.E1.value - narrow.D0.value / 2;
  expect(narrow.b.high).toBeLessThanOrEqual(free);
  expect(narrow.b.low).toBeGreaterThan(0);
  expect(narrow.E1.value + narrow.F.value).toBeLessThan(narrow.W.value);
  expect([P0.value / narrow.P0.value, tenPitchError.value / narrow.tenPitchError.value]).toEqual([2, 2]);
  expect(narrow.E1.value).not.toBe(E1.value);
});
