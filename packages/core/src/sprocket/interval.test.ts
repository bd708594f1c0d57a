import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { feasibleInterval, type ToothedWheel } from "./interval.ts";
import { type ToothShape, toothOutline } from "./outline.ts";

// Lengths in mm: the functions know no units.
const deg = Math.PI / 180;
interface Made {
  readonly teeth?: number;
  readonly T?: number;
  readonly shape?: ToothShape;
  readonly half?: number;
  readonly flank?: number;
  readonly high?: number;
  readonly rounding?: number;
  readonly wrap?: number;
  readonly pitch?: number;
  readonly D?: number;
  readonly low?: number;
}
function made({
  teeth = 24,
  T = 0.3,
  shape = "straight",
  half = 0.55,
  flank = 20,
  high = 1.2,
  rounding = 0,
  wrap = 0,
  pitch = 4,
  D = 1.2689,
  low = 0.15,
}: Made): ToothedWheel {
  const pitchRadius = (teeth * 4) / (2 * Math.PI);
  const baseRadius = pitchRadius - low;
  return {
    teeth,
    baseRadius,
    outline: toothOutline({
      shape,
      halfWidth: half,
      pitchRadius,
      tipRadius: baseRadius + high,
      flank: flank * deg,
      rounding,
    }),
    thickness: T,
    neutral: 0.5,
    pitch,
    opening: D,
    wrap: wrap * deg,
  };
}
/** The same by points: an outline walked in small steps, each point held against the layer. Shares no code with what it checks. */
function brute(m: Made, theta: number, n = 3000): [lo: number, hi: number] {
  const {
    teeth = 24,
    T = 0.3,
    shape = "straight",
    half = 0.55,
    flank = 20,
    high = 1.2,
    wrap = 0,
    pitch = 4,
    D = 1.2689,
    low = 0.15,
  } = m;
  const rp = (teeth * 4) / (2 * Math.PI);
  const rb = rp - low;
  const points: [number, number][] = [];
  const top = rb + high;
  for (let i = 0; i <= n; i++) {
    const rho = rb - 0.6 + ((high + 0.6) * i) / n;
    if (shape === "straight") points.push([rho, half - (rho - rp) * Math.tan(flank * deg)]);
    else if (rho < Math.sqrt(rp * rp - half * half)) points.push([rho, half]);
  }
  if (shape === "involute")
    for (let t = 0; t < 1; t += 0.6 / n) {
      const a = Math.asin(half / rp) - t;
      const [rho, w] = [rp * Math.cos(a) - rp * t * Math.sin(a), rp * Math.sin(a) + rp * t * Math.cos(a)];
      if (rho > top || w < 0) break;
      points.push([rho, w]);
    }
  const [lastRho, lastW] = points.at(-1)!;
  for (let i = 1; i <= n / 4; i++) points.push([lastRho, lastW * (1 - (4 * i) / n)]);
  let [lo, hi] = [-Infinity, Infinity];
  const rn = rb + T / 2;
  const al = (wrap * deg) / 2;
  for (let k = -12; k <= 12; k++)
    for (const [rho, w] of points)
      for (const side of [1, -1]) {
        const A = theta + k * ((2 * Math.PI) / teeth) + side * Math.atan2(w, rho);
        if (Math.abs(A) > Math.PI / 2 + al) continue;
        const r = Math.hypot(rho, w);
        const over = Math.max(0, Math.abs(A) - al);
        const s = Math.sign(A) * (rn * Math.min(Math.abs(A), al) + r * Math.sin(over));
        const h = r * Math.cos(over) - rb;
        if (h < 0 || h > T) continue;
        lo = Math.max(lo, s - k * pitch - D / 2);
        hi = Math.min(hi, s - k * pitch + D / 2);
      }
  return [lo, hi];
}

