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
 * Where a function that rises from `low` to `high` passes 0, to the last digits of the bracket; the end nearer to 0
 * where both ends lie on one side. Secants inside the bracket, halved where they shrink it too little.
 */
export function bracketedRoot(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [atA, atB] = [f(a), f(b)];
  if (!(atA < 0)) return a;
  if (!(atB > 0)) return b;
  // Halving alone would take 60 steps for any bracket here.
  for (let step = 0; step < 120 && b - a > 1e-13 * Math.max(1, Math.abs(a), Math.abs(b)); step++) {
    const width = b - a;
    // The secant's root, moved a little to the far side so that both ends close in.
    const root = a + (width * -atA) / (atB - atA);
    const nudged = root + (atA + atB < 0 ? 1 : -1) * 1e-9 * width;
    for (const x of [nudged, (a + b) / 2]) {
      if (!(x > a && x < b)) continue;
      const at = f(x);
      if (at === 0) return x;
      if (at < 0) [a, atA] = [x, at];
      else [b, atB] = [x, at];
      if (b - a < width / 2) break;
    }
  }
  return (a + b) / 2;
}
