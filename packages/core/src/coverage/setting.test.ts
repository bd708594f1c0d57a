import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import { decide } from "../study/allowance.ts";
import { beliefDraws, Cell } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { bestSetting } from "./setting.ts";

const deviates = new Deviates(1);
const even = alike(beliefDraws);
const ends = 1.959963984540054;
const found = (list: readonly Check[], weights = even) => {
  const cell = new Cell(plainScene(), list);
  const hard = cell.checks.flatMap((c, i) => (c.severity === "S" ? [i] : []));
  return bestSetting(cell, deviates, decide(cell, deviates), hard, weights);
};
const preload = (text: string, lever: readonly [number, number] = [0.5, 30], address = "preload") =>
  number(address, text, { unit: "N", lever, settable: true });
const mu = number("mu", "0.2..0.6 guess");
const window = (N: ReturnType<typeof number>, least: number, most: number, friction = mu) =>
  check("window", {
    value: closed("N*mu", { N, mu: friction }, { unit: "N" }),
    atLeast: number("least", `${least} N`, { unit: "N" }),
    atMost: number("most", `${most} N`, { unit: "N" }),
  });
/** Every fourth belief draw of mu. */
const frictions = Array.from(
  deviates.normal("belief mu", beliefDraws).filter((_, k) => k % 4 === 0),
  (z) => Math.sqrt(0.12) * 3 ** (z / (2 * ends)),
);
const shareOf = (holds: (m: number) => boolean) => frictions.filter(holds).length / frictions.length;
/** Eleven settings from a third to three times the drawn one, evenly in the logarithm. */
const settings = (drawn: number) => Array.from({ length: 11 }, (_, i) => drawn * 3 ** ((i - 5) / 5));

describe("a number that can be set on the finished unit", () => {
  // Without scatter the window is 2 <= N mu <= 3: worked out for each friction and each of the eleven settings.
  test("is tried from a third to three times the drawn one; the share in which some setting holds, and the best one's", () => {
    const s = found([window(preload("4 N"), 2, 3)])!;
    const holds = (N: number, m: number) => N * m >= 2 && N * m <= 3;
    const each = settings(4).map((N) => ({ N, share: shareOf((m) => holds(N, m)) }));
    const best = each.reduce((a, b) => (b.share > a.share ? b : a));
    expect(s.address).toBe("preload");
    expect(s.exists).toBeCloseTo(
      shareOf((m) => settings(4).some((N) => holds(N, m))),
      12,
    );
    expect(s.drawn).toBeCloseTo(
      shareOf((m) => holds(4, m)),
      12,
    );
    expect(s.atBest).toBeCloseTo(best.share, 12);
    expect(s.best).toBeCloseTo(best.N, 12);
    expect([s.unit, s.shownIn]).toEqual(["N", "N"]);
  });
  test("is named only where it gains more than two points of belief", () => {
    // Wide enough for every friction at the drawn preload.
    expect(found([window(preload("6 N"), 0.5, 9)])).toBeUndefined();
    // Here a few frictions short of 0.19 fall out, less than two in a hundred.
    expect(shareOf((m) => 6 * m >= 1.14)).toBeLessThan(1);
    expect(shareOf((m) => 6 * m >= 1.14)).toBeGreaterThan(0.98);
    expect(found([window(preload("6 N"), 1.14, 9)])).toBeUndefined();
  });
  test("is not named where no setting helps: the window has no room, or does not rest on it", () => {
    expect(found([window(preload("6 N"), 3, 2)])).toBeUndefined();
    const u = number("u", "1..4 guess");
    expect(
      found([
        check("other", { value: closed("u", { u }), atLeast: number("b", "2") }),
        window(preload("6 N"), 0.1, 30),
      ]),
    ).toBeUndefined();
  });
  test("must be settable: a dimension of the drawing is no setting", () => {
    expect(found([window(number("preload", "4 N", { unit: "N", lever: [0.5, 30] }), 2, 3)])).toBeUndefined();
  });
  test("has to leave the other hard checks holding: what they do not hold no setting mends", () => {
    const u = number("u", "1..4 guess");
    const rest = check("rest", { value: closed("u", { u }), atLeast: number("b", "1.5") });
    const s = found([window(preload("4 N"), 2, 3), rest])!;
    const others = Array.from(
      deviates.normal("belief u", beliefDraws).filter((_, k) => k % 4 === 0),
      (z) => 2 * 4 ** (z / (2 * ends)) >= 1.5,
    );
    const both =
      frictions.filter((m, k) => others[k] && settings(4).some((N) => N * m >= 2 && N * m <= 3)).length /
      frictions.length;
    expect(s.exists).toBeCloseTo(both, 12);
  });
  test("counts belief by its weight", () => {
    const weights = Float64Array.from(deviates.normal("belief mu", beliefDraws), (z) => (z > 0.5 ? 3 : 1));
    const s = found([window(preload("4 N"), 2, 3)], weights)!;
    const w = Array.from(weights.filter((_, k) => k % 4 === 0));
    const total = w.reduce((a, b) => a + b, 0);
    const held = frictions.reduce((sum, m, k) => sum + (4 * m >= 2 && 4 * m <= 3 ? w[k]! : 0), 0);
    expect(s.drawn).toBeCloseTo(held / total, 12);
  });
  test("stays within its bounds, and the drawn share is the drawn one's even where that lies outside", () => {
    const s = found([window(preload("4 N", [4.5, 5.5]), 2, 3)])!;
    expect(s.best).toBeGreaterThanOrEqual(4.5);
    expect(s.best).toBeLessThanOrEqual(5.5);
    expect(s.drawn).toBeCloseTo(
      shareOf((m) => 4 * m >= 2 && 4 * m <= 3),
      12,
    );
    expect(s.exists).toBeCloseTo(
      shareOf((m) =>
        [...settings(4).map((N) => Math.min(5.5, Math.max(4.5, N))), 4].some((N) => N * m >= 2 && N * m <= 3),
      ),
      12,
    );
  });
  test("keeps its own scatter around each setting", () => {
    const s = found([window(preload("4 N sd 8 %"), 2, 3)])!;
    const still = found([window(preload("4 N"), 2, 3)])!;
    // The scatter's allowance narrows the window at every setting, and no wider than by 2.3 sd a side.
    expect(s.exists).toBeLessThan(still.exists);
    const factor = Math.exp(2.3 * 0.08);
    expect(s.atBest).toBeGreaterThan(
      Math.max(...settings(4).map((N) => shareOf((m) => N * m >= 2 * factor && N * m <= 3 / factor))) - 0.02,
    );
  });
  test("of two is the one with which more of belief holds", () => {
    const [a, b] = [preload("4 N"), preload("0.5 N", [0.49, 0.51], "clutch")];
    const one = check("both", {
      value: closed("N*mu + c", { N: a, mu, c: b }, { unit: "N" }),
      atLeast: number("least", "2.5 N", { unit: "N" }),
      atMost: number("most", "3.2 N", { unit: "N" }),
    });
    expect(found([one])!.address).toBe("preload");
  });
});
