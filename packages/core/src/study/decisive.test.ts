import { describe, expect, test } from "vitest";
import { belief } from "../quantity/given.ts";
import { phi } from "../quantity/law.ts";
import { bruteForce, farTail, shareOf, smalls } from "./allowance.fixture.ts";
import { decide } from "./allowance.ts";
import { beliefDraws, Cell, scatterDraws } from "./cell.ts";
import { decisive, explained, tippingValue } from "./decisive.ts";
import { Deviates } from "./deviates.ts";
import { alike, check, closed, invented, number, plainScene } from "./plain.fixture.ts";

const deviates = new Deviates(1);
const even = alike(beliefDraws);
const ends = 1.959963984540054;
const bound = (v: number) => number("bound", v < 0 ? `-${-v}` : `${v}`);
const of = (one: ReturnType<typeof check>, weights = even) => {
  const cell = new Cell(plainScene(), [one]);
  const deciding = decide(cell, deviates)[0]!;
  return { ...decisive(cell, deviates, 0, deciding, weights)!, share: shareOf(deciding.gap), deciding, cell };
};

describe("the share of a verdict that one unknown explains", () => {
  const z = deviates.normal("belief a", beliefDraws);
  const other = deviates.normal("belief b", beliefDraws);
  // By definition: var(E[I | a])/var(I) is 1 where a alone decides, 0 where it has no say. Twenty bins of 1000 draws leave 0.02 of noise,
  // and the bin in which the verdict tips is mixed.
  test("is one where it alone decides, and nought for another", () => {
    const holds = Uint8Array.from(z, (v) => (v > 0.4 ? 1 : 0));
    expect(explained(z, holds, even)).toBeGreaterThan(0.92);
    expect(explained(z, holds, even)).toBeLessThanOrEqual(1);
    expect(explained(other, holds, even)).toBeLessThan(0.05);
  });
  test("is one as well where it decides both ways", () => {
    expect(
      explained(
        z,
        Uint8Array.from(z, (v) => (Math.abs(v) < 0.7 ? 1 : 0)),
        even,
      ),
    ).toBeGreaterThan(0.9);
  });
  // I = [a + b > 0] with a and b alike: E[I | a] = Phi(a), whose variance is 1/12; var(I) = 1/4; so a third each. [closed form]
  test("is a third for each of two that add up alike", () => {
    const holds = Uint8Array.from(z, (v, k) => (v + other[k]! > 0 ? 1 : 0));
    expect(Math.abs(explained(z, holds, even) - 1 / 3)).toBeLessThan(0.06);
    expect(Math.abs(explained(other, holds, even) - 1 / 3)).toBeLessThan(0.06);
  });
  // Neither tells anything by itself where they decide only together: I = [a b > 0].
  test("is nought where it decides only together with another", () => {
    expect(
      explained(
        z,
        Uint8Array.from(z, (v, k) => (v * other[k]! > 0 ? 1 : 0)),
        even,
      ),
    ).toBeLessThan(0.05);
  });
  test("is nought where the verdict is the same everywhere", () => {
    expect(explained(z, new Uint8Array(beliefDraws).fill(1), even)).toBe(0);
    expect(explained(z, new Uint8Array(beliefDraws), even)).toBe(0);
  });
  test("counts belief draws by their weight", () => {
    // Weight only on draws with b above 0: there I = [a > 0 or b < 0] is [a > 0], and a alone decides.
    const holds = Uint8Array.from(z, (v, k) => (v > 0 || other[k]! < 0 ? 1 : 0));
    const weights = Float64Array.from(other, (v) => (v > 0 ? 1 : 0));
    expect(explained(z, holds, weights)).toBeGreaterThan(0.9);
    expect(explained(z, holds, even)).toBeLessThan(0.5);
  });
});

