import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { evenWeights, judge } from "../coverage/judge.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { check, closed, number, plainScene } from "../study/plain.fixture.ts";
import {
  effectiveDraws,
  type KnownCount,
  type KnownWord,
  knownChances,
  poissonAtLeast,
  poissonAtMost,
  standingOf,
  weigh,
} from "./known.ts";

describe("the Poisson law", () => {
  // Cumulative Poisson probabilities to four places, as any printed table has them. [memory; confirmed by the direct sum below]
  test.each([
    [0, 1, 0.3679],
    [1, 1, 0.7358],
    [2, 1, 0.9197],
    [3, 1, 0.981],
    [0, 2, 0.1353],
    [2, 2, 0.6767],
    [4, 2, 0.9473],
    [1, 0.1, 0.9953],
    [5, 5, 0.616],
    [2, 5, 0.1247],
    [5, 10, 0.0671],
    [10, 10, 0.583],
    [15, 10, 0.9513],
  ])("at most %i of mean %d has the table's chance %d", (k, mean, table) => {
    expect(poissonAtMost(k, mean)).toBeCloseTo(table, 4);
    let term = Math.exp(-mean);
    let sum = term;
    for (let i = 1; i <= k; i++) sum += term *= mean / i;
    expect(poissonAtMost(k, mean)).toBeCloseTo(sum, 12);
    expect(poissonAtLeast(k + 1, mean)).toBeCloseTo(1 - sum, 12);
  });
  test("the two tails add up to one, whatever the mean", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), fc.double({ min: 0, max: 500, noNaN: true }), (k, mean) => {
        expect(poissonAtMost(k, mean) + poissonAtLeast(k + 1, mean)).toBeCloseTo(1, 9);
      }),
      { seed: 1837, numRuns: 500 },
    );
  });
  test("nothing at all is certain of mean nought, less than nothing impossible", () => {
    expect(poissonAtMost(0, 0)).toBe(1);
    expect(poissonAtLeast(1, 0)).toBe(0);
    expect(poissonAtMost(-1, 3)).toBe(0);
    expect(poissonAtLeast(0, 3)).toBe(1);
  });
  // Leading term of the upper tail for a small mean: mean^k/k!.
  test("a small upper tail keeps its digits", () => {
    expect(poissonAtLeast(6, 1e-3) / (1e-18 / 720)).toBeCloseTo(1, 2);
    expect(poissonAtLeast(5, 1e-6) / (1e-30 / 120)).toBeCloseTo(1, 5);
  });
  // Normal limit: at most the mean itself has the chance 1/2 + 2/3/sqrt(2 pi mean).
  test("a large mean neither over- nor underflows", () => {
    expect(poissonAtMost(10_000, 10_000)).toBeCloseTo(0.5 + 2 / 3 / Math.sqrt(2 * Math.PI * 10_000), 4);
    expect(poissonAtMost(3, 5000)).toBe(0);
    expect(poissonAtLeast(3, 5000)).toBe(1);
  });
});

describe("effective draws", () => {
  // Kish: (sum w)^2 / sum w^2. n even ones are worth n; m of weight 1 and the rest of weight 0 are worth m; weights 1, 2, 3: 36/14.
  test("are Kish's number", () => {
    expect(effectiveDraws(new Float64Array(1000).fill(0.001))).toBeCloseTo(1000, 9);
    expect(effectiveDraws(Float64Array.from({ length: 1000 }, (_, k) => (k < 70 ? 5 : 0)))).toBeCloseTo(70, 9);
    expect(effectiveDraws(Float64Array.of(1, 2, 3))).toBeCloseTo(36 / 14, 12);
  });
});

describe("how a record stands to what the checks say without it", () => {
  // runs: reproduced by feeds, contradicted by stops. fails: the other way. not good enough: stops or depends reproduce, feeds contradicts.
  // Any other depends is open.
  test.each<readonly [KnownWord, number, string]>([
    ["runs", 1, "reproduced"],
    ["runs", 0.95, "reproduced"],
    ["runs", 0.94, "open"],
    ["runs", 0.06, "open"],
    ["runs", 0.05, "contradicted"],
    ["fails", 0.95, "contradicted"],
    ["fails", 0.94, "open"],
    ["fails", 0.06, "open"],
    ["fails", 0.05, "reproduced"],
    ["not good enough", 1, "contradicted"],
    ["not good enough", 0.95, "contradicted"],
    ["not good enough", 0.5, "reproduced"],
    ["not good enough", 0, "reproduced"],
  ])("%s beside a share of %d is %s", (result, share, standing) => {
    expect(standingOf(result, share)).toBe(standing);
  });
});

