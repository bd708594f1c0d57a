import { expect, test } from "vitest";
import { embossedTape, nominal, punchedTape, scene, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import { carrierDensity, tapeWeight } from "./weight.ts";

// 1050 kg/m3 by 24 by 0.3 mm is 7.56 g/m; 26.88 mg every 12 mm are 2.24 g/m; 9.80665 m/s2: by hand. [derived]
test("24 mm tape with parts of 27 mg weighs 0.096 N a metre", () => {
  const x = { rho: 1050, W: 24e-3, T: 0.3e-3, m: 26.88e-6, P_1: 12e-3, g: 9.80665 };
  expect(tapeWeight.value(x)).toBeCloseTo(0.0961, 4);
});
test("parts that the tape file weighs are in it", () => {
  const bare = scene(sideCrossing(12), embossedTape(12));
  const full = scene(sideCrossing(12), tapeWith(12, { "part mass": written("t/m", "m", "80 mg", "mg") }));
  // 80 mg every 8 mm are 10 g/m. [derived]
  expect(nominal(full, tapeWeight) - nominal(bare, tapeWeight)).toBeCloseTo(0.0980665, 6);
});
test("board is lighter than plastic", () => {
  const board = scene(sideCrossing(8), punchedTape());
  const plastic = scene(sideCrossing(8), embossedTape(8));
  expect(nominal(board, carrierDensity(board))).toBeLessThan(nominal(plastic, carrierDensity(plastic)));
});
