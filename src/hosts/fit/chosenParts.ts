import { isBlank } from '../../worksheet/cells/cell';
import { areaOf, type Area } from '../xlsx/address';
import type { Answers } from './answers';
import { textOf, type GrowersBook } from './book';
import { areNeighbours, overlap, partText, type Candidate } from './candidate';
import { crosstabParts } from './crosstab';
import { anyParts, candidates } from './find';
import { JOB, type Job, type TableName, type WantedTable } from './jobs';
import { knownAmong, looseKey } from './labels';
import { valuesOf } from './reading';
import { areOtherLots, areAlike, areApart, areOfOneKind, areSideBySide, isOfPeriod, stacked } from './stack';
import { picksInCells } from './picksInCells';
import { severalInRow } from './severalInRow';
import { wideParts } from './wide';
import { isLogOf } from './whichRows';

export interface Chosen {
  readonly candidate?: Candidate;
  readonly others: readonly Candidate[];
  readonly isAsked: boolean;
}

/** What else names the strains of a list. */
const NAMES = /\b(?:names?|species|mushrooms?|variety)\b/i;

/** Whether a label names something that columns of a block may be for: a strain, or what it is sold as; a lot. */
export function knownLabels(
  book: GrowersBook,
  { tables, name }: Job,
  answers: Answers,
): (label: string) => boolean {
  const labelsOf = (wanted: TableName, isLabel: (column: string) => boolean): string[] => {
    const table = tables.find((one) => one.name === wanted);
    return (table ? candidates(book, table) : []).flatMap(({ sheet, dataRows, matches, headers }) =>
      [
        ...matches.filter((match) => isLabel(match.wanted)).map(({ column }) => column),
        // A code beside the name: orders are for the name.
        ...(wanted === 'strains' ? [...headers].filter(([, one]) => NAMES.test(one)).map(([at]) => at) : []),
      ]
        .flatMap((column) => valuesOf(sheet, dataRows, column))
        .flatMap((cell) => (typeof cell === 'string' && !isBlank(cell) ? [cell.trim()] : [])),
    );
  };
  if (name === 'audit')
    return knownAmong(
      labelsOf('lots', (column) => column === 'lot'),
      false,
    );
  const isName = (column: string): boolean => column === 'strain' || column === 'product';
  const filled = (answers.fill?.['strains'] ?? []).flatMap(({ strain }) => (strain ? [String(strain)] : []));
  return knownAmong(
    [
      ...labelsOf('strains', isName),
      ...labelsOf('lots', isName),
      ...filled,
      ...Object.keys(answers.products ?? {}),
    ],
    true,
  );
}

/** Chooses for each table, the surest first: a part of the book that serves for one does not serve for another. */
export function eachOnce(
  tables: readonly WantedTable[],
  choose: (table: WantedTable, taken: readonly Candidate[]) => Chosen,
): (readonly [WantedTable, Chosen])[] {
  const taken: Candidate[] = [];
  const chosen = new Map<WantedTable, Chosen>();
  const sureness = (table: WantedTable): number => choose(table, []).candidate?.score ?? -Infinity;
  const surest = tables.map((table) => [table, sureness(table)] as const).sort(([, a], [, b]) => b - a);
  for (const [table] of surest) {
    const one = choose(table, taken);
    chosen.set(table, one);
    if (one.candidate) taken.push(...(one.candidate.parts ?? [one.candidate]));
  }
  return tables.map((table) => [table, chosen.get(table)!]);
}

/** The picks of an audit: dates and masses of strains look like orders. */
const HARVESTS = JOB.audit.tables.find(({ name }) => name === 'harvests')!;

const arePicks = ({ missing, matches }: Candidate): boolean =>
  missing.length === 0 && matches.some(({ wanted, by }) => wanted === 'lot' && by !== 'a name like it');

/** The orders of a plan: what customers wait for looks like lots where the job asks for no orders. */
const ORDERS = JOB.plan.tables.find(({ name }) => name === 'orders')!;

const areOrders = ({ missing, matches }: Candidate): boolean =>
  missing.length === 0 &&
  matches.some(({ wanted, by }) => wanted === 'due' && (by === 'its name' || by === 'another name'));

/** The strains that any list of the book names: sheets may be named after them. */
const strainNames = (book: GrowersBook): ReadonlySet<string> =>
  new Set(
    candidates(book, READY_STRAINS).flatMap(({ sheet, dataRows, matches }) =>
      matches
        .filter(({ wanted }) => wanted === 'strain')
        .flatMap(({ column }) => valuesOf(sheet, dataRows, column).map((cell) => looseKey(textOf(cell)))),
    ),
  );

const READY_STRAINS = JOB.ready.tables.find(({ name }) => name === 'strains')!;

/** Parts of the book that are surely something else than this table. */
function othersThan({ name }: WantedTable, book: GrowersBook): Candidate[] {
  if (name === 'orders') return candidates(book, HARVESTS).filter(arePicks);
  return name === 'lots' ? candidates(book, ORDERS).filter(areOrders) : [];
}

/** Whether two parts share records: a log holds lots and picks side by side, each in rows of their own. */
const serveOne = (one: Candidate, other: Candidate): boolean =>
  overlap(one, other) && !areNeighbours(one, other) && !(isLogOf(one) && isLogOf(other));

