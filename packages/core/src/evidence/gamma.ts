/**
 * The gamma law's shares and quantiles, and with them chi-square and Poisson: the incomplete gamma function and its inverse.
 *
 *     P(x; a) = 1/Gamma(a) . integral from 0 to x of t^(a-1) e^-t dt,    a > 0 (shape), scale 1
 *
 * chi-square of nu degrees: P(x/2; nu/2). Poisson: P(X >= k) = P(mean; k). Series below a + 1, Lentz's continued fraction above (DLMF 8.7.1, 8.9.2);
 * inverse by Halley on the logarithm of the smaller tail from Wilson and Hilferty's cube root. Memory; held against another library in validation/.
 */
import { phiInverse } from "../quantity/law.ts";
import { power } from "../quantity/power.ts";

/** ln Gamma(x) - [(x - 1/2) ln x - x + ln sqrt(2 pi)]: Stirling's remainder, by its series beyond 15 and stepped up to it before. */
export function stirlingRest(x: number): number {
  if (x >= 15) return restSeries(x);
  const whole = x % 1 === 0 && x >= 1 ? rests[x] : undefined;
  if (whole !== undefined) return whole;
  let product = 1;
  let y = x;
  while (y < 15) product *= y++;
  const lnGamma = (y - 0.5) * Math.log(y) - y + halfLn2Pi + restSeries(y) - Math.log(product);
  return lnGamma - ((x - 0.5) * Math.log(x) - x + halfLn2Pi);
}
const halfLn2Pi = 0.5 * Math.log(2 * Math.PI);
function restSeries(x: number): number {
  const i = 1 / x;
  const j = i * i;
  return i * (1 / 12 - j * (1 / 360 - j * (1 / 1260 - j * (1 / 1680 - j * (1 / 1188 - j * (691 / 360360 - j / 156))))));
}
/** Remainders of 1 to 14. */
const rests: number[] = [Number.NaN];
for (let k = 1, factorial = 1; k < 15; factorial *= k++)
  rests.push(Math.log(factorial) - ((k - 0.5) * Math.log(k) - k + halfLn2Pi));

/** ln Gamma(x) for x > 0. */
export const lnGamma = (x: number): number => {
  if (!(x > 0)) throw new RangeError(`the gamma function is asked at ${x}; it is taken above 0 only`);
  return (x - 0.5) * Math.log(x) - x + halfLn2Pi + stirlingRest(x);
};

/** Share of a gamma law below x. Keeps its digits where it is small. */
export function gammaBelow(x: number, shape: number): number {
  check(x, shape);
  return x < shape + 1 ? series(x, shape) : 1 - fraction(x, shape);
}
/** Share of a gamma law above x. Keeps its digits where it is small. */
export function gammaAbove(x: number, shape: number): number {
  check(x, shape);
  return x < shape + 1 ? 1 - series(x, shape) : fraction(x, shape);
}

/** The x with a share `below` of the gamma law under it; `above` is 1 - below, given where that keeps more digits. */
export function gammaQuantile(below: number, shape: number, above = 1 - below): number {
  if (!(below >= 0 && below < 1 && above > 0))
    throw new RangeError(`a share must be at least 0 and below 1; found ${below}`);
  check(0, shape);
  if (below === 0) return 0;
  const z = below < 0.5 ? phiInverse(below) : -phiInverse(above);
  const cube = 1 - 1 / (9 * shape) + z / (3 * Math.sqrt(shape));
  // Near 0 the law is the power x^a/Gamma(a + 1).
  let x =
    shape > 0.5 && cube > 0.2
      ? shape * power(cube, 3)
      : Math.min(Math.exp((Math.log(below) + lnGamma(shape + 1)) / shape), below > 0.5 ? -Math.log(above) : 1);
  x = Math.max(x, 1e-290);
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 80; turn++) {
    const under = x < shape + 1;
    const share = under ? series(x, shape) : fraction(x, shape);
    const wanted = under ? below : above;
    const f = share > 0 ? Math.log(share / wanted) : -40;
    if (under === f > 0) high = x;
    else low = x;
    const density = Math.exp((shape - 1) * Math.log(x) - x - lnGamma(shape));
    const slope = (under ? density : -density) / share;
    const bend = (shape - 1) / x - 1 - slope;
    let step = f / slope;
    const halley = 1 - (step * bend) / 2;
    const third = halley > 0.3 && halley < 3;
    if (third) step /= halley;
    // Of third order: what is left after a step this small is below 1e-13. Rounding may lay it on the bracket's end.
    if (Math.abs(f) < 1e-15 || (third && Math.abs(f) < 1e-4 && Math.abs(step * bend) < 1e-4)) return x - step;
    let next = x - step;
    if (!(next > low && next < high))
      next = high === Number.POSITIVE_INFINITY ? 2 * x : low > 0 ? Math.sqrt(low * high) : high / 100;
    const moved = Math.abs(next - x);
    x = next;
    if (moved <= 2e-16 * x || x < 1e-300) return x;
  }
  return x;
}
/** Quantile of chi-square with nu degrees of freedom. */
export const chiSquareQuantile = (below: number, nu: number): number => 2 * gammaQuantile(below, nu / 2);

/** x^a e^-x/Gamma(a), by Stirling's remainder and without large logarithms subtracted. */
function front(x: number, a: number): number {
  const d = (x - a) / a;
  const log = Math.abs(d) < 0.5 ? a * (Math.log1p(d) - d) : a * Math.log(x / a) - (x - a);
  return Math.exp(log - stirlingRest(a)) * Math.sqrt(a / (2 * Math.PI));
}
function series(x: number, a: number): number {
  if (x === 0) return 0;
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 100000; n++) {
    term *= x / (a + n);
    sum += term;
    if (term < 1e-17 * sum) break;
  }
  return Math.min(1, sum * front(x, a));
}
function fraction(x: number, a: number): number {
  if (x === Number.POSITIVE_INFINITY) return 0;
  const tiny = 1e-300;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / (b || tiny);
  let h = d;
  for (let i = 1; i < 100000; i++) {
    const k = -i * (i - a);
    b += 2;
    d = 1 / (k * d + b || tiny);
    c = b + k / c || tiny;
    const by = c * d;
    h *= by;
    if (Math.abs(by - 1) < 1e-16) break;
  }
  return Math.min(1, h * front(x, a));
}

function check(x: number, shape: number): void {
  if (!(shape > 0 && shape < Number.POSITIVE_INFINITY))
    throw new RangeError(`a gamma law needs a shape above 0; found ${shape}`);
  if (!(x >= 0)) throw new RangeError(`a gamma law lies at 0 and above; found ${x}`);
}
