import { placeOf, ROWS, COLUMNS, type Place } from './address';
import { WorkbookFileError } from './package';
import { walk } from './xml';

/** A formula element as it stands in a sheet's part. */
export interface StoredFormula {
  /** `normal`, `shared`, `array` or `dataTable`. */
  readonly kind: string;
  readonly text: string;
  readonly ref: string | undefined;
  readonly shared: string | undefined;
}

/** A cell as it stands in a sheet's part: where, and what its elements hold. */
export interface StoredCell extends Place {
  readonly attributes: Readonly<Record<string, string>>;
  readonly start: number;
  /** Behind its start tag. */
  readonly inner: number;
  /** Before its end tag; `end` where its tag closes itself. */
  readonly innerEnd: number;
  readonly end: number;
  readonly formula: StoredFormula | undefined;
  /** The stretch of its formula element. */
  readonly formulaAt: readonly [number, number] | undefined;
  readonly value: string | undefined;
  readonly inlineText: string | undefined;
}

export interface StoredRow {
  /** From 0. */
  readonly row: number;
  readonly attributes: Readonly<Record<string, string>>;
  readonly start: number;
  readonly inner: number;
  readonly innerEnd: number;
  readonly end: number;
}

export interface SheetListener {
  cell(cell: StoredCell): void;
  row?(row: StoredRow): void;
  /** Any element outside `sheetData`, and `sheetData` itself. */
  other?(name: string, attributes: Readonly<Record<string, string>>, start: number, inner: number): void;
  sheetDataEnds?(innerEnd: number, end: number): void;
}

/** A calculation takes about 2.5 KB of memory for each cell. */
export const MOST_CELLS = 1_000_000;

/** A number as a file may write it (W3C XML Schema 2, 3.2.5); NaN for anything else, hexadecimal digits among it. */
export const numberOf = (written: string): number => (/^[\s\d.eE+-]*$/.test(written) ? Number(written) : NaN);

/** Walks a worksheet part cell by cell. */
export function walkSheet(xml: string, part: string, listener: SheetListener): void {
  let inData = false;
  let row = -1;
  let column = -1;
  let rowTag: Omit<StoredRow, 'innerEnd' | 'end'> | undefined;
  let cell: { -readonly [K in keyof StoredCell]: StoredCell[K] } | undefined;
  let formulaStart = 0;
  let formula:
    | { kind: string; text: string; ref: string | undefined; shared: string | undefined }
    | undefined;
  let collected: string | undefined;
  let phonetic = false;
  const misplaced = (): WorkbookFileError =>
    new WorkbookFileError(`the file is damaged: a cell of ${part} has no place on the sheet`);

  walk(xml, part, {
    open(name, attributes, start, end) {
      if (!inData) {
        listener.other?.(name, attributes, start, end);
        inData = name === 'sheetData';
        return;
      }
      switch (name) {
        case 'row':
          if (rowTag) throw misplaced();
          row = attributes['r'] === undefined ? row + 1 : numberOf(attributes['r']) - 1;
          if (!(row >= 0 && row < ROWS)) throw misplaced();
          column = -1;
          rowTag = { row, attributes, start, inner: end };
          return;
        case 'c': {
          const address = attributes['r'];
          const place = address === undefined ? { row, column: column + 1 } : placeOf(address);
          if (!place || place.column >= COLUMNS || cell) throw misplaced();
          column = place.column;
          cell = {
            row: place.row,
            column,
            attributes,
            start,
            inner: end,
            innerEnd: end,
            end,
            formula: undefined,
            formulaAt: undefined,
            value: undefined,
            inlineText: undefined,
          };
          return;
        }
        case 'f':
          formulaStart = start;
          formula = {
            kind: attributes['t'] ?? 'normal',
            text: '',
            ref: attributes['ref'],
            shared: attributes['si'],
          };
          collected = '';
          return;
        case 'rPh':
          phonetic = true;
          return;
        case 'v':
        case 't':
          if (!phonetic) collected = '';
      }
    },
    close(name, start, end) {
      if (!inData) return;
      switch (name) {
        case 'sheetData':
          inData = false;
          listener.sheetDataEnds?.(start, end);
          return;
        case 'row':
          listener.row?.({ ...rowTag!, innerEnd: start, end });
          rowTag = undefined;
          return;
        case 'c':
          cell!.innerEnd = start;
          cell!.end = end;
          listener.cell(cell!);
          cell = undefined;
          return;
        case 'f':
          if (cell) {
            cell.formula = { ...formula!, text: collected ?? '' };
            cell.formulaAt = [formulaStart, end];
          }
          break;
        case 'v':
          if (cell) cell.value = collected;
          break;
        case 't':
          if (cell && !phonetic) cell.inlineText = (cell.inlineText ?? '') + (collected ?? '');
          break;
        case 'rPh':
          phonetic = false;
          return;
        default:
          return;
      }
      collected = undefined;
    },
    text(text) {
      if (collected !== undefined) collected += text;
    },
  });
}
