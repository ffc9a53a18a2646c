import { isBlank, isCellError } from '../../worksheet/cells/cell';
import type { Answers } from './answers';
import { textOf } from './book';
import { isFor } from './looks';
import type { Candidate } from './candidate';
import type { TableName } from './jobs';
import { knownAmong, looseKey } from './labels';
import { valuesOf } from './reading';
import { isDitto, lookAt } from './values';

// Tables name each other's records: lots their strain, orders a product, picks their lot. Where the headers do not say which
// column does, or the one they say holds none of the names, the labels themselves do.

type Found = Map<TableName, Candidate>;

/** A column of labels that are in a column of another table. */
interface Reference {
  readonly from: readonly [table: TableName, column: string];
  readonly to: readonly [table: TableName, column: string];
}

const REFERENCES: readonly Reference[] = [
  { from: ['lots', 'strain'], to: ['strains', 'strain'] },
  { from: ['harvests', 'lot'], to: ['lots', 'lot'] },
  { from: ['lots', 'room'], to: ['rooms', 'room'] },
];

/** Below the first a column is no list of these labels; from the second on it is. */
export const [NONE, NEARLY_ALL] = [0.2, 0.8];

/** The tables with the columns that their labels say. What the grower named stays. */
export function linkedByLabels(found: Found, answers: Answers): Found {
  const tables = new Map(found);
  for (const { from, to } of REFERENCES) link(tables, from, to, answers);
  linkByBeginnings(tables, answers);
  linkProducts(tables, answers);
  return tables;
}

const isSaid = (answers: Answers, table: TableName, column: string): boolean =>
  answers.columns?.[table]?.[column] !== undefined;

function link(tables: Found, from: Reference['from'], to: Reference['to'], answers: Answers): void {
  const [source, target] = [tables.get(from[0]), tables.get(to[0])];
  if (!source || !target) return;
  const labels = labelsOf(source, matched(source, from[1]));
  const list = labelsOf(target, matched(target, to[1]));
  // Neither says which column, or what names the records comes again and again: two kinds of one species.
  if ((labels.length === 0 && list.length === 0) || !areDistinct(list)) {
    if (linkBoth(tables, from, to, answers)) return;
  }
  if (labels.length > 0 && list.length > 0 && covered(labels, list) > NONE) return;
  if (labels.length > 0 && !isSaid(answers, ...to)) {
    const column = onlyOne(
      freeTexts(target, to[1]),
      (at) => covered(labels, labelsOf(target, at)) >= NEARLY_ALL,
    );
    if (column !== undefined) {
      tables.set(to[0], withMatch(target, to[1], column));
      return;
    }
  }
  if (list.length === 0 || isSaid(answers, ...from)) return;
  const column = onlyOne(
    freeTexts(source, from[1]),
    (at) => covered(labelsOf(source, at), list) >= NEARLY_ALL,
  );
  if (column !== undefined) tables.set(from[0], withMatch(source, from[1], column));
  // The header that seems to name the records may be of something else: the species beside the strain's own code.
  else if (labels.length === 0) linkBoth(tables, from, to, answers);
}

/** Takes the only two columns of which one lists what the other names, no record twice; says whether there are any. */
function linkBoth(tables: Found, from: Reference['from'], to: Reference['to'], answers: Answers): boolean {
  const [source, target] = [tables.get(from[0])!, tables.get(to[0])!];
  if (isSaid(answers, ...from) || isSaid(answers, ...to)) return false;
  const pairs = freeTexts(target, to[1]).flatMap((own) => {
    const list = labelsOf(target, own);
    if (list.length < target.dataRows.length || !areDistinct(list)) return [];
    return freeTexts(source, from[1])
      .filter((at) => covered(labelsOf(source, at), list) >= NEARLY_ALL)
      .map((at) => [own, at] as const);
  });
  const [pair] = pairs;
  if (pairs.length !== 1 || !pair) return false;
  tables.set(to[0], withMatch(target, to[1], pair[0]));
  tables.set(from[0], withMatch(source, from[1], pair[1]));
  return true;
}

const areDistinct = (labels: readonly string[]): boolean =>
  new Set(labels.map(looseKey)).size === labels.length;

/** Lots whose names begin with their strain, and which have no column of it: the strains' column is the one that they begin with. */
function linkByBeginnings(tables: Found, answers: Answers): void {
  const [lots, strains] = [tables.get('lots'), tables.get('strains')];
  if (!lots?.missing.includes('strain') || !strains || isSaid(answers, 'strains', 'strain')) return;
  const labels = labelsOf(lots, matched(lots, 'lot'));
  const own = matched(strains, 'strain');
  const columns = [...(own === undefined ? [] : [own]), ...freeTexts(strains, 'strain')];
  const column = onlyOne(columns, (at) => beginnings(labels, labelsOf(strains, at)) !== undefined);
  if (column !== undefined && column !== own) tables.set('strains', withMatch(strains, 'strain', column));
}

