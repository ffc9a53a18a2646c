import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf } from './book';
import type { TableFit } from './fitted';
import { SHARES, type TableName, type WantedTable } from './jobs';
import { commonest, looseKey } from './labels';
import { lackingIn } from './lacking';
import type { Question } from './question';
import type { Referred } from './referred';
import { saidText } from './saidOfAll';

export const isMissing = (answer: Answer | undefined): boolean =>
  answer === undefined || answer === null || answer === '';

/** The strains of the lots, each in its commonest spelling: what the grower is asked about. */
export const strainRows = (tables: ReadonlyMap<TableName, TableFit>): { strain: string }[] =>
  commonest(
    (tables.get('lots')?.values.get('strain') ?? []).filter((cell) => !isBlank(cell) && !isCellError(cell)),
  ).map((strain) => ({ strain }));

/** What is typed of strains. */
interface Shares {
  readonly question?: Question;
  readonly rows: readonly Readonly<Record<string, Answer>>[];
  /** Whether a strain has shares of fewer flushes than its sheet or one figure for all says. */
  readonly isFewer?: boolean;
}

const shareNames = (flushes: number): string[] =>
  Array.from({ length: flushes }, (_, at) => `flush ${at + 1}`);

const isOfFlush = (name: string): boolean => /^flush \d+$/.test(name);
/** 0 and a dash say that a strain has no such flush. */
const isNone = (answer: Answer | undefined): boolean =>
  typeof answer === 'string' ? /^\s*(?:0+(?:[.,]0+)?\s*%?|[-–—]|none|n\/a)\s*$/i.test(answer) : answer === 0;

const sharesIn = (row: Readonly<Record<string, Answer>>): number[] =>
  Object.entries(row).flatMap(([name, answer]) => {
    if (!isOfFlush(name) || isMissing(answer) || isNone(answer)) return [];
    const figure = Number.parseFloat(String(answer).replace(',', '.'));
    return [figure > 1 || String(answer).includes('%') ? figure / 100 : figure];
  });
const countOf = (row: Readonly<Record<string, Answer>>): number => sharesIn(row).length;

/** Shares that add up to a whole leave no flush open. */
const isWhole = (row: Readonly<Record<string, Answer>>): boolean =>
  Math.abs(sharesIn(row).reduce((sum, one) => sum + one, 0) - 1) < 0.005;

const withoutNone = (row: Readonly<Record<string, Answer>>): Readonly<Record<string, Answer>> =>
  Object.fromEntries(
    Object.entries(row).map(([name, answer]) => [name, isOfFlush(name) && isNone(answer) ? null : answer]),
  );

