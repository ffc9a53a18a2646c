import Papa from 'papaparse';
import type { Cell } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import { orderOfLanguage, separatorOf, type DateOrder, type Habits } from '../engine/typing/habits';
import { readTyped } from '../engine/typing/typedValue';

// Text files of loggers and scales: how they are written is found in them and shown before it is taken.

/** How a text file writes its cells. */
export interface CsvHabits {
  readonly separator: ',' | ';' | '\t' | '|';
  readonly decimal: '.' | ',';
  readonly order: DateOrder;
}

export interface CsvCell {
  readonly value: Cell;
  readonly numberFormat?: string;
}

/** The text of a file: UTF-8 or UTF-16 by its mark, UTF-8 where it is sound, else as Windows wrote it. */
export function decoded(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

const SEPARATORS = [',', ';', '\t', '|'] as const;
const MOST_LOOKED_AT = 2000;

const parsed = (text: string, separator: string, preview = 0): string[][] =>
  Papa.parse<string[]>(text, { delimiter: separator, preview, skipEmptyLines: 'greedy' }).data;

/** How a file is written, by what it holds, and by the language of the browser where that does not tell. */
export function csvHabits(text: string, language: string): CsvHabits {
  const [separator] = SEPARATORS.map((one) => [one, rowsAlike(parsed(text, one, 50))] as const).sort(
    ([, a], [, b]) => b - a,
  )[0]!;
  const cells = parsed(text, separator, MOST_LOOKED_AT).flat();
  const count = (pattern: RegExp): number => cells.filter((cell) => pattern.test(cell.trim())).length;
  const commas = count(/^-?\d+,\d+$/);
  const points = count(/^-?\d+\.\d+$/);
  const decimal =
    commas > points ? ',' : points > 0 || separator === ',' ? '.' : separator === ';' ? ',' : '.';
  const days = cells.flatMap((cell) => {
    const found = /^(\d\d?)[/.-](\d\d?)[/.-]\d{2,4}\b/.exec(cell.trim());
    return found ? [[Number(found[1]), Number(found[2])] as const] : [];
  });
  const isDayFirst = days.some(([first]) => first > 12);
  const isMonthFirst = days.some(([, second]) => second > 12);
  const spoken = orderOfLanguage(language);
  const order =
    isDayFirst === isMonthFirst ? (spoken === 'ymd' ? 'dmy' : spoken) : isDayFirst ? 'dmy' : 'mdy';
  return { separator, decimal, order };
}

/** How alike the rows are that a separator makes: how many have as many cells as most, and more than one. */
function rowsAlike(rows: readonly (readonly string[])[]): number {
  const lengths = new Map<number, number>();
  for (const { length } of rows) lengths.set(length, (lengths.get(length) ?? 0) + 1);
  const [[width, times] = [1, 0]] = [...lengths].sort(([, a], [, b]) => b - a);
  return width > 1 ? times + width / 1000 : 0;
}

/** The cells of a file. Labels that begin with 0, such as 0012, stay text. */
export function csvCells(
  text: string,
  habits: CsvHabits,
  dateSystem: DateSystem,
  thisYear: number,
): CsvCell[][] {
  const read: Habits = { ...habits, orderFrom: 'person', decimalFrom: 'person' };
  const target = { dateSystem, thisYear, order: habits.order };
  return parsed(text.replace(/^\ufeff/, ''), habits.separator).map((row) =>
    row.map((cell): CsvCell => {
      if (/^\s*0\d/.test(cell) && !/[/.:,-]/.test(cell)) return { value: cell.trim() };
      const typed = readTyped(cell, read, target);
      switch (typed.kind) {
        case 'blank':
          return { value: null };
        case 'truth':
          return { value: typed.value };
        case 'number':
          return { value: typed.value, ...(typed.format !== undefined && { numberFormat: typed.format }) };
        case 'text':
          return { value: typed.text };
        case 'either':
          return {
            value: typed.days.find(({ order }) => order === habits.order)!.value,
            ...(typed.format !== undefined && { numberFormat: typed.format }),
          };
      }
    }),
  );
}

/** A text file of cells: days as 2026-04-03, numbers in full with the decimal mark of the workbook's people. */
export function csvOf(
  rows: readonly (readonly (Cell | { readonly day: string })[])[],
  habits: Habits,
): string {
  const texts = rows.map((row) =>
    row.map((cell) => {
      if (cell === null) return '';
      if (typeof cell === 'object') return 'day' in cell ? cell.day : cell.code;
      if (typeof cell === 'number') return String(cell).replace('.', habits.decimal);
      return typeof cell === 'boolean' ? (cell ? 'TRUE' : 'FALSE') : cell;
    }),
  );
  return `\ufeff${Papa.unparse(texts, { delimiter: separatorOf(habits), newline: '\r\n' })}\r\n`;
}
