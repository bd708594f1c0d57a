import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { evaluate, parseExpression } from "../quantity/expression.ts";
import { belief, type Given } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { closed, invented, number, plainScene, solved } from "./plain.fixture.ts";
import { asWritten, type Column, type Pick, Realiser } from "./realise.ts";

const scene = plainScene();
const at = (c: Column, k: number): number => (typeof c === "number" ? c : c[k]!);
/** A pick in which the named numbers stand where they are put, all else as written. */
const pick = (
  n: number,
  { unknown, scatter, moved }: Partial<Record<"unknown" | "scatter" | "moved", ReadonlyMap<Given, Column>>>,
): Pick => ({
  n,
  unknown: (g) => unknown?.get(g) ?? 0,
  scatter: (g, which) => (which === 0 ? scatter?.get(g) : undefined),
  ...(moved ? { moved: (g: Given) => moved.get(g) } : {}),
});

describe("where the inputs stand", () => {
  const a = number("a", "10 ±2 mm", { unit: "mm" });
  const b = number("b", "4 sd 0.5");
  const c = number("c", "2 sd 30 %");
  const u = number("u", "1..4 guess");
  const v = number("v", "-1..3 guess");
  const s = belief("s", "s", ["no", "yes"], 0.3, invented);
  const run = new Realiser(scene, [a, b, c, u, v, s]);

  // Median of a range on a logarithmic scale: the geometric mean of its ends; on a plain one, the middle. [closed form]
  test("as written, every number is what its text says and every unknown its median", () => {
    const r = run.run(asWritten);
    expect(r.number(a)).toBeCloseTo(0.01, 15);
    expect(r.number(b)).toBe(4);
    expect(r.number(c)).toBe(2);
    expect(r.number(u)).toBeCloseTo(2, 14);
    expect(r.number(v)).toBeCloseTo(1, 14);
    expect(r.number(s)).toBe(0);
    expect(r.n).toBe(1);
  });
  // 95 % of belief lies between the ends of a guess: the 2.5 and 97.5 % points of the normal law are ±1.959963984540054. A scatter of 30 %
  // has the logarithm's sd sqrt(ln(1 + 0.3^2)). [closed form]
  test("coordinates move each law the way it is written", () => {
    const z = 1.959963984540054;
    const r = run.run({
      n: 3,
      unknown: () => Float64Array.of(-z, 0.5, z),
      scatter: () => Float64Array.of(-1, 0.5, 1),
    });
    const column = (q: Quantity) => Array.from({ length: 3 }, (_, k) => r.number(q, k));
    const near = (found: number[], wanted: number[]) => {
      for (const [k, x] of found.entries()) expect(x).toBeCloseTo(wanted[k]!, 12);
    };
    near(column(a), [0.008, 0.011, 0.012]);
    near(column(b), [3.5, 4.25, 4.5]);
    const sd = Math.sqrt(Math.log(1.09));
    near(column(c), [2 * Math.exp(-sd), 2 * Math.exp(sd / 2), 2 * Math.exp(sd)]);
    near(column(u), [1, 2 * Math.exp((0.5 * Math.log(4)) / (2 * z)), 4]);
    near(column(v), [-1, 1 + (0.5 * 4) / (2 * z), 3]);
    // A switch is on above its 70 % point, 0.524: believed with 30 %.
    expect(column(s)).toEqual([0, 0, 1]);
  });
  test("what is moved stands off its text by as much, and keeps the scatter around it", () => {
    const moved = new Map<Given, Column>([
      [b, Float64Array.of(3, 4)],
      [u, 3],
      [a, 0.01],
    ]);
    const r = run.run(
      pick(2, {
        moved,
        scatter: new Map<Given, Column>([
          [b, 1],
          [a, Float64Array.of(-1, 1)],
        ]),
        unknown: new Map([[u, 2]]),
      }),
    );
    expect(Array.from(r.column(b) as Float64Array)).toEqual([7.5, 8.5]);
    expect(r.number(a, 0)).toBeCloseTo(0.018, 15);
    expect(r.number(a, 1)).toBeCloseTo(0.022, 15);
    // 1..4 on a logarithmic scale: 2 at its median, 2 * 2^(2/1.96) two deviations up. [closed form]
    expect(r.number(u)).toBeCloseTo(3 + 2 * 2 ** (2 / 1.959963984540054), 12);
    expect(r.number(c)).toBe(2);
  });
  test("each scatter of a number has a coordinate of its own", () => {
    const g = number("g", "100 per reel sd 1 per unit sd 10");
    const r = new Realiser(scene, [g]).run({ n: 1, unknown: () => 0, scatter: (_, which) => (which === 0 ? 2 : -1) });
    expect(r.number(g)).toBeCloseTo(100 + 2 - 10, 12);
  });
  test("a text that names others follows them, and adds its own tolerance after", () => {
    const gap = number("gap", "2*a - 5 ±1 mm", { unit: "mm", names: { a } });
    const r = new Realiser(scene, [gap]).run(
      pick(2, {
        scatter: new Map<Given, Column>([
          [a, Float64Array.of(-1, 1)],
          [gap, Float64Array.of(1, 1)],
        ]),
      }),
    );
    expect(r.number(gap, 0)).toBeCloseTo(0.012, 15);
    expect(r.number(gap, 1)).toBeCloseTo(0.02, 15);
  });
});

