import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { cellAt, textOf } from './book';
import { overlap, type Candidate } from './candidate';
import { looksIn, type Looks } from './looks';
import type { TableName } from './jobs';

// Lots that are numbered anew each year, in each room or for each strain: only both together name one.

/** The column that says within what a lot has its number. */
export interface Within {
  readonly column: number;
  readonly header: string;
}

const BETWEEN = '-';
const OF_YEARS = /^(?:year|yr|season|jahr|ann[ée]e|a[ñn]o|jaar|anno|rok|ano|[åa]r)$/i;
/** What most picks name must be a lot. */
const NEARLY_ALL = 0.8;
const FEWEST = 2;

export const namedWithin = (within: Cell, lot: Cell): Cell =>
  isBlank(lot) ? lot : `${textOf(within)}${BETWEEN}${textOf(lot).trim()}`;

export const withinText = (within: string, lots: string): string =>
  `IF(${lots}="","",${within}&"${BETWEEN}"&TRIM(${lots}))`;

/** The lot’s own number in a name that has what it is within; undefined where that is another. */
export function ownNumber(within: Cell, name: string, before: Cell): Cell | undefined {
  const beginning = `${textOf(within)}${BETWEEN}`;
  if (!name.startsWith(beginning)) return undefined;
  const own = name.slice(beginning.length);
  return typeof before === 'number' && /^\d+$/.test(own) ? Number(own) : own;
}

const lotColumn = ({ matches }: Candidate): number | undefined =>
  matches.find(({ wanted }) => wanted === 'lot')?.column;

const isPlain = ({ lies, parts }: Candidate): boolean => !lies && !parts?.some((part) => part.lies);

const namesIn = ({ sheet, dataRows }: Candidate, lot: number, within?: number): string[] =>
  dataRows
    .map((row) => {
      const own = cellAt(sheet, row, lot);
      return textOf(within === undefined ? own : namedWithin(cellAt(sheet, row, within), own));
    })
    .filter((name) => name.trim() !== '');

/** A day on which something was done with a lot is no part of its name. */
const looksOfDays = (looks: Looks): boolean => looks.has('date') || looks.has('text date');

/** How many names come again. */
const repeated = (names: readonly string[]): number =>
  new Set(names.filter((name, i) => names.indexOf(name) !== i)).size;

const areDifferent = (names: readonly string[]): boolean => new Set(names).size === names.length;

/** Lots whose numbers come again, and their picks, with the column that both have and that tells them apart. */
export function numberedWithin(found: ReadonlyMap<TableName, Candidate>): Map<TableName, Candidate> {
  const [lots, picks] = [found.get('lots'), found.get('harvests')];
  const own = lots && lotColumn(lots);
  // A log names its lots again and again; one name that comes twice may be a slip.
  const isLog = lots && picks && overlap(lots, picks);
  if (!lots || own === undefined || !isPlain(lots) || isLog || repeated(namesIn(lots, own)) < FEWEST)
    return new Map(found);
  const its = picks && isPlain(picks) ? lotColumn(picks) : undefined;
  for (const [column, header] of lots.headers) {
    const names = namesIn(lots, own, column);
    const isOfDays = looksOfDays(looksIn(lots.sheet, lots.dataRows, column));
    if (column === own || isOfDays || !areDifferent(names)) continue;
    const within: Candidate = { ...lots, within: { column, header } };
    if (!picks) {
      if (OF_YEARS.test(header.trim())) return new Map([...found, ['lots', within]]);
      continue;
    }
    const [other] = [...picks.headers].filter(([, one]) => headerKey(one) === headerKey(header));
    if (its === undefined || !other) continue;
    const known = new Set(names);
    const picked = namesIn(picks, its, other[0]);
    if (picked.filter((name) => known.has(name)).length < NEARLY_ALL * picked.length) continue;
    const withinPicks = { ...picks, within: { column: other[0], header: other[1] } };
    return new Map([...found, ['lots', within], ['harvests', withinPicks]]);
  }
  return new Map(found);
}