/** The one label of a list that each name begins with; undefined unless every name begins with exactly one. */
export function beginnings(names: readonly string[], list: readonly string[]): string[] | undefined {
  if (names.length === 0 || list.length < 2) return undefined;
  const own = names.map((name) => {
    const before = list.filter((label) => {
      const rest = name.slice(label.length);
      return name.toLowerCase().startsWith(label.toLowerCase()) && /^[^\p{L}]/u.test(rest);
    });
    return before.length === 1 ? before[0] : undefined;
  });
  return own.every((label) => label !== undefined) ? own : undefined;
}

/** Orders name a strain or what a strain is sold as. */
function linkProducts(tables: Found, answers: Answers): void {
  const [strains, lots] = [tables.get('strains'), tables.get('lots')];
  let orders = tables.get('orders');
  if (!orders || !strains) return;
  const known = (): string[] => [
    ...['strain', 'product'].flatMap((name) => labelsOf(strains, matched(strains, name))),
    ...(lots ? labelsOf(lots, matched(lots, 'strain')) : []),
  ];
  const sold = freeTexts(strains, 'product').map((at) => [at, labelsOf(strains, at)] as const);
  const words = (): string[] => labelsOf(orders!, matched(orders!, 'product'));
  const most = (labels: readonly string[], lists: readonly (readonly string[])[]): number =>
    Math.max(...lists.map((list) => covered(labels, list)));
  const lists = [known(), ...sold.map(([, list]) => list)];
  if (most(words(), lists) <= NONE && !isSaid(answers, 'orders', 'product')) {
    const from = orders;
    const column = onlyOne(freeTexts(from, 'product'), (at) => most(labelsOf(from, at), lists) >= NEARLY_ALL);
    if (column === undefined) return;
    orders = withMatch(from, 'product', column);
    tables.set('orders', orders);
  }
  if (covered(words(), known()) > NONE || isSaid(answers, 'strains', 'product')) return;
  const column = onlyOne(
    sold.map(([at]) => at),
    (at) => named(words(), labelsOf(strains, at)) >= NEARLY_ALL,
  );
  if (column !== undefined) tables.set('strains', withMatch(strains, 'product', column));
}

export const onlyOne = (
  columns: readonly number[],
  serves: (column: number) => boolean,
): number | undefined => {
  const found = columns.filter(serves);
  return found.length === 1 ? found[0] : undefined;
};

export const matched = ({ matches }: Candidate, wanted: string): number | undefined =>
  matches.find((match) => match.wanted === wanted)?.column;

export function labelsOf({ sheet, dataRows }: Candidate, column: number | undefined): string[] {
  if (column === undefined) return [];
  return valuesOf(sheet, dataRows, column).flatMap((cell) =>
    isBlank(cell) || isCellError(cell) || isDitto(cell) ? [] : [textOf(cell).trim()],
  );
}

/** The share of labels that are in a list, whatever their signs and capitals. */
export function covered(labels: readonly string[], list: readonly string[]): number {
  const keys = new Set(list.map(looseKey));
  return labels.length === 0 ? 0 : labels.filter((label) => keys.has(looseKey(label))).length / labels.length;
}

/** The share of words that are in a list or share a word with it: `Oysters` and `Blue oyster`. */
function named(words: readonly string[], list: readonly string[]): number {
  const isKnown = knownAmong(list, true);
  return words.length === 0 ? 0 : words.filter(isKnown).length / words.length;
}

/** Columns of texts that nothing reads, the one for `wanted` aside. */
export function freeTexts({ headers, matches, sheet, dataRows }: Candidate, wanted: string): number[] {
  const taken = new Set(matches.filter((match) => match.wanted !== wanted).map(({ column }) => column));
  return [...headers.keys()].filter(
    (column) =>
      !taken.has(column) &&
      column !== matches.find((match) => match.wanted === wanted)?.column &&
      dataRows.some((row) => lookAt(sheet, row, column) === 'text'),
  );
}

export function withMatch(candidate: Candidate, wanted: string, column: number): Candidate {
  const { table, headers } = candidate;
  const match = { wanted, column, header: headers.get(column)!, by: 'its data' as const };
  const place = (name: string): number => table.columns.findIndex((one) => isFor(one, name));
  const matches = [...candidate.matches.filter((one) => one.wanted !== wanted), match].sort(
    (a, b) => place(a.wanted) - place(b.wanted),
  );
  return { ...candidate, matches, missing: candidate.missing.filter((name) => name !== wanted) };
}