describe("the tipping value", () => {
  // The nip pulls where N mu n >= P: mu tips at P/(N n). Without scatter the root is exact; N and n at their medians, the geometric means.
  test("is the closed form's root: pull against break, all else at its median", () => {
    const [N, mu, P] = [number("N", "4..9 guess"), number("mu", "0.2..0.6 guess"), number("P", "1.2..3 guess")];
    const cell = new Cell(plainScene(), [
      check("pulls", { value: closed("2*N*mu", { N, mu }), atLeast: closed("P", { P }) }),
    ]);
    const [n, m, p] = [6, Math.sqrt(0.12), Math.sqrt(3.6)];
    expect(tippingValue(cell, deviates, mu)! / (p / (2 * n))).toBeCloseTo(1, 3);
    expect(tippingValue(cell, deviates, N)! / (p / (2 * m))).toBeCloseTo(1, 3);
    expect(tippingValue(cell, deviates, P)! / (2 * n * m)).toBeCloseTo(1, 3);
  });
  // exp(mu w) P = F_b: mu tips at ln(F_b/P)/w.
  test("is the closed form's root where the unknown stands in an exponent", () => {
    const mu = number("mu", "0.1..0.5 guess");
    const cell = new Cell(plainScene(), [
      check("bears", { value: closed("0.6*exp(mu*5)", { mu }), atMost: bound(2.5) }),
    ]);
    expect(tippingValue(cell, deviates, mu)! / (Math.log(2.5 / 0.6) / 5)).toBeCloseTo(1, 3);
  });
  test("is found on a plain scale too, and beyond nought", () => {
    const u = number("u", "-4..6 guess");
    const cell = new Cell(plainScene(), [check("linear", { value: closed("3 + 2*u", { u }), atLeast: bound(0) })]);
    expect(tippingValue(cell, deviates, u)).toBeCloseTo(-1.5, 2);
  });
  // With lognormal scatter s on the pull the deciding value is the 2 % point: mu tips at P/N exp(2.053749 s). The 2 % point of 2000 draws is
  // known to 0.065 s.
  test("is that of the deciding gap: scatter moves it by its allowance", () => {
    const [N, mu] = [number("N", "6 sd 20 %"), number("mu", "0.2..0.6 guess")];
    const cell = new Cell(plainScene(), [check("pulls", { value: closed("N*mu", { N, mu }), atLeast: bound(1.5) })]);
    const s = Math.sqrt(Math.log(1.04));
    const found = Math.log(tippingValue(cell, deviates, mu)! / ((1.5 / 6) * Math.exp(2.053749 * s)));
    expect(Math.abs(found)).toBeLessThan(4 * 0.065 * s);
    // Exactly, with the same draws: the 40th of the 2000 factors decides.
    const z = deviates.normal("scatter unit N#0", scatterDraws).slice().sort();
    expect(tippingValue(cell, deviates, mu)! / (1.5 / (6 * Math.exp(s * z[39]!)))).toBeCloseTo(1, 3);
  });
  test("is the one nearest to the median where there are two", () => {
    const u = number("u", "-3..3 guess");
    // (u - 1)(u + 2.5) is below nought between -2.5 and 1: the median 0 tips first at 1, its mirror image at -1.
    const two = (equation: string) =>
      new Cell(plainScene(), [check("two", { value: closed(equation, { u }), atMost: bound(0) })]);
    expect(tippingValue(two("(u - 1)*(u + 2.5)"), deviates, u)).toBeCloseTo(1, 2);
    expect(tippingValue(two("(u + 1)*(u - 2.5)"), deviates, u)).toBeCloseTo(-1, 2);
  });
  test("is the median itself where the gap is nought there", () => {
    const u = number("u", "-3..3 guess");
    expect(
      tippingValue(
        new Cell(plainScene(), [check("at", { value: closed("u", { u }), atLeast: bound(0) })]),
        deviates,
        u,
      ),
    ).toBe(0);
  });
  test("is undefined where no value of it tips", () => {
    const [u, v] = [number("u", "1..2 guess"), number("v", "1..2 guess")];
    const cell = new Cell(plainScene(), [
      check("never", { value: closed("5 + 0*u + v", { u, v }), atLeast: bound(0) }),
    ]);
    expect(tippingValue(cell, deviates, u)).toBeUndefined();
    expect(tippingValue(cell, deviates, v)).toBeUndefined();
  });
  test("of a switch is 1 where the verdict hangs on it, else undefined", () => {
    const s = belief("s", "s", ["free", "clamped"], 0.4, invented);
    const hangs = new Cell(plainScene(), [check("hangs", { value: closed("2*s", { s }), atMost: bound(1) })]);
    const not = new Cell(plainScene(), [check("not", { value: closed("2*s", { s }), atMost: bound(3) })]);
    expect(tippingValue(hangs, deviates, s)).toBe(1);
    expect(tippingValue(not, deviates, s)).toBeUndefined();
  });
});

