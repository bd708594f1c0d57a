import { expect, test } from "vitest";
import { disagreements } from "./disagreements.ts";
import { embossed } from "./embossed.ts";
import { camber } from "./every-width.ts";

test("every disagreement has at least one voice, a value taken and a reason", () => {
  for (const { letters, says, taken, because } of disagreements) {
    expect(letters.length).toBeGreaterThan(0);
    expect(says.length).toBeGreaterThan(0);
    expect(taken && because).not.toBe("");
  }
});

// EIA-481-D p. 13 against older sheets and slides. [read]
test("the catalogue holds what the list says it takes", () => {
  const taken = (letter: string, width: number) =>
    disagreements.find(({ letters, widths }) => letters.includes(letter) && widths?.some((each) => each === width))
      ?.taken;
  expect([taken("B1", 8), embossed[8].B1.value]).toEqual(["4.35", 4.35]);
  expect([taken("F", 16), embossed[16].F.tol]).toEqual(["±0.1", [-0.1, 0.1]]);
  expect([taken("P2", 24), embossed[24].P2.tol]).toEqual(["±0.1", [-0.1, 0.1]]);
  expect([taken("T2", 12), embossed[12].T2.value]).toEqual(["6.5", 6.5]);
  expect([taken("T2", 120), embossed[120].T2.value]).toEqual(["40.0, low confidence", 40]);
  expect([taken("W", 72), embossed[72].W.tol]).toEqual(["±0.3", [-0.3, 0.3]]);
  expect([taken("lateral", 16), embossed[16].lateral.value]).toEqual(["1.0, as memory", 1]);
});

// R = L^2/(8 s). [derived]
test("a bow of 1 mm is an edge radius of 7.8 m over 250 mm and 1.25 m over 100 mm", () => {
  expect(camber.radius250.value).toBeCloseTo(0.25 ** 2 / (8 * 0.001), 2);
  expect(camber.radius100.value).toBeCloseTo(0.1 ** 2 / (8 * 0.001), 12);
});
