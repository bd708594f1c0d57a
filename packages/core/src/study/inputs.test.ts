import fc from "fast-check";
import { expect, test } from "vitest";
import { checks } from "../checks.ts";
import type { Given } from "../quantity/given.ts";
import { phi, phiInverse, type Scatter, scattered } from "../quantity/law.ts";
import { scenes } from "../scene.fixture.ts";
import { Cell } from "./cell.ts";
import { Inputs } from "./inputs.ts";
import { closed, number, plainScene, solved } from "./plain.fixture.ts";

const scene = plainScene();
/** Normal scores at the middles of n equal shares. */
const scores = (n: number): Float64Array => Float64Array.from({ length: n }, (_, k) => phiInverse((k + 0.5) / n));
const named = (inputs: Inputs) => inputs.axes.map(({ given, which, level }) => `${level} ${given.address}#${which}`);

test("axes are sorted by level, reel before unit before index, and within a level by address", () => {
  const a = number("b/x", "3 per index sd 1 per reel sd 1");
  const b = number("a/x", "3 per unit sd 1 per reel sd 2");
  const c = number("c/x", "3 ±1", { level: "reel" });
  const inputs = new Inputs(scene, [closed("p + q + r", { p: a, q: b, r: c })]);
  expect(named(inputs)).toEqual(["reel a/x#1", "reel b/x#1", "reel c/x#0", "unit a/x#0", "index b/x#0"]);
});
test("an unknown is no axis, but scatter of its own is one", () => {
  const u = number("u", "1..4 guess");
  const v = number("v", "1..4 per unit sd 10 % guess");
  const inputs = new Inputs(scene, [closed("u + v", { u, v })]);
  expect(named(inputs)).toEqual(["unit v#0"]);
  expect(inputs.unknowns.map((g) => g.address)).toEqual(["u", "v"]);
});
// Cell holds it 3 sd to the unkind side; here it is an axis like the others.
test("what scatters between indexes is an axis", () => {
  const x = number("x", "5 per index sd 2");
  const y = closed("x", { x });
  const inputs = new Inputs(scene, [y]);
  expect(named(inputs)).toEqual(["index x#0"]);
  expect(Array.from(inputs.run(3, [Float64Array.of(-1, 0, 2)])(y) as Float64Array)).toEqual([3, 5, 9]);
});
test("one address in two quantities is one axis, and both get the same draw", () => {
  const x = number("x", "5 sd 2");
  const twin = number("x", "5 sd 2");
  const [p, q] = [closed("2*x", { x }), closed("x*2", { x: twin })];
  const inputs = new Inputs(scene, [p, q]);
  expect(named(inputs)).toEqual(["unit x#0"]);
  const of = inputs.run(4, [Float64Array.of(-1, 0.2, 1, 3)]);
  expect(of(p)).toEqual(of(q));
});

// The greatest distance of n evenly spaced shares from the law they are of is 1/(2n) where each keeps its place. [by hand]
const laws: readonly (readonly [text: string, cdf: (x: number) => number])[] = [
  ["7 sd 2", (x) => phi((x - 7) / 2)],
  ["7 sd 20 %", (x) => (x > 0 ? phi(Math.log(x / 7) / Math.sqrt(Math.log(1.04))) : 0)],
  ["7 +1/-3", (x) => Math.min(1, Math.max(0, (x - 4) / 4))],
];
test.each(laws)("normal scores give %s the law it is written with", (text, cdf) => {
  const x = number("x", text);
  const n = 2001;
  const column = new Inputs(scene, [x]).run(n, [scores(n)])(x) as Float64Array;
  const sorted = column.slice().sort();
  let far = 0;
  sorted.forEach((v, k) => {
    far = Math.max(far, Math.abs(cdf(v) - k / n), Math.abs(cdf(v) - (k + 1) / n));
  });
  expect(far).toBeCloseTo(1 / (2 * n), 9);
  expect(Array.from(column)).toEqual(Array.from(sorted));
});

