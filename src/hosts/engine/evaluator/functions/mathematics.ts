import type { BuiltIn } from '../builtIn';
import { toNumber } from '../coercion';
import { NUM } from '../values';
import { totalsIn } from './numbers';

/** Sums, roundings and powers. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference. */
export const mathematics: readonly BuiltIn[] = [
  {
    name: 'SUM',
    least: 1,
    most: Infinity,
    takes: ['range'],
    call(context, given) {
      return totalsIn(context, given).sum;
    },
  },
  {
    name: 'SQRT',
    least: 1,
    most: 1,
    takes: ['value'],
    call(context, [number]) {
      const of = toNumber(context.scalarOf(number));
      return of < 0 ? NUM : Math.sqrt(of);
    },
  },
];