/** Which part of the book serves for a table. */
export function candidateFor(
  book: GrowersBook,
  table: WantedTable,
  answers: Answers,
  taken: readonly Candidate[],
  isKnown: (label: string) => boolean,
): Chosen {
  const blocks = crosstabParts(book, table, isKnown);
  const ofFlushes = table.name === 'harvests' ? wideParts(book, table) : [];
  const wide =
    table.name !== 'harvests' || ofFlushes.length > 0
      ? ofFlushes
      : ([severalInRow(book, table), picksInCells(book, table, isKnown)].find((some) => some.length > 0) ??
        []);
  const elsewhere = othersThan(table, book);
  const plain = candidates(book, table).filter(
    (one) =>
      !wide.some(({ on, part }) => on === one.sheet && part.area.top === one.area.top) &&
      !blocks.some((part) => overlap(part, one)) &&
      !elsewhere.some((other) => overlap(one, other) && other.score > one.score),
  );
  const together = blocks.length > 0 ? [stacked(blocks)] : [];
  const every = [...together, ...wide.map(({ part }) => part), ...plain];
  const all = [
    ...together,
    ...(wide.length > 0 ? [stacked(wide.map(({ part }) => part))] : []),
    ...plain,
  ].filter((one) => !taken.some((other) => serveOne(one, other)));
  const said = answers.tables?.[table.name];
  // What the grower typed takes the place of a table.
  const isTyped = said === undefined && (answers.fill?.[table.name]?.length ?? 0) > 0;
  if ((said === 'none' || isTyped) && table.isAsked) return { others: all, isAsked: false };
  const unnamed = (): Candidate[] =>
    anyParts(book, table).filter((one) => ![...taken, ...elsewhere].some((other) => serveOne(one, other)));
  if (said !== undefined) {
    const chosen = partsNamed(every, said) ?? partsNamed(unnamed(), said);
    return chosen
      ? { candidate: chosen, others: all.filter((one) => one !== chosen), isAsked: false }
      : { others: all.length > 0 ? all : unnamed(), isAsked: true };
  }
  const [best, second] = all;
  if (!best) {
    const parts = unnamed();
    const [only, ...more] = parts.filter(
      (one) => table.sheetWords.test(one.sheet.name) && one.matches.length > 0,
    );
    // The only table of a sheet whose name says what is on it: what is missing is asked.
    if (only && more.length === 0)
      return { candidate: only, others: parts.filter((one) => one !== only), isAsked: false };
    return { others: table.isAsked ? [] : parts, isAsked: !table.isAsked };
  }
  // The same table on several sheets: one a month is one table; of others only the grower knows.
  const inOrder = (parts: readonly Candidate[]): Candidate[] =>
    [...parts].sort(
      (a, b) => book.sheets.indexOf(a.sheet) - book.sheets.indexOf(b.sheet) || a.area.left - b.area.left,
    );
  const alike = inOrder(all.filter((one) => one === best || areAlike(best, one)));
  const areOne = (): boolean =>
    areSideBySide(alike)
      ? areApart(alike)
      : alike.every(isOfPeriod) || areOfOneKind(alike, strainNames(book));
  if (alike.length > 1 && areOne()) {
    return { candidate: stacked(alike), others: all, isAsked: false };
  }
  if (second && second.score >= best.score - 0.5 && second.missing.length === best.missing.length) {
    return { others: alike.length > 1 ? [stacked(alike), ...all] : all, isAsked: true };
  }
  // Lots of another list, under other headers: only the grower knows whether both are theirs.
  const others = inOrder(all.filter((one) => one !== best && areOtherLots(best, one)));
  if (others.length > 0) return { others: [stacked([best, ...others]), ...all], isAsked: true };
  return { candidate: best, others: all.slice(1), isAsked: false };
}

/** The parts that an answer names, as one. */
function partsNamed(all: readonly Candidate[], said: string): Candidate | undefined {
  const blocks = all.find(({ parts }) => parts?.some(({ block, lies }) => block && lies));
  if (blocks && partText(blocks).split(':')[0] === said.replaceAll('$', '').split(':')[0]) return blocks;
  const parts = said.split('; ').map((one) => partNamed(all, one));
  const found = parts.filter((part) => part !== undefined);
  // The columns of a block, named by their sheet, are one already.
  if (found.length === 1 && found[0]!.parts) return found[0];
  return found.length === parts.length && found.length > 0 ? stacked(found) : undefined;
}

const areTops = (one: Area, other: Area): boolean => one.top === other.top && one.left === other.left;

/** The part that an answer names: a sheet, or a part of one by its first cell, since rows are added below. */
function partNamed(all: readonly Candidate[], said: string): Candidate | undefined {
  const [range, sheetName = range] = said.split(/!(?=[^!]*$)/).reverse() as [string, string?];
  const bare = sheetName.replace(/^'|'$/g, '').replaceAll("''", "'").trim().toLowerCase();
  const onSheet = all.filter(({ sheet }) => sheet.name.toLowerCase() === bare);
  const area = areaOf(range.replaceAll('$', ''));
  const areRights = ({ right }: Area): boolean => right === area?.right;
  const fromThere = onSheet.filter(({ block, area: own }) => area && areTops(block ?? own, area));
  return (
    fromThere.find(({ block, area: own }) => areRights(block ?? own)) ??
    fromThere[0] ??
    (onSheet.length === 1 ? onSheet[0] : undefined)
  );
}