// The law by itself, one number at a time, is the other evaluator.
test("a column of a law is to the bit what the law gives number by number, on a number and on a column", () => {
  const z = scores(257);
  for (const text of ["7 sd 2", "7 sd 20 %", "7 +1/-3"]) {
    const x = number("x", text);
    const base = number("base", "3 sd 0.5");
    const y = number("y", text.replace("7", "base"), { names: { base } });
    const [scatter] = x.scatters;
    const own = (v: number) => (scatter!.law === "uniform" ? 2 * phi(v) - 1 : v);
    expect(new Inputs(scene, [x]).run(257, [z])(x)).toEqual(z.map((v) => scattered(7, scatter!, own(v))));
    const inputs = new Inputs(scene, [y]);
    expect(named(inputs)).toEqual(["unit base#0", "unit y#0"]);
    expect(inputs.run(257, [z, z])(y)).toEqual(z.map((v) => scattered(3 + 0.5 * v, scatter!, own(v))));
  }
});
test("an axis' own coordinate stands between its limits, or is its score; one that is mixed takes its score", () => {
  const [a, b] = pair(0.6, ["10 sd 2", "4 ±1"]);
  const c = number("c", "4 ±1");
  const inputs = new Inputs(scene, [a, b, c]);
  expect(inputs.even).toEqual([false, false, true]);
  const of = inputs.runOwn(2, [Float64Array.of(0, 1), Float64Array.of(0, 0), Float64Array.of(-1, 0.5)]);
  expect(Array.from(of(c) as Float64Array)).toEqual([3, 4.5]);
  expect((of(b) as Float64Array)[1]).toBeCloseTo(3 + 2 * phi(0.6), 12);
});

// 6 ±1 has the middle 6; 6 +2/-0 has the middle 7 but stands at 6 as written.
test("what is left out stands as written, and a number stands for a whole column", () => {
  const [a, b, c] = [number("a", "6 +2/-0"), number("b", "3 sd 1"), number("c", "2 sd 1")];
  const y = closed("a + 10*b + 100*c", { a, b, c });
  const inputs = new Inputs(scene, [y]);
  expect(inputs.run(1, [])(y)).toBe(6 + 30 + 200);
  expect(inputs.run(1, [0])(y)).toBeCloseTo(7 + 30 + 200, 12);
  expect(inputs.run(5, [undefined, 1])(y)).toBe(6 + 40 + 200);
  expect(Array.from(inputs.run(2, [undefined, Float64Array.of(1, 2), -1])(y) as Float64Array)).toEqual([146, 156]);
});
test("belief is the coordinate it is given, the median where none is given; what is moved stands off its text", () => {
  const u = number("u", "1..4 guess");
  const a = number("a", "6 sd 1");
  const y = closed("u + 10*a", { u, a });
  const inputs = new Inputs(scene, [y]);
  expect(inputs.run(1, [])(y)).toBeCloseTo(2 + 60, 12);
  expect(inputs.run(1, [], () => 1.959963984540054)(y)).toBeCloseTo(4 + 60, 12);
  const moved = (g: Given) => (g === a ? 0.5 : undefined);
  expect(inputs.run(1, [1], undefined, moved)(y)).toBeCloseTo(2 + 75, 12);
});
test("columns written over after a run are read afresh in the next one", () => {
  const [a, b] = [number("a", "1 sd 1"), number("b", "1 ±1")];
  const y = solved("y", { a, b }, ({ a: v, b: w }: { a: number; b: number }) => v + 100 * w);
  const inputs = new Inputs(scene, [y]);
  const z = [Float64Array.of(0, 1), Float64Array.of(0, 0)];
  expect(Array.from(inputs.run(2, z)(y) as Float64Array)).toEqual([101, 102]);
  z[0]!.set([5, 6]);
  z[1]!.set([50, 50]);
  expect(Array.from(inputs.run(2, z)(y) as Float64Array)).toEqual([206, 207]);
});
test("with columns kept, what rests on the same ones is not evaluated again, and what moves is", () => {
  let calls = 0;
  const [a, b, c] = [number("a", "1 sd 1"), number("b", "1 ±1"), number("c", "1 ±1")];
  const slow = solved("slow", { a, b }, ({ a: v, b: w }: { a: number; b: number }) => {
    calls++;
    return v + w;
  });
  const y = closed("s + 100*c", { s: slow, c });
  const kept = new Inputs(scene, [y]);
  const plain = new Inputs(scene, [y]);
  const column = fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 3, maxLength: 3 });
  const choice = fc.tuple(...[0, 1, 2].map(() => fc.nat(2)));
  fc.assert(
    fc.property(
      fc.array(column, { minLength: 9, maxLength: 9 }),
      fc.array(choice, { maxLength: 8 }),
      (values, steps) => {
        const pool = [0, 1, 2].map((i) => values.slice(3 * i, 3 * i + 3).map((v) => Float64Array.from(v)));
        for (const at of steps) {
          const z = at.map((j, i) => pool[i]![j]!);
          const copies = z.map((one) => one.slice());
          const got = kept.run(3, z, undefined, undefined, true)(y);
          expect(got).toEqual(plain.run(3, copies)(y));
        }
      },
    ),
    { seed: 7, numRuns: 100 },
  );
  const z = [scores(3), scores(3), scores(3)];
  kept.run(3, z, undefined, undefined, true);
  calls = 0;
  kept.run(3, [z[0]!, z[1]!, scores(3)], undefined, undefined, true);
  expect(calls).toBe(0);
  kept.run(3, [z[0]!, scores(3), z[2]!], undefined, undefined, true);
  expect(calls).toBe(3);
});

