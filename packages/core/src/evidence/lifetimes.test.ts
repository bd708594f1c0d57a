import { expect, test } from "vitest";
import { survival, weibullFit } from "./lifetimes.ts";

const failed = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386];
const stopped = failed.map(() => 500);
// NIST/SEMATECH handbook 8.4.1.3. [read]
test("ten failures and ten stopped at 500 h", () => {
  const got = weibullFit(failed, stopped);
  expect(got.eta).toBeCloseTo(606.528, 3);
  expect(got.beta).toBeCloseTo(1.7208, 4);
  expect(got.logLikelihood).toBeCloseTo(-75.135, 3);
  expect(got.mean).toBeCloseTo(540.737, 3);
  expect(got.sd).toBeCloseTo(323.806, 3);
  expect(got.warnings).toEqual([]);
});
test("no neighbour of the fit is likelier", () => {
  const got = weibullFit(failed, stopped);
  const at = (eta: number, beta: number): number =>
    failed.reduce((s, t) => s + Math.log(beta / eta) + (beta - 1) * Math.log(t / eta), 0) -
    [...failed, ...stopped].reduce((s, t) => s + (t / eta) ** beta, 0);
  expect(at(got.eta, got.beta)).toBeCloseTo(got.logLikelihood, 9);
  for (const [a, b] of [
    [1.01, 1],
    [0.99, 1],
    [1, 1.01],
    [1, 0.99],
  ] as const)
    expect(at(got.eta * a, got.beta * b)).toBeLessThan(got.logLikelihood);
});
test("the unit of time changes the life and not the shape", () => {
  const hours = weibullFit(failed, stopped);
  const seconds = weibullFit(
    failed.map((t) => t * 3600),
    stopped.map((t) => t * 3600),
  );
  expect(seconds.beta).toBeCloseTo(hours.beta, 10);
  expect(seconds.eta / hours.eta).toBeCloseTo(3600, 7);
});
test("survival falls by one in those at risk; one stopped in between counts only before", () => {
  expect(survival(failed, stopped).map((s) => s.share)).toEqual(
    failed.map((_, i) => expect.closeTo((19 - i) / 20, 12)),
  );
  // 4 at risk, then 2: 3/4, 3/8. [derived]
  expect(survival([1, 3], [2, 4])).toEqual([
    { time: 1, share: 0.75 },
    { time: 3, share: 0.375 },
  ]);
});
test("one failure, equal lives and lives below 0 are refused", () => {
  expect(() => weibullFit([5], [6])).toThrow("at least 2 failures");
  expect(() => weibullFit([5, 5])).toThrow("all lives are equal");
  expect(() => weibullFit([5, -1])).toThrow("above 0");
  expect(() => survival([])).toThrow("no unit was tested");
  expect(weibullFit([5, 6]).warnings).toHaveLength(1);
});
