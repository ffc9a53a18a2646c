import type { Answer, Answers, BlankMeaning, LostMeaning, StruckMeaning } from '../../fit/answers';
import type { Fit } from '../../fit/fitted';
import type { TableName } from '../../fit/jobs';
import type { Weekday } from '../../fit/weeks';
import { figureOf } from '../../fit/answered';
import { node, type PageNode } from '../node';

// Fields that hold answers: each says in `data-answer` which, as `fill:rooms:0:shelves`.

/** A field that says which header of the grower's serves for a column. */
export const COLUMN_ASKED = 'columns';
/** The choice of no header. */
export const NO_COLUMN = '';

/** The answer that there is no such column. */
export const NONE = '\u2013';

export const selectOf = (
  label: string,
  field: string,
  choices: readonly (readonly [value: string, words: string])[],
  chosen: string,
): PageNode =>
  node(
    'select',
    { 'aria-label': label, 'data-answer': field },
    choices.map(([value, words]) =>
      node('option', { value, selected: value === chosen ? '' : undefined }, words),
    ),
  );

export const inputOf = (label: string, field: string, value: Answer): PageNode =>
  node('input', {
    'data-answer': field,
    'aria-label': label,
    value: value === null ? '' : String(value),
  });

/** Whether another answer in this field changes how the book is read. */
export const changesTheMatch = (field: string): boolean =>
  field.startsWith('tables:') || field.startsWith(`${COLUMN_ASKED}:`);

/** The answers as the fields of the page hold them; `fit` is what they were made from. */
export function answersIn(root: HTMLElement, fit: Fit): Answers {
  const tables: Record<string, string> = {};
  const columns: Record<string, Record<string, string | null>> = {};
  const dates: Record<string, 'day first' | 'month first' | 'year first'> = {};
  const years: Record<string, number> = {};
  const weekdays: Record<string, Weekday> = {};
  const decimals: Record<string, 'point' | 'comma'> = {};
  const blanks: Record<string, BlankMeaning> = {};
  const struck: Record<string, StruckMeaning> = {};
  const lost: Record<string, Record<string, LostMeaning>> = {};
  const rows: Record<string, Record<string, string[]>> = {};
  const taken: Record<string, string[]> = {};
  const products: Record<string, string[]> = {};
  const fill: Record<string, Record<string, Answer>[]> = {};
  const figures: Record<string, Answer> = {};
  const leaveOut: Record<string, boolean> = {};
  for (const one of root.querySelectorAll<HTMLInputElement | HTMLSelectElement>('[data-answer]')) {
    const [kind, first, ...rest] = one.dataset['answer']!.split(':') as [string, string, ...string[]];
    const isChecked = !('checked' in one) || one.checked || (one.type !== 'radio' && one.type !== 'checkbox');
    const value = one.value.trim();
    if (kind === 'leaveOut') leaveOut[first] = isChecked;
    if (kind === 'products') products[first] ??= [];
    if (kind === 'taken') taken[first] ??= [];
    const own = kind === 'rows' ? ((rows[first] ??= {})[rest.join(':')] ??= []) : undefined;
    if (!isChecked) continue;
    if (kind === 'tables' && value !== '') tables[first] = value;
    if (kind === COLUMN_ASKED && value === NONE) (columns[first] ??= {})[rest[0]!] = null;
    else if (kind === COLUMN_ASKED && isChanged(fit, first, rest[0]!, value)) {
      (columns[first] ??= {})[rest[0]!] = value === NO_COLUMN ? null : value;
    }
    if (kind === 'dates') dates[first] = value as 'day first';
    if (kind === 'years' && /^\d{4}$/.test(value)) years[first] = Number(value);
    if (kind === 'weekdays' && value !== '') weekdays[first] = value as Weekday;
    if (kind === 'decimals') decimals[first] = value as 'point';
    if (kind === 'struck') struck[first] = value as StruckMeaning;
    if (kind === 'lost') (lost[first] ??= {})[rest.join(':')] = value as LostMeaning;
    if (kind === 'blanks') blanks[first] = value as BlankMeaning;
    own?.push(value);
    if (kind === 'taken') taken[first]!.push(value);
    if (kind === 'products') products[first]!.push(value);
    if (kind === 'figures' && value !== '') figures[first] = value;
    if (kind === 'fill' && value !== '') {
      const row = Number(rest[0]);
      const rows = (fill[first] ??= []);
      while (rows.length <= row) rows.push({});
      rows[row]![rest[1]!] = figureOf(value, true);
    }
  }
  for (const [table, rows] of Object.entries(fill)) {
    fill[table] = rows.filter((row) => Object.keys(row).length > 0);
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
    leaveOut,
  };
}

/** Whether a column is matched with another header than was proposed. */
function isChanged({ tables }: Fit, table: string, column: string, header: string): boolean {
  const readings = tables.get(table as TableName)?.readings ?? [];
  const match = readings.find(({ name }) => name === column)?.match;
  return (match?.header ?? NO_COLUMN) !== header;
}
