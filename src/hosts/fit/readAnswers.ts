import { BLANKS, LOST, OPEN, STRUCK, type Answers } from './answers';
import { CLOSURES, JOBS, JOB, LIMITS, SHARES } from './jobs';
import { isFor } from './looks';
import { FIGURES } from './question';
import { ALIKE_ANSWERS } from './saidOfAll';
import { WEEKDAYS } from './weeks';

/** What is wrong with a file of answers. */
export class AnswersFault extends Error {}

/** What a value may be, and how that is said. */
type Wanted = readonly [isRight: (value: unknown) => boolean, needed: string];

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): boolean => typeof value === 'string';
const isFigure = (value: unknown): boolean =>
  value === null || isText(value) || (typeof value === 'number' && Number.isFinite(value));
const areTexts = (value: unknown): boolean => Array.isArray(value) && value.every(isText);
const areRows = (value: unknown): boolean =>
  Array.isArray(value) && value.every((row) => isObject(row) && Object.values(row).every(isFigure));
const isYear = (value: unknown): boolean =>
  Number.isInteger(value) && Number(value) >= 1905 && Number(value) <= 9999;
/** 2026-02-30 is no day: the calendar makes another of it. */
const isDay = (value: unknown): boolean => {
  if (typeof value !== 'string' || !/^\d{4}-\d\d-\d\d$/.test(value)) return false;
  const day = new Date(`${value}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(value);
};

const orNull = ([isRight, needed]: Wanted): Wanted => [(value) => value === null || isRight(value), needed];
const oneOf = (words: readonly string[], needed = words.join(' or ')): Wanted =>
  orNull([(value) => words.includes(value as string), `${needed} needed`]);

/** The names that a part of the answers has, and what each holds. */
const PARTS: Readonly<Record<string, readonly ['table' | 'column' | 'figure' | 'any', Wanted]>> = {
  tables: ['table', [isText, 'a part of the book needed, such as "Lots!A1:H20"']],
  columns: [
    'table',
    [
      (value) => isObject(value) && Object.values(value).every((one) => one === null || isText(one)),
      'an object needed: for each column a header or null',
    ],
  ],
  dates: [
    'column',
    oneOf(['day first', 'month first', 'year first'], 'day first, month first or year first'),
  ],
  years: ['column', orNull([isYear, 'a year such as 2026 needed'])],
  weekdays: ['column', oneOf(WEEKDAYS, `one of ${WEEKDAYS.join(', ')}`)],
  decimals: ['column', oneOf(['point', 'comma'])],
  blanks: ['column', oneOf(BLANKS)],
  struck: ['table', oneOf(STRUCK)],
  lost: [
    'table',
    [
      (value) =>
        isObject(value) &&
        Object.values(value).every((one) => one === null || (LOST as readonly unknown[]).includes(one)),
      `for each header ${LOST.join(' or ')} needed`,
    ],
  ],
  rows: [
    'table',
    [
      (value) => isObject(value) && Object.values(value).every(areTexts),
      'for each header a list of words needed',
    ],
  ],
  taken: ['table', [areTexts, 'a list of words needed']],
  products: ['any', [areTexts, 'a list of strains needed']],
  fill: ['table', [areRows, 'a list of rows needed, each an object of figures and words']],
  figures: ['figure', [isFigure, 'a figure or a word needed']],
  leaveOut: ['table', [(value) => typeof value === 'boolean', 'true or false needed']],
};

const TABLES = [...JOBS.flatMap((job) => JOB[job].tables), SHARES, LIMITS, CLOSURES];
const NAMES = [...new Set(TABLES.map(({ name }) => name))];
const FIGURE_NAMES = [...['today', 'days', ...Object.keys(FIGURES)], ...ALIKE_ANSWERS];

/** Answers of a JSON text. @throws AnswersFault with one sentence where it is none */
export function readAnswers(text: string): Answers {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch (fault) {
    throw new AnswersFault(`the answers are not sound JSON: ${(fault as Error).message}`);
  }
  if (!isObject(read)) throw new AnswersFault('the answers must be one JSON object');
  const twice = nameTwice(text);
  if (twice !== undefined) throw new AnswersFault(`the answers have ${short(twice)} twice in one object`);
  for (const [part, value] of Object.entries(read)) {
    const wanted = Object.hasOwn(PARTS, part) ? PARTS[part] : undefined;
    if (!wanted) throw new AnswersFault(unknown('the answers have no part', part, Object.keys(PARTS)));
    if (!isObject(value)) throw new AnswersFault(`${part} in the answers must be an object`);
    const [of, [isRight, needed]] = wanted;
    for (const [name, held] of Object.entries(value)) {
      if (of === 'figure') known(`${part} in the answers has no`, name, FIGURE_NAMES);
      if (of === 'table') known(`${part} in the answers has no table`, name, NAMES);
      if (of === 'column') knownColumn(part, name);
      if (!isRight(held)) throw new AnswersFault(`${part}, ${short(name)}: ${needed}`);
      if (part === 'fill')
        for (const column of new Set((held as object[]).flatMap(Object.keys)))
          knownColumn(part, `${name}, ${column}`);
      if (part === 'columns')
        for (const column of Object.keys(held as object)) knownColumn(part, `${name}, ${column}`);
    }
  }
  const today = (read['figures'] as Record<string, unknown> | undefined)?.['today'] ?? null;
  if (today !== null && today !== '' && !isDay(today))
    throw new AnswersFault('figures, today: a day needed, written as 2026-03-30');
  return withoutOpen(read);
}

/** Answers without what a template leaves open; a header that is said to be none. */
function withoutOpen(read: Answers): Answers {
  const answered = <T>(part: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(part).filter(([, held]) => held !== OPEN));
  const headers = (part: Readonly<Record<string, string | null>>): Record<string, string | null> =>
    Object.fromEntries(
      Object.entries(answered(part)).map(([name, held]) => [name, held === 'none' ? null : held]),
    );
  const { tables, columns } = read;
  return {
    ...read,
    ...(tables && { tables: answered(tables) }),
    ...(columns && {
      columns: Object.fromEntries(Object.entries(columns).map(([table, own]) => [table, headers(own)])),
    }),
  };
}

/** A name that one object of a sound JSON text holds twice: only the last would be read. */
function nameTwice(text: string): string | undefined {
  const open: Set<string>[] = [];
  for (const [token, name] of text.matchAll(/("(?:[^"\\]|\\.)*")\s*:|"(?:[^"\\]|\\.)*"|[{}]/g)) {
    if (token === '{') open.push(new Set());
    else if (token === '}') open.pop();
    else if (name !== undefined) {
      const own = JSON.parse(name) as string;
      if (open.at(-1)!.has(own)) return own;
      open.at(-1)!.add(own);
    }
  }
  return undefined;
}

/** `lots, inoculated`: a table and one of its columns. */
function knownColumn(part: string, name: string): void {
  const [table = '', ...rest] = name.split(', ');
  known(`${part} in the answers has no table`, table, NAMES);
  const columns = TABLES.filter((one) => one.name === table).flatMap((one) => one.columns);
  const column = rest.join(', ');
  const isKnown = columns.some((one) => isFor(one, column));
  const names = [...new Set(columns.map((one) => one.name))];
  if (!isKnown) throw new AnswersFault(unknown(`${part}: ${table} has no column`, column, names));
}

function known(what: string, name: string, names: readonly string[]): void {
  if (!names.includes(name)) throw new AnswersFault(unknown(what, name, names));
}

const unknown = (what: string, name: string, names: readonly string[]): string =>
  `${what} ${short(name)}, only ${names.join(', ')}`;

const LONGEST = 40;
const short = (name: string): string => (name.length > LONGEST ? `${name.slice(0, LONGEST)}…` : name);
