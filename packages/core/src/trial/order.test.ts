import fc from "fast-check";
import { expect, test } from "vitest";
import { inOrder, type Step } from "./order.ts";

const step = (id: string, saved: number, stop: number, days: number, ...needs: string[]): Step => ({
  id,
  saved,
  stop,
  days,
  needs,
});
// saved, P(stop) and days of the worked table (film walk, tooth entry, nip grip); worked by hand in unpublished working notes. [derived]
const film = step("film", 4.67, 0.3475, 1.5);
const tooth = step("tooth", 0.79, 0.14, 0.5);
const nip = step("nip", 0.68, 0.24, 1);

test("a series that the first stop ends begins with the most days saved per chance of a stop", () => {
  expect(inOrder([tooth, nip, film], "first stop ends it")).toEqual(["film", "tooth", "nip"]);
});
test("a dear trial goes early in a series and late among independent ones", () => {
  const dear = step("dear", 6, 0.1, 12);
  expect(inOrder([tooth, dear], "first stop ends it")).toEqual(["dear", "tooth"]);
  expect(inOrder([tooth, dear], "each by itself")).toEqual(["tooth", "dear"]);
});
test("a poor trial that a good one needs goes right before it", () => {
  const poor = step("poor", 0.01, 0.1, 0.2);
  const good = step("good", 6, 0.3, 1, "poor");
  expect(inOrder([tooth, good, poor], "first stop ends it")).toEqual(["poor", "good", "tooth"]);
});
test("a need that is not among the trials counts as done", () => {
  expect(inOrder([step("a", 1, 0.2, 1, "gone")], "each by itself")).toEqual(["a"]);
});
test("trials that need each other in a ring all come out once", () => {
  const ring = [step("a", 1, 0.2, 1, "c"), step("b", 2, 0.2, 1, "a"), step("c", 3, 0.2, 1, "b")];
  expect(inOrder(ring, "first stop ends it").sort()).toEqual(["a", "b", "c"]);
});
test("whatever several trials need, nothing comes before what it needs", () => {
  const many = fc.array(fc.tuple(fc.double({ min: 0.1, max: 9, noNaN: true }), fc.array(fc.nat(9), { maxLength: 4 })), {
    minLength: 2,
    maxLength: 9,
  });
  fc.assert(
    fc.property(many, (all) => {
      const steps = all.map(([saved, needs], i) =>
        step(`${i}`, saved, 0.2, 1, ...needs.filter((n) => n < i).map(String)),
      );
      const order = inOrder(steps, "first stop ends it");
      expect([...order].sort()).toEqual(steps.map((s) => s.id).sort());
      for (const s of steps) for (const n of s.needs) expect(order.indexOf(n)).toBeLessThan(order.indexOf(s.id));
    }),
  );
});
/** All orders that keep what is needed first. */
function* orders(steps: readonly Step[], done: readonly Step[] = []): Generator<readonly Step[]> {
  if (steps.length === 0) yield done;
  for (const s of steps)
    if (!s.needs.some((n) => steps.some((t) => t.id === n)))
      yield* orders(
        steps.filter((t) => t !== s),
        [...done, s],
      );
}
const worth = (order: readonly Step[]): number => {
  let [reach, sum] = [1, 0];
  for (const { saved, stop } of order) {
    sum += reach * saved;
    reach *= 1 - stop;
  }
  return sum;
};
test("no other order of up to six trials, each needing at most one other, saves more", () => {
  const one = fc.tuple(
    fc.double({ min: 0.1, max: 9, noNaN: true }),
    fc.double({ min: 0.02, max: 0.9, noNaN: true }),
    fc.option(fc.nat(4)),
  );
  fc.assert(
    fc.property(fc.array(one, { minLength: 2, maxLength: 6 }), (all) => {
      const steps = all.map(([saved, stop, need], i) =>
        step(`${i}`, saved, stop, 1, ...(need !== null && need < i ? [`${need}`] : [])),
      );
      const ours = inOrder(steps, "first stop ends it").map((id) => steps.find((s) => s.id === id)!);
      const best = Math.max(...[...orders(steps)].map(worth));
      expect(worth(ours)).toBeGreaterThanOrEqual(best - 1e-9);
    }),
    { numRuns: 60 },
  );
});