/** What the strains' sheet does not say of each strain; undefined where it says all. */
export function sharesOf(strains: TableFit | undefined, answers: Answers): Shares | undefined {
  if (!strains) return undefined;
  const counts = flushCounts(strains);
  const kept = (strains.values.get('strain') ?? []).flatMap((strain, i) => {
    const isKnown = !isBlank(strain) && !isCellError(strain) && (counts === undefined || counts[i] !== 0);
    return isKnown ? [{ strain: textOf(strain).trim(), flushes: counts?.[i] ?? 0 }] : [];
  });
  const most = Math.max(0, ...kept.map(({ flushes }) => flushes));
  const numbers = most < 2 || most > MOST_FLUSHES ? 0 : most;
  const hasGap = strains.readings.some(({ name }) => name === 'flush gap');
  const lacking = [
    ...new Set([...lackingIn(strains.candidate, answers), ...(numbers > 0 && !hasGap ? ['flush gap'] : [])]),
  ];
  const given = new Map(
    (answers.fill?.['shares'] ?? []).map((row) => [looseKey(String(row['strain'] ?? '')), row]),
  );
  // What the strains' sheet says itself is not typed besides.
  const isAsked = (column: string): boolean =>
    lacking.includes(column) || !strains.readings.some(({ name }) => name === column);
  // What the grower typed counts, whether it was asked or not.
  const isTyped = kept.some(({ strain }) => {
    const own = answersOf(given.get(looseKey(strain)), isAsked);
    return Object.keys(own).some((column) => column !== 'strain');
  });
  if (numbers === 0 && lacking.length === 0 && !isTyped) return undefined;
  const ofAll = Object.fromEntries(
    lacking.flatMap((name) => {
      const text = saidText('strains', name, answers);
      return text === undefined ? [] : [[name, text] as const];
    }),
  );
  const rows = kept.map(({ strain, flushes }) => {
    const own = given.get(looseKey(strain));
    const first = flushes === 1 ? '100%' : null;
    return { ...(numbers > 0 && { 'flush 1': first }), ...ofAll, ...answersOf(own, isAsked), strain };
  });
  const isOpen = kept.some(({ flushes }, i) => {
    const row: Readonly<Record<string, Answer>> = rows[i]!;
    const shares = numbers === 0 ? [] : shareNames(flushes);
    const areOpen = !isWhole(row) && shares.some((name) => isMissing(row[name]));
    return areOpen || lacking.some((name) => isMissing(row[name]));
  });
  const isFewer = kept.some(({ flushes }, i) => countOf(rows[i]!) < flushes);
  if (!isOpen) return { rows: rows.map(withoutNone), isFewer: numbers > 0 && isFewer };
  const columns = SHARES.columns.filter(
    ({ name, column }) =>
      name === 'strain' || lacking.includes(name) || (column.role === 'numbered' && numbers > 0),
  );
  return { rows, question: { ...fillQuestion(SHARES, rows), columns, numbers, alike: lacking } };
}

/** What a row answers of some columns. */
const answersOf = (
  row: Readonly<Record<string, Answer>> = {},
  isAsked: (column: string) => boolean,
): Readonly<Record<string, Answer>> =>
  Object.fromEntries(Object.entries(row).filter(([column, answer]) => isAsked(column) && !isMissing(answer)));

/** How many flushes each strain is kept for, where its sheet says that and no shares; 0 where it is no count. */
function flushCounts({ candidate, readings, values }: TableFit): readonly number[] | undefined {
  const has = (wanted: RegExp): boolean => readings.some(({ name }) => wanted.test(name));
  const areWanted = candidate.table.columns.some(({ name }) => name === 'flush');
  if (!areWanted || !has(/^flushes$/) || has(/^flush \d+$/)) return undefined;
  return values
    .get('flushes')!
    .map((count) => (typeof count === 'number' && count >= 1 ? Math.floor(count) : 0));
}

/** More flushes than these are a slip; for so many there is room where nobody said how many. */
const [MOST_FLUSHES, USUAL_FLUSHES] = [6, 3];

export const fillQuestion = (
  table: WantedTable,
  rows: readonly Readonly<Record<string, Answer>>[],
): Question & { kind: 'fill' } => ({
  kind: 'fill',
  numbers: USUAL_FLUSHES,
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
  rows.every(
    (row) =>
      table.columns.every(({ name, isNeeded, mayLack }) => !isNeeded || mayLack || !isMissing(row[name])) &&
      (table.name !== 'strains' || haveShares(row)),
  );

/** Whether a strain that is kept for several flushes has the share of each. */
const haveShares = (row: Readonly<Record<string, Answer>>): boolean =>
  isMissing(row['flushes']) ||
  !(Number(row['flushes']) >= 2) ||
  isWhole(row) ||
  countOf(row) >= Number(row['flushes']);

/** What the grower typed of each strain or room. */
export function toldOfEach(given: Referred | undefined) {
  const [headers = [], ...rows] = given?.grid ?? [];
  const told = headers.slice(1);
  return {
    headers: told.map(textOf),
    of: (label: string): readonly Cell[] => {
      const row = rows.find(([own]) => textOf(own!).toLowerCase() === label.trim().toLowerCase());
      return row ? row.slice(1) : told.map(() => null);
    },
  };
}
