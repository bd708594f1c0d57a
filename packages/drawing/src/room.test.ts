import fc from "fast-check";
import { expect, test } from "vitest";
import { best, Room, rectAbout } from "./room.ts";

const area = { x: 10, y: 20, width: 200, height: 120 };
test("an empty sheet costs nothing, a place beyond it a lot", () => {
  const room = new Room(area);
  expect(room.cost({ x: 20, y: 30, width: 50, height: 10 })).toBe(0);
  expect(room.cost({ x: 0, y: 30, width: 50, height: 10 })).toBe(400);
});
test("what lies under a box is counted, and only that, in any order of marking and asking", () => {
  // Marks stand in the middles of cells of 4 px, boxes end between them, so each mark lies clearly in or out.
  const cell = fc.record({ c: fc.nat(49), r: fc.nat(29) });
  fc.assert(
    fc.property(
      fc.uniqueArray(cell, { maxLength: 40, selector: ({ c, r }) => c + 100 * r }),
      cell,
      cell,
      (marks, a, b) => {
        const room = new Room(area);
        const [c0, c1, r0, r1] = [Math.min(a.c, b.c), Math.max(a.c, b.c), Math.min(a.r, b.r), Math.max(a.r, b.r)];
        const rect = { x: 10 + 4 * c0 + 1, y: 20 + 4 * r0 + 1, width: 4 * (c1 - c0) + 2, height: 4 * (r1 - r0) + 2 };
        marks.forEach(({ c, r }, i) => {
          room.points([[10 + 4 * c + 2, 20 + 4 * r + 2]], 1 + (i % 3));
          if (i % 7 === 0) room.cost(rect);
        });
        const under = marks.reduce(
          (sum, { c, r }, i) => sum + (c >= c0 && c <= c1 && r >= r0 && r <= r1 ? 1 + (i % 3) : 0),
          0,
        );
        expect(room.cost(rect)).toBeCloseTo(under, 6);
      },
    ),
    { seed: 5 },
  );
});
test("a leader that crosses a label costs more than one that goes round it", () => {
  const room = new Room(area);
  room.fill(rectAbout([100, 80], 40, 12));
  expect(room.crossing([50, 80], [150, 80])).toBeGreaterThan(room.crossing([50, 120], [150, 120]));
});
test("of equal candidates the first is taken, and what can't win is not asked further", () => {
  expect(best(["a", "b"], () => 1)).toBe("a");
  const asked: string[] = [];
  const found = best(
    ["b", "a", "c"],
    (s) => ({ a: 1, b: 2, c: 9 })[s]!,
    (s) => {
      asked.push(s);
      return s === "a" ? 5 : 0;
    },
  );
  expect([found, asked]).toEqual(["b", ["b", "a"]]);
  expect(() => best([], () => 0)).toThrow(RangeError);
});
