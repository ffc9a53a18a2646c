import { counted, inLine } from './phrases';
import type { Sentences } from './sentence';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    tooManyArguments: { readonly most: number; readonly found: number };
    leftOut: { readonly meaning: string };
    notOneColumn: { readonly rows: number; readonly columns: number };
    notOneCell: { readonly rows: number; readonly columns: number };
    otherLength: { readonly other: string; readonly length: number; readonly found: number };
    /** Needed headers that no row of the first has all of, each with the nearest that was found. */
    noHeader: {
      readonly headers: readonly { readonly header: string; readonly near?: string }[];
      readonly found: readonly string[];
    };
    headerTwice: { readonly header: string; readonly found: readonly string[] };
    /** A header whose brackets contradict what is asked. */
    otherUnit: { readonly header: string; readonly unit: string; readonly needed: string };
    /** Two headers of one call that name different units of one measure. */
    unitClash: { readonly unit: string; readonly other: string; readonly otherUnit: string };
    /** A row with figures and a blank where its key should be. */
    noKey: { readonly key: string; readonly header: string };
    labelTwice: { readonly label: string; readonly table: string; readonly rows: readonly number[] };
  }
}

/** Faults of how a call is put together, before any calculation. */
export const boundary: Sentences<
  | 'tooManyArguments'
  | 'leftOut'
  | 'notOneColumn'
  | 'notOneCell'
  | 'otherLength'
  | 'noHeader'
  | 'headerTwice'
  | 'labelTwice'
  | 'otherUnit'
  | 'unitClash'
  | 'noKey'
> = {
  tooManyArguments: ({ most, found }) =>
    `this function takes at most ${most} arguments; it was given ${found}`,
  leftOut: ({ meaning }, { subject }) => `${subject} is needed but left out: ${meaning}`,
  notOneColumn: ({ rows, columns }, { subject }) =>
    `${subject} must be one column; it is ${counted(rows, 'row')} by ${counted(columns, 'column')}`,
  notOneCell: ({ rows, columns }, { subject }) =>
    `${subject} must be one cell; it is ${counted(rows, 'row')} by ${counted(columns, 'column')}`,
  otherLength: ({ other, length, found }, { subject }) =>
    `${subject} must have as many rows as ${other} (${length}) or one cell; it has ${found}`,
  noHeader: ({ headers, found }, { subject, quoted, listed }) => {
    const needed = listed(
      headers.map(
        ({ header, near }) => inLine(header) + (near === undefined ? '' : ` (is it ${quoted(near)}?)`),
      ),
    );
    const columns = headers.length === 1 ? 'a column' : 'columns';
    const has =
      found.length > 0
        ? `its headers are ${found.map(inLine).join(', ')}`
        : 'none of its first rows holds headers';
    return `${subject} needs ${columns} headed ${needed}; ${has}`;
  },
  headerTwice: ({ header, found }, { subject, quoted, listed }) =>
    `${subject} must have one column for ${header}; it has ${listed(found.map(quoted))}`,
  otherUnit: ({ header, unit, needed }, { subject, quoted }) =>
    `${subject} must be ${needed}; its header ${quoted(header)} says ${unit}`,
  unitClash: ({ unit, other, otherUnit }, { subject, named }) =>
    `${subject} is in ${unit}, but ${named(other)} is in ${otherUnit}: use one unit in a call`,
  noKey: ({ key, header }, { quoted }) =>
    `${key} is blank, but ${quoted(header)} is not: fill it in or clear the row`,
  labelTwice: ({ label, table, rows }, { subject, quoted, listed }) =>
    `${subject}: ${quoted(label)} must be in one row of ${table}; it is in rows ${listed(rows.slice(0, 5).map(String))}` +
    (rows.length > 5 ? ` and ${rows.length - 5} more` : ''),
};
