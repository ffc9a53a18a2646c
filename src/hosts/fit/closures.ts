import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { writtenDate } from '../../worksheet/calendar';
import type { DateOrder } from '../../worksheet/writtenDates';
import type { Answer, Answers } from './answers';
import { cellAt, placeText, textOf, type GrowersBook } from './book';
import { fillQuestion } from './filledIn';
import type { TableFit } from './fitted';
import { CLOSURES, JOB, type TableName } from './jobs';
import { looseKey } from './labels';
import { monthNamed } from './monthNames';
import { unaccented } from './otherLanguages';
import { isOurs } from './ours';
import type { Question } from './question';
import type { Reader } from './readCells';

// Days on which a room is shut, said in a cell of its row or in a note that names it: `closed 6–12 Apr`. They are proposed,
// and the grower says whether they are right.

const SHUT =
  /\b(?:away|clos\w+|shut\w*|out of (?:use|order|action)|empty|deep clean\w*|clean\w*|clear ?out|maintenance|repairs?|offline|down|geschlossen|zu|ferme\w*|cerrad[oa]|gesloten|dicht|chius[oa]|zamkniet\w+|fechad[oa]|lukket)\b/;
const LONGEST = 120;
const TO = String.raw`\s*(?:-|–|—|\b(?:to|until|till|through|thru|and|bis|au|al|tot|t\/m|a|do|til)\b)\s*`;
const NTH = String.raw`(?:st|nd|rd|th|\.)?`;
const NAME = String.raw`(\p{L}{3,})\.?`;
const YEAR = String.raw`(?:[\s,]+(20\d\d))?`;
const DAYS_MONTH = new RegExp(
  String.raw`(?<!\d)(\d{1,2})${NTH}${TO}(\d{1,2})${NTH}\s+(?:of\s+)?${NAME}${YEAR}`,
  'iu',
);
const MONTH_DAYS = new RegExp(
  String.raw`${NAME}\s+(\d{1,2})${NTH}${TO}(\d{1,2})${NTH}(?!\d|\s*\p{L})${YEAR}`,
  'iu',
);
const ONE = String.raw`(\d{4}-\d\d-\d\d|\d{1,2}[/.]\d{1,2}(?:[/.]\d{2,4})?|\d{1,2}${NTH}\s+(?:of\s+)?\p{L}{3,}\.?(?:\s+20\d\d)?|\p{L}{3,}\.?\s+\d{1,2}${NTH}(?:,?\s+20\d\d)?)`;
const BOTH = new RegExp(`(?<!\\d)${ONE}${TO}${ONE}(?!\\d)`, 'iu');

/** The first and the last day of a span, as they are written. */
export function spanIn(text: string): readonly [from: string, to: string] | undefined {
  const inMonth = (
    first: string,
    last: string,
    month: string,
    year: string | undefined,
  ): readonly [string, string] | undefined => {
    const written = (date: string): string => `${date} ${month}${year === undefined ? '' : ` ${year}`}`;
    return monthNamed(month) === undefined ? undefined : [written(first), written(last)];
  };
  const both = BOTH.exec(text);
  const isDate = (date: string): boolean =>
    (date.match(/\p{L}{3,}/gu) ?? []).every((word) => monthNamed(word) !== undefined);
  if (both && isDate(both[1]!) && isDate(both[2]!)) return [both[1]!, both[2]!];
  const before = DAYS_MONTH.exec(text);
  if (before) return inMonth(before[1]!, before[2]!, before[3]!, before[4]);
  const after = MONTH_DAYS.exec(text);
  return after ? inMonth(after[2]!, after[3]!, after[1]!, after[4]) : undefined;
}

/** A closure of a room as the book says it. */
interface SaidClosure {
  readonly room: string;
  readonly place: string;
  readonly says: string;
  readonly span: readonly [string, string];
}

const spanOf = (text: string, header = ''): readonly [string, string] | undefined =>
  text.length <= LONGEST && /\d/.test(text) && SHUT.test(unaccented(`${header} ${text}`).toLowerCase())
    ? spanIn(text)
    : undefined;

/** What the rows of rooms say of themselves. */
function ofRows({ candidate, values }: TableFit): SaidClosure[] {
  const { sheet, dataRows, headers, matches, origin } = candidate;
  return dataRows.flatMap((row, i) =>
    [...headers].flatMap(([column, header]): SaidClosure[] => {
      const room = textOf(values.get('room')?.[i] ?? null).trim();
      const cell = cellAt(sheet, row, column);
      const isTaken = matches.some((one) => one.column === column);
      const span = typeof cell === 'string' && !isTaken ? spanOf(cell, header) : undefined;
      const own = origin(row, column);
      const place = placeText(own.sheet, own.row, own.column);
      return span && room !== '' ? [{ room, place, says: textOf(cell).trim(), span }] : [];
    }),
  );
}

/** What the cells of a book say of rooms that they name. */
const ofNotes = (book: GrowersBook, rooms: readonly string[]): SaidClosure[] =>
  book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) =>
      sheet.rows.flatMap((cells, row) =>
        cells.flatMap((cell, column): SaidClosure[] => {
          const span = typeof cell === 'string' ? spanOf(cell) : undefined;
          const says = textOf(cell).trim();
          const place = placeText(sheet.name, row, column);
          return span
            ? rooms.filter((name) => isIn(name, says)).map((room) => ({ room, place, says, span }))
            : [];
        }),
      ),
    );

