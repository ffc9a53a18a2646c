import type { BuiltIn } from '../builtIn';
import { mathematics } from './mathematics';

/** Every built-in by its name in capitals. */
export const builtIns: ReadonlyMap<string, BuiltIn> = new Map(
  [...mathematics].map((builtIn) => [builtIn.name, builtIn]),
);