describe("the expression evaluated by columns", () => {
  const names = ["p", "q", "r", "w"] as const;
  const leaf = fc.oneof(
    fc.constantFrom(...names),
    fc.integer({ min: 1, max: 99 }).map((v) => `${v / 10}`),
    fc.constant("0"),
  );
  const text = fc.letrec<{ node: string }>((tie) => ({
    node: fc.oneof(
      { depthSize: "small", withCrossShrink: true },
      leaf,
      fc
        .tuple(fc.constantFrom("+", "-", "*", "/", "^"), tie("node"), tie("node"))
        .map(([op, a, b]) => `(${a} ${op} ${b})`),
      fc.tuple(tie("node"), fc.constantFrom("3", "0.5")).map(([a, p]) => `(${a})^${p}`),
      tie("node").map((a) => `-(${a})`),
      fc
        .tuple(fc.constantFrom("abs", "sqrt", "sin", "cos", "tan", "asin", "acos", "atan", "exp"), tie("node"))
        .map(([f, a]) => `${f}(${a})`),
      fc.tuple(fc.constantFrom("hypot", "min", "max"), tie("node"), tie("node")).map(([f, a, b]) => `${f}(${a}, ${b})`),
      fc
        .tuple(fc.constantFrom("min", "max"), tie("node"), tie("node"), tie("node"))
        .map(([f, ...a]) => `${f}(${a.join(", ")})`),
    ),
  })).node;
  const inputs = names.map((name) => number(name, "0 sd 1"));
  // No negative nought: 0 moved by -0 is 0.
  const value = fc.double({ min: -4, max: 4, noNaN: true }).map((v) => v + 0);
  const column = fc.oneof(
    value,
    fc.tuple(value, value, value, value, value).map((v) => Float64Array.from(v)),
  );

  // The scalar walk over the tree is the other, simpler evaluator: one number at a time, nothing kept.
  test("is, draw by draw, what the tree walked one number at a time gives", () => {
    fc.assert(
      fc.property(text, fc.tuple(column, column, column, column), (equation, columns) => {
        const m = closed(equation, Object.fromEntries(names.map((name, i) => [name, inputs[i]!])));
        const run = new Realiser(scene, [m]).run({
          n: 5,
          unknown: () => 0,
          scatter: () => undefined,
          moved: (g) => columns[inputs.indexOf(g)]!,
        });
        const tree = parseExpression(equation);
        for (let k = 0; k < 5; k++) {
          const expected = evaluate(tree, (name) => at(columns[names.indexOf(name as "p")]!, k));
          expect(run.number(m, k)).toBe(expected);
        }
      }),
      { seed: 20_250, numRuns: 1500 },
    );
  });
  test("a square is the number times itself", () => {
    const [p] = inputs;
    const m = closed("p^2 - 3*p", { p: p! });
    const x = Float64Array.of(-3, 0, 0.1, 1e8);
    const run = new Realiser(scene, [m]).run(pick(4, { moved: new Map([[p!, x]]) }));
    for (const [k, v] of x.entries()) expect(run.number(m, k)).toBe(v * v - 3 * v);
  });
  test("a number with a unit counts in SI, and so does a bare unit", () => {
    const m = closed("2 mm + mm + 3*N/kg", {});
    // A dimension mix on purpose: only the factors count here.
    expect(new Realiser(scene, [m]).run(asWritten).number(m)).toBeCloseTo(0.003 + 3, 15);
  });
  test("a name without a value is an error that names it", () => {
    expect(() => new Realiser(scene, [closed("p + nothing_known", { p: inputs[0]! })])).toThrow(
      "no value for nothing_known",
    );
  });
});

