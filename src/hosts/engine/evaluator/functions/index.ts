import type { BuiltIn } from '../builtIn';
import { conditions } from './conditions';
import { higherOrder } from './higherOrder';
import { mathematics } from './mathematics';
import { references } from './references';
import { rounding } from './rounding';
import { wholeNumbers } from './wholeNumbers';

/** Every built-in by its name in capitals. */
export const builtIns: ReadonlyMap<string, BuiltIn> = new Map(
  [...conditions, ...higherOrder, ...mathematics, ...references, ...rounding, ...wholeNumbers].map(
    (builtIn) => [builtIn.name, builtIn],
  ),
);
