/** A draw from the standard normal distribution, by Box and Muller, from a stream of numbers from 0 to 1. */
export function normalDraw(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