describe("shared numbers", () => {
  // The difference of two models that read one number is free of it, exactly, only if both got the same draw.
  test("a quantity that two models read has one value a draw", () => {
    const x = number("x", "5 sd 2");
    const double = closed("2*x", { x });
    const treble = solved("treble", { x }, ({ x: v }: { x: number }) => 3 * v);
    const both = closed("t - d", { t: treble, d: double });
    const z = Float64Array.of(-2, -1, 0.3, 4);
    const run = new Realiser(scene, [both, x]).run(pick(4, { scatter: new Map([[x, z]]) }));
    for (let k = 0; k < 4; k++) expect(run.number(both, k)).toBeCloseTo(run.number(x, k), 12);
  });
  test("a solver that two models read runs once a draw", () => {
    let calls = 0;
    const x = number("x", "5 sd 2");
    const solver = solved(
      "solver",
      { x },
      ({ x: v }: { x: number }) => {
        calls++;
        return { up: v + 1, down: v - 1 };
      },
      { unit: "" },
    );
    const up = solved("up", { r: solver }, ({ r }: { r: { up: number } }) => r.up);
    const down = solved("down", { r: solver }, ({ r }: { r: { down: number } }) => r.down);
    const run = new Realiser(scene, [up, down]).run(pick(6, { scatter: new Map([[x, new Float64Array(6).fill(1)]]) }));
    expect(calls).toBe(6);
    expect([run.number(up, 5), run.number(down, 5)]).toEqual([8, 6]);
  });
  test("where nothing moves a solver runs once for all draws", () => {
    let calls = 0;
    const y = solved("y", { x: number("x", "5 sd 2") }, ({ x }: { x: number }) => {
      calls++;
      return x;
    });
    expect(new Realiser(scene, [y]).run(pick(1000, {})).number(y, 999)).toBe(5);
    expect(calls).toBe(1);
  });
  test("an input that stands where it stood is not evaluated again, another one is", () => {
    let calls = 0;
    const x = number("x", "5 sd 2");
    const other = number("other", "1 sd 1");
    const y = solved("y", { x }, ({ x: v }: { x: number }) => {
      calls++;
      return v;
    });
    const sum = closed("y + o", { y, o: other });
    const realiser = new Realiser(scene, [sum]);
    const z = Float64Array.of(1, 2);
    const standing = (o: number) =>
      pick(2, {
        scatter: new Map<Given, Column>([
          [x, z],
          [other, o],
        ]),
      });
    expect(realiser.run(standing(0)).number(sum, 1)).toBe(10);
    expect(realiser.run(standing(3)).number(sum, 1)).toBe(13);
    expect(calls).toBe(2);
    realiser.forget();
    expect(realiser.run(standing(3)).number(sum, 1)).toBe(13);
    expect(calls).toBe(4);
  });
});

