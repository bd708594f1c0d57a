/**
 * x to the power y, by products for whole exponents and else by exp(y log x): a few units in the last place, and the same bits wherever it runs.
 *
 * The language's own `**` is not the same in every engine: two versions of one engine differ in the last bit of x ** 3. Squares by `** 2` are one product
 * everywhere and stay as they are; powers of two are exact. A negative x has no power but a whole one: NaN, as the language has it.
 */
export function power(x: number, y: number): number {
  if (y === 0.5 && x >= 0) return Math.sqrt(x);
  if (Number.isInteger(y) && Math.abs(y) <= 64) {
    let n = Math.abs(y);
    let square = x;
    let out = 1;
    for (; n > 0; n = Math.floor(n / 2)) {
      if (n % 2 === 1) out *= square;
      square *= square;
    }
    return y < 0 ? 1 / out : out;
  }
  if (x === Number.NEGATIVE_INFINITY && !Number.isInteger(y)) return power(Number.POSITIVE_INFINITY, y);
  if (x < 0 && Number.isInteger(y)) return (y % 2 === 0 ? 1 : -1) * Math.exp(y * Math.log(-x));
  return Math.exp(y * Math.log(x));
}
