import { parseA1Ref, stringifyA1Ref, tokenize, type RangeA1, type ReferenceA1 } from '@borgar/fx';
import { addressOf, areaOf, placeOf, rangeOf, type Area, type Place } from '../../../src/hosts/xlsx/address';
import type { FakeCell } from './fakeExcel';

// What a person does to a workbook, done as Excel does it: cells go to their new places, and references follow them.

export type Sheets = Readonly<Record<string, Readonly<Record<string, FakeCell>>>>;

/** Where a cell or a reference goes; undefined where it is deleted. */
interface Change {
  readonly place: (sheet: string, place: Place) => { sheet: string; place: Place } | undefined;
  readonly area: (sheet: string, area: Area) => { sheet: string; area: Area } | undefined;
}

function edited(book: Sheets, { place, area }: Change, sheetNames = Object.keys(book)): Sheets {
  const result: Record<string, Record<string, FakeCell>> = Object.fromEntries(
    sheetNames.map((name) => [name, {}]),
  );
  for (const [sheet, cells] of Object.entries(book)) {
    for (const [address, cell] of Object.entries(cells)) {
      const target = place(sheet, placeOf(address)!);
      if (!target) continue;
      const spill = cell.spill && area(sheet, areaOf(cell.spill)!);
      result[target.sheet]![addressOf(target.place)] = {
        ...cell,
        formula: followed(cell.formula, sheet, target.sheet, area),
        ...(spill && { spill: rangeOf(spill.area) }),
      };
    }
  }
  return result;
}

/** A formula whose references follow a change. */
function followed(formula: unknown, sheet: string, now: string, area: Change['area']): unknown {
  if (typeof formula !== 'string' || !formula.startsWith('=')) return formula;
  return tokenize(formula)
    .map(({ type, value }) => {
      const reference = type === 'range' ? (parseA1Ref(value) as ReferenceA1 | undefined) : undefined;
      if (!reference) return value;
      const { top, left, bottom, right } = reference.range as Required<RangeA1> & Area;
      const target = area(reference.context?.at(-1) ?? sheet, { top, left, bottom, right });
      if (!target) return '#REF!';
      const { context: _, ...plain } = reference;
      const moved = { ...plain, range: { ...reference.range, ...target.area } };
      return stringifyA1Ref(target.sheet === now ? moved : { ...moved, context: [target.sheet] });
    })
    .join('');
}

/** Rows inserted above a row (counted from 0), or as many deleted from it on. */
export function rowsMoved(book: Sheets, sheet: string, row: number, by: number): Sheets {
  const isDeleted = (at: number): boolean => by < 0 && at >= row && at < row - by;
  const shifted = (at: number): number => (at < row ? at : at + by);
  return edited(book, {
    place: (on, place) => {
      if (on !== sheet) return { sheet: on, place };
      return isDeleted(place.row) ? undefined : { sheet: on, place: { ...place, row: shifted(place.row) } };
    },
    area: (on, area) => {
      if (on !== sheet) return { sheet: on, area };
      const rows = Array.from({ length: area.bottom - area.top + 1 }, (_, n) => area.top + n);
      const left = rows.filter((at) => !isDeleted(at)).map(shifted);
      if (left.length === 0) return undefined;
      return { sheet: on, area: { ...area, top: left[0]!, bottom: left.at(-1)! } };
    },
  });
}

/** An area cut out and put down at another cell. */
export function cutTo(book: Sheets, sheet: string, from: string, toSheet: string, to: string): Sheets {
  const [area, corner] = [areaOf(from)!, placeOf(to)!];
  const [down, right] = [corner.row - area.top, corner.column - area.left];
  const isIn = (on: string, inner: Area): boolean =>
    on === sheet &&
    inner.top >= area.top &&
    inner.bottom <= area.bottom &&
    inner.left >= area.left &&
    inner.right <= area.right;
  const moved = (inner: Area): Area => ({
    top: inner.top + down,
    bottom: inner.bottom + down,
    left: inner.left + right,
    right: inner.right + right,
  });
  return edited(
    book,
    {
      place: (on, { row, column }) => {
        const isMoved = isIn(on, { top: row, bottom: row, left: column, right: column });
        return isMoved
          ? { sheet: toSheet, place: { row: row + down, column: column + right } }
          : { sheet: on, place: { row, column } };
      },
      area: (on, inner) =>
        isIn(on, inner) ? { sheet: toSheet, area: moved(inner) } : { sheet: on, area: inner },
    },
    [...new Set([...Object.keys(book), toSheet])],
  );
}

/** A sheet under another name. */
export function renamed(book: Sheets, from: string, to: string): Sheets {
  const name = (sheet: string): string => (sheet === from ? to : sheet);
  return edited(
    book,
    {
      place: (sheet, place) => ({ sheet: name(sheet), place }),
      area: (sheet, area) => ({ sheet: name(sheet), area }),
    },
    Object.keys(book).map(name),
  );
}
