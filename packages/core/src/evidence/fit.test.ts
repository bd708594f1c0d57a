import { expect, test } from "vitest";
import { fit } from "./fit.ts";

const x = [109, 149, 149, 191, 213, 224].map((_, i) => [1, 2, 3, 5, 7, 10][i]!);
const saturating = (b: Float64Array, out: Float64Array): void =>
  x.forEach((v, i) => {
    out[i] = b[0]! * (1 - Math.exp(-b[1]! * v));
  });
const y = [109, 149, 149, 191, 213, 224];

// NIST StRD BoxBOD, certified. [read]
test("a start that slides to where the law has gone flat is named, and the other one gives the certified values", () => {
  const got = fit({
    y,
    law: saturating,
    starts: [
      [1, 1],
      [100, 0.75],
    ],
  });
  expect(got.b[0]).toBeCloseTo(213.80940889, 5);
  expect(got.b[1]).toBeCloseTo(0.54723748542, 8);
  expect(got.sd[0]).toBeCloseTo(12.354515176, 4);
  expect(got.rss).toBeCloseTo(1168.0088766, 6);
  expect(got.findings).toHaveLength(1);
  expect(got.findings[0]).toMatch(/^start 1 does not settle; residual sd 49\./);
});
test("two starts that agree leave no finding", () => {
  expect(
    fit({
      y,
      law: saturating,
      starts: [
        [200, 0.5],
        [100, 0.75],
      ],
    }).findings,
  ).toEqual([]);
});
// cos(b x) from readings of cos(3 x): hollows on either side of 3. [derived]
test("starts in two hollows end at two depths, and that is a finding", () => {
  const t = Array.from({ length: 30 }, (_, i) => i / 5);
  const law = (b: Float64Array, out: Float64Array): void =>
    t.forEach((v, i) => {
      out[i] = Math.cos(b[0]! * v);
    });
  const got = fit({ y: t.map((v) => Math.cos(3 * v)), law, starts: [[7], [3.1]] });
  expect(got.b[0]).toBeCloseTo(3, 7);
  expect(got.findings[0]).toContain("start 1 ends in another minimum");
});
test("parameters that the readings do not fix are a finding", () => {
  const law = (b: Float64Array, out: Float64Array): void => {
    for (let i = 0; i < out.length; i++) out[i] = b[0]! * b[1]!;
  };
  const got = fit({
    y: [1, 2, 3],
    law,
    starts: [
      [1, 1],
      [5, 1],
    ],
  });
  expect(got.b[0]! * got.b[1]!).toBeCloseTo(2, 7);
  expect(got.findings.join()).toMatch(/do not fix|no longer matters/);
});
test("a step to where the law has no number is refused, not taken", () => {
  const law = (b: Float64Array, out: Float64Array): void => {
    for (let i = 0; i < out.length; i++) out[i] = Math.log(b[0]!) * (i + 1);
  };
  const got = fit({ y: [1, 2, 3].map((k) => k * Math.log(0.01)), law, starts: [[5], [0.5]] });
  expect(got.b[0]).toBeCloseTo(0.01, 8);
});
test("one start, no numbers and too few readings are refused", () => {
  expect(() => fit({ y, law: saturating, starts: [[1, 1]] })).toThrow("at least two");
  expect(() => fit({ y: [1, Number.NaN], law: saturating, starts: [[1], [2]] })).toThrow("must be finite");
  expect(() =>
    fit({
      y: [1],
      law: saturating,
      starts: [
        [1, 1],
        [2, 2],
      ],
    }),
  ).toThrow("at least as many readings");
  expect(() =>
    fit({
      y,
      law: (_b, out) => {
        out.fill(Number.NaN);
      },
      starts: [
        [1, 1],
        [2, 2],
      ],
    }),
  ).toThrow("no number at any");
});
