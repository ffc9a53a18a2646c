import type { Sentences } from './sentence';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    tooManyArguments: { readonly most: number; readonly found: number };
    leftOut: { readonly meaning: string };
    notOneColumn: { readonly rows: number; readonly columns: number };
    notOneCell: { readonly rows: number; readonly columns: number };
    otherLength: { readonly other: string; readonly length: number; readonly found: number };
    noHeader: { readonly header: string; readonly found: readonly string[] };
    headerTwice: { readonly header: string; readonly count: number };
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
> = {
  tooManyArguments: ({ most, found }) =>
    `this function takes at most ${most} arguments; it was given ${found}`,
  leftOut: ({ meaning }, { subject }) => `${subject} is needed but left out: ${meaning}`,
  notOneColumn: ({ rows, columns }, { subject }) =>
    `${subject} must be one column; it is ${rows} rows by ${columns} columns`,
  notOneCell: ({ rows, columns }, { subject }) =>
    `${subject} must be one cell; it is ${rows} rows by ${columns} columns`,
  otherLength: ({ other, length, found }, { subject }) =>
    `${subject} must have as many rows as ${other} (${length}) or one cell; it has ${found}`,
  noHeader: ({ header, found }, { subject }) =>
    `${subject} needs a column headed ${header}; ` +
    (found.length > 0 ? `its headers are ${found.join(', ')}` : 'its first row holds no headers'),
  headerTwice: ({ header, count }, { subject }) =>
    `${subject} must have one column headed ${header}; it has ${count}`,
  labelTwice: ({ label, table, rows }, { subject, quoted, listed }) =>
    `${subject}: ${quoted(label)} must be in one row of ${table}; it is in rows ${listed(rows.slice(0, 5).map(String))}` +
    (rows.length > 5 ? ` and ${rows.length - 5} more` : ''),
};
