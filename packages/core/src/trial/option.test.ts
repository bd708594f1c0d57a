import { expect, test } from "vitest";
import { bestFirst, weighed } from "./option.ts";

const piece = { fails: 0.1, catches: 0.9, passesGood: 0.95, late: 20, falseAlarm: 4, cost: 0.9 };

// Below P = R/(R + L) = 1/6 going on is the better of the two; there what a trial tells is P a L - (1 - P)(1 - b) R, its days saved and its cost together. [derived]
test("where going on is better, what a trial tells is what it saves with its cost put back", () => {
  const { information, worth, changeAtOnce, standing } = weighed("trial piece", piece);
  expect(information.trial).toBeCloseTo(worth.saved + 0.9, 12);
  expect(information.trial).toBeCloseTo(0.1 * 0.9 * 20 - 0.9 * 0.05 * 4, 12);
  expect([changeAtOnce, standing]).toEqual([false, "open"]);
});
test("where most likely it fails, a piece saves much against going on and is still not worth it: change the design", () => {
  const likely = weighed("trial piece", { ...piece, fails: 0.8 });
  expect(likely.worth.saved).toBeGreaterThan(10);
  expect(likely.changeAtOnce).toBe(true);
  expect(likely.information.trial).toBeLessThan(0.9);
  expect(likely.standing).toBe("not worth it");
});
test("a card of a few minutes is made all the same", () => {
  expect(weighed("card", { ...piece, fails: 0.8, cost: 0.03 }).standing).toBe("worth it");
});
test("what is surely worth it stands before what saves more on average", () => {
  const sure = weighed("card", { ...piece, catches: 0.5, cost: 0.03 });
  const more = weighed("trial piece", { ...piece, catches: 1, passesGood: 1, cost: 1 });
  expect(more.worth.saved).toBeGreaterThan(sure.worth.saved);
  expect([more, sure].sort(bestFirst)[0]!.kind).toBe("card");
});
