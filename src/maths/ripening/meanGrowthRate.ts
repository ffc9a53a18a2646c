import { rateWithin, type CardinalTemperatures } from './growthRate';

/** Half of the nodes of the eight-point Gauss–Legendre rule on −1…1, and their weights. */
const NODES = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
] as const;

/** Halves of halves of a span: enough for the sharpest peak the model can have. */
const DEEPEST = 40;

/**
 * Mean growth rate while the temperature moves in a straight line from one reading to the next.
 *
 * The rate is curved in the temperature, so the mean of the two readings' rates is not it, and would change when a
 * reading is put in between; the integral along the line does not. Above max and below min the rate is 0 and the line
 * is cut there; between them the model is smooth, and the span is halved until halving changes nothing.
 *
 * @param from temperature at the start, in the unit of `cardinals`
 * @param to temperature at the end
 * @param cardinals min, best and max, checked already
 * @returns 0 to 1, good to 1e-11
 * @source Gauss–Legendre quadrature: Abramowitz, M., Stegun, I. A. (1964) Handbook of Mathematical Functions, table 25.4
 */
export function meanGrowthRate(from: number, to: number, cardinals: CardinalTemperatures): number {
  const [low, high] = from < to ? [from, to] : [to, from];
  // Two readings this close are one temperature: dividing by their difference would only magnify rounding.
  if (high - low < 1e-9) return rateWithin(from, cardinals);
  const start = Math.max(low, cardinals.min);
  const end = Math.min(high, cardinals.max);
  if (!(end > start)) return 0;
  return refined(start, end, gauss(start, end, cardinals), cardinals, DEEPEST) / (high - low);
}

/** The integral from start to end, of which `rough` is a first estimate. */
function refined(
  start: number,
  end: number,
  rough: number,
  cardinals: CardinalTemperatures,
  depth: number,
): number {
  const middle = (start + end) / 2;
  const left = gauss(start, middle, cardinals);
  const right = gauss(middle, end, cardinals);
  if (depth === 0 || Math.abs(left + right - rough) <= 1e-12 * (end - start)) return left + right;
  return (
    refined(start, middle, left, cardinals, depth - 1) + refined(middle, end, right, cardinals, depth - 1)
  );
}

function gauss(start: number, end: number, cardinals: CardinalTemperatures): number {
  const middle = (start + end) / 2;
  const half = (end - start) / 2;
  let sum = 0;
  for (const [node, weight] of NODES) {
    sum +=
      weight * (rateWithin(middle - half * node, cardinals) + rateWithin(middle + half * node, cardinals));
  }
  return sum * half;
}