describe("the decisive unknown", () => {
  const [wide, narrow] = [number("wide", "0.1..1 guess"), number("narrow", "0.9..1.1 guess")];
  test("is the one that carries most of the verdict, whatever the order of the inputs", () => {
    for (const equation of ["wide*narrow", "narrow*wide"]) {
      const found = of(check("product", { value: closed(equation, { narrow, wide }), atLeast: bound(0.3) }));
      expect(found.given).toBe(wide);
      expect(found.carries).toBeGreaterThan(0.8);
      expect(found.tipping! / (0.3 / Math.sqrt(0.99))).toBeCloseTo(1, 3);
    }
  });
  // wide measured at its median, 0.316: 0.316 narrow >= 0.3 wherever narrow >= 0.949, which is above Phi^-1 of ln(0.949/0.995)/sd.
  test("would leave the share that the others give if it were measured at its median", () => {
    const found = of(check("product", { value: closed("wide*narrow", { narrow, wide }), atLeast: bound(0.3) }));
    const sd = Math.log(1.1 / 0.9) / (2 * ends);
    const exact = 1 - phi(Math.log(0.3 / Math.sqrt(0.1) / Math.sqrt(0.99)) / sd);
    expect(exact).toBeGreaterThan(0.8);
    // The sample of 1000 draws, exactly; the law's own share to three standard errors.
    const z = deviates.normal("belief narrow", beliefDraws);
    const direct = z.filter((v) => Math.sqrt(0.1) * Math.sqrt(0.99) * Math.exp(sd * v) >= 0.3).length / beliefDraws;
    expect(found.shareIfMeasured).toBeCloseTo(direct, 12);
    expect(Math.abs(found.shareIfMeasured - exact)).toBeLessThan(3 * Math.sqrt((exact * (1 - exact)) / beliefDraws));
  });
  test("would leave the share that a fixed number in its place gives, scatter and weights included", () => {
    const [u, v, a] = [number("u", "1..4 guess"), number("v", "0.5..2 guess"), number("a", "1 sd 15 %")];
    const weights = Float64Array.from(deviates.normal("belief v", beliefDraws), (z) => Math.exp(z));
    const found = of(check("three", { value: closed("u*v*a", { u, v, a }), atLeast: bound(1.4) }), weights);
    const other = found.given === u ? v : u;
    const fixed = decide(
      new Cell(plainScene(), [
        check("fixed", { value: closed(`${found.given === u ? 2 : 1}*o*a`, { o: other, a }), atLeast: bound(1.4) }),
      ]),
      deviates,
    )[0]!;
    let [held, total] = [0, 0];
    fixed.gap.forEach((g, k) => {
      total += weights[k]!;
      if (g >= 0) held += weights[k]!;
    });
    expect(Math.abs(found.shareIfMeasured - held / total)).toBeLessThan(0.005);
  });
  // The fitted allowance is far off in these two, so the share if measured has to be drawn anew. Expected: every belief draw met with every
  // scatter draw by a formula, the measured one at the geometric mean of its ends.
  test("would leave the right share also where the fitted allowance is wrong", () => {
    for (const small of [farTail, smalls.find((s) => s.name === "kink of a minimum")!]) {
      const found = of(small.check);
      expect(found.deciding.drawn).toBeGreaterThan(50);
      const i = small.inputs.findIndex((g) => g.address === found.given.address);
      const u = found.given.unknown!;
      const median = u.law === "switch" ? 0 : Math.sqrt(u.low * u.high);
      const brute = bruteForce({ ...small, laws: small.laws.with(i, () => median) }, deviates, 0.02);
      expect(Math.abs(found.shareIfMeasured - shareOf(brute.gap))).toBeLessThan(0.015);
    }
  });
  test("that does not tip alone gives way to the next that does", () => {
    // min(hub^2, 3) side over 3.2 needs hub off its median and side above 1.07; the median of side is 1, so hub alone can't tip it.
    const [hub, side] = [number("hub", "-2..2 guess"), number("side", "0.5..2 guess")];
    const one = check("capped", { value: closed("min(hub*hub, 3)*side", { hub, side }), atMost: bound(3.2) });
    const found = of(one);
    const cell = new Cell(plainScene(), [one]);
    expect(tippingValue(cell, deviates, hub)).toBeUndefined();
    // side alone: hub at its median is 0, and the value is 0 whatever side is. Neither tips.
    expect(tippingValue(cell, deviates, side)).toBeUndefined();
    expect(found.tipping).toBeUndefined();
    expect(found.share).toBeLessThan(1);
    const third = number("third", "0.3..3 guess");
    const two = check("next", {
      value: closed("min(hub*hub, 3)*side + third", { hub, side, third }),
      atMost: bound(5),
    });
    const next = of(two);
    const ranked = [hub, side, third].map((g) =>
      explained(
        deviates.normal(`belief ${g.address}`, beliefDraws),
        Uint8Array.from(next.deciding.gap, (g2) => (g2 >= 0 ? 1 : 0)),
        even,
      ),
    );
    expect(Math.max(...ranked)).toBe(ranked[0]);
    expect(next.given).toBe(third);
    expect(next.tipping).toBeCloseTo(5, 2);
  });
  test("is named even where none tips alone, and its share if measured with it", () => {
    const [a, b] = [number("a", "-2..2 guess"), number("b", "-2..2 guess")];
    // a b < -1.5 needs both off their medians.
    const found = of(check("together", { value: closed("a*b", { a, b }), atLeast: bound(-1.5) }));
    expect([a, b]).toContain(found.given);
    expect(found.tipping).toBeUndefined();
    // With either at 0 the product is 0: it holds everywhere.
    expect(found.shareIfMeasured).toBe(1);
    expect(found.share).toBeLessThan(1);
  });
  test("may be a switch between two bounds of a model", () => {
    const s = belief("s", "s", ["free", "clamped"], 0.3, invented);
    const u = number("u", "0.9..1.1 guess");
    const found = of(check("bound", { value: closed("2*s*u", { s, u }), atMost: bound(1.5) }));
    expect(found.given).toBe(s);
    expect(found.tipping).toBe(1);
    // Measured at its median it is off, and everything holds; believed with 30 %, 70 % hold.
    expect(found.shareIfMeasured).toBe(1);
    expect(Math.abs(found.share - 0.7)).toBeLessThan(3 * Math.sqrt(0.21 / beliefDraws));
  });
  // s u <= 1.5: with the switch at its median, off, nothing tips; held at "clamped" u tips at 1.5. The switch itself can't tip while u
  // stands at its median, 1.
  test("that tips only at a switch's unkind word is named with that word", () => {
    const s = belief("s", "s", ["free", "clamped"], 0.4, invented);
    const u = number("u", "0.5..2 guess");
    const found = of(check("held", { value: closed("s*u", { s, u }), atMost: bound(1.5) }));
    expect(found.given).toBe(u);
    expect(found.tipping).toBeCloseTo(1.5, 2);
    expect(found.when.map(({ given, word }) => [given, word])).toEqual([[s, "clamped"]]);
    // The other way round, with "clamped" the likelier, the unkind word is the other one.
    const likely = belief("s", "s", ["free", "clamped"], 0.6, invented);
    const other = of(check("held", { value: closed("(1 - s)*u", { s: likely, u }), atMost: bound(1.5) }));
    expect(other.when.map(({ word }) => word)).toEqual(["free"]);
  });
  test("that tips with the switches at their likelier word is named without any", () => {
    const s = belief("s", "s", ["free", "clamped"], 0.4, invented);
    const u = number("u", "0.5..2 guess");
    expect(of(check("free", { value: closed("u + 0.1*s", { s, u }), atMost: bound(1.5) }))).toMatchObject({
      given: u,
      when: [],
    });
  });
  test("is undefined where nothing is unknown", () => {
    const cell = new Cell(plainScene(), [
      check("known", { value: closed("a", { a: number("a", "1 sd 1") }), atLeast: bound(0) }),
    ]);
    expect(decisive(cell, deviates, 0, decide(cell, deviates)[0]!, even)).toBeUndefined();
  });
  test("of one check among others is its own", () => {
    const [u, v] = [number("u", "1..4 guess"), number("v", "1..4 guess")];
    const cell = new Cell(plainScene(), [
      check("first", { value: closed("u", { u }), atLeast: bound(2.2) }),
      check("second", { value: closed("v", { v }), atMost: bound(2.5) }),
    ]);
    const deciding = decide(cell, deviates);
    expect(decisive(cell, deviates, 0, deciding[0]!, even)).toMatchObject({ given: u });
    expect(decisive(cell, deviates, 1, deciding[1]!, even)).toMatchObject({ given: v });
    expect(decisive(cell, deviates, 1, deciding[1]!, even)!.tipping).toBeCloseTo(2.5, 2);
  });
});
