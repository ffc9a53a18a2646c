import { accuracyOf } from '../sameNumber';
import type { Book } from './book';
import { Compiler } from './compiler';
import type { Frame } from './frame';
import type { CellFormat } from './sheetStore';
import { Lacking } from './lacking';
import { isInBrackets, parsed } from './parsed';
import type { Seat, WrittenArea } from './references';
import { isError, type ErrorValue, type Value } from './values';

/** A formula made ready to run, shared by all cells it was filled into. */
export interface Program {
  /** @throws ErrorValue, or whatever the cell source throws */
  readonly run: (frame: Frame) => Value;
  /** All areas the formula names. */
  readonly areas: readonly WrittenArea[];
  /** Names of the functions it calls, in capitals. */
  readonly functions: readonly string[];
  /** How far its results may be apart and still be the same; 0 where they are exact. */
  readonly accuracy: number;
  /** Whether what it reads or gives cannot be told from the areas it names. */
  readonly isVolatile: boolean;
  /** Whether a block becomes the one value of the formula's own row or column. */
  readonly intersects: boolean;
  /** What the calculation lacks for it. */
  readonly lacking?: string;
  /** How its result reads: always so, or as what it reads or calls does. */
  readonly format: CellFormat | 'passed' | undefined;
}

/** Makes a formula ready, with its leading `=`, as it reads in the cell at `seat`. Never throws. */
export function programOf(formula: string, seat: Seat, book: Book, intersects: boolean): Program {
  const compiler = new Compiler(book, seat, intersects);
  const common = (): Omit<Program, 'run' | 'format'> => ({
    areas: compiler.areas,
    functions: [...compiler.functions],
    accuracy: accuracyOf([...compiler.functions]),
    isVolatile: compiler.isVolatile,
    intersects,
  });
  try {
    const text = formula.replace(/^\s*=/, '').trim();
    const tree = parsed(text);
    const run = isInBrackets(text) ? compiler.any(tree) : compiler.last(tree);
    return { ...common(), run, format: compiler.formatOf(tree) };
  } catch (fault) {
    const format = undefined;
    if (isError(fault)) return { ...common(), run: failing(fault), format };
    const lacking =
      fault instanceof Lacking
        ? fault.message
        : fault instanceof RangeError
          ? 'a formula nested this deeply'
          : `a way of writing formulas: ${formula}`;
    return { ...common(), run: () => null, lacking, format };
  }
}

const failing = (error: ErrorValue) => (): never => {
  throw error;
};
