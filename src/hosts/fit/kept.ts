import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Answer, Answers, BlankMeaning, LostMeaning, StruckMeaning } from './answers';
import { cellAt, READ_TITLE, type BookSheet, type GrowersBook } from './book';
import { JOB, type JobName } from './jobs';
import { ROWS } from './readPlaces';
import type { DecimalMark } from './units';
import type { Weekday } from './weeks';
import type { DateOrder } from '../../worksheet/writtenDates';

const textAt = (sheet: BookSheet, row: number, column: number): string => {
  const cell = cellAt(sheet, row - 1, column);
  return typeof cell === 'string' ? cell.trim() : '';
};

const answerOf = (cell: Cell): Answer =>
  isCellError(cell) || isBlank(cell) || typeof cell === 'boolean' ? null : cell;

/** The sheets of readings that earlier fits left in the book, those of this job first. */
function readSheets({ sheets }: GrowersBook, job: JobName): BookSheet[] {
  const own = `${READ_TITLE}${JOB[job].title}`;
  return sheets
    .filter((sheet) => textAt(sheet, 1, 0).startsWith(READ_TITLE))
    .sort((a, b) => Number(textAt(b, 1, 0) === own) - Number(textAt(a, 1, 0) === own));
}

/** What the grower answered before, as the book itself keeps it: nothing has to be asked twice. */
export function keptAnswers(book: GrowersBook, job: JobName): Answers {
  const tables: Record<string, string> = {};
  const columns: Record<string, Record<string, string>> = {};
  const dates: Record<string, DateOrder> = {};
  const years: Record<string, number> = {};
  const weekdays: Record<string, Weekday> = {};
  const decimals: Record<string, DecimalMark> = {};
  const blanks: Record<string, BlankMeaning> = {};
  const struck: Record<string, StruckMeaning> = {};
  const lost: Record<string, Record<string, LostMeaning>> = {};
  const rows: Record<string, Record<string, string[]>> = {};
  const taken: Record<string, string[]> = {};
  const products: Record<string, string[]> = {};
  const fill: Record<string, Record<string, Answer>[]> = {};
  const figures: Record<string, Answer> = {};
  for (const sheet of readSheets(book, job)) {
    const width = Math.max(0, ...sheet.rows.map((row) => row.length));
    for (let left = 0; left < width; left++) {
      const part = textAt(sheet, ROWS.part, left);
      const [, name, from] = /^(\w+), (?:from (.+)|as you gave them)$/.exec(part) ?? [];
      if (name === undefined) continue;
      const headers = headersFrom(sheet, left);
      if (from !== undefined) {
        if (name in tables) continue;
        tables[name] = from;
        headers.forEach((header, i) => {
          const own = textAt(sheet, ROWS.own, left + i);
          const how = textAt(sheet, ROWS.how, left + i);
          if (own !== '') (columns[name] ??= {})[header] = own;
          const ofAll = new RegExp(`^(.+) for all ${name}(?=$|,)`).exec(how)?.[1];
          if (ofAll !== undefined) figures[`${name}, ${header}`] = ofAll;
          const order = /^(?:day|month|year) first(?=$|,)/.exec(how)?.[0];
          if (order !== undefined) dates[`${name}, ${header}`] = order as DateOrder;
          const year = /, year (\d{4})(?=$|,)/.exec(how)?.[1];
          if (year !== undefined) years[`${name}, ${header}`] = Number(year);
          const weekday = /, weeks as (\w+day)(?=$|,)/.exec(how)?.[1];
          if (weekday !== undefined) weekdays[`${name}, ${header}`] = weekday as Weekday;
          const ofStruck = /struck-out rows (left out|counted)$/.exec(how)?.[1];
          if (ofStruck !== undefined) struck[name] = ofStruck as StruckMeaning;
          const ofRows = /, rows of “(.+?)”: (.*?)(?=, rows of “|, struck-out|$)/g;
          for (const [, column, words] of how.matchAll(ofRows))
            (rows[name] ??= {})[column!] = words!.split(' / ');
          const ofLost = /(?:^|, )without those under (.+?)(?=, not gone: |, rows of “|$)/.exec(how)?.[1];
          for (const one of ofLost?.split(' and ') ?? []) (lost[name] ??= {})[one] = 'gone';
          const notLost = /(?:^|, )not gone: (.+?)(?=, rows of “|$)/.exec(how)?.[1];
          for (const one of notLost?.split(' / ') ?? []) (lost[name] ??= {})[one] = 'not gone';
          const less =
            /(?:^|, )less those of (.+?)(?=, without those under |, not gone: |, rows of “|$)/.exec(how)?.[1];
          if (less !== undefined) taken[name] = less.split(' / ');
          if (/blanks as above(?=$|,)/.test(how)) blanks[`${name}, ${header}`] = 'as above';
          const mark = /decimal (point|comma)(?=$|,)/.exec(how)?.[1];
          if (mark !== undefined) decimals[`${name}, ${header}`] = mark as DecimalMark;
        });
      } else if (name === 'products') {
        for (const [strain, word] of recordsFrom(sheet, left, 2)) {
          if (strain === null || word === null) continue;
          (products[String(word)] ??= []).push(String(strain));
        }
      } else if (!(name in fill)) {
        fill[name] = recordsFrom(sheet, left, headers.length).map((row) =>
          Object.fromEntries(headers.map((header, i) => [header, row[i]!])),
        );
      }
    }
  }
  return {
    tables,
    columns,
    dates,
    years,
    weekdays,
    decimals,
    blanks,
    struck,
    lost,
    rows,
    taken,
    products,
    fill,
    figures,
  };
}

function headersFrom(sheet: BookSheet, left: number): string[] {
  const headers: string[] = [];
  for (let column = left; textAt(sheet, ROWS.head, column) !== ''; column++) {
    headers.push(textAt(sheet, ROWS.head, column));
  }
  return headers;
}

function recordsFrom(sheet: BookSheet, left: number, width: number): Answer[][] {
  const records: Answer[][] = [];
  for (let row = ROWS.first; ; row++) {
    const cells = Array.from({ length: width }, (_, i) => answerOf(cellAt(sheet, row - 1, left + i)));
    if (cells.every((cell) => cell === null)) return records;
    records.push(cells);
  }
}

/** Answers with later ones put over them, part by part. */
export function withAnswers(before: Answers, later: Answers): Answers {
  const columns = { ...before.columns };
  for (const [table, own] of Object.entries(later.columns ?? {}))
    columns[table] = { ...columns[table], ...own };
  const rows = { ...before.rows };
  for (const [table, own] of Object.entries(later.rows ?? {})) rows[table] = { ...rows[table], ...own };
  const lost = { ...before.lost };
  for (const [table, own] of Object.entries(later.lost ?? {})) lost[table] = { ...lost[table], ...own };
  return {
    tables: { ...before.tables, ...later.tables },
    columns,
    dates: { ...before.dates, ...later.dates },
    years: { ...before.years, ...later.years },
    weekdays: { ...before.weekdays, ...later.weekdays },
    decimals: { ...before.decimals, ...later.decimals },
    blanks: { ...before.blanks, ...later.blanks },
    struck: { ...before.struck, ...later.struck },
    lost,
    rows,
    taken: { ...before.taken, ...later.taken },
    products: { ...before.products, ...later.products },
    fill: { ...before.fill, ...later.fill },
    leaveOut: { ...before.leaveOut, ...later.leaveOut },
    figures: { ...before.figures, ...later.figures },
  };
}
