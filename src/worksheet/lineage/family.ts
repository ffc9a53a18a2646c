import type { LotParents, Relative, Relatives } from '../../maths/lineage/spawnFamily';
import { labelKey, lookKey, nearestLabel } from '../../maths/shared/labels';
import { column, setting } from '../cells/arguments';
import { isBlankOrZero, isCellError, type Cell } from '../cells/cell';
import { anything, text } from '../cells/kinds';
import { amount, label, tableResult, type ResultRow } from '../cells/results';
import { isTotalsRow } from '../cells/totals';
import { splitParents, type KnownLots } from './parents';

// What DESCENDANTS and ANCESTORS share: the same records looked at downwards and upwards.

export const familyArguments = (lotMeaning: string) =>
  [
    setting('lot', text(), lotMeaning),
    column(
      'lots',
      anything('a parent beside it is told at the end'),
      'every lot: spawn, jars, bags, blocks; a lot may be in several rows',
    ),
    column(
      'parents',
      anything('the lot has no parent'),
      'the lot each was made from; several with a comma or another sign between; blank where bought in or not known',
    ),
  ] as const;

const columns = {
  lot: label('blank in the lines at the end, which tell what could not be placed'),
  steps: amount('generations between the two'),
  path: label('the shortest way to it'),
  note: label(),
};
export const familyResult = tableResult(columns);
type Line = ResultRow<typeof columns>;

/** The records of two columns, and what in them could not be placed. */
export interface Records {
  readonly records: readonly LotParents[];
  /** The rows of the columns that the records are from. */
  readonly rows: readonly number[];
  readonly unreadable: readonly string[];
}

/** Reads lots with their parents. A row that cannot be read is told of and keeps no other from the list. */
export function recordsOf(
  lot: string,
  lots: readonly Cell[],
  parents: readonly Cell[],
  rowNumbers: readonly number[],
): Records {
  const label = text();
  const labels = lots.map((cell) => label.accept(cell));
  const known = knownLots([lot, ...labels.filter((one) => one !== undefined)]);
  const records: LotParents[] = [];
  const rows: number[] = [];
  const unreadable: string[] = [];
  lots.forEach((cell, i) => {
    const parentCell = parents[i]!;
    if ((isBlankOrZero(cell) && isBlankOrZero(parentCell)) || isTotalsRow([cell, parentCell])) return;
    const row = rowNumbers[i]!;
    const own = labels[i];
    if (own === undefined) {
      const what = isBlankOrZero(cell) ? 'has a parent but no lot' : `has ${shown(cell)} for a lot`;
      unreadable.push(`row ${row} ${what}`);
      return;
    }
    const from = isBlankOrZero(parentCell) ? '' : label.accept(parentCell);
    if (from === undefined) unreadable.push(`row ${row}, lot ${own}, has ${shown(parentCell)} for a parent`);
    records.push({ lot: own, parents: from ? splitParents(from, known) : [] });
    rows.push(row);
  });
  return { records, rows, unreadable };
}

function knownLots(labels: readonly string[]): KnownLots {
  return new Set(labels.map(labelKey));
}

const shown = (cell: Cell): string => (isCellError(cell) ? cell.code : String(cell).toUpperCase());

/** The list, and behind it a line for each thing that could not be placed. */
export function told(lot: string, read: Records, { relatives, loop }: Relatives): Line[] {
  const notes = [
    ...unknownParents(lot, read),
    ...read.unreadable,
    ...(loop ? [`parents lead a lot back to itself: ${loop.join(' → ')}`] : []),
    ...lookAlikes([lot, ...relatives.map((one) => one.lot)], read.records),
  ];
  return [
    ...relatives.map(relativeRow),
    ...notes.map((note): Line => ({ lot: '', steps: '', path: '', note })),
  ];
}

function relativeRow({ lot, steps, path, isRecorded, unknownParents: unknown }: Relative): Line {
  const notes = unknown.map((parent) => `parent ${parent} is not in lots`);
  return { lot, steps, path: path.join(' → '), note: isRecorded ? notes.join('; ') : 'not in lots' };
}

/** Comparisons spent on the search for nearest labels: beyond, a line is told without. */
const MOST_COMPARISONS = 300_000;

/** Which rows name a parent that is no lot: their lots may belong on the list. */
function unknownParents(lot: string, { records, rows }: Records): string[] {
  const recorded = new Set([lot, ...records.map((one) => one.lot)].map(labelKey));
  const unknown = new Map<string, { parent: string; rows: Set<number> }>();
  records.forEach(({ parents }, i) => {
    for (const parent of parents) {
      const same = labelKey(parent);
      if (recorded.has(same)) continue;
      const found = unknown.get(same) ?? { parent, rows: new Set<number>() };
      found.rows.add(rows[i]!);
      unknown.set(same, found);
    }
  });
  const candidates = [lot, ...records.map((one) => one.lot)];
  let left = Math.floor(MOST_COMPARISONS / candidates.length);
  return [...unknown.values()].map(({ parent, rows: at }) => {
    const nearest = left-- > 0 ? nearestLabel(parent, candidates) : undefined;
    const hint = nearest === undefined ? '' : `: did you mean ${nearest}?`;
    return `parent ${parent} is not in lots (${rowWords([...at])})${hint}`;
  });
}

const MOST_ROWS = 10;

function rowWords(rows: readonly number[]): string {
  const more = rows.length - MOST_ROWS;
  const first = rows.slice(0, MOST_ROWS).join(', ');
  return `${rows.length > 1 ? 'rows' : 'row'} ${first}${more > 0 ? ` and ${more} more` : ''}`;
}

/** Lots that look like one of the list but are another. */
function lookAlikes(listed: readonly string[], records: readonly LotParents[]): string[] {
  const looks = new Map(listed.map((one) => [lookKey(one), one]));
  const pairs = new Set<string>();
  for (const { lot } of records) {
    const alike = looks.get(lookKey(lot));
    if (alike === undefined || labelKey(alike) === labelKey(lot)) continue;
    pairs.add(`${[alike, lot].sort().join(' and ')} look alike but are two lots: check which is meant`);
  }
  return [...pairs];
}
