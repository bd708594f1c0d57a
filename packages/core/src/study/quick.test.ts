import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { decide } from "./allowance.ts";
import { beliefDraws, Cell } from "./cell.ts";
import { Deviates } from "./deviates.ts";
import { alike, check, closed, number, plainScene } from "./plain.fixture.ts";
import { beliefPoints } from "./points.ts";
import {
  allowanceBetween,
  allowancesBy,
  corrected,
  gapsAsWritten,
  kappasOf,
  lessAllowance,
  marginAllowed,
  marginsOver,
  spreadAsWritten,
} from "./quick.ts";

const deviates = new Deviates(1);
const mu = number("mu", "1..4 guess");
const sum = (e: string) =>
  check("sum", { value: closed("mu + e", { mu, e: number("e", e) }), atLeast: number("least", "1") });
const quickly = (cell: Cell) => {
  const written = gapsAsWritten(cell, deviates);
  const spread = spreadAsWritten(cell, written, deviates);
  const kappas = kappasOf(cell, written, spread, deviates);
  return { written, spread, kappas, gaps: lessAllowance(cell, written, allowancesBy(kappas, cell, written, spread)) };
};

test.each(["0 sd 0.2", "0 ±0.3", "0 sd 0.2 sd 0.1", "0"])(
  "for a gap linear in its scatter, %s, the quick way is the careful one",
  (e) => {
    const cell = new Cell(plainScene(), [sum(e)]);
    const [{ gap }, [{ gap: careful }]] = [quickly(cell).gaps[0]!, decide(cell, deviates)] as never as [
      { gap: Float64Array },
      [{ gap: Float64Array }],
    ];
    for (let k = 0; k < beliefDraws; k += 7) expect(gap[k]).toBeCloseTo(careful[k]!, 3);
  },
);
test("of a window with two sides the nearer one decides at each draw", () => {
  const window = check("window", {
    value: closed("mu + e", { mu, e: number("e", "0 sd 0.1") }),
    atLeast: number("a", "1.5"),
    atMost: number("b", "3"),
  });
  const cell = new Cell(plainScene(), [window]);
  const { gaps } = quickly(cell);
  const written = gapsAsWritten(cell, deviates);
  for (let k = 0; k < beliefDraws; k++)
    expect(gaps[0]!.gap[k]).toBeLessThan(Math.min(written[0]![k]!, written[1]![k]!));
  const careful = decide(cell, deviates)[0]!.gap;
  const near = (x: Float64Array) => beliefPoints(x, alike(beliefDraws));
  for (const point of ["low", "middle", "high"] as const)
    expect(near(gaps[0]!.gap)[point]).toBeCloseTo(near(careful)[point], 1);
});

describe("between two cells", () => {
  const [narrow, wide] = [sum("0 sd 0.1"), sum("0 sd 0.3")].map((c) => new Cell(plainScene(), [c]));
  const [a, b] = [quickly(narrow!), quickly(wide!)];
  const of = (q: ReturnType<typeof quickly>, cell: Cell) => allowancesBy(q.kappas, cell, q.written, q.spread)[0]!;
  test("the allowance is in proportion", () => {
    const half = allowanceBetween(of(a, narrow!), of(b, wide!), 0.5).sides[0]!;
    expect(half.sd[3]).toBeCloseTo(0.2, 9);
    expect(half.takes[3]).toBeCloseTo((of(a, narrow!).sides[0]!.takes[3]! + of(b, wide!).sides[0]!.takes[3]!) / 2, 12);
  });
  test("of a check with another number of sides the wider cell's is taken", () => {
    const other = of(b, wide!);
    expect(allowanceBetween({ sides: [] }, other, 0.5)).toBe(other);
  });
});

describe("fitted anew at one point", () => {
  const of = (list: readonly { gap: Float64Array }[]) => list[0]!.gap;
  const low = (column: Float64Array) => beliefPoints(column, alike(beliefDraws)).low;
  const curved = check("curved", {
    value: closed("mu*(1 - e)^2", { mu, e: number("e", "0.2 sd 0.15") }),
    atLeast: number("least", "0.3"),
  });
  const cell = new Cell(plainScene(), [curved]);
  const { gaps, written } = quickly(cell);
  test("the allowance comes right, however wrong it was", () => {
    const truth = low(decide(cell, deviates)[0]!.gap);
    const none = lessAllowance(cell, written, [{ sides: [{ takes: new Float64Array(beliefDraws), sd: gaps[0]!.sd }] }]);
    expect(corrected(cell, gaps, of, low, deviates)).toBeCloseTo(truth, 2);
    expect(low(none[0]!.gap)).toBeGreaterThan(truth + 0.05);
    expect(corrected(cell, none, of, low, deviates)).toBeCloseTo(truth, 2);
  });
  test("nothing is said where the draws near the point do not agree", () => {
    const torn = gaps.map(({ gap, sd }) => ({ gap: gap.map((g, k) => g + (k % 2 === 0 ? 0.5 : -0.5) * sd[k]!), sd }));
    const middle = (column: Float64Array) => beliefPoints(column, alike(beliefDraws)).middle;
    expect(corrected(cell, torn, of, middle, deviates)).toBeUndefined();
  });
});

describe("the margin over scatter", () => {
  // At 2 %: 2.0537, as any table of the normal law has it. [memory]
  test("is 2.05 where an allowance of 2 % is just kept", () => expect(marginAllowed(0.02)).toBeCloseTo(2.0537, 4));
  test("is -Phi^-1 of the chance where scatter is normal", () => {
    const sd = Float64Array.of(1, 1, 1);
    const gap = Float64Array.of(0, 1, -1);
    for (const [k, m] of marginsOver({ gap, sd }, 0.02).entries())
      expect(phi(-m)).toBeCloseTo(phi(-(2.0537489 + gap[k]!)), 6);
  });
  test("ends at six, and is six one way or the other without scatter", () => {
    const decided = { gap: Float64Array.of(50, -50, 0, -1e-9), sd: Float64Array.of(1, 1, 0, 0) };
    expect([...marginsOver(decided, 0.02)]).toEqual([6, -6, 6, -6]);
  });
});