const record = (
  result: KnownWord,
  run: number,
  refused: number,
  checks: Readonly<Record<string, (k: number) => number>>,
  shares: Readonly<Record<string, number>> = {},
  share = 0.5,
): Parameters<typeof weigh>[0][number] => ({
  unit: "plover",
  tape: "a tape",
  result,
  run,
  refused,
  chances: {
    share,
    values: {},
    checks: Object.entries(checks).map(([id, chance]) => ({
      id,
      share: shares[id] ?? 0.5,
      chance: Float64Array.from({ length: beliefDraws }, (_, k) => chance(k)),
    })),
  },
});
/** Likelihoods by direct summation, independent of the code. */
const atMost = (k: number, mean: number): number => {
  let [term, sum] = [Math.exp(-mean), 0];
  for (let i = 0; i <= k; i++) {
    sum += term;
    term *= mean / (i + 1);
  }
  return sum;
};

describe("belief weighed by the count of refused reels", () => {
  // Two kinds of belief draws: 400 at which a reel breaks the window with 0.1 %, 600 with 1 %. 300 reels, 1 refused: means 0.3 and 3.
  const two = (k: number) => (k < 400 ? 0.001 : 0.01);
  test("is the prior times P(X <= k) for what runs", () => {
    const { weights, effective, contradicted } = weigh([record("runs", 300, 1, { pulls: two })]);
    const [a, b] = [atMost(1, 0.3), atMost(1, 3)];
    const posterior = (400 * a) / (400 * a + 600 * b);
    expect(weights.slice(0, 400).reduce((s, w) => s + w, 0)).toBeCloseTo(posterior, 12);
    expect(weights.reduce((s, w) => s + w, 0)).toBeCloseTo(1, 12);
    expect(effective).toBeCloseTo((400 * a + 600 * b) ** 2 / (400 * a * a + 600 * b * b), 8);
    expect(contradicted).toEqual([]);
  });
  test("is the prior times P(X >= k) for what fails", () => {
    const { weights } = weigh([record("fails", 300, 2, { pulls: two })]);
    const [a, b] = [1 - atMost(1, 0.3), 1 - atMost(1, 3)];
    expect(weights.slice(0, 400).reduce((s, w) => s + w, 0)).toBeCloseTo((400 * a) / (400 * a + 600 * b), 12);
  });
  // Two checks with chances p and q: a reel passes both with (1 - p)(1 - q).
  test("takes the checks of one record together", () => {
    const { weights } = weigh([record("runs", 50, 0, { pulls: two, slips: () => 0.02 })]);
    const [a, b] = [Math.exp(-50 * (1 - 0.999 * 0.98)), Math.exp(-50 * (1 - 0.99 * 0.98))];
    expect(weights[0]! / weights[999]!).toBeCloseTo(a / b, 10);
  });
  test("multiplies over records, in any order", () => {
    const list = [
      record("runs", 300, 1, { pulls: two }),
      record("runs", 20, 0, { pulls: (k) => (k % 2) * 0.05 }),
      record("fails", 10, 1, { play: (k) => (k < 500 ? 0.1 : 0.2) }),
    ];
    const { weights } = weigh(list);
    const expected = (k: number) =>
      atMost(1, 300 * two(k)) * Math.exp(-20 * (k % 2) * 0.05) * (1 - Math.exp(-10 * (k < 500 ? 0.1 : 0.2)));
    for (const [i, j] of [
      [0, 401],
      [1, 999],
      [2, 500],
    ] as const)
      expect(weights[i]! / weights[j]!).toBeCloseTo(expected(i) / expected(j), 9);
    const reversed = weigh([...list].reverse()).weights;
    for (const [k, w] of reversed.entries()) expect(w).toBeCloseTo(weights[k]!, 12);
  });
  test("stays even without a record, and by one that counts nothing", () => {
    for (const list of [
      [],
      [record("not good enough", 300, 200, { pulls: two })],
      [record("runs", 0, 0, { pulls: two })],
    ]) {
      const { weights, effective, contradicted } = weigh(list);
      expect(new Set(weights).size).toBe(1);
      expect(effective).toBeCloseTo(1000, 9);
      expect(contradicted).toEqual([]);
    }
  });
  // A hard pass would leave only draws that hold. 12 reels without one refused leave a draw at 5 % still half its weight.
  test("is moved by the count, not by a hard pass", () => {
    const { weights } = weigh([record("runs", 12, 0, { pulls: (k) => (k < 500 ? 0.05 : 0) })]);
    expect(weights[0]! / weights[999]!).toBeCloseTo(Math.exp(-0.6), 10);
  });
  test("keeps apart what all draws find unlikely", () => {
    // Means 2000 and 4000 with none refused: the ratio is e^-2000, nought; neither may swallow the other's as "both impossible".
    const { weights } = weigh([record("runs", 5000, 0, { pulls: (k) => (k < 300 ? 0.4 : 0.8) })]);
    expect(weights.slice(0, 300).reduce((s, w) => s + w, 0)).toBeCloseTo(1, 12);
  });
});