describe("lists, groups and facts", () => {
  const [a, b, c] = [number("a", "1 sd 1"), number("b", "2 sd 1"), number("c", "3 sd 1")];
  const reads = {
    pieces: [
      { long: a, kind: "bar" },
      { long: b, kind: "roller" },
    ] as const,
    ends: [c, 7] as const,
    limit: { of: c, open: true },
  };
  interface X {
    readonly pieces: readonly { readonly long: number; readonly kind: string }[];
    readonly ends: readonly number[];
    readonly limit: { readonly of: number; readonly open: boolean };
  }
  test("a solved model sees them in their shape, with this draw's numbers in place", () => {
    const seen: unknown[] = [];
    const m = solved("m", reads, (x: X) => {
      seen.push(structuredClone(x));
      return x.pieces.reduce((sum, p) => sum + p.long, 0) * x.ends[1]!;
    });
    const run = new Realiser(scene, [m]).run(
      pick(2, {
        scatter: new Map<Given, Column>([
          [a, Float64Array.of(0, 10)],
          [c, 1],
        ]),
      }),
    );
    const shape = (long: number) => ({
      pieces: [
        { long, kind: "bar" },
        { long: 2, kind: "roller" },
      ],
      ends: [4, 7],
      limit: { of: 4, open: true },
    });
    expect(seen).toEqual([shape(1), shape(11)]);
    expect([run.number(m, 0), run.number(m, 1)]).toEqual([21, 91]);
  });
  test("inputsOf gives the same shape for one draw", () => {
    const m = solved("m", reads, (x: X) => x.ends[0]!);
    const run = new Realiser(scene, [m]).run(
      pick(2, { scatter: new Map<Given, Column>([[a, Float64Array.of(0, 10)]]) }),
    );
    expect(run.inputsOf(m, scene, 1)).toEqual({
      pieces: [
        { long: 11, kind: "bar" },
        { long: 2, kind: "roller" },
      ],
      ends: [3, 7],
      limit: { of: 3, open: true },
    });
  });
});

describe("a solver without an answer", () => {
  const x = number("x", "1 sd 1");
  const picky = (id: string, unit: string) =>
    solved(
      id,
      { x },
      ({ x: v }: { x: number }) => {
        if (v > 2) throw new RangeError("too much");
        return unit === "" ? { half: v / 2 } : v / 2;
      },
      { unit },
    ) as Model<unknown>;
  const z = Float64Array.of(0, 5, 1, 9);

  test("gives no number in that draw alone", () => {
    const m = picky("m", "1") as Model;
    const run = new Realiser(scene, [m]).run(pick(4, { scatter: new Map([[x, z]]) }));
    expect(Array.from(run.column(m) as Float64Array)).toEqual([0.5, Number.NaN, 1, Number.NaN]);
  });
  test("leaves what rests on it without a number too, instead of handing on nothing", () => {
    let met: unknown[] = [];
    const result = picky("result", "");
    const half = solved("half", { r: result }, (read: { r: { half: number } }) => {
      met.push(read.r);
      return read.r.half;
    });
    const twice = closed("2*h", { h: half });
    const again = solved("again", { h: half, list: [result] }, ({ h }: { h: number }) => h);
    const realiser = new Realiser(scene, [twice, again]);
    const run = realiser.run(pick(4, { scatter: new Map([[x, z]]) }));
    expect(Array.from(run.column(twice) as Float64Array)).toEqual([1, Number.NaN, 2, Number.NaN]);
    expect(Array.from(run.column(again) as Float64Array)).toEqual([0.5, Number.NaN, 1, Number.NaN]);
    expect(met).toEqual([{ half: 0.5 }, { half: 1 }]);
    // The same where nothing moves: one number for all draws.
    met = [];
    const still = realiser.run(pick(3, { scatter: new Map([[x, 5]]) }));
    expect(still.column(twice)).toBeNaN();
    expect(met).toEqual([]);
  });
  test("any other error is ours and is thrown on", () => {
    const m = solved("m", { x }, () => {
      throw new TypeError("a slip of the code");
    });
    expect(() => new Realiser(scene, [m]).run(asWritten)).toThrow("a slip of the code");
  });
  test("an error thrown on does no harm to the runs after it", () => {
    let bad = true;
    const y = number("y", "1 sd 1");
    const m = solved("m", { x, y }, ({ x: v }: { x: number }) => {
      if (bad && v > 2) throw new TypeError("a slip of the code");
      return v;
    });
    const sum = closed("m + y + p", { m, y, p: closed("y*2", { y }) });
    const realiser = new Realiser(scene, [sum]);
    const first = pick(4, {
      scatter: new Map([
        [x, Float64Array.of(0, 0, 0, 0)],
        [y, Float64Array.of(1, 2, 3, 4)],
      ]),
    });
    const second = pick(4, {
      scatter: new Map([
        [x, z],
        [y, Float64Array.of(5, 6, 7, 8)],
      ]),
    });
    realiser.run(first);
    expect(() => realiser.run(second)).toThrow();
    bad = false;
    const after = realiser.run(second);
    const fresh = new Realiser(scene, [sum]).run(second);
    expect(Array.from(after.column(sum) as Float64Array)).toEqual(Array.from(fresh.column(sum) as Float64Array));
  });
});

