import { isBlank, isCellError } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf } from './book';
import type { TableFit } from './fitted';
import { SHARES, type TableName, type WantedTable } from './jobs';
import { commonest, looseKey } from './labels';
import type { Question } from './question';

export const isMissing = (answer: Answer | undefined): boolean =>
  answer === undefined || answer === null || answer === '';

/** The strains of the lots, each in its commonest spelling: what the grower is asked about. */
export const strainRows = (tables: ReadonlyMap<TableName, TableFit>): { strain: string }[] =>
  commonest(
    (tables.get('lots')?.values.get('strain') ?? []).filter((cell) => !isBlank(cell) && !isCellError(cell)),
  ).map((strain) => ({ strain }));

/** The shares of the flushes, where the strains' sheet says how many there are and no more; undefined where it says all. */
export function sharesOf(
  strains: TableFit | undefined,
  answers: Answers,
): { readonly question?: Question; readonly rows: readonly Readonly<Record<string, Answer>>[] } | undefined {
  if (!strains?.candidate.table.columns.some(({ name }) => name === 'flush')) return undefined;
  const has = (wanted: RegExp): boolean => strains.readings.some(({ name }) => wanted.test(name));
  if (!has(/^flushes$/) || has(/^flush \d+$/)) return undefined;
  const [names, counts] = [strains.values.get('strain') ?? [], strains.values.get('flushes')!];
  const kept = names.flatMap((strain, i) => {
    const flushes = counts[i];
    const isKnown = !isBlank(strain) && !isCellError(strain) && typeof flushes === 'number' && flushes >= 1;
    return isKnown ? [{ strain: textOf(strain).trim(), flushes: Math.floor(flushes) }] : [];
  });
  const numbers = Math.max(0, ...kept.map(({ flushes }) => flushes));
  if (numbers < 2 || numbers > MOST_FLUSHES) return undefined;
  const given = new Map(
    (answers.fill?.['shares'] ?? []).map((row) => [looseKey(String(row['strain'] ?? '')), row]),
  );
  const rows = kept.map(({ strain, flushes }) => {
    const own = given.get(looseKey(strain));
    const first = flushes === 1 ? '100%' : null;
    return { 'flush 1': first, ...own, strain };
  });
  const isOpen = kept.some(({ flushes }, i) =>
    Array.from({ length: flushes }, (_, at) => `flush ${at + 1}`).some((name) =>
      isMissing((rows[i] as Readonly<Record<string, Answer>>)[name]),
    ),
  );
  if (!isOpen) return { rows };
  return { rows, question: { ...fillQuestion(SHARES, rows), numbers } };
}

/** More flushes than these are a slip. */
const MOST_FLUSHES = 6;

export const fillQuestion = (
  table: WantedTable,
  rows: readonly Readonly<Record<string, Answer>>[],
): Question & { kind: 'fill' } => ({
  kind: 'fill',
  numbers: 2,
  table: table.name,
  columns: table.columns.filter(
    ({ column, isNeeded }) => isNeeded || column.role === 'numbered' || ASKED.has(table.name),
  ),
  rows,
});

/** Tables whose further columns are asked for as well: they change a plan more than they cost to type. */
const ASKED: ReadonlySet<TableName> = new Set<TableName>(['strains']);

export const isFilledIn = (
  table: WantedTable,
  rows: readonly Readonly<Record<string, Answer>>[] | undefined,
): boolean =>
  rows !== undefined &&
  rows.length > 0 &&
  rows.every((row) => table.columns.every(({ name, isNeeded }) => !isNeeded || !isMissing(row[name])));
