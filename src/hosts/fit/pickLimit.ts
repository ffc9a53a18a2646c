import { isBlank } from '../../worksheet/cells/cell';
import type { Answer } from './answers';
import { cellAt, placeText, type BookSheet, type GrowersBook } from './book';
import { isOurs } from './ours';
import { KILOGRAMS, massUnitIn, type MassUnit } from './units';
import { pickedADay, saysPickLimit } from './rows';

// What a grower says anywhere in the book about how much can be picked in a day: a plan that passes it is no plan.

/** A limit of picking as the book says it. */
export interface SaidLimit {
  /** `Rooms!D1` */
  readonly place: string;
  readonly says: string;
  readonly values: readonly string[];
}

/** What the book says of the most that can be picked in a day; undefined where it says nothing of it. */
export function saidLimit(book: GrowersBook): SaidLimit | undefined {
  const found = book.sheets.filter((sheet) => !isOurs(sheet)).flatMap(limitsOn);
  const [first] = found;
  return first && { ...first, values: found.flatMap(({ values }) => values) };
}

function limitsOn(sheet: BookSheet): SaidLimit[] {
  return sheet.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column): SaidLimit[] => {
      if (typeof cell !== 'string' || !saysPickLimit(cell)) return [];
      const own = pickedADay(cell) ?? figureAt(sheet, row, column + 1);
      const values = own === undefined ? figuresBelow(sheet, row, column) : [own];
      return values.length === 0
        ? []
        : [{ place: placeText(sheet.name, row, column), says: cell.trim(), values }];
    }),
  );
}

function figureAt(sheet: BookSheet, row: number, column: number): string | undefined {
  const cell = cellAt(sheet, row, column);
  if (typeof cell === 'number') return String(cell);
  return typeof cell === 'string' && /^\s*\d[\d.,]*\s*\p{L}{0,3}\s*$/u.test(cell) ? cell.trim() : undefined;
}

function figuresBelow(sheet: BookSheet, row: number, column: number): string[] {
  const values: string[] = [];
  for (let at = row + 1; !isBlank(cellAt(sheet, at, column)); at++) {
    const value = figureAt(sheet, at, column);
    if (value !== undefined) values.push(value);
  }
  return values;
}

/** A row for every day, with the limit in it where the book says one and no more. */
export function limitRows(
  { values }: SaidLimit,
  given: readonly Readonly<Record<string, Answer>>[] | undefined,
  unit: MassUnit | undefined,
): readonly Readonly<Record<string, Answer>>[] {
  if (given && given.length > 0) return given;
  const [value = '', ...more] = values;
  const own = massUnitIn(value);
  const figure = Number.parseFloat(value.replace(',', '.'));
  const factor = own === undefined || unit === undefined ? 1 : KILOGRAMS[own] / KILOGRAMS[unit];
  const only = more.length === 0 ? Number((figure * factor).toPrecision(6)) : NaN;
  return [{ day: 'every day', 'pick limit': Number.isFinite(only) ? only : null, 'load limit': 'none' }];
}
