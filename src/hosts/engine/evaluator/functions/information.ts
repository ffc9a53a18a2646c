import { addressOf } from '../../../xlsx/address';
import type { BuiltIn } from '../builtIn';
import { Lacking } from '../lacking';
import { isError, NOT_AVAILABLE, REF, Reference, VALUE, type ErrorCode, type Value } from '../values';
import { define, type Given } from './define';

// What a formula may ask about cells, errors and sheets. Definitions: ISO/IEC 29500-1:2016, 18.17.7.

const ERROR_NUMBERS: Readonly<Partial<Record<ErrorCode, number>>> = {
  '#NULL!': 1,
  '#DIV/0!': 2,
  '#VALUE!': 3,
  '#REF!': 4,
  '#NAME?': 5,
  '#NUM!': 6,
  '#N/A': 7,
  '#SPILL!': 9,
  '#CALC!': 14,
};

const errorNumber = (given: Given): Value => {
  const value = given.scalar(0);
  if (!isError(value)) return NOT_AVAILABLE;
  const number = ERROR_NUMBERS[value.code];
  if (number === undefined) throw new Lacking(`ERROR.TYPE of ${value.code}`);
  return number;
};

/** The first cell of a reference, or the formula's own where there is none. */
function cellOf(given: Given, at: number): { sheet: number; row: number; column: number } {
  const one = given.all[at];
  if (one === undefined) return given.context;
  if (isError(one)) throw one;
  if (!(one instanceof Reference)) throw VALUE;
  const [{ sheet, top, left }] = one.areas;
  return { sheet, row: top, column: left };
}

const aboutCell = (given: Given): Value => {
  // Without a cell it tells of the one that was changed last, and of a cell elsewhere with the name of the file.
  if (!given.has(1)) throw new Lacking(`CELL("${given.text(0)}") of no cell`);
  const { sheet, row, column } = cellOf(given, 1);
  switch (given.text(0).toLowerCase()) {
    case 'row':
      return row + 1;
    case 'col':
      return column + 1;
    case 'address':
      if (sheet !== given.context.sheet) throw new Lacking('CELL("address") of another sheet');
      return `$${addressOf({ row, column }).replace(/(\d+)$/, '$$$1')}`;
    case 'contents':
      return given.scalar(1) ?? 0;
    case 'type': {
      const value = given.scalar(1);
      return value === null ? 'b' : typeof value === 'string' ? 'l' : 'v';
    }
    default:
      throw new Lacking(`CELL("${given.text(0)}")`);
  }
};

const sheetNumber = (given: Given, { sheetNames }: { sheetNames: readonly string[] }): Value => {
  const [one] = given.all;
  if (typeof one !== 'string') return cellOf(given, 0).sheet + 1;
  const at = sheetNames.findIndex((name) => name.toLowerCase() === one.toLowerCase());
  return at < 0 ? NOT_AVAILABLE : at + 1;
};

export const information: readonly BuiltIn[] = [
  define('NA', [0, 0], 'value', () => NOT_AVAILABLE),
  define('ERROR.TYPE', [1, 1], 'value', errorNumber, { takesErrors: true }),
  define('ISFORMULA', [1, 1], 'range', (given, context) => {
    const { sheet, row, column } = cellOf(given, 0);
    return context.formulaAt(sheet, row, column) !== undefined;
  }),
  define('FORMULATEXT', [1, 1], 'range', (given, context) => {
    const { sheet, row, column } = cellOf(given, 0);
    return context.formulaAt(sheet, row, column) ?? NOT_AVAILABLE;
  }),
  define('SHEET', [0, 1], 'range', sheetNumber),
  define('SHEETS', [0, 1], 'range', (given, { sheetNames }) => {
    const [one] = given.all;
    if (one === undefined) return sheetNames.length;
    return one instanceof Reference ? one.areas.length : REF;
  }),
  define('CELL', [1, 2], 'value range', aboutCell, { isVolatile: true }),
  define('HYPERLINK', [1, 2], 'value', (given) => given.scalar(given.count > 1 ? 1 : 0)),
];