describe("a layout that can't be", () => {
  test("a quantity that reads itself is an error that names it", () => {
    const loop: Model = model({
      id: "the.loop",
      symbol: "x",
      unit: "1",
      title: "loop",
      equation: "x + 1",
      form: "closed",
      origin: invented,
      reads: (): { x: Model } => ({ x: loop }),
      value: () => 0,
    });
    expect(() => new Realiser(scene, [loop])).toThrow("the.loop reads itself");
  });
  test("a ring of two is an error too", () => {
    const one: Given = number("one", "1 + two", {
      names: {
        get two() {
          return two;
        },
      },
    });
    const two: Given = number("two", "2*one", { names: { one } });
    expect(() => new Realiser(scene, [one])).toThrow(/(one|two) reads itself/);
  });
  test("a quantity whose member is missing is not applicable, which is an error and no value", () => {
    const missing = model({
      id: "no.member",
      symbol: "x",
      unit: "1",
      title: "none",
      equation: "x",
      form: "closed",
      origin: invented,
      reads: () => undefined,
      value: () => 0,
    });
    expect(() => new Realiser(scene, [closed("2*m", { m: missing })])).toThrow("no.member is not applicable here");
  });
  test("what was not laid out can't be read", () => {
    const run = new Realiser(scene, [number("a", "1")]).run(asWritten);
    expect(() => run.number(number("b", "1"))).toThrow("b was not laid out");
  });
  test("the same two inputs read twice are laid out once", () => {
    const [a, b] = [number("a", "1"), number("b", "2")];
    const realiser = new Realiser(scene, [closed("a + b", { a, b }), closed("a*b", { a, b }), a]);
    expect(realiser.givens).toEqual([a, b]);
    expect(realiser.models).toHaveLength(2);
  });
});

