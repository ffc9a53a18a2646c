import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Answers } from './answers';
import type { Candidate } from './candidate';
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

/** Beside racks these are on each of them, where a figure says what one holds. */
const LEVELS = /^(?:#|no\.?|number)?\s*(?:of\s+)?(?:levels?|tiers?|decks?|shelves)$/i;
const OF_LEVEL = /\b(?:per|each|a)\b.*\b(?:level|tier|deck|shelf)\b|\/\s*(?:level|tier|deck|shelf)/i;

/** The column of the shelves on each rack, beside one of racks. */
export function perRackBeside(candidate: Candidate, column: number, wanted: string): PerRack | undefined {
  const { table, headers, matches } = candidate;
  if (table.name !== 'rooms' || wanted !== 'shelves' || !OF_RACKS.test(headers.get(column) ?? ''))
    return undefined;
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
  if (!racks) return undefined;
  const { column } = table.columns.find(({ name }) => name === 'shelves')!;
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
