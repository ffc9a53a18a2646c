import { cellAt } from './book';
import type { Candidate } from './candidate';
import type { TableFit } from './fitted';
import { lostAt, lostFormula } from './lost';
import { columnOf, takenElsewhereAt, takenElsewhereFormula } from './takenElsewhere';
import { takenFormula, takenFrom } from './takenOff';

// What is taken off the blocks that were made of a lot, by whatever says it.

/** Whether anything is taken off the blocks of a candidate’s lots. */
export const isLess = ({ takenOff, lost, takenElsewhere }: Candidate): boolean =>
  takenOff !== undefined || lost !== undefined || takenElsewhere !== undefined;

/** What says it, for parts of the candidate too. */
export const whatComesOff = ({ takenOff, lost, takenElsewhere }: Candidate): Partial<Candidate> => ({
  ...(takenOff && { takenOff }),
  ...(lost && { lost }),
  ...(takenElsewhere && { takenElsewhere }),
});

/** The blocks that are taken off the lot of a row. */
export function lessAt(candidate: Candidate, row: number): number {
  const { takenOff, lost, takenElsewhere } = candidate;
  return (
    (takenOff ? takenFrom(candidate, takenOff, row) : 0) +
    (lost ? lostAt(candidate, lost, row) : 0) +
    (takenElsewhere ? takenElsewhereAt(candidate, takenElsewhere, row) : 0)
  );
}

/** Lots without those of which all is taken off by one thing and another. */
export function withoutNoneLeft(candidate: Candidate): Candidate {
  const { matches, sheet, dataRows } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks')?.column;
  if (blocks === undefined || !isLess(candidate)) return candidate;
  const records = dataRows.filter((row) => {
    const made = cellAt(sheet, row, blocks);
    return typeof made !== 'number' || made !== lessAt(candidate, row);
  });
  const usedUp = (candidate.usedUp ?? 0) + dataRows.length - records.length;
  return { ...candidate, dataRows: records, usedUp };
}

/** What is taken off, as the sheet of readings says it. */
export function lessWords({ takenOff, lost, takenElsewhere = [] }: Candidate): string {
  const taken = [...(takenOff?.words ?? []), ...takenElsewhere.map(({ sheet }) => sheet)];
  return [
    ...(taken.length > 0 ? [`less those of ${taken.join(' / ')}`] : []),
    ...(lost ? [`without those under ${lost.header}`] : []),
  ].join(', ');
}

/** Blocks of a lot that are taken off it by what reads it: they stand in rooms. */
export const standingFormula = (candidate: Candidate, cells: (at: number) => string): string =>
  (candidate.takenElsewhere ?? [])
    .flatMap(({ onShelves, lots }) =>
      onShelves === undefined
        ? []
        : [`-SUMIFS(${onShelves},${lots},TRIM(${cells(columnOf(candidate, 'lot')!)}))`],
    )
    .join('');

/** What is more than the blocks that were made of a lot, in words. */
export function tooManyWords({ takenOff, lost, takenElsewhere = [] }: Candidate): string {
  const taken = [...(takenOff?.words ?? []), ...takenElsewhere.map(({ sheet }) => sheet)];
  return [
    ...(taken.length > 0 ? [`what ${taken.join(' and ')} take off it`] : []),
    ...(lost ? [`what is lost of it under ${lost.header}`] : []),
  ].join(' and ');
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

/** Whether blocks that other sheets list stand in rooms. */
export const areStanding = (lots: TableFit | undefined): boolean =>
  (lots?.candidate.takenElsewhere ?? []).some(({ standing }) => typeof standing === 'object');

/** What a plan knows of blocks that other sheets list, beside that they are taken off. */
export function onShelvesWords({ takenElsewhere = [] }: Candidate): string {
  const inRooms = new Map<string, number>();
  for (const { standing } of takenElsewhere) {
    for (const { room, blocks } of typeof standing === 'object' ? standing.loads.values() : [])
      inRooms.set(room, (inRooms.get(room) ?? 0) + blocks);
  }
  const stands = [...inRooms].map(([room, blocks]) => `${blocks} in ${room}`);
  const others = takenElsewhere.flatMap(({ sheet, standing }) =>
    typeof standing === 'string'
      ? [`; the places on the shelves and the picks of what is in ${sheet} are not counted: ${standing}`]
      : [],
  );
  return (stands.length === 0 ? '' : `; of these stand ${stands.join(' and ')}`) + others.join('');
}
