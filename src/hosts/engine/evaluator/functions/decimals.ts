/** A number to the fifteen digits that a sheet keeps. */
export const fifteen = (number: number): number => Number(number.toPrecision(15));

/** A number times a power of ten, exact where the decimal is. */
export function shifted(number: number, places: number): number {
  const [digits, exponent = '0'] = String(number).split('e') as [string, string?];
  return Number(`${digits}e${Number(exponent) + places}`);
}

/** A number made whole at so many decimal places by `make`, seen to fifteen digits: 2.675 to two places is 2.68. */
export function atPlaces(number: number, places: number, make: (size: number) => number): number {
  if (!Number.isFinite(number) || places > 300) return number;
  const size = make(shifted(fifteen(Math.abs(number)), places));
  return Math.sign(number) * shifted(size, -places);
}

export const rounded = (number: number, places: number): number =>
  atPlaces(number, places, (size) => Math.floor(size + 0.5));
