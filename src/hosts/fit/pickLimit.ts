import { isBlank } from '../../worksheet/cells/cell';
import type { Answer } from './answers';
import { cellAt, placeText, textOf, type BookSheet, type GrowersBook } from './book';
import { unaccented } from './otherLanguages';
import { isOurs } from './ours';
import { KILOGRAMS, massUnitIn, type MassUnit } from './units';
import { pickedADay, saysPicking, saysPickLimit } from './rows';
import { weekdaysIn } from './standing';
import type { WeekLimits } from './weekLimits';
import { WEEKDAYS, type Weekday } from './weeks';

// What a grower says anywhere in the book about how much can be picked in a day: a plan that passes it is no plan.

/** A limit of picking as the book says it. */
export interface SaidLimit {
  /** `Rooms!D1` */
  readonly place: string;
  readonly says: string;
  readonly values: readonly string[];
}

/** Days of the week on which nobody picks, as the book says them. */
export interface SaidDaysOff {
  readonly place: string;
  readonly says: string;
  readonly days: readonly Weekday[];
}

/** `We never pick on Sundays`, but not `no picking before Monday`. */
const NEVER =
  /\b(?:no|not|never|don'?t|nobody|kein\w*|nicht|nie|niemals|pas|jamais|nunca|geen|niet|nooit|non|mai|nao|ingen|ikke|aldrig)\b/;
const BUT =
  /\b(?:before|until|till|after|except|but|unless|bis|vor|nach|ausser|avant|apres|sauf|antes|despues|salvo|voor|tot|na|behalve|prima|dopo|tranne)\b/;
/** `We only pick Tuesdays and Fridays` */
const ONLY = /\b(?:only|nur|seulement|uniquement|solo|solamente|alleen|soltanto|tylko|apenas|kun)\b/;
const LONGEST = 100;
/** Shorter names of days may be other words, but for those in English. */
const [PLAIN_DAY, SHORT_DAY] = [5, /^(?:mon|tues?|weds?|thu|thurs?|fri|sat|sun)$/i];

/** The days of the week of which the book says that nobody picks. */
export const saidDaysOff = (book: GrowersBook): SaidDaysOff[] =>
  book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) =>
      sheet.rows.flatMap((cells, row) =>
        cells.flatMap((cell, column): SaidDaysOff[] => {
          const days = typeof cell === 'string' && cell.length <= LONGEST ? daysOffIn(cell) : [];
          return days.length === 0
            ? []
            : [{ place: placeText(sheet.name, row, column), says: textOf(cell).trim(), days }];
        }),
      ),
    );

/** The days that a sentence says to be without picking. */
export function daysOffIn(text: string): Weekday[] {
  // What customers pick up is no harvest.
  const plain = unaccented(text)
    .toLowerCase()
    .replace(/\bpick(?:ed|ing)?[\s-]?ups?\b/g, ' ');
  if (!saysPicking(plain) || BUT.test(plain)) return [];
  const [isNever, isOnly] = [NEVER.test(plain), ONLY.test(plain)];
  if (isNever === isOnly) return [];
  // `In the sun` is no day.
  const words = text.replace(/\bthe\s+\p{L}+/giu, ' ').match(/\p{L}+/gu) ?? [];
  const days = words.flatMap((word) =>
    word.length >= PLAIN_DAY || SHORT_DAY.test(word) ? weekdaysIn(word) : [],
  );
  return WEEKDAYS.filter((_, at) => days.length > 0 && days.includes(at + 1) === isNever);
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
      const own = pickedADay(cell) ?? massIn(cell) ?? figureAt(sheet, row, column + 1);
      const values = own === undefined ? figuresBelow(sheet, row, column) : [own];
      return values.length === 0
        ? []
        : [{ place: placeText(sheet.name, row, column), says: cell.trim(), values }];
    }),
  );
}

/** The only mass that a sentence names: `Most we can pick in a day: 40 kg`. */
function massIn(text: string): string | undefined {
  const [only, more] = [...text.matchAll(/(?<![\d.,])\d+(?:[.,]\d+)?\s*(?:kgs?|kilos?|lbs?|pounds?)\b/gi)];
  return more ? undefined : only?.[0];
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

/** Limits as they were given: of loading there is none where nothing is said, and 0 says that nobody picks or loads. */
export const givenLimits = (
  rows: readonly Readonly<Record<string, Answer>>[],
): readonly Readonly<Record<string, Answer>>[] =>
  rows.map((row) => {
    const limitOf = (name: string): Answer => (isZero(row[name]) ? 'off' : (row[name] ?? null));
    return { ...row, 'pick limit': limitOf('pick limit'), 'load limit': limitOf('load limit') ?? 'none' };
  });

const isZero = (answer: Answer | undefined): boolean =>
  answer !== null && answer !== '' && Number(answer) === 0;

/**
 * A row for every day, with the limit in it where the book says one and no more; a row for each day without picking, and
 * for each day of a week of limits.
 */
export function limitRows(
  said: SaidLimit | undefined,
  daysOff: readonly SaidDaysOff[],
  given: readonly Readonly<Record<string, Answer>>[] | undefined,
  unit: MassUnit | undefined,
  week: WeekLimits | undefined,
): readonly Readonly<Record<string, Answer>>[] {
  if (given && given.length > 0) return given;
  if (week && !said) return week.rows;
  const off = new Set(daysOff.flatMap(({ days }) => days));
  const without = [...off].map((day) => ({ day, 'pick limit': 'off', 'load limit': 'none' }));
  if (!said) return [{ day: 'every day', 'pick limit': 'none', 'load limit': 'none' }, ...without];
  const [value = '', ...more] = said.values;
  const own = massUnitIn(value);
  const figure = Number.parseFloat(value.replace(',', '.'));
  const factor = own === undefined || unit === undefined ? 1 : KILOGRAMS[own] / KILOGRAMS[unit];
  const only = more.length === 0 ? Number((figure * factor).toPrecision(6)) : NaN;
  const limit = Number.isFinite(only) ? only : null;
  return [{ day: 'every day', 'pick limit': limit, 'load limit': 'none' }, ...without];
}
