import type { Vocabulary } from '../../xlsx/formula';
import type { BuiltIn } from './builtIn';

/** What formulas are read against. */
export interface Book {
  readonly sheetNames: readonly string[];
  /** The position of a sheet by its name, in any letters; undefined where there is none. */
  sheetAt(name: string): number | undefined;
  readonly vocabulary: Vocabulary | undefined;
  /** A function by its name in capitals. */
  builtIn(name: string): BuiltIn | undefined;
  /** What to say of a function that there is none of. */
  missing(name: string): string;
}