describe("whatever ran before", () => {
  // The evaluator skips what stands as it stood and writes into columns nobody reads any more. Both would be seen here: a sequence of
  // random picks on one layout against the same picks on a layout that never ran.
  const [a, b, c] = [number("a", "3 sd 1"), number("b", "0.5..2 sd 10 % guess"), number("c", "-1..1 guess")];
  const d = number("d", "a*b + 1 ±0.5", { names: { a, b } });
  const same = number("same", "d", { names: { d } });
  const roots = closed("sqrt(abs(a)) - c*c + 2*same", { a, c, same });
  const lone = closed("c", { c });
  const object = solved(
    "object",
    { list: [a, { deep: d }], c },
    ({ list, c: v }: { list: readonly [number, { deep: number }]; c: number }) => {
      if (v > 0.8) throw new RangeError("no answer here");
      return { sum: list[0] + list[1].deep, v };
    },
    { unit: "" },
  );
  const reading = solved(
    "reading",
    { o: object, b },
    ({ o, b: v }: { o: { sum: number; v: number }; b: number }) => o.sum * v + o.v,
  );
  const top = closed("max(reading, roots) + hypot(lone, b)*min(a, b, c) - (a + b)*(c - d)", {
    reading,
    roots,
    lone,
    a,
    b,
    c,
    d,
  });
  const all: Quantity[] = [a, b, c, d, same, roots, lone, reading, top];
  const givens = [a, b, c, d, same];

  const pool = [1, 4, 7].map((n) =>
    Array.from({ length: 4 }, (_, i) => Float64Array.from({ length: n }, (_, k) => Math.sin(1 + 13 * i + 7 * k + n))),
  );
  /** A column of the pool, a number, or nothing. */
  const standing = fc.oneof(fc.record({ column: fc.nat(3) }), fc.constantFrom(0, -0.5, 1.3), fc.constant(undefined));
  const step = fc.record({
    size: fc.nat(2),
    unknown: fc.array(standing, { minLength: 5, maxLength: 5 }),
    scatter: fc.array(standing, { minLength: 5, maxLength: 5 }),
    moved: fc.array(fc.option(standing, { freq: 3, nil: undefined }), { minLength: 5, maxLength: 5 }),
    /** Stay with the step before, but for one number. */
    onlyOne: fc.option(fc.nat(4), { nil: undefined }),
  });
  test("a run gives what a fresh layout gives", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 2, maxLength: 14 }), (steps) => {
        const realiser = new Realiser(scene, all);
        let before: (typeof steps)[number] | undefined;
        for (const next of steps) {
          let now = next;
          if (before && next.onlyOne !== undefined) {
            const i = next.onlyOne;
            now = {
              ...before,
              scatter: before.scatter.with(i, next.scatter[i]),
              unknown: before.unknown.with(i, next.unknown[i]),
            };
          }
          before = now;
          const n = [1, 4, 7][now.size]!;
          const columnOf = (s: { column: number } | number | undefined): Column | undefined =>
            typeof s === "object" ? pool[now.size]![s.column]! : s;
          const standingAt: Pick = {
            n,
            unknown: (g) => columnOf(now.unknown[givens.indexOf(g)]) ?? 0,
            scatter: (g) => columnOf(now.scatter[givens.indexOf(g)]),
            moved: (g) => columnOf(now.moved[givens.indexOf(g)]),
          };
          const found = realiser.run(standingAt);
          const fresh = new Realiser(scene, all).run(standingAt);
          for (const q of all) for (let k = 0; k < n; k++) expect(found.number(q, k)).toBe(fresh.number(q, k));
        }
        // The columns that were handed in are as they were.
        for (const [size, columns] of pool.entries())
          for (const [i, column] of columns.entries())
            for (const [k, v] of column.entries()) expect(v).toBe(Math.sin(1 + 13 * i + 7 * k + [1, 4, 7][size]!));
      }),
      { seed: 31, numRuns: 300 },
    );
  });
  test("runs of many sizes take turns without mixing", () => {
    const realiser = new Realiser(scene, all);
    for (let round = 0; round < 3; round++)
      for (let n = 1; n <= 9; n++) {
        const z = Float64Array.from({ length: n }, (_, k) => Math.cos(k + n + round));
        const standingAt: Pick = { n, unknown: () => z, scatter: () => z };
        const found = realiser.run(standingAt);
        const fresh = new Realiser(scene, all).run(standingAt);
        for (const q of all) expect(found.number(q, n - 1)).toBe(fresh.number(q, n - 1));
      }
  });
});