describe("a record that contradicts the model", () => {
  test("names the check that stops what runs and leaves it out of the weights", () => {
    const { weights, contradicted } = weigh([
      record(
        "runs",
        300,
        1,
        { pulls: (k) => (k < 400 ? 0.001 : 0.01), mismatch: (k) => (k < 30 ? 0.1 : 1) },
        { mismatch: 0.03, pulls: 0.4 },
      ),
    ]);
    expect(contradicted).toEqual(["mismatch"]);
    const [a, b] = [atMost(1, 0.3), atMost(1, 3)];
    // As if the record had the other check alone.
    expect(weights.slice(0, 400).reduce((s, w) => s + w, 0)).toBeCloseTo((400 * a) / (400 * a + 600 * b), 12);
  });
  test("names no check of what fails or is not good enough: there a stop is right", () => {
    for (const result of ["fails", "not good enough"] as const)
      expect(weigh([record(result, 3, 1, { mismatch: () => 0.9 }, { mismatch: 0.01 })]).contradicted).toEqual([]);
  });
  // 100 draws that nearly never break, 900 that nearly always do: 100 effective draws would be left. The check is named instead, and belief
  // is not silently narrowed to those 100.
  test("names the check under 200 effective draws instead of updating by it", () => {
    const narrow = (k: number) => (k < 100 ? 0.0001 : 0.5);
    const { weights, effective, contradicted } = weigh([
      record("runs", 300, 0, { narrow, mild: (k) => (k % 2 === 0 ? 0.001 : 0.002) }, { narrow: 0.1, mild: 1 }),
    ]);
    expect(contradicted).toEqual(["narrow"]);
    expect(weights[0]! / weights[1]!).toBeCloseTo(Math.exp(0.3), 9);
    expect(weights[0]! / weights[500]!).toBeCloseTo(1, 9);
    expect(effective).toBeGreaterThan(900);
  });
  test("does not name it with 200 left", () => {
    const { effective, contradicted } = weigh([
      record("runs", 3000, 0, { narrow: (k) => (k < 200 ? 0 : 0.5) }, { narrow: 0.2 }),
    ]);
    expect(effective).toBeCloseTo(200, 6);
    expect(contradicted).toEqual([]);
    expect(
      weigh([record("runs", 3000, 0, { narrow: (k) => (k < 199 ? 0 : 0.5) }, { narrow: 0.199 })]).contradicted,
    ).toEqual(["narrow"]);
  });
  // Two checks that no belief passes together, as a nip that pulls and slips only at different frictions: each depends, and the unit runs all
  // the same. Every draw is as unlikely as the other, so the weights alone would stay even and say nothing.
  test("names one of two checks that stop only together, and weighs by the other", () => {
    const checks = { pulls: (k: number) => (k < 600 ? 1 : 0.001), slips: (k: number) => (k < 550 ? 0.001 : 1) };
    const { weights, contradicted } = weigh([record("runs", 300, 1, checks, { pulls: 0.4, slips: 0.55 }, 0)]);
    expect(contradicted).toEqual(["pulls"]);
    expect(weights.slice(0, 550).reduce((s, w) => s + w, 0)).toBeCloseTo(1, 9);
  });
  // Hardly ever breaking, yet it fails: no check foresaw that, so none is to blame, and none may lose its word over it.
  test("of a failure no check foresaw is named itself, blames no check and moves nothing", () => {
    const unforeseen = record(
      "fails",
      6,
      6,
      { pulls: (k) => 1e-6 * (k + 1), slips: (k) => (k < 5 ? 1e-3 : 0) },
      { pulls: 1, slips: 1 },
      1,
    );
    const found = weigh([unforeseen]);
    expect(found).toMatchObject({ contradicted: [], leftOut: ["plover on a tape"] });
    expect(new Set(found.weights).size).toBe(1);
    // Few draws that foresee it are as good as none.
    expect(weigh([record("fails", 6, 6, { pulls: (k) => (k < 100 ? 0.5 : 1e-6) }, { pulls: 0.9 }, 0.9)])).toMatchObject(
      { contradicted: [], leftOut: ["plover on a tape"] },
    );
    // Another record is weighed as if it were not there.
    const other = record("runs", 300, 1, { pulls: (k) => (k < 400 ? 0.001 : 0.01) });
    expect(weigh([unforeseen, other]).weights).toEqual(weigh([other]).weights);
  });
  test("of a failure that the checks foresee is weighed in", () => {
    const found = weigh([record("fails", 3, 2, { pulls: (k) => (k < 300 ? 0.01 : 0.6) })]);
    expect(found.leftOut).toEqual([]);
    expect(found.weights.slice(300).reduce((s, w) => s + w, 0)).toBeGreaterThan(0.95);
  });
});

