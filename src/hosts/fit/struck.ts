import { isBlank } from '../../worksheet/cells/cell';
import { cellAt, type GrowersBook } from './book';
import type { Candidate, Place } from './candidate';

// Rows that are struck out: only the grower knows whether they still count.

/** The records of a candidate most of whose cells are struck out, by their first cell. */
export function struckRecords(book: GrowersBook, candidate: Candidate): ReadonlyMap<number, Place> {
  const { sheet, dataRows, matches, origin } = candidate;
  const sheets = new Map(book.sheets.map((one) => [one.name, one]));
  const isStruck = ({ sheet: name, row, column }: Place): boolean =>
    sheets.get(name)?.isStruck?.(row, column) === true;
  return new Map(
    dataRows.flatMap((row) => {
      const filled = matches
        .filter(({ column }) => !isBlank(cellAt(sheet, row, column)))
        .map(({ column }) => origin(row, column));
      const struck = filled.filter(isStruck);
      return struck.length > 0 && struck.length >= filled.length / 2 ? [[row, struck[0]!] as const] : [];
    }),
  );
}

/** A candidate without the records that are struck out. */
export function withoutStruck(candidate: Candidate, struck: ReadonlyMap<number, Place>): Candidate {
  if (struck.size === 0) return candidate;
  const rowsOn = (name: string): number[] =>
    [...struck.values()].flatMap(({ sheet, row }) => (sheet === name ? [row] : []));
  const of = (part: Candidate): Candidate => ({ ...part, struck: rowsOn(part.sheet.name) });
  return {
    ...of(candidate),
    dataRows: candidate.dataRows.filter((row) => !struck.has(row)),
    struckOut: struck.size,
    ...(candidate.parts && { parts: candidate.parts.map(of) }),
  };
}