describe("lo and hi are those of an outline walked point by point", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  test("for any wheel, flank, thickness and wrap", () => {
    fc.assert(
      fc.property(
        fc.record({
          teeth: fc.integer({ min: 8, max: 48 }),
          T: number(0.2, 1.1),
          shape: fc.constantFrom<ToothShape>("straight", "involute"),
          half: number(0.4, 0.6),
          flank: number(0, 20),
          high: number(0.5, 1.2),
          wrap: fc.constantFrom(0, 0, 20, 38, 90),
          low: number(0.05, 0.4),
          pitch: number(3.95, 4.05),
        }),
        number(-0.5, 0.5),
        (m, share) => {
          const X = feasibleInterval(made(m));
          const theta = share * X.step;
          const [lo, hi] = brute(m, theta);
          // Points miss the extreme by less than their spacing, and never go beyond it.
          expect(X.lo(theta)).toBeGreaterThanOrEqual(lo - 1e-9);
          expect(X.lo(theta) - lo).toBeLessThan(2.5e-3);
          expect(X.hi(theta)).toBeLessThanOrEqual(hi + 1e-9);
          expect(hi - X.hi(theta)).toBeLessThan(2.5e-3);
        },
      ),
      { seed: 602, numRuns: 40 },
    );
  });
});

describe("the least play", () => {
  test("is found: no angle of ten thousand has less, and one has it", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 8, max: 40 }),
        fc.constantFrom<ToothShape>("straight", "involute"),
        fc.constantFrom(0, 38, 90),
        fc.double({ min: 0.2, max: 1.1, noNaN: true }),
        fc.constantFrom(0, 0.1),
        fc.double({ min: 3.96, max: 4.04, noNaN: true }),
        (teeth, shape, wrap, T, rounding, pitch) => {
          const X = feasibleInterval(made({ teeth, shape, wrap, T, rounding, pitch, flank: 15 }));
          const { theta, width } = X.least();
          expect(X.hi(theta) - X.lo(theta)).toBeCloseTo(width, 12);
          let least = Infinity;
          for (let i = 0; i < 2000; i++) {
            const a = (X.step * i) / 2000;
            least = Math.min(least, X.hi(a) - X.lo(a));
          }
          expect(width).toBeLessThanOrEqual(least + 1e-9);
        },
      ),
      { seed: 603, numRuns: 25 },
    );
  });
  // validation/independent/sprocket.py, points of the outline with chords between. [derived]
  test.each([
    ["straight flanks", {}, 0.059667],
    ["straight flanks round the wheel", { wrap: 90 }, 0.036598],
    ["an involute", { shape: "involute" }, 0.142874],
    ["an involute under thick tape round the wheel", { shape: "involute", wrap: 90, T: 0.6 }, -0.072456],
  ] as const)("of %s is that of an independent program", (_, m, expected) =>
    expect(feasibleInterval(made({ ...m, D: 2 * Math.sqrt(0.75 ** 2 - 0.4 ** 2) })).least().width).toBeCloseTo(
      expected,
      5,
    ),
  );
  test("falls by exactly what the hole loses", () => {
    const of = (D: number) => feasibleInterval(made({ D })).least().width;
    expect(of(1.3) - of(1.2)).toBeCloseTo(0.1, 12);
  });
  test("is without end where no tooth reaches the tape", () => {
    const X = feasibleInterval(made({ high: -0.2, half: 0.4 }));
    expect(X.least().width).toBe(Infinity);
    expect(X.engagedOver()).toEqual([0, 0]);
    expect(X.carrying(0)).toBeUndefined();
    expect(X.error()).toBe(Infinity);
    expect(X.halfStep().error).toBe(Infinity);
  });
});

describe("over one step from tooth to tooth", () => {
  test("both ends go on by one pitch, for every angle", () => {
    const X = feasibleInterval(made({ pitch: 4.013 }));
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (theta) => {
        expect(X.lo(theta + X.step) - X.lo(theta)).toBeCloseTo(4.013, 8);
        expect(X.hi(theta + X.step) - X.hi(theta)).toBeCloseTo(4.013, 8);
      }),
      { seed: 604, numRuns: 50 },
    );
  });
  test("hi is lo seen in a mirror", () => {
    const X = feasibleInterval(made({}));
    for (const a of [0, 0.03, -0.11, 0.2]) expect(X.hi(a)).toBeCloseTo(-X.lo(-a), 12);
  });
  test("the table holds both less the mean travel", () => {
    const X = feasibleInterval(made({}));
    const { lo, hi } = X.table(16);
    expect(lo[5]).toBeCloseTo(X.lo((5 * X.step) / 16) - (4 * 5) / 16, 12);
    expect(hi[15]).toBeCloseTo(X.hi((15 * X.step) / 16) - (4 * 15) / 16, 12);
  });
});