/** Whether a text has a name as words of its own. */
function isIn(name: string, text: string): boolean {
  const words = (one: string): string => ` ${looseWords(one)} `;
  return name !== '' && words(text).includes(words(name));
}
const looseWords = (text: string): string =>
  unaccented(text)
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, ' ')
    .trim();

/** What days are read with. */
interface Calendar {
  readonly tables: ReadonlyMap<TableName, TableFit>;
  readonly answers: Answers;
  /** The order of days that the book proves. */
  readonly order: DateOrder | undefined;
  readonly reader: Reader;
}

type Row = Readonly<Record<string, Answer>>;

/** Closures as they are proposed, with what says so: of several of one room the grower says which, as a plan takes one. */
function proposed(found: readonly SaidClosure[], calendar: Calendar): { rows: Row[]; told: string[] } {
  const { tables, answers, order, reader } = calendar;
  const near = nearestDay(tables, answers, reader);
  const byRoom = new Map<string, SaidClosure[]>();
  for (const one of found) byRoom.set(looseKey(one.room), [...(byRoom.get(looseKey(one.room)) ?? []), one]);
  const rows = [...byRoom.values()].map((all) => {
    const days =
      all.length === 1 ? all[0]!.span.map((text) => dayOf(text, order, near, reader)) : [null, null];
    return { room: all[0]!.room, 'closed from': days[0]!, 'closed to': days[1]! };
  });
  return { rows, told: found.map(({ place, says, room }) => `${place} says “${says}” of ${room}`) };
}

/** What a plan asks of rooms that are shut, and the rows that answer it; undefined where the book says nothing of it. */
export function closuresOf(
  book: GrowersBook,
  calendar: Calendar,
): { readonly question?: Question; readonly rows?: readonly Row[] } | undefined {
  const { tables, answers } = calendar;
  const rooms = tables.get('rooms');
  const given = answers.fill?.['closures'];
  if (!rooms || rooms.readings.some(({ name }) => /^closed /.test(name))) return undefined;
  if (given) return given.length > 0 ? { rows: given } : undefined;
  const own = ofRows(rooms);
  const places = new Set(own.map(({ place }) => place));
  const names = (rooms.values.get('room') ?? []).map((cell) => textOf(cell).trim());
  const found = [...own, ...ofNotes(book, names).filter(({ place }) => !places.has(place))];
  if (found.length === 0) return undefined;
  const { rows, told } = proposed(found, calendar);
  return { question: { ...fillQuestion(CLOSURES, rows), columns: CLOSURES.columns, told } };
}

/** Rooms that are to be filled in, with the days on which the book says that they are shut. */
export function withClosures(
  book: GrowersBook,
  question: Question & { readonly kind: 'fill' },
  calendar: Calendar,
): Question {
  const names = question.rows.map(({ room }) => String(room ?? ''));
  const { rows, told } = proposed(ofNotes(book, names), calendar);
  if (rows.length === 0) return question;
  const closed = ROOMS.columns.filter(({ name }) => /^closed /.test(name));
  const shut = new Map(rows.map((row) => [looseKey(String(row['room'])), row]));
  return {
    ...question,
    columns: [...question.columns, ...closed],
    rows: question.rows.map((row) => ({ ...shut.get(looseKey(String(row['room'] ?? ''))), ...row })),
    told: [...(question.told ?? []), ...told],
  };
}

const ROOMS = JOB.plan.tables.find(({ name }) => name === 'rooms')!;

/** The day that the book is about: the one it is asked for, or the last on which a lot was made. */
function nearestDay(
  tables: ReadonlyMap<TableName, TableFit>,
  answers: Answers,
  reader: Reader,
): number | undefined {
  const asked = answers.figures?.['today'];
  const [today] = typeof asked === 'string' ? reader.dates([asked], 'year first', undefined) : [];
  if (typeof today === 'number') return today;
  const made = (tables.get('lots')?.values.get('inoculated') ?? []).filter(
    (cell) => typeof cell === 'number',
  );
  return made.length === 0 ? undefined : made.reduce((a, b) => Math.max(a, b));
}

/** A day written out, in the year in which it is nearest; nothing where its order is not known. */
function dayOf(
  text: string,
  order: DateOrder | undefined,
  near: number | undefined,
  reader: Reader,
): string | null {
  const isPlain = /\p{L}|^\d{4}-/u.test(text);
  if (!isPlain && order === undefined) return null;
  const read = (year?: number): Cell => reader.dates([text], order ?? 'day first', year)[0]!;
  const own = read();
  if (typeof own === 'number') return writtenDate(own, reader.dateSystem);
  if (near === undefined) return null;
  const year = Number(writtenDate(near, reader.dateSystem).slice(0, 4));
  const days = [year - 1, year, year + 1].map(read).filter((one) => typeof one === 'number');
  const [nearest] = [...days].sort((a, b) => Math.abs(a - near) - Math.abs(b - near));
  return nearest === undefined || isBlank(nearest) || isCellError(nearest)
    ? null
    : writtenDate(nearest, reader.dateSystem);
}
