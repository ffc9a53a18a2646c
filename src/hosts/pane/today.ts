import { weekdayOf } from '../../worksheet/calendar';
import { PREFIX } from '../../worksheet/constants';
import { isCellError, type Cell } from '../../worksheet/cells/cell';
import { shownCell } from '../../worksheet/cells/shown';
import { cellAt, showsDate, type BookSheet, type GrowersBook } from '../fit/book';
import { addressOf, placeOf } from '../xlsx/address';
import type { FormulaCell, Place } from './book';

// What is to be done today and in the six days after: what functions in the book have answered, and nothing else.

export const TODAY_JOBS = ['open', 'pick', 'inoculate', 'look at'] as const;
export type TodayJob = (typeof TODAY_JOBS)[number];

/** Something to do on a day, and the cell that says so. */
export interface TodayLine {
  readonly job: TodayJob;
  readonly day: number;
  readonly words: string;
  readonly place: Place;
}

export interface TodayList {
  readonly day: number;
  /** The cell that says which day it is; none where this computer says it. */
  readonly dayFrom: Place | undefined;
  /** By day, and of one day in the order in which it is best done. */
  readonly lines: readonly TodayLine[];
  /** Jobs that nothing in the book tells of. */
  readonly untold: readonly TodayJob[];
}

const AHEAD = 6;
const ORDER: readonly TodayJob[] = ['pick', 'look at', 'open', 'inoculate'];

/** An answer of a function as its cells show it, by its headers. */
interface Answer {
  readonly sheet: string;
  readonly headers: readonly string[];
  readonly rows: readonly { readonly at: Place; readonly of: Readonly<Record<string, Cell>> }[];
}

interface Teller {
  /** The function, and headers that tell this answer of it from others. */
  readonly name: string;
  readonly headers: readonly string[];
  readonly tells: readonly TodayJob[];
  readonly lines: (row: Readonly<Record<string, Cell>>, day: number) => Omit<TodayLine, 'place'>[];
}

const figure = (cell: Cell | undefined): number | undefined => (typeof cell === 'number' ? cell : undefined);
const label = (cell: Cell | undefined): string => (typeof cell === 'string' ? cell.trim() : '');
const counted = (cell: Cell | undefined, unit: string): string =>
  figure(cell) === undefined ? '' : `${shownCell(figure(cell)!)} ${unit}`;
const blocks = (row: Readonly<Record<string, Cell>>): string => counted(row['blocks'], 'blocks');
/** A mass that is expected is not known to the gram. */
const expected = (cell: Cell | undefined): string =>
  figure(cell) === undefined ? '' : `${shownCell(Number(figure(cell)!.toPrecision(2)))} expected`;
const joined = (separator: string, ...words: readonly string[]): string =>
  words.filter((word) => word !== '').join(separator);

const picked = (header: string) => (row: Readonly<Record<string, Cell>>) => {
  const [on, mass] = [figure(row['date']), figure(row[header])];
  return on === undefined || mass === undefined || mass <= 0
    ? []
    : [{ job: 'pick' as const, day: on, words: `${expected(mass)} in all` }];
};

/** What the answers tell, the most telling first: a job that one has told of is not taken from a later one. */
const TELLERS: readonly Teller[] = [
  {
    name: 'LOADPLAN',
    headers: ['day', 'weekday', 'job', 'lot', 'room'],
    tells: ['open', 'pick', 'look at'],
    lines: (row) => {
      const [day, job] = [figure(row['day']), TODAY_JOBS.find((one) => one === row['job'])];
      if (day === undefined || job === undefined) return [];
      const what = joined(' ', label(row['lot']), label(row['strain']));
      const where = label(row['room']);
      return [
        {
          job,
          day,
          words: joined(', ', what, blocks(row), expected(row['mass']), where, label(row['note'])),
        },
      ];
    },
  },
  {
    name: 'LOADPLAN',
    headers: ['loaded', 'lot', 'strain', 'room', 'blocks'],
    tells: ['open'],
    lines: (row) => {
      const day = figure(row['loaded']);
      if (day === undefined || label(row['lot']) === '') return [];
      const what = joined(' ', label(row['lot']), label(row['strain']));
      return [{ job: 'open', day, words: joined(', ', what, blocks(row), label(row['room'])) }];
    },
  },
  {
    name: 'LOADPLAN',
    headers: ['date', 'expected', 'limit'],
    tells: ['pick'],
    lines: picked('expected'),
  },
  { name: 'PICKCALENDAR', headers: ['date', 'total'], tells: ['pick'], lines: picked('total') },
  {
    name: 'READYLOTS',
    headers: ['lot', 'strain', 'blocks', 'ready', 'latest', 'state'],
    tells: ['open', 'look at'],
    lines: (row, today) => {
      const [ready, latest] = [figure(row['ready']), figure(row['latest'])];
      if (ready === undefined || latest === undefined || latest < today) return [];
      const what = joined(', ', `${label(row['lot'])} ${label(row['strain'])}`.trim(), blocks(row));
      const last = { job: 'look at', day: latest, words: `${what}: the last day to open it` } as const;
      const ripe = ready <= today ? 'may be opened' : 'comes ready';
      return [{ job: 'open', day: Math.max(ready, today), words: `${what}: ${ripe}` }, last];
    },
  },
  {
    name: 'BACKPLAN',
    headers: ['date', 'task', 'step', 'strain', 'units'],
    tells: ['inoculate'],
    lines: (row) => {
      const day = figure(row['date']);
      if (day === undefined || !/^(start|use stock)/.test(label(row['task']))) return [];
      const what = joined(' ', label(row['step']), label(row['strain']));
      return [{ job: 'inoculate', day, words: joined(', ', what, counted(row['units'], 'units')) }];
    },
  },
  {
    name: 'SPAWNCHAIN',
    headers: ['step', 'start', 'start on', 'ready by'],
    tells: ['inoculate'],
    lines: (row) => {
      const day = figure(row['start on']);
      if (day === undefined) return [];
      return [
        { job: 'inoculate', day, words: joined(', ', label(row['step']), counted(row['start'], 'units')) },
      ];
    },
  },
];