describe("the transmission error", () => {
  // An involute of the neutral circle unwinds like the tape itself: with the whole of its contact on the flank it drives without error. [derived]
  test("of an involute is nothing while its tangent point pushes", () => {
    const X = feasibleInterval(made({ shape: "involute", teeth: 60, high: 1.6 }));
    let [least, most] = [Infinity, -Infinity];
    for (let i = 0; i <= 40; i++) {
      // Teeth downstream of upright by up to a step carry it.
      const theta = (X.step * i) / 40;
      if (
        X.carrying(theta) === undefined ||
        theta - Math.round(theta / X.step) * X.step + X.carrying(theta)! * X.step < 0.01
      )
        continue;
      const off = X.lo(theta) - (4 * theta) / X.step;
      [least, most] = [Math.min(least, off), Math.max(most, off)];
    }
    expect(most - least).toBeLessThan(1e-9);
  });
  test("of straight flanks is greater than of an involute, and falls with the number of teeth", () => {
    const of = (m: Made) => feasibleInterval(made(m)).error();
    expect(of({ teeth: 24 })).toBeGreaterThan(2 * of({ teeth: 24, shape: "involute" }));
    expect(of({ teeth: 40 })).toBeLessThan(of({ teeth: 16 }));
  });
  test("bounds the error of half a step", () => {
    for (const m of [{}, { shape: "involute" }, { teeth: 16, wrap: 20 }] as const) {
      const X = feasibleInterval(made(m));
      expect(X.halfStep().error).toBeLessThanOrEqual(X.error() + 1e-12);
      expect(X.halfStep().error).toBeGreaterThan(0);
    }
  });
});

test("the tooth that pushes is the one that no other lets back", () => {
  const X = feasibleInterval(made({}));
  expect([-1, 0, 1]).toContain(X.carrying(0));
  const long = feasibleInterval(made({ pitch: 4.05, shape: "involute" }));
  const short = feasibleInterval(made({ pitch: 3.95, shape: "involute" }));
  // Holes farther apart than the teeth are pushed by the tooth that comes in, nearer ones by the tooth that leaves. [Journal SMPE 45, 1945, p. 80, read]
  expect(long.carrying(0)!).toBeLessThan(short.carrying(0)!);
});
test("more teeth stand in a tape that lies round the wheel", () => {
  const [flat, wrapped] = [feasibleInterval(made({})), feasibleInterval(made({ wrap: 90 }))];
  expect(wrapped.engagedOver()[0]).toBeGreaterThan(flat.engagedOver()[1]);
  expect(flat.engagedOver(0.3)[0]).toBeLessThanOrEqual(flat.engagedOver()[0]);
  for (const a of [0, 0.05, 0.13]) {
    const n = flat.engaged(a);
    expect(n).toBeGreaterThanOrEqual(flat.engagedOver()[0]);
    expect(n).toBeLessThanOrEqual(flat.engagedOver()[1]);
  }
});
describe("bad input is refused in words", () => {
  test.each([
    [{ teeth: 3 }, "a wheel with 3 teeth is none: it needs a whole number of 4 or more"],
    [{ teeth: 12.5 }, "a wheel with 12.5 teeth is none"],
    [{ baseRadius: -1e-3 }, "the wheel's axis lies -1 mm below the tape's underside; it must be above 0"],
    [{ thickness: 0 }, "a tape 0 mm thick is none"],
    [{ wrap: -0.1 }, "the tape lies round the wheel by 0 to 180 deg, not more"],
    [{ pitch: 0 }, "holes at a pitch of 0 mm are none"],
    [{ neutral: 1.5 }, "the neutral line lies at 1.5 of the tape's thickness"],
    [{ opening: Number.NaN }, "a tooth meets no opening of the hole"],
  ] as const)("%o", (change, words) => expect(() => feasibleInterval({ ...made({}), ...change })).toThrow(words));
});
