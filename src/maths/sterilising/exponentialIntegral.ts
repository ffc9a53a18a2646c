/** Euler's constant. */
const GAMMA = 0.5772156649015329;

/**
 * Exponential integral E1(x) = ∫ e^−t / t dt from x to infinity, to about 15 digits.
 *
 * The power series up to 1, the continued fraction by Lentz's method beyond.
 *
 * @param x above 0
 * @source Abramowitz & Stegun (1964) Handbook of Mathematical Functions, 5.1.11 and 5.1.22
 */
export function exponentialIntegral(x: number): number {
  if (x <= 1) {
    let sum = -GAMMA - Math.log(x);
    let power = 1;
    for (let n = 1; n <= 30; n++) {
      power *= -x / n;
      sum -= power / n;
    }
    return sum;
  }
  let b = x + 1;
  let c = Infinity;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n <= 500; n++) {
    const a = -n * n;
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  return fraction * Math.exp(-x);
}
