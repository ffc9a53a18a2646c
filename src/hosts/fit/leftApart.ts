import { isBlank } from '../../worksheet/cells/cell';
import type { Answers } from './answers';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { unreadHeaders } from './columnChoices';
import { counted } from './dataFinding';
import { looksIn } from './looks';
import { lostColumns, lostAt } from './lost';
import type { Question } from './question';

// What is left of a lot may be what was made less what was lost, whether it was loaded or not: then the day of loading
// says which lots are still to open.

/** A column of what is left, held against the day of loading. */
interface LeftBeside {
  /** Lots that say a day of loading and have blocks left. */
  readonly loaded: number;
  readonly header: string;
  /** Whether a column of the blocks that were made proves it: yes, no, or not known where there is none. */
  readonly isApart: boolean | undefined;
}

function leftBeside(candidate: Candidate): LeftBeside | undefined {
  const { table, sheet, area, dataRows, passedOver, left, matches, parts } = candidate;
  const loaded = matches.find(({ wanted }) => wanted === 'loaded');
  if (table.name !== 'lots' || left === undefined || !loaded || parts) return undefined;
  const on = dataRows.filter((row) => !isBlank(cellAt(sheet, row, loaded.column)));
  const looks = looksIn(sheet, on, loaded.column);
  const days = (looks.get('date') ?? 0) + (looks.get('text date') ?? 0);
  if (on.length === 0 || days < on.length / 2) return undefined;
  const figureAt = (row: number, column: number): number => Number(cellAt(sheet, row, column) ?? Number.NaN);
  const all = Array.from({ length: area.bottom - area.top }, (_, i) => area.top + 1 + i).filter(
    (row) => !passedOver.includes(row) && !isBlank(cellAt(sheet, row, left)),
  );
  const made = unreadHeaders(candidate).find(
    ([column]) =>
      all.every(
        (row) => Number.isInteger(figureAt(row, column)) && figureAt(row, column) >= figureAt(row, left),
      ) && all.some((row) => figureAt(row, column) === figureAt(row, left)),
  );
  const { header } = loaded;
  // What was made and what is left may differ by one more column alone, whatever it is called.
  const isBy = (made: number): boolean =>
    unreadHeaders(candidate).some(
      ([column]) =>
        column !== made &&
        all.every((row) => figureAt(row, left) === figureAt(row, made) - (figureAt(row, column) || 0)),
    );
  if (!made) {
    const isNoneUsedUp = all.every((row) => figureAt(row, left) > 0);
    return { loaded: on.length, header, isApart: isNoneUsedUp ? undefined : false };
  }
  const columns = lostColumns(candidate, made[0]);
  const isOfMade = (row: number): boolean =>
    figureAt(row, left) === figureAt(row, made[0]) - lostAt(candidate, { columns, blocks: made[0] }, row);
  return { loaded: on.length, header, isApart: all.every(isOfMade) || isBy(made[0]) };
}

/** Lots of which what is left says nothing of loading, as their own figures prove or as the grower said. */
export function withLeftApart(candidate: Candidate, answers: Answers): Candidate {
  const beside = leftBeside(candidate);
  const said = answers.columns?.['lots']?.['loaded'];
  const isApart = beside?.isApart ?? (beside !== undefined && typeof said === 'string');
  return isApart ? { ...candidate, isLeftApart: true } : candidate;
}

/** Asks where nothing proves whether lots that were loaded, and have blocks left, are still to be opened. */
export function doubtfulLeftApart(candidate: Candidate, answers: Answers): Question | undefined {
  const beside = leftBeside(candidate);
  const isSaid = answers.columns?.['lots']?.['loaded'] !== undefined;
  if (!beside || beside.isApart !== undefined || isSaid) return undefined;
  const { column } = candidate.table.columns.find(({ name }) => name === 'loaded')!;
  return {
    kind: 'column',
    table: 'lots',
    column: 'loaded',
    meaning: column.meaning,
    choices: [beside.header],
    mayBeNone: true,
    hint: `${counted(beside.loaded, 'lot')} with such a day ${beside.loaded === 1 ? 'has' : 'have'} blocks left. Say none if those are still to open`,
  };
}