describe("what the checks say of a known unit", () => {
  const deviates = new Deviates(1);
  const [u, a] = [number("u", "1..4 guess"), number("a", "1 per reel sd 10 %")];
  const list = [
    check("hard", { value: closed("u*a", { u, a }), atLeast: number("b", "2") }),
    check("soft", { value: closed("u", { u }), atLeast: number("b", "100"), severity: "A" }),
    check("safe", { value: closed("a", { a }), atMost: number("b", "3") }),
    check("absent", { value: closed("a", { a }), atMost: number("b", "0"), absent: () => "none" }),
  ];
  const known = knownChances(plainScene(), list, deviates);
  test("has its hard checks, each with share and chance, and every value as written", () => {
    expect(known.checks.map((c) => c.id)).toEqual(["hard", "safe"]);
    expect(known.values.hard).toBeCloseTo(2, 12);
    expect(Object.keys(known.values)).toEqual(["hard", "soft", "safe"]);
    expect(known.share).toBe(known.checks[0]!.share);
    expect(known.checks[1]!.share).toBe(1);
  });
  // P(u a < 2) = Phi(ln(2/u)/s): at the draw of greatest and of median u.
  test("has at each belief draw the chance over scatter that a check breaks", () => {
    const z = deviates.normal("belief u", beliefDraws);
    const s = Math.sqrt(Math.log(1.01));
    const t = deviates.normal("scatter reel a#0", 2000);
    for (const k of [0, 17, 500, 999]) {
      const at = 2 * 4 ** (z[k]! / (2 * 1.959963984540054));
      const direct = t.filter((v) => at * Math.exp(s * v) < 2).length / 2000;
      expect(Math.abs(known.checks[0]!.chance[k]! - direct)).toBeLessThan(0.01);
    }
  });
  // The unit ran 40 reels without one refused: belief moves to where the check holds, on this and on any other tape.
  test("moves the verdict on other tapes once its record is weighed in", () => {
    const counted: KnownCount = { unit: "plover", tape: "a tape", result: "runs", run: 40, refused: 0 };
    const { weights, contradicted, effective } = weigh([{ ...counted, chances: known }]);
    expect(contradicted).toEqual([]);
    expect(effective).toBeGreaterThan(200);
    const other = [check("other", { value: closed("u", { u }), atLeast: number("b", "1.9") })];
    const on = (w: Float64Array) =>
      judge({
        unit: "u",
        tape: "t",
        scene: plainScene(),
        checks: other,
        deviates,
        weights: w,
        contradicted: new Set(contradicted),
      });
    const [before, after] = [on(evenWeights), on(weights)];
    expect(before.verdict).toBe("depends");
    expect(after.share!).toBeGreaterThan(0.95);
    expect(after.shareAlone).toBe(before.share);
    expect(after.verdictAlone).toBe("depends");
  });
});
