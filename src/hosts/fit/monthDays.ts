import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, sheetText, textOf } from './book';
import type { Candidate } from './candidate';
import { inOrder } from './inOrder';
import { partAt } from './columns';
import { isDateColumn } from './looks';
import { monthsIn } from './monthNames';
import { naming } from './naming';
import type { ColumnReading } from './reading';

// A sheet for each month, as on a whiteboard: the column of days has no more than 1 to 31, the month is in the name of the
// sheet or in the title over the table.

/** What follows the day in each part, to be a date with the day first: `/3/2026`, or `/3` where nothing says the year. */
export type MonthOf = ReadonlyMap<string, string>;

/** Which part of a book a formula reads, by its sheet as a formula writes it and its first row of records, from 0. */
export const monthKey = (sheet: string, first: number): string => `${sheet}!${first}`;

const keyOfPart = ({ sheet, area }: Candidate): string => monthKey(sheetText(sheet.name), area.top + 1);

/** Rows over a table in which its title may be. */
const ABOVE = 4;
const DAY = /^(?:day|date|d|tag|datum|jour|d[ií]a|dag|giorno|dzie[nń])\.?$/i;

/** The month that a text names, and its year where it has one. */
function monthIn(text: string): string | undefined {
  const written = /^\s*(20\d\d)[-./ ](0?[1-9]|1[0-2])\s*$/.exec(text);
  if (written) return `/${Number(written[2])}/${written[1]!}`;
  const [month, another] = monthsIn(text);
  if (month === undefined || another !== undefined) return undefined;
  const short = /\p{L}\W{0,2}(\d\d)\s*$/u.exec(text)?.[1];
  const year = yearIn(text) ?? (short === undefined ? undefined : 2000 + Number(short));
  return `/${month}${year === undefined ? '' : `/${year}`}`;
}

const yearIn = (text: string): number | undefined => {
  const [, year] = /(?<!\d)(20\d\d)(?!\d)/.exec(text) ?? [];
  return year === undefined ? undefined : Number(year);
};

function monthOver({ sheet, area }: Candidate): string | undefined {
  const titles = sheet.rows.slice(Math.max(0, area.top - ABOVE), area.top).flat();
  for (const text of [sheet.name, ...titles.filter((cell) => !isBlank(cell)).map(textOf)]) {
    const month = monthIn(text);
    if (month !== undefined) return month;
  }
  return undefined;
}

/** A candidate whose days are those of months, with its column of them; undefined where it has none. */
export function withMonthDays(candidate: Candidate): readonly [Candidate, MonthOf] | undefined {
  const { table, headers, matches, sheet, dataRows, parts = [candidate], lies } = candidate;
  const wanted = table.columns.find((one) => isDateColumn(one) && one.isNeeded);
  if (!wanted || lies || (table.name !== 'lots' && table.name !== 'harvests')) return undefined;
  const own = matches.find((match) => match.wanted === wanted.name);
  const isDayOfMonth = (cell: Cell): boolean =>
    typeof cell === 'number' && Number.isInteger(cell) && cell >= 1 && cell <= 31;
  const day = [...headers].find(([column, header]) => {
    const isFree = !matches.some((match) => match.column === column && match !== own);
    const isNamed = DAY.test(header.trim()) || naming(header, wanted.name, wanted.column.alsoCalled) > 0;
    const cells = dataRows.map((row) => cellAt(sheet, row, column)).filter((cell) => !isBlank(cell));
    return isFree && isNamed && cells.length > 0 && cells.every(isDayOfMonth);
  });
  // A column that its name tells is surer; what its dates told may be another day.
  if (!day || (own && own.by !== 'its data' && own.column !== day[0])) return undefined;
  const months = parts.map((part) => [keyOfPart(part), monthOver(part)] as const);
  const known = months.flatMap(([key, month]) => (month === undefined ? [] : [[key, month] as const]));
  if (known.length < months.length) return undefined;
  const others = matches.filter((match) => match !== own);
  const match = { wanted: wanted.name, column: day[0], header: day[1], by: 'its data' as const };
  const missing = candidate.missing.filter((name) => name !== wanted.name);
  return [{ ...candidate, matches: inOrder(table, [...others, match]), missing }, new Map(known)];
}

/** The reading of days of months, as dates with the day first. */
export function ofMonths(reading: ColumnReading, months: MonthOf): ColumnReading {
  const lacksYear = [...months.values()].some((month) => !/\d{4}$/.test(month));
  const proven = {
    order: 'day first' as const,
    proofs: 0,
    isContradicted: false,
    isNeeded: false,
    lacksYear,
  };
  return { ...reading, conversion: 'dates', proven, months };
}

/** A day of a month as a date written out. */
export function inMonth(candidate: Candidate, row: number, cell: Cell, months: MonthOf): Cell {
  const month = months.get(keyOfPart(partAt(candidate, row)));
  return isBlank(cell) || month === undefined ? cell : `${textOf(cell)}${month}`;
}

/** Such a date as the other dates of a book are shown: `2026-03-02`. */
export const shownInMonth = (cell: Cell): string =>
  textOf(cell).replace(
    /^(\d+)\/(\d+)\/(\d+)$/,
    (_, day: string, month: string, year: string) =>
      `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`,
  );

/** The same as a formula says it. */
export const inMonthText = (cells: string, month: string): string => `IF(${cells}="","",${cells}&"${month}")`;
