import type { BuiltIn } from '../builtIn';
import { higherOrder } from './higherOrder';
import { mathematics } from './mathematics';
import { references } from './references';

/** Every built-in by its name in capitals. */
export const builtIns: ReadonlyMap<string, BuiltIn> = new Map(
  [...higherOrder, ...mathematics, ...references].map((builtIn) => [builtIn.name, builtIn]),
);
