import { READ_TITLE, cellAt, textOf, type BookSheet } from './book';
import { JOB } from './jobs';

const OUR_TITLES: ReadonlySet<string> = new Set(Object.values(JOB).map(({ title }) => title));

/** Whether a sheet was written by a fit: it is no source of another. */
export function isOurs(sheet: BookSheet): boolean {
  const title = textOf(cellAt(sheet, 0, 0));
  return title.startsWith(READ_TITLE) || OUR_TITLES.has(title);
}
