import { parseA1Ref, type RangeA1, type ReferenceA1Xlsx } from '@borgar/fx/xlsx';
import { COLUMNS, ROWS } from '../../xlsx/address';
import type { Book } from './book';
import { Lacking } from './lacking';
import { NULL, REF, Reference, VALUE, type SheetArea } from './values';

/** A formula's cell, as far as references are seen from it. */
export interface Seat {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** A bound of an area: a row or column of the sheet, or a distance from the formula's own. */
interface Bound {
  readonly at: number;
  readonly isRelative: boolean;
}

/** An area as a formula writes it, the same for every cell that a formula is filled into. */
export class WrittenArea {
  constructor(
    /** The first and last sheet; undefined for the formula's own. */
    readonly sheets: readonly [first: number, last: number] | undefined,
    readonly top: Bound,
    readonly left: Bound,
    readonly bottom: Bound,
    readonly right: Bound,
  ) {}

  get isOneCell(): boolean {
    const same = (a: Bound, b: Bound): boolean => a.at === b.at && a.isRelative === b.isRelative;
    return (
      (!this.sheets || this.sheets[0] === this.sheets[1]) &&
      same(this.top, this.bottom) &&
      same(this.left, this.right)
    );
  }

  /** The area seen from a cell. Past the edge of the sheet it comes in at the other, as in Excel. */
  from({ sheet, row, column }: Seat): SheetArea {
    const [top, bottom] = [within(this.top, row, ROWS), within(this.bottom, row, ROWS)];
    const [left, right] = [within(this.left, column, COLUMNS), within(this.right, column, COLUMNS)];
    return {
      sheet: this.sheets ? this.sheets[0] : sheet,
      top: Math.min(top, bottom),
      left: Math.min(left, right),
      bottom: Math.max(top, bottom),
      right: Math.max(left, right),
    };
  }

  referenceFrom(seat: Seat): Reference {
    const area = this.from(seat);
    const [first, last] = this.sheets ?? [area.sheet, area.sheet];
    if (first === last) return Reference.to(area);
    const others = Array.from({ length: last - first }, (_, at) => ({ ...area, sheet: first + at + 1 }));
    return new Reference([area, ...others]);
  }
}

const within = ({ at, isRelative }: Bound, from: number, size: number): number => {
  if (!isRelative) return at;
  const place = at + from;
  return place >= 0 && place < size ? place : (place + size) % size;
};

/** The area that a written address names, read at `seat`. @throws Lacking, ErrorValue #REF! */
export function readArea(text: string, seat: Seat, book: Book): WrittenArea {
  const reference = parseA1Ref(text) as ReferenceA1Xlsx | undefined;
  if (!reference || !('range' in reference)) throw REF;
  if (reference.range.trim) throw new Lacking(`a range without its blank ends (${text})`);
  return areaIn(reference.range, sheetsOf(reference, text, book), seat);
}

export function areaIn(range: RangeA1, sheets: WrittenArea['sheets'], seat: Seat): WrittenArea {
  const bound = (at: number | null | undefined, fixed: unknown, own: number, otherwise: number): Bound => {
    if (at === null || at === undefined) return { at: otherwise, isRelative: false };
    return fixed ? { at, isRelative: false } : { at: at - own, isRelative: true };
  };
  return new WrittenArea(
    sheets,
    bound(range.top, range.$top, seat.row, 0),
    bound(range.left, range.$left, seat.column, 0),
    bound(range.bottom, range.$bottom, seat.row, ROWS - 1),
    bound(range.right, range.$right, seat.column, COLUMNS - 1),
  );
}

/** The sheets a reference names. @throws Lacking for another workbook, ErrorValue #REF! for a sheet there is not */
export function sheetsOf(
  { workbookName, sheetName }: { workbookName?: string; sheetName?: string },
  text: string,
  book: Book,
): WrittenArea['sheets'] {
  // Excel writes [0] for the workbook itself.
  if (workbookName && workbookName !== '0') throw new Lacking(`another workbook (${text})`);
  if (!sheetName) return undefined;
  const one = book.sheetAt(sheetName);
  if (one !== undefined) return [one, one];
  const [first, last] = sheetName.split(':').map((name) => book.sheetAt(name));
  if (first === undefined || last === undefined) throw REF;
  return [Math.min(first, last), Math.max(first, last)];
}

/** The cells that two references have in common. @throws ErrorValue #NULL! where there are none */
export function intersection(left: Reference, right: Reference): Reference {
  const common = left.areas.flatMap((a) =>
    right.areas.flatMap((b): SheetArea[] => {
      const area = {
        sheet: a.sheet,
        top: Math.max(a.top, b.top),
        left: Math.max(a.left, b.left),
        bottom: Math.min(a.bottom, b.bottom),
        right: Math.min(a.right, b.right),
      };
      return a.sheet === b.sheet && area.top <= area.bottom && area.left <= area.right ? [area] : [];
    }),
  );
  if (common.length === 0) throw NULL;
  return new Reference(common as [SheetArea, ...SheetArea[]]);
}

/** The smallest area around two. @throws ErrorValue #VALUE! where they are on different sheets */
export function around(left: Reference, right: Reference): Reference {
  const [a, b] = [left.area, right.area];
  if (a.sheet !== b.sheet) throw VALUE;
  return Reference.to({
    sheet: a.sheet,
    top: Math.min(a.top, b.top),
    left: Math.min(a.left, b.left),
    bottom: Math.max(a.bottom, b.bottom),
    right: Math.max(a.right, b.right),
  });
}

/**
 * The one cell of an area that lies in a formula's own row or column: what a formula stored without the array flag
 * takes. @throws ErrorValue #VALUE! where there is none
 */
export function ownCellOf(reference: Reference, { row, column }: Seat): Reference {
  const area = reference.area;
  const { top, left, bottom, right } = area;
  const across = left === right ? left : column;
  const down = top === bottom ? top : row;
  if (left !== right && top !== bottom) throw VALUE;
  if (across < left || across > right || down < top || down > bottom) throw VALUE;
  return Reference.to({ sheet: area.sheet, top: down, bottom: down, left: across, right: across });
}
