/** Sum with Neumaier's compensation, so that long columns and mixed magnitudes keep their last digits. */
export function compensatedSum(values: Iterable<number>): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

/**
 * Where a function that rises from `low` to `high` passes 0, to the last digits; the end nearer to 0 where both ends
 * lie on one side. Never more steps than halving would take three times over.
 *
 * @source Chandrupatla, T. R. (1997) A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear
 * function without using derivatives. Adv. Eng. Softw. 28:145–149
 */
export function bracketedRoot(f: (x: number) => number, low: number, high: number): number {
  let [a, b, c] = [high, low, high];
  let [atA, atB] = [f(high), f(low)];
  if (!(atB < 0)) return low;
  if (!(atA > 0)) return high;
  let atC = atA;
  let share = 0.5;
  for (let step = 0; step < 160; step++) {
    const x = a + share * (b - a);
    const at = f(x);
    if (at > 0 === atA > 0) [c, atC] = [a, atA];
    else [c, atC, b, atB] = [b, atB, a, atA];
    [a, atA] = [x, at];
    const nearer = Math.abs(atA) < Math.abs(atB) ? a : b;
    const least = (2e-15 * Math.abs(nearer) + 1e-15) / Math.abs(b - a);
    if (at === 0 || least > 0.5) return at === 0 ? x : nearer;
    const xi = (a - b) / (c - b);
    const phi = (atA - atB) / (atC - atB);
    // Inverse quadratic interpolation where the three points allow it, else halving.
    share =
      phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi
        ? ((atA / (atB - atA)) * atC) / (atB - atC) +
          ((((c - a) / (b - a)) * atA) / (atC - atA)) * (atB / (atC - atB))
        : 0.5;
    share = Math.min(Math.max(share, least), 1 - least);
  }
  return (a + b) / 2;
}
