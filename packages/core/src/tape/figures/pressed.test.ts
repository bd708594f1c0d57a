import { expect, test } from "vitest";
import { D0, E1, P0, T1, tenPitchError } from "./every-width.ts";
import { allowedPitches } from "./pitch.ts";
import { pressed, pressedWidths } from "./pressed.ts";
import { punched } from "./punched.ts";

// Typed by hand from the same recollection; no table of it was read. [memory]
test("pressed tape is 8 mm wide with pockets every 2 mm in a board of 0.5 mm at most", () => {
  expect(pressedWidths).toEqual([8]);
  const row = pressed[8];
  expect(row.F).toMatchObject({ value: 3.5, tol: [-0.05, 0.05], how: "memory" });
  expect(row.P2).toMatchObject({ value: 2, tol: [-0.05, 0.05], how: "memory" });
  expect(row.T).toMatchObject({ value: 0.5, limit: "max", how: "memory" });
  expect(allowedPitches(row.P1)).toEqual([{ value: 2, tol: [-0.05, 0.05] }]);
});
// EIA-481-D: what every tape of 8 mm and more shares. [read]
test("its holes, hole row, film and pitch error are those of every tape", () => {
  const { D0: hole, E1: row, P0: pitch, T1: film, tenPitchError: error } = pressed[8];
  expect([hole, row, pitch, film, error]).toEqual([D0, E1, P0, T1, tenPitchError]);
});
// The relations of every width from 8 to 24 mm, and the read row of punched tape of that width. [derived]
test("where pockets lie is where those of punched tape lie, on a thinner board", () => {
  const [a, b] = [pressed[8], punched[8]];
  expect(a.E2.value).toBeCloseTo(8 - 1.75, 12);
  expect(a.F.value).toBeCloseTo(8 / 2 - 0.5, 12);
  expect([a.F.value, a.P2.value, a.R.value, a.Wmax.value]).toEqual([b.F.value, b.P2?.value, b.R.value, b.Wmax.value]);
  expect(a.T.value).toBeLessThan(b.T.value);
});
