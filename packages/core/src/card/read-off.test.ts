import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Dimension, sameDimension } from "../quantity/dimension.ts";
import { dimensionOf, evaluate, namesIn, parseExpression } from "../quantity/expression.ts";
import { unitOf } from "../quantity/units.ts";
import { allCards } from "./card.ts";
import type { Method } from "./method.ts";
import { pictures } from "./method.ts";
import { pieceValue, readOff, sayAnswer, settingsOf } from "./read-off.ts";
import { capstan } from "./rubbing.ts";
import { simulateBench } from "./simulate.ts";
import { calipers } from "./sizing.ts";

const methods = [...new Set(allCards().map((c) => c.method))];
const named = methods.map((m): [string, Method] => [m.id, m]);
const answered = (m: Method, pieces: readonly (readonly (readonly number[])[])[]) => {
  const a = readOff(m, { pieces });
  if (a.kind !== "answer") throw new Error(`${a.found}. ${a.wayOut}`);
  return a;
};
const inSi = (m: Method, row: readonly number[]) =>
  Object.fromEntries(m.entries.map((e, i) => [e.symbol, row[i]! * unitOf(e.unit).factor]));

test("there are methods enough, each with its own name and a drawing", () => {
  expect(methods.length).toBeGreaterThan(40);
  expect(new Set(methods.map((m) => m.id)).size).toBe(methods.length);
  expect(new Set(methods.map((m) => m.picture))).toEqual(new Set(pictures));
});
describe("the worked example comes out as worked by hand", () => {
  test.each(named)("%s", (_, m) => {
    const { rows, gives } = m.example;
    const v = answered(m, [rows]).value / unitOf(m.shownIn).factor;
    expect(Math.abs(v - gives), `${v} against ${gives}`).toBeLessThanOrEqual(Math.abs(gives) * 6e-4);
  });
});
describe("the equation on the card is the one that is computed, in the right dimension", () => {
  test.each(named)("%s", (_, m) => {
    const dimension = (name: string): Dimension | undefined => {
      if (name === m.symbol && m.form === "solved") return unitOf(m.unit).dimension;
      const one = [...m.entries, ...m.settings].find((s) => s.symbol === name);
      return one && unitOf(one.unit).dimension;
    };
    if (m.form === "closed") {
      const tree = parseExpression(m.equation);
      expect(sameDimension(dimensionOf(tree, dimension), unitOf(m.unit).dimension)).toBe(true);
      const own = new Set([...m.entries, ...m.settings].map((s) => s.symbol));
      for (const s of own) expect(namesIn(tree), `${s} is asked for and not used`).toContain(s);
    } else if (m.ofReading) {
      // Both sides of the governing equation, at the value that the code finds.
      const [left, right] = m.equation.split(" = ").map((side) => parseExpression(side)) as [never, never];
      const row = inSi(m, m.example.rows[0]!);
      const set = settingsOf(m);
      const at = { ...row, ...set, [m.symbol]: pieceValue(m, [row], set) } as Record<string, number>;
      expect(evaluate(left, (n) => at[n])).toBeCloseTo(
        evaluate(right, (n) => at[n]),
        9,
      );
    } else {
      // A power law between two readings of the example: their ratio is that of the other entry to the power found.
      const rows = m.example.rows.map((r) => inSi(m, r));
      const [a, b] = [rows[0]!, rows.at(-1)!];
      const power = pieceValue(m, rows, settingsOf(m));
      const [left, right] = m.equation.split(" = ").map((side) => parseExpression(side)) as [never, never];
      const at = {
        ...b,
        ...Object.fromEntries(Object.entries(a).map(([k, v]) => [`${k}_0`, v])),
        [m.symbol]: power,
      } as Record<string, number>;
      expect(evaluate(left, (n) => at[n])).toBeCloseTo(
        evaluate(right, (n) => at[n]),
        9,
      );
    }
  });
});
describe("perfect instruments show what the equation takes back", () => {
  test.each(named)("%s", (_, m) => {
    fc.assert(
      fc.property(fc.double({ min: 0.8, max: 1.2, noNaN: true }), (share) => {
        const value = share * m.typical.value * unitOf(m.shownIn).factor;
        if (m.id === "look" || m.id === "count") return;
        const set = settingsOf(m);
        const rows = Array.from({ length: m.repeats }, (_x, k) => m.shows(value, set, k));
        expect(Math.abs(pieceValue(m, rows, set) / value - 1)).toBeLessThan(1e-5);
      }),
      { seed: 5, numRuns: 30 },
    );
  });
});
/** What is counted or seen has no error that scatters: right or wrong. */
const exact = new Set(["count", "turns-for-turn", "look"]);
describe("the stated 95 % hold the truth in 95 +-3 of 100 of 400 simulated benches", () => {
  test.each(named.filter(([id]) => !exact.has(id)))("%s", (_, m) => {
    let held = 0;
    for (let seed = 1001; seed <= 1400; seed++) {
      const { truth, readings } = simulateBench(m, { seed });
      const a = answered(m, readings.pieces);
      if (Math.abs(a.value - truth) <= a.within) held++;
    }
    expect(held / 400).toBeGreaterThanOrEqual(0.92);
    expect(held / 400).toBeLessThanOrEqual(0.98);
  });
});
describe("bad readings are answered by a sentence with the way out, never by no number", () => {
  const refused = (pieces: readonly (readonly (readonly number[])[])[], m = capstan) => {
    const r = readOff(m, { pieces });
    if (r.kind !== "refusal") throw new Error("was taken");
    return `${r.found}. ${r.wayOut}`;
  };
  test("none at all", () =>
    expect(refused([])).toBe(
      "There are no readings yet. Type at least one reading: pull while it moves up, then pull while it is let down.",
    ));
  test("nothing on the scale", () =>
    expect(refused([[[420, 0]]])).toBe(
      "Reading 1 of reel 1: pull while it is let down is 0 gf. The instrument shows no step of it: take a finer one or a larger piece, or leave the reading out.",
    ));
  test("less than nothing", () =>
    expect(
      refused([
        [
          [420, 95],
          [-3, 90],
        ],
      ]),
    ).toContain(
      "Reading 2 of reel 1: pull while it moves up is -3 gf, less than nothing. Set the instrument to nought",
    ));
  test("no number", () =>
    expect(refused([[[Number.NaN, 95]]])).toContain("is no number. Type it in gf, with a point for decimals."));
  test("too few numbers", () => expect(refused([[[420]]])).toContain("has 1 number. It wants 2"));
  test("low above high", () =>
    expect(refused([[[95, 420]]])).toContain(
      "(95) is not above pull while it is let down (420). Pulling up must take more",
    ));
  test("a reel without a reading", () => expect(refused([[[420, 95]], []])).toContain("There is no reading of reel 2"));
  test("a setting that the card hasn't, and one that is nothing", () => {
    const own = (settings: Record<string, number>) => readOff(capstan, { pieces: [[[420, 95]]], settings });
    expect(own({ phi: 3 })).toMatchObject({ kind: "refusal", wayOut: "It has theta (angle of wrap)." });
    expect(own({ theta: 0 })).toMatchObject({ kind: "refusal", found: "angle of wrap is 0" });
  });
  test("any numbers at all give an answer that is finite, or a sentence", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...methods),
        fc.array(
          fc.array(fc.array(fc.oneof(fc.double(), fc.integer({ min: -2, max: 500 })), { minLength: 1, maxLength: 5 }), {
            maxLength: 4,
          }),
          { maxLength: 4 },
        ),
        (m, raw) => {
          const pieces = raw.map((rows) => rows.map((row) => m.entries.map((_, i) => row[i % row.length]!)));
          const a = readOff(m, { pieces });
          if (a.kind === "refusal") expect(a.found.length * a.wayOut.length).toBeGreaterThan(100);
          else {
            expect(Number.isFinite(a.value)).toBe(true);
            expect(Number.isFinite(a.within)).toBe(true);
            expect(sayAnswer(a)).not.toMatch(/NaN|Infinity|undefined/);
          }
        },
      ),
      { seed: 7, numRuns: 3000 },
    );
  });
});
describe("reels count, not readings", () => {
  const one = [
    [420, 95],
    [430, 96],
    [425, 94],
    [422, 95],
  ];
  test("many readings of one reel do not make others known: it says so", () => {
    expect(answered(capstan, [one]).warnings[0]).toBe(
      "One reel says nothing of others: the uncertainty is that of this reel alone.",
    );
  });
  test("two reels warn, three don't", () => {
    expect(answered(capstan, [one, one.map(([a, b]) => [a! * 1.1, b!])]).warnings).toEqual([
      "Two reels say little of others: take three or more.",
    ]);
    expect(
      answered(capstan, [one, one.map(([a, b]) => [a! * 1.1, b!]), one.map(([a, b]) => [a! * 1.05, b!])]).warnings,
    ).toEqual([]);
  });
  test("a hundred more readings of the same reels do not narrow what reels differ by", () => {
    const reels = [1, 1.2, 0.9].map((k) => one.map(([a, b]) => [a! * k, b!]));
    const wide = answered(capstan, reels).within;
    const more = answered(
      capstan,
      reels.map((rows) => Array.from({ length: 25 }, () => rows).flat()),
    ).within;
    expect(more).toBeCloseTo(wide, 9);
  });
});
// s = 0.0252 mm of 12.02, 11.98, 12.03: over root 3 0.01528 mm; nought 0.02/root 3 = 0.01155 mm. [derived]
test("the parts are those of a hand calculation", () => {
  const a = answered(calipers, [[[12.02], [11.98], [12.03]]]);
  const u = (name: string) => a.parts.filter((p) => p.name === name).reduce((s, p) => s + p.u, 0);
  expect(u("repeat")).toBeCloseTo(0.01528e-3, 8);
  expect(u("nought")).toBeCloseTo(0.01155e-3, 8);
  expect(u("resolution")).toBe(0);
  // t(2) = 4.303 and an even law's 1.646: root sum of 0.0657 and 0.0190 mm. [derived]
  expect(a.freedom).toBe(2);
  expect(a.within).toBeCloseTo(0.0684e-3, 7);
});
test("readings that are all alike stand on the instrument's step, evenly: 1.65 standard deviations hold 95 in 100", () => {
  const m: Method = { ...calipers, entries: [{ ...calipers.entries[0]!, zero: 0 }] };
  const a = answered(m, [[[12]], [[12]], [[12]]]);
  // Half a step of 0.01 mm by 0.95. [derived]
  expect(a.within).toBeCloseTo(0.00475e-3, 8);
});
test("an answer is said with as many figures as its uncertainty has", () => {
  expect(sayAnswer({ value: 0.2366, within: 0.0213, shownIn: "" })).toBe("0.237 ±0.021");
  expect(sayAnswer({ value: 0.2366, within: 0.0413, shownIn: "" })).toBe("0.24 ±0.04");
  expect(sayAnswer({ value: 0.0121, within: 0.0003, shownIn: "mm" })).toBe("12.1 ±0.3 mm");
  expect(sayAnswer({ value: -12, within: 2.6, shownIn: "1/m" })).toBe("−12.0 ±2.6 /m");
});
