import type { BuiltIn } from '../builtIn';
import { DIVIDED_BY_ZERO, NUM, type Scalar } from '../values';
import { numeric } from './define';
import { atPlaces, fifteen, rounded } from './decimals';

// Rounding. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference.

const places = (number = 0): number => Math.trunc(number);

/** A multiple of a step, the quotient seen to fifteen digits: 0.3 is three times 0.1. */
const multiple = (number: number, step: number, make: (times: number) => number): number =>
  step === 0 || number === 0 ? 0 : fifteen(make(fifteen(number / step)) * step);

const ceiling = (number: number, step: number): Scalar =>
  number > 0 && step < 0 ? NUM : multiple(number, step, Math.ceil);

const floor = (number: number, step: number): Scalar => {
  if (number > 0 && step < 0) return NUM;
  return step === 0 && number !== 0 ? DIVIDED_BY_ZERO : multiple(number, step, Math.floor);
};

const nearest = (number: number, step: number): Scalar =>
  number * step < 0 ? NUM : multiple(number, step, (times) => Math.floor(times + 0.5));

/** Up to a multiple of `step`; negative numbers towards 0 unless `mode` says away from it. */
const ceilingMath = (number: number, step = 1, mode = 0): Scalar =>
  multiple(number, Math.abs(step), number < 0 && mode !== 0 ? Math.floor : Math.ceil);
const floorMath = (number: number, step = 1, mode = 0): Scalar =>
  multiple(number, Math.abs(step), number < 0 && mode !== 0 ? Math.ceil : Math.floor);

const awayFrom0 = (number: number, toMultiple: (size: number) => number): number =>
  Math.sign(number) * toMultiple(fifteen(Math.abs(number)));

export const rounding: readonly BuiltIn[] = [
  numeric('ROUND', [2, 2], (number, digits) => rounded(number, places(digits))),
  numeric('ROUNDUP', [2, 2], (number, digits) => atPlaces(number, places(digits), Math.ceil)),
  numeric('ROUNDDOWN', [2, 2], (number, digits) => atPlaces(number, places(digits), Math.floor)),
  numeric('TRUNC', [1, 2], (number, digits) => atPlaces(number, places(digits), Math.floor)),
  numeric('INT', [1, 1], (number) => Math.floor(number)),
  numeric('MROUND', [2, 2], nearest),
  numeric('CEILING', [2, 2], ceiling),
  numeric('FLOOR', [2, 2], floor),
  numeric('CEILING.MATH', [1, 3], ceilingMath),
  numeric('FLOOR.MATH', [1, 3], floorMath),
  numeric('CEILING.PRECISE', [1, 2], (number, step = 1) => ceilingMath(number, step)),
  numeric('ISO.CEILING', [1, 2], (number, step = 1) => ceilingMath(number, step)),
  numeric('FLOOR.PRECISE', [1, 2], (number, step = 1) => floorMath(number, step)),
  numeric('EVEN', [1, 1], (number) => awayFrom0(number, (size) => Math.ceil(size / 2) * 2)),
  numeric('ODD', [1, 1], (number) =>
    number === 0 ? 1 : awayFrom0(number, (size) => Math.ceil((size - 1) / 2) * 2 + 1),
  ),
  numeric('QUOTIENT', [2, 2], (number, divisor) =>
    divisor === 0 ? DIVIDED_BY_ZERO : Math.trunc(fifteen(number / divisor)),
  ),
];
