import { describe, expect, test } from "vitest";
import { checks } from "../checks.ts";
import { nominal } from "../scene.fixture.ts";
import { boxed, crowded, mm, unitWith, with12 } from "./clearance.fixture.ts";
import { clearancesInOrder, type PairGap, pairGaps } from "./pair-gaps.ts";

test("every clearance is a check, in this order", () => {
  const ids = clearancesInOrder.map(({ id }) => id);
  expect(ids).toEqual(["clear.pocket", "clear.tape", "clear.film", "clear.bodies", "clear.lifting"]);
  expect(checks.filter(({ id }) => id.startsWith("clear."))).toEqual(clearancesInOrder.map(({ check }) => check));
});

describe("the pairs of a scene", () => {
  const one = crowded();
  const all = pairGaps(one);
  const answered = all.filter((p): p is PairGap => "gap" in p);
  test("are those of every check, each with its gap as the model has it", () => {
    expect(answered).toHaveLength(all.length);
    for (const { id, pairs } of clearancesInOrder) {
      const mine = answered.filter((p) => p.check === id);
      expect(mine).toHaveLength(pairs(one).length);
      for (const pair of pairs(one)) {
        const shown = mine.find((p) => p.a === pair.a.says && p.b === pair.b.says)!;
        expect(shown.gap).toBe(nominal(one, pair.gap));
        expect(shown.wanted).toBe(nominal(one, pair.wanted));
      }
    }
  });
  test("stand by their room within a check, the least first, and that is what the check reports", () => {
    for (const { id, room } of clearancesInOrder) {
      const rooms = answered.filter((p) => p.check === id).map((p) => p.gap - p.wanted);
      expect(rooms).toEqual([...rooms].sort((a, b) => a - b));
      expect(rooms[0]).toBeCloseTo(nominal(one, room), 12);
    }
  });
  test("say where in words, and lose nothing as JSON", () => {
    for (const p of answered) expect(p.place, `${p.a} / ${p.b}`).toMatch(/\b(at|before|after|into)\b/);
    expect(JSON.parse(JSON.stringify(all))).toEqual(all);
  });
  test("hold the film's crossing of its tape: this one does not clear it", () => {
    const film = answered.find((p) => p.check === "clear.film" && p.b === "tape")!;
    expect(film.gap).toBeLessThan(-0.5 * mm);
  });
});
test("a pair without an answer says why, and stands last", () => {
  const flat = with12(unitWith([boxed("post", [0, -9, 1, -3], [0, 5]), boxed("sheet", [9, 3, 9, 5], [0, 5])]));
  const ofPocket = pairGaps(flat).filter((p) => p.check === "clear.pocket");
  expect(ofPocket.at(-1)).toEqual({
    check: "clear.pocket",
    a: "pocket",
    b: "sheet",
    trouble: "sheet: a box from x 9 mm to x 9 mm has no length",
  });
  expect(ofPocket[0]).toMatchObject({ b: "post" });
});
