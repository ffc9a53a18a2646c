import type { Candidate } from './candidate';
import { lostAt, lostFormula } from './lost';
import { takenElsewhereAt, takenElsewhereFormula } from './takenElsewhere';
import { takenFormula, takenFrom } from './takenOff';

// What is taken off the blocks that were made of a lot, by whatever says it.

/** Whether anything is taken off the blocks of a candidate’s lots. */
export const isLess = ({ takenOff, lost, takenElsewhere }: Candidate): boolean =>
  takenOff !== undefined || lost !== undefined || takenElsewhere !== undefined;

/** The blocks that are taken off the lot of a row. */
export function lessAt(candidate: Candidate, row: number): number {
  const { takenOff, lost, takenElsewhere } = candidate;
  return (
    (takenOff ? takenFrom(candidate, takenOff, row) : 0) +
    (lost ? lostAt(candidate, lost, row) : 0) +
    (takenElsewhere ? takenElsewhereAt(candidate, takenElsewhere, row) : 0)
  );
}

/** What is taken off, as the sheet of readings says it. */
export function lessWords({ takenOff, lost, takenElsewhere = [] }: Candidate): string {
  const taken = [...(takenOff?.words ?? []), ...takenElsewhere.map(({ sheet }) => sheet)];
  return [
    ...(taken.length > 0 ? [`less those of ${taken.join(' / ')}`] : []),
    ...(lost ? [`without those under ${lost.header}`] : []),
  ].join(', ');
}

/** The same as a formula says it, to follow the blocks that were made. */
export function lessFormula(candidate: Candidate, cells: (at: number) => string): string {
  const { takenOff, lost, takenElsewhere } = candidate;
  return (
    (takenOff ? takenFormula(takenOff, cells) : '') +
    (lost ? lostFormula(lost, cells) : '') +
    (takenElsewhere ? takenElsewhereFormula(candidate, takenElsewhere, cells) : '')
  );
}

/** What a plan does not know of blocks that another sheet takes off. */
export const notOnShelves = ({ takenElsewhere, table }: Candidate): string =>
  takenElsewhere && table.columns.some(({ name }) => name === 'room')
    ? '; their places on the shelves and their picks are not counted'
    : '';
