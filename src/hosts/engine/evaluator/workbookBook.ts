import { PREFIX } from '../../../worksheet/constants';
import type { Vocabulary } from '../../xlsx/formula';
import { nearestName } from '../nearestName';
import type { Book } from './book';
import type { BuiltIn } from './builtIn';
import { builtIns } from './functions/index';
import { pinsetFunctions } from './pinsetFunctions';

/** The names of a workbook and of the functions there are. */
export class WorkbookBook implements Book {
  /** Looking for what was meant takes long, and many formulas may lack the same. */
  private readonly missed = new Map<string, string>();
  private readonly positions: ReadonlyMap<string, number>;

  constructor(
    readonly sheetNames: readonly string[],
    public vocabulary: Vocabulary | undefined,
  ) {
    this.positions = new Map(sheetNames.map((name, at) => [name.toLowerCase(), at]));
  }

  sheetAt(name: string): number | undefined {
    return this.positions.get(name.toLowerCase());
  }

  builtIn(name: string): BuiltIn | undefined {
    return builtIns.get(name) ?? pinsetFunctions.get(name);
  }

  missing(name: string): string {
    const text = this.missed.get(name) ?? missingText(name);
    this.missed.set(name, text);
    return text;
  }
}

function missingText(name: string): string {
  const near = nearestName(name);
  if (near !== undefined) return `${name} (did you mean ${near}?)`;
  return name.startsWith(PREFIX) ? `${name} (no function of Pinset)` : name;
}