/** Two scatters whose normal scores go together by r. */
function pair(r: number, texts: readonly [string, string]): [Given, Given] {
  const of = {
    members: ["a", "b"],
    by: [
      [1, r],
      [r, 1],
    ],
  };
  return texts.map((text, at): Given => {
    const g = number("ab"[at]!, text);
    return { ...g, scatters: g.scatters.map((s): Scatter => ({ ...s, together: { of, at } })) };
  }) as [Given, Given];
}
test("scatters that go together are mixed from independent axes, each keeping its law", () => {
  const [a, b] = pair(0.6, ["10 sd 2", "4 ±1"]);
  const inputs = new Inputs(scene, [a, b]);
  const of = inputs.run(3, [Float64Array.of(1, 0, -2), Float64Array.of(0, 1, 0.5)]);
  expect(Array.from(of(a) as Float64Array)).toEqual([12, 10, 6]);
  // z_b = 0.6 z_1 + 0.8 z_2; between limits 4 + 2 Phi(z_b) - 1. [by hand]
  [0.6, 0.8, -0.8].forEach((z, k) => {
    expect((of(b) as Float64Array)[k]).toBeCloseTo(3 + 2 * phi(z), 12);
  });
  const constant = inputs.run(1, [1, 0.5]);
  expect(constant(b)).toBeCloseTo(3 + 2 * phi(0.6 + 0.4), 12);
  expect(inputs.run(1, [undefined, 1])(b)).toBeCloseTo(3 + 2 * phi(0.8), 12);
  expect(inputs.run(1, [])(b)).toBe(4);
});
test("a scatter whose fellow is not read stands alone", () => {
  const [, b] = pair(0.6, ["10 sd 2", "4 sd 1"]);
  expect(new Inputs(scene, [b]).run(1, [1])(b)).toBe(5);
});

test.each(scenes)("%s: the checks' scatters all are axes, with those between indexes besides", (_, real) => {
  const cell = new Cell(real, checks);
  const inputs = new Inputs(real, cell.quantities);
  const key = ({ given, which }: { given: Given; which: number }) => `${given.address}#${which}`;
  const found = new Set(inputs.axes.filter((a) => a.level !== "index").map(key));
  for (const one of cell.scatters) expect(found).toContain(key(one));
  expect(inputs.axes.length).toBe(new Set(inputs.axes.map(key)).size);
  expect(inputs.unknowns.map((g) => g.address)).toEqual(cell.unknowns.map((g) => g.address));
});
