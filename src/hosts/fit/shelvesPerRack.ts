import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Answers } from './answers';
import type { Candidate } from './candidate';
import { unaccented } from './otherLanguages';
import type { Question } from './question';

// Rooms with so many racks, and so many shelves on each: the shelves of a room are both multiplied.

/** The column of how many shelves each rack has. */
export interface PerRack {
  readonly column: number;
  readonly header: string;
}

const RACKS = 'racks?|stands?|bays?|trolleys?|carts?|frames?|units?';
const OF_RACKS = new RegExp(`\\b(?:${RACKS})\\b`, 'i');
const ON_EACH = new RegExp(
  `\\b(?:shel(?:f|ves)|levels?|tiers?|decks?)\\b(?:\\s+(?:on\\s+)?(?:each|every)$|.*(?:\\b(?:per|each|every|a|on)\\b|/).*\\b(?:${RACKS})\\b)`,
  'i',
);

/** `Tiers per rack`: shelves, not what stands on them. */
export const isOfShelvesOnEach = (header: string): boolean => ON_EACH.test(header.trim());

/** Beside racks these are on each of them, where a figure says what one holds. */
const LEVELS = /^(?:#|no\.?|number)?\s*(?:of\s+)?(?:levels?|tiers?|decks?|shelves)$/i;
const OF_LEVEL = /\b(?:per|each|a)\b.*\b(?:level|tier|deck|shelf)\b|\/\s*(?:level|tier|deck|shelf)/i;

/** The column of the shelves on each rack, beside one of racks. */
export function perRackBeside(candidate: Candidate, column: number, wanted: string): PerRack | undefined {
  const { table, headers, matches } = candidate;
  if (table.name !== 'rooms' || wanted !== 'shelves') return undefined;
  const levels = levelsBeside(candidate, column);
  if (levels) return levels;
  const own = matches.find((match) => match.column === column && match.wanted === 'shelves');
  if (own?.by === 'you' && LEVELS.test(own.header.trim()) && !OF_SHELVES.test(own.header))
    return shelvesOf(candidate);
  if (!OF_RACKS.test(headers.get(column) ?? '')) return undefined;
  const isOfLevel = matches.some(
    (match) =>
      (match.wanted === 'shelves' && match.by === 'you') ||
      (match.wanted === 'blocks per shelf' && OF_LEVEL.test(match.header)),
  );
  const found = [...headers].find(
    ([at, header]) =>
      (ON_EACH.test(header) || (isOfLevel && LEVELS.test(header.trim()))) &&
      !matches.some((match) => match.column === at),
  );
  return found && { column: found[0], header: found[1] };
}

/** Words for what stands in a rack, one over the other. */
const ONE_OF =
  /level|tier|deck|shel[fv]|ebene|etage|boden|boeden|fach|niveau|nivel|balda|piano|laag|legplank|poziom|polk|niva|hylde/;
const PER_ONE = /(?:\b(?:per|each|a|je|pro|par|por|op|na|pr)\b|\/).*/;

/** How many levels there are of what the shelves count, where blocks are counted by level: 6 under `Levels`, 10 under `Blocks per level`. */
function levelsBeside({ headers, matches }: Candidate, column: number): PerRack | undefined {
  const wordIn = (text: string): string | undefined => ONE_OF.exec(unaccented(text).toLowerCase())?.[0];
  const blocks = matches.find(({ wanted }) => wanted === 'blocks per shelf')?.header ?? '';
  const one = wordIn(PER_ONE.exec(unaccented(blocks).toLowerCase())?.[0] ?? '');
  if (one === undefined || wordIn(headers.get(column) ?? '') === one) return undefined;
  const isBare = (header: string): boolean => header.trim().split(/\s+/).length <= 2;
  const found = [...headers].filter(
    ([at, header]) =>
      !matches.some((match) => match.column === at) && isBare(header) && wordIn(header) === one,
  );
  return found.length === 1 ? { column: found[0]![0], header: found[0]![1] } : undefined;
}

const OF_SHELVES = /\bshel(?:f|ves)\b/i;

/** The column of shelves that nothing reads, each of which has levels. */
function shelvesOf({ headers, matches }: Candidate): PerRack | undefined {
  const found = [...headers].find(
    ([at, header]) =>
      OF_SHELVES.test(header) && LEVELS.test(header.trim()) && !matches.some((match) => match.column === at),
  );
  return found && { column: found[0], header: found[1] };
}

/** Shelves beside racks may be all of them, or those on each: only the grower knows. */
export function doubtfulRacks(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, headers, matches, sheet, dataRows } = candidate;
  const shelves = matches.find(({ wanted }) => wanted === 'shelves');
  const isSaid = answers.columns?.['rooms']?.['shelves'] !== undefined;
  if (table.name !== 'rooms' || !shelves || isSaid || !LEVELS.test(shelves.header.trim())) return undefined;
  const racks = [...headers].find(
    ([column, header]) =>
      OF_RACKS.test(header) &&
      !matches.some((match) => match.column === column) &&
      dataRows.some((row) => Number(cellAt(sheet, row, column)) > 1),
  );
  const levels = [...headers].find(
    ([at, header]) =>
      LEVELS.test(header.trim()) &&
      !OF_SHELVES.test(header) &&
      !matches.some((match) => match.column === at) &&
      dataRows.some((row) => Number(cellAt(sheet, row, at)) > 1),
  );
  const hasLevels = levels !== undefined && OF_SHELVES.test(shelves.header);
  if (!racks && (!hasLevels || levelsBeside(candidate, shelves.column))) return undefined;
  const { column } = table.columns.find(({ name }) => name === 'shelves')!;
  if (!racks)
    return {
      kind: 'column',
      table: 'rooms',
      column: 'shelves',
      meaning: column.meaning,
      choices: [shelves.header, levels![1]],
      mayBeNone: false,
      hint: `Say ${levels![1]} if each of the ${shelves.header} has as many levels, and blocks are counted by level: both are then multiplied.`,
    };
  return {
    kind: 'column',
    table: 'rooms',
    column: 'shelves',
    meaning: column.meaning,
    choices: [shelves.header, racks[1]],
    mayBeNone: false,
    hint: `Say ${racks[1]} if there are so many ${shelves.header} on each: both are then multiplied.`,
  };
}

/** The shelves of a room. */
export function timesRacks(
  { sheet }: Candidate,
  { column, header }: PerRack,
  row: number,
  racks: Cell,
): Cell {
  if (isBlank(racks) || isCellError(racks) || typeof racks !== 'number') return racks;
  const each = cellAt(sheet, row, column);
  return typeof each === 'number' ? racks * each : cellError('#N/A', `has no figure under ${header}`);
}
