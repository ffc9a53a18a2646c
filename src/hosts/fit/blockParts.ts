import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { ABOVE, type Block } from './block';
import { cellAt, textOf, type BookSheet } from './book';
import type { Candidate, Lies } from './candidate';
import { entryPart, entryText } from './entries';
import type { WantedTable } from './jobs';
import { weekdaysIn } from './standing';
import { massUnitIn } from './units';
import { isSundayFirst } from './weekOf';

/** A record put together from a column of a block, its header and what stands beside or above it. */
export interface Told {
  readonly wanted: string;
  readonly header: string;
  /** A column of the sheet, one cell that is true of all rows, or what no cell says. */
  readonly lies: (block: Block, column: number) => Lies;
  /** A column that says more of it in each row: the day of a week. */
  readonly beside?: (block: Block) => number | undefined;
  /** Which day of the week that stands there it is for. */
  readonly weekday?: (block: Block, column: number) => number;
}

/** Nothing ordered, nothing picked. */
const isNothing = (cell: Cell): boolean =>
  isBlank(cell) || cell === 0 || (typeof cell === 'string' && /^[-–—]$/.test(cell.trim()));

export function partsOf(blocks: readonly Block[], table: WantedTable, told: readonly Told[]): Candidate[] {
  return blocks.flatMap((block) => block.across.map((column) => partOf(block, column, table, told)));
}

/** The unit that the sheet's name or a title over a block names, in brackets: `(lbs)`. */
function unitOver({ sheet, row }: Block): string {
  const texts = sheet.rows.slice(Math.max(0, row - ABOVE), row).flatMap((cells) => cells.map(textOf));
  const unit = [...texts.reverse(), sheet.name].map(massUnitIn).find((one) => one !== undefined);
  return unit === undefined ? '' : ` (${unit})`;
}

/** The headers of a block that say nothing of its records. */
function unreadIn(block: Block, told: readonly Told[]): string[] {
  const { sheet, row, across } = block;
  // `Every week from 7 December` over days of the week says more than they do.
  const isStanding = across.every((column) => weekdaysIn(textOf(cellAt(sheet, row, column))).length > 0);
  const isRead = (at: number, column: number): boolean =>
    told.some((one) => {
      const own = one.lies(block, across[0]!);
      return typeof own === 'object' && 'cell' in own && own.cell.row === at && own.cell.column === column;
    });
  const titles = isStanding
    ? sheet.rows.slice(Math.max(0, row - ABOVE), row).flatMap((cells, i) =>
        cells.flatMap((cell, column) => {
          const at = Math.max(0, row - ABOVE) + i;
          return typeof cell === 'string' && /\d/.test(cell) && !isRead(at, column) ? [cell.trim()] : [];
        }),
      )
    : [];
  const read = new Set(
    across.flatMap((column) => [
      column,
      ...told.flatMap((one) => [one.lies(block, column), one.beside?.(block)]),
    ]),
  );
  const headers = (sheet.rows[row] ?? []).flatMap((cell, column) =>
    typeof cell === 'string' &&
    cell.trim() !== '' &&
    !isTotalsWord(cell) &&
    !read.has(column) &&
    !isRead(row, column)
      ? [cell.trim()]
      : [],
  );
  return [...headers, ...titles];
}

/** A column of a block as a list. */
function partOf(block: Block, column: number, table: WantedTable, told: readonly Told[]): Candidate {
  const { sheet, row: top, down, bottom, totals } = block;
  const [beside] = told.flatMap((one) => one.beside?.(block) ?? []);
  const lies = [...told.map((one) => one.lies(block, column)), ...(beside === undefined ? [] : [beside])];
  const placeAt = (row: number, at: number): { row: number; column: number } => {
    const own = lies[at]!;
    if (typeof own === 'number') return { row, column: own };
    if ('entry' in own) return { row, column: own.column };
    return 'cell' in own ? own.cell : { row: top, column };
  };
  const heldAt = (row: number, at: number): Cell => {
    const own = lies[at]!;
    if (typeof own === 'object' && 'figure' in own) return own.figure;
    const place = placeAt(row, at);
    const cell = cellAt(sheet, place.row, place.column);
    return typeof own === 'object' && 'entry' in own ? entryPart(cell, own.entry) : cell;
  };
  const view: BookSheet = {
    name: sheet.name,
    rows: sheet.rows.map((_, row): Cell[] => lies.map((__, at) => heldAt(row, at))),
    formatAt: (row, at) => {
      const place = placeAt(row, at);
      return lies[at] === undefined ? undefined : sheet.formatAt(place.row, place.column);
    },
    isFormula: (row, at) => {
      if (lies[at] === undefined) return false;
      const place = placeAt(row, at);
      return sheet.isFormula(place.row, place.column);
    },
  };
  const left = Math.min(down, ...block.across);
  const headers = told.map(({ wanted, header }) => (wanted === 'mass' ? header + unitOver(block) : header));
  const matches = told.map(({ wanted }, at) => ({
    wanted,
    column: at,
    header: headers[at]!,
    by: 'its data' as const,
  }));
  return {
    table,
    sheet: view,
    area: { top, left: column, bottom, right: column },
    block: { top, left, bottom, right: block.across.at(-1)! },
    tableName: undefined,
    headers: new Map(headers.map((header, at) => [at, header])),
    ignored: unreadIn(block, told),
    isGrouped: false,
    isPart: true,
    lies,
    record: (cells) =>
      [
        ...lies.flatMap((own) =>
          typeof own === 'object' && 'entry' in own && own.entry.which > 0 && own.entry.part === 'figure'
            ? [`(${entryText(cells(column), own.entry)}<>"")`]
            : [],
        ),
        `(${cells(down)}<>"")*(${cells(column)}<>0)*(${cells(column)}<>"")*(${cells(column)}<>"-")`,
        ...totals.map((word) => `(${cells(down)}<>"${word.replaceAll('"', '""')}")`),
      ].join('*'),
    ...told.flatMap((one) =>
      one.weekday ? [{ weekday: one.weekday(block, column), isSundayFirst: isSundayFirst(block) }] : [],
    )[0],
    ...(beside !== undefined && {
      dayBeside: { column: told.length, header: textOf(cellAt(sheet, top, beside)).trim() },
    }),
    ...(!block.isEnd && { growth: 0 }),
    matches,
    missing: table.columns
      .filter(({ name, isNeeded }) => isNeeded && !told.some(({ wanted }) => wanted === name))
      .map(({ name }) => name),
    dataRows: block.rows.filter(
      (row) => !isNothing(cellAt(sheet, row, column)) && !isBlank(cellAt(sheet, row, down)),
    ),
    passedOver: block.passedOver,
    origin: (row, at) => ({ sheet: sheet.name, ...placeAt(row, Math.min(at, lies.length - 1)) }),
    score: 12,
  };
}
