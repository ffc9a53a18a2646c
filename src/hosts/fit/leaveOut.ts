import type { ReadRange } from './columns';
import type { Fit } from './fitted';
import type { JobName, TableName } from './jobs';

/** Whether the records of a table that cannot be read are left out until they are corrected, as the grower said. */
export const fitLeavesOut = (fit: Fit, table: TableName): boolean =>
  fit.answers.leaveOut?.[table] === true && mayBeLeftOut(fit).includes(table);

/** Tables of which one record that cannot be read would spoil the whole answer. */
const MAY_LEAVE_OUT: Partial<Record<JobName, readonly TableName[]>> = { plan: ['lots', 'orders', 'rooms'] };

/** The tables whose records that cannot be read the grower may leave out until they are corrected. */
export const mayBeLeftOut = ({ job, unread }: Pick<Fit, 'job' | 'unread'>): readonly TableName[] =>
  (MAY_LEAVE_OUT[job.name] ?? []).filter((table) =>
    unread.some(({ about }) => about.startsWith(`${table}, `)),
  );

/** How many records are left out now: all that are there, without those of which the sheet of readings has the row. */
export function leftOutFormula(ranges: readonly ReadRange[], key: number, rows: string): string {
  const counted = ranges.map(({ column, test, rows: all }) =>
    test === undefined ? `COUNTA(${column(key)})` : `COUNT(IF(${test},${all}))`,
  );
  return `=${counted.join('+')}-COUNT(${rows})`;
}
