import type { CheckSweep, SweepInput } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import { toSvg } from "./scene.ts";
import { sweepDrawing, sweepWords } from "./sweep.ts";

const along: SweepInput = {
  address: "wren/nip.preload",
  kind: "lever",
  members: ["wren/nip.preload"],
  drawn: 4,
  from: 2,
  to: 10,
  unit: "N",
  shownIn: "N",
};
const at = (x: number, k = 0.35) => ({
  at: x,
  room: { low: x * (k - 0.1) - 2, middle: x * k - 2, high: x * (k + 0.1) - 2 },
});
const places = [2, 4, 6, 8, 10];
const sweep: CheckSweep = {
  check: "nip.pulls",
  unit: "N",
  shownIn: "N",
  along,
  points: places.map((x) => at(x)),
};
const second: SweepInput = { ...along, address: "wren/nip.friction", drawn: 0.35, from: 0.2, to: 0.5, shownIn: "" };
const family = { along: second, curves: [0.2, 0.35, 0.5].map((k) => ({ at: k, points: places.map((x) => at(x, k)) })) };
const size = { width: 800, height: 400 };
const shapes = (s: CheckSweep) => elementsOf(toSvg(sweepDrawing(s, size), { prefix: "s" }));

describe("the drawing", () => {
  test("is well formed and keeps within its frame", () => {
    for (const one of [sweep, { ...sweep, family }])
      for (const { name, attributes } of shapes(one)) {
        if (name !== "path" || attributes.d === undefined || /V/.test(attributes.d)) continue;
        for (const [x, y] of pointsOf(attributes.d)) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(size.width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(size.height);
        }
      }
  });
  // The middle crosses 0 at 2/0.35 N = 5.714. [derived]
  test("marks where the middle of belief turns", () => {
    const turns = shapes(sweep).flatMap(({ attributes }) =>
      attributes["data-turn"] ? [Number(attributes["data-turn"])] : [],
    );
    expect(turns).toHaveLength(1);
    expect(turns[0]).toBeCloseTo(2 / 0.35, 9);
  });
  test("has a curve more for each end of a second number", () => {
    const curves = (s: CheckSweep) =>
      shapes(s).filter(({ attributes }) => attributes["data-curve"] !== undefined).length;
    expect(curves(sweep)).toBe(0);
    expect(curves({ ...sweep, family })).toBe(2);
  });
  test("of a check without a finite answer anywhere still draws", () => {
    const none = places.map((x) => ({
      at: x,
      room: { low: Number.NEGATIVE_INFINITY, middle: Number.NEGATIVE_INFINITY, high: Number.NEGATIVE_INFINITY },
    }));
    expect(() => shapes({ ...sweep, points: none })).not.toThrow();
  });
});
describe("the words", () => {
  test("say where it stands, whether it holds there, and where it turns", () => {
    expect(sweepWords(sweep)).toBe(
      "Room of pulls to its bound over nip preload, from 2.00 N to 10.0 N; it stands at 4.00 N, where it does not hold in the middle of belief. In the middle of belief it turns at 5.71 N.",
    );
  });
  test("say of each curve of a family where it turns", () => {
    expect(sweepWords({ ...sweep, family })).toContain(
      "Nip friction at 0.200: turns at 10.0 N. Nip friction at 0.350: turns at 5.71 N.",
    );
  });
  test("say that it turns nowhere", () => {
    expect(sweepWords({ ...sweep, points: [at(8), at(10)] })).toContain("it turns nowhere between");
  });
});
