import type { Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { blocksOn, isDay, type Block } from './block';
import { partsOf, type Told } from './blockParts';
import { cellAt, type BookSheet } from './book';
import type { Candidate, FixedCell } from './candidate';
import { countEntries, entryPart, formOf } from './entries';
import type { WantedTable } from './jobs';
import { weekdaysIn } from './standing';
import type { Look } from './values';

// Orders in a grid whose cells say how much of what, as `3 tawny`: customers and days, down and across or the other way round.

/** Fewer such cells are remarks. */
const FEWEST = 3;

/** The columns of such grids, each as a list for the first entries of its cells, the second and so on. */
export function wordGridParts(
  sheet: BookSheet,
  table: WantedTable,
  isKnown: (label: string) => boolean,
  dueOf: (block: Block) => number | FixedCell | undefined,
): Candidate[] {
  const countAt = (row: number, column: number): number => countEntries(cellAt(sheet, row, column), isKnown);
  const found = sheet.rows.flatMap((cells, row) => cells.filter((_, column) => countAt(row, column) > 0));
  if (found.length < FEWEST) return [];
  // With the figures alone it is a block like others.
  const figures: BookSheet = {
    ...sheet,
    rows: sheet.rows.map((cells, row) =>
      cells.map((cell, column): Cell => (countAt(row, column) > 0 ? 1 : cell)),
    ),
  };
  const isDue = (look: Look, text: string): boolean =>
    isDay(look) || (look === 'text' && weekdaysIn(text).length > 0);
  const isLabel = (look: Look, text: string): boolean => look === 'text' && !isTotalsWord(text);
  const hasEntries = ({ rows, across }: Block): boolean =>
    across.some((column) => rows.some((row) => countAt(row, column) > 0));
  const byDay = blocksOn(figures, 2, isKnown, isDue).filter(hasEntries);
  const byLabel = blocksOn(figures, 1, isKnown, isLabel)
    .filter(hasEntries)
    .map((block) => ({
      ...block,
      across: block.across.filter((column) => hasEntries({ ...block, across: [column] })),
    }));
  const blocks = byDay.length > 0 ? byDay : byLabel;
  if (byDay.length === 0 && byLabel.some((block) => dueOf(block) === undefined)) return [];
  const cells = blocks.flatMap(({ rows, across }) =>
    rows.flatMap((row) => across.map((column) => cellAt(sheet, row, column))),
  );
  const form = formOf(cells);
  const most = Math.max(...cells.map((cell) => countEntries(cell, isKnown)));
  const due: Told =
    byDay.length > 0
      ? { wanted: 'due', header: 'the days across', lies: ({ row }, column) => ({ cell: { row, column } }) }
      : {
          wanted: 'due',
          header: 'the day of the row',
          lies: (block) => dueOf({ ...block, sheet: figures })!,
        };
  return Array.from({ length: most }, (_, which) => {
    const told = (wanted: string, header: string, part: 'figure' | 'words'): Told => ({
      wanted,
      header,
      lies: (__, column) => ({ column, entry: { which, part, ...form } }),
    });
    const parts = partsOf(
      blocks.map((block) => ({ ...block, sheet })),
      table,
      [
        told('product', 'the words in the cells', 'words'),
        told('mass', 'the figures in the cells', 'figure'),
        due,
      ],
    );
    return parts.map((part) => ({
      ...part,
      // Of cells with fewer entries there is no record here.
      dataRows:
        which === 0
          ? part.dataRows
          : part.dataRows.filter(
              (row) =>
                entryPart(cellAt(sheet, row, part.area.left), { which, part: 'figure', ...form }) !== null,
            ),
    }));
  }).flat();
}