/**
 * What is to be done, from the answers in a book.
 * @param deviceDay today by this computer, for a book that does not say which day it is
 */
export function todayList(book: GrowersBook, formulas: readonly FormulaCell[], deviceDay: number): TodayList {
  const told = dayOf(book);
  const day = told?.day ?? deviceDay;
  const lines: TodayLine[] = [];
  /** Of the answers of a function that are errors the first speaks for all. */
  const faults = new Map<string, TodayLine>();
  const known = new Set<TodayJob>();
  const hoped = new Set<TodayJob>();
  for (const { name, headers, tells, lines: linesOf } of TELLERS) {
    const jobs = tells.filter((job) => !known.has(job));
    for (const formula of formulas) {
      if (!formula.formula.toUpperCase().includes(`${PREFIX}${name}(`)) continue;
      const fault = faultLine(formula, day);
      if (fault) {
        if (!faults.has(name)) faults.set(name, fault);
        for (const job of tells) hoped.add(job);
        continue;
      }
      const answer = answerAt(book, formula);
      if (!answer || !headers.every((header) => answer.headers.includes(header))) continue;
      for (const { at, of } of answer.rows) {
        const ofRow = linesOf(of, day).filter((line) => jobs.includes(line.job));
        lines.push(...ofRow.map((line) => ({ ...line, day: Math.floor(line.day), place: at })));
      }
      for (const job of jobs) known.add(job);
    }
  }
  lines.push(...faults.values());
  const unique = [...new Map(lines.map((line) => [`${line.day} ${line.job} ${line.words}`, line])).values()];
  return {
    day,
    dayFrom: told?.place,
    lines: unique
      .filter((line) => line.day >= day && line.day <= day + AHEAD)
      .sort((a, b) => a.day - b.day || ORDER.indexOf(a.job) - ORDER.indexOf(b.job)),
    untold: TODAY_JOBS.filter((job) => !known.has(job) && !hoped.has(job)),
  };
}

/** An answer that is an error, or is not there yet, is something to look at. */
function faultLine({ sheet, address, error, at }: FormulaCell, day: number): TodayLine | undefined {
  if (error === undefined || (at !== undefined && at !== address)) return undefined;
  const words =
    error === '#BUSY!'
      ? `${sheet}: the plan is being worked out`
      : `${sheet}: the answer in ${address} is ${error}; select it to read why`;
  return { job: 'look at', day, words, place: { sheet, address } };
}

/** An answer with its headers from its formula's cell on: to the first blank header, and down to the first blank row. */
function answerAt({ sheets }: GrowersBook, { sheet, address }: FormulaCell): Answer | undefined {
  const on = sheets.find(({ name }) => name === sheet);
  const from = placeOf(address);
  if (!on || !from) return undefined;
  const headers: string[] = [];
  const header = (): Cell => cellAt(on, from.row, from.column + headers.length);
  while (label(header()) !== '' && on.isFormula(from.row, from.column + headers.length))
    headers.push(label(header()));
  const rows: Answer['rows'][number][] = [];
  for (let row = from.row + 1; row < on.rows.length; row++) {
    const cells = headers.map((_, n) => cellAt(on, row, from.column + n));
    if (cells.every((cell) => cell === null || cell === '')) break;
    rows.push({
      at: { sheet, address: addressOf({ row, column: from.column }) },
      of: Object.fromEntries(headers.map((name, n) => [name, cells[n]!])),
    });
  }
  return { sheet, headers, rows };
}

/** The day in the cell beside or below one that reads "Today", where the book has one. */
function dayOf({ sheets }: GrowersBook): { day: number; place: Place } | undefined {
  for (const sheet of sheets) {
    for (const [row, cells] of sheet.rows.entries()) {
      for (const [column, cell] of cells.entries()) {
        if (typeof cell !== 'string' || cell.trim().toLowerCase() !== 'today') continue;
        const found = [
          [row, column + 1],
          [row + 1, column],
        ].find(([r, c]) => isDay(sheet, r!, c!));
        if (!found) continue;
        const [r, c] = found as [number, number];
        const place = { sheet: sheet.name, address: addressOf({ row: r, column: c }) };
        return { day: Math.floor(cellAt(sheet, r, c) as number), place };
      }
    }
  }
  return undefined;
}

const isDay = (sheet: BookSheet, row: number, column: number): boolean => {
  const cell = cellAt(sheet, row, column);
  return (
    typeof cell === 'number' && !isCellError(cell) && cell >= 1 && showsDate(sheet.formatAt(row, column))
  );
};

/** `Monday 2026-03-16` */
export const dayWords = (day: number, { dateSystem }: GrowersBook): string =>
  `${weekdayOf(day, dateSystem)} ${shownCell(day, 'date', dateSystem)}`;
