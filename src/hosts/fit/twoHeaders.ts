import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { blockAt, FEWEST, type Block } from './block';
import type { Told } from './blockParts';
import { cellAt, textOf, type BookSheet } from './book';
import type { FixedCell } from './candidate';
import { dayColumn } from './dayBeside';
import { unnamed } from './headerRuns';
import { lookAt, type Look } from './values';

// Two header rows over a block: days over products, or products over days. What stands once over several columns, merged or
// with blanks beside it, holds for all of them up to the next.

/** What a header may say. */
export interface HeaderKinds {
  readonly isDay: (look: Look, text: string) => boolean;
  /** Whether it is a product or a lot. */
  readonly isLabel: (look: Look, text: string) => boolean;
  /** Whether it is surely one. */
  readonly isKnown: (text: string) => boolean;
  /** Whether it says what the rows are of, so that labels across need not be known. */
  readonly isOfRows?: (text: string) => boolean;
  /** Whether labels only say what is counted, `kg`: they lie below the days, and one of a day may do. */
  readonly isOfFigures?: boolean;
}

/** A block under two header rows, with the header over each of its columns. */
export interface TwoHeaders {
  readonly block: Block;
  /** The cell that says what a column is of, and the one that says its day. */
  readonly label: (column: number) => FixedCell['cell'];
  readonly day: (column: number) => FixedCell['cell'];
}

/** The blocks of a sheet that lie under two such rows. */
export function twoHeadersOn(sheet: BookSheet, kinds: HeaderKinds): TwoHeaders[] {
  const found: TwoHeaders[] = [];
  for (let row = 1; row < sheet.rows.length; row++) {
    const own =
      twoHeadersAt(sheet, row, kinds, true) ??
      (kinds.isOfFigures ? undefined : twoHeadersAt(sheet, row, kinds, false));
    if (!own) continue;
    found.push(own);
    row = own.block.bottom;
  }
  return found;
}

function twoHeadersAt(
  sheet: BookSheet,
  row: number,
  kinds: HeaderKinds,
  isDayOver: boolean,
): TwoHeaders | undefined {
  const upper = row - 1;
  const isOf = (isDay: boolean, at: number, column: number): boolean =>
    (isDay ? kinds.isDay : kinds.isLabel)(lookAt(sheet, at, column), textAt(sheet, at, column));
  const columns = (sheet.rows[row] ?? []).map((_, column) => column);
  // A figure stands in no header row, and one of the two has days.
  const isRecord = [upper, row].some((at) =>
    columns.some((column) => lookAt(sheet, at, column) === 'number'),
  );
  const hasDays = columns.some((column) => isOf(true, isDayOver ? upper : row, column));
  if (isRecord || !hasDays) return undefined;
  const lower = columns.filter((column) => isOf(!isDayOver, row, column));
  const isHeaded = (at: number): boolean => [row, upper].some((one) => !isBlank(cellAt(sheet, one, at)));
  // A column without headers ends what stands over those before it.
  const over = (column: number): number => {
    let at = column;
    while (at > 0 && isBlank(cellAt(sheet, upper, at)) && isHeaded(at)) at--;
    return at;
  };
  // A text over the labels down is a title.
  const first = (sheet.rows[row + 1] ?? []).findIndex((cell) => !isBlank(cell));
  const across = lower.filter((column) => over(column) !== first && isOf(isDayOver, upper, over(column)));
  // Where no header is over two columns, these may be two rows of records.
  const groups = new Set(across.map((column) => textAt(sheet, upper, over(column))));
  // What stands further left is the title of all.
  const isTitle = !kinds.isOfFigures && across.length > 0 && over(across[0]!) < across[0]!;
  if (across.length < FEWEST.labels || isTitle) return undefined;
  if (groups.size === across.length && !kinds.isOfFigures) return undefined;
  const labelAt = (column: number): string =>
    isDayOver ? textAt(sheet, row, column) : textAt(sheet, upper, over(column));
  const isAnyKnown = across.some((column) => kinds.isKnown(labelAt(column)));
  // What comes again under each day, or stands over several, is a product to those who order.
  const comesAgain = !isDayOver || new Set(across.map(labelAt)).size < across.length;
  const besides = [upper, row].flatMap((at) =>
    columns.filter((column) => column < across[0]!).map((column) => textAt(sheet, at, column)),
  );
  const isOfRows = besides.some((text) => kinds.isOfRows?.(text) === true);
  if (!isAnyKnown && !(isOfRows && comesAgain)) return undefined;
  // A column under another upper header would be lost: only one of totals may be.
  const isLost = (column: number): boolean => {
    const texts = [textAt(sheet, upper, over(column)), textAt(sheet, row, column)];
    const isOne = !isDayOver || kinds.isKnown(texts[1]!);
    return isOne && texts[0] !== '' && !across.includes(column) && !texts.some(isTotalsWord);
  };
  // Twice the same under one header is something else the second time.
  const named = across.map((column) => `${over(column)}\n${textAt(sheet, row, column)}`);
  if (lower.some(isLost) || new Set(named).size < named.length) return undefined;
  const view = withOneHeaderRow(sheet, row, across);
  const block = blockAt(view, row, FEWEST.labels, kinds.isKnown, (look, text) =>
    (isDayOver ? kinds.isLabel : kinds.isDay)(look, text),
  );
  const own = block?.across.filter((column) => across.includes(column)) ?? [];
  const lowerCell = (column: number): FixedCell['cell'] => ({ row, column });
  const upperCell = (column: number): FixedCell['cell'] => ({ row: upper, column: over(column) });
  const [label, day] = isDayOver ? [lowerCell, upperCell] : [upperCell, lowerCell];
  return block && own.length > 0 ? { block: { ...block, across: own }, label, day } : undefined;
}

const textAt = (sheet: BookSheet, row: number, column: number): string =>
  textOf(cellAt(sheet, row, column)).trim();

/** A sheet whose lower header row has the words of the upper one where it is blank itself. */
function withOneHeaderRow(sheet: BookSheet, row: number, across: readonly number[]): BookSheet {
  const upper = sheet.rows[row - 1]!;
  const width = Math.max(upper.length, sheet.rows[row]!.length);
  const headers = Array.from({ length: width }, (_, column): Cell => {
    const own = cellAt(sheet, row, column);
    const above = cellAt(sheet, row - 1, column);
    return isBlank(own) && typeof above === 'string' && !across.includes(column) ? above : own;
  });
  // The first column says what each row is of, though nothing stands over it.
  const corner = across[0]! - 1;
  const isFree = headers.slice(0, across[0]).every((cell) => isBlank(cell));
  if (corner >= 0 && isFree) headers[corner] = unnamed(corner);
  return { ...sheet, rows: sheet.rows.map((cells, at) => (at === row ? headers : cells)) };
}

/** What each column is of. */
export const labelTold = (wanted: string, found: readonly TwoHeaders[]): Told => ({
  wanted,
  header: `the ${wanted}s across`,
  lies: (block, column) => ({ cell: found.find((one) => one.block === block)!.label(column) }),
});

/** The day of each column; of weeks each row may say on which day of them. */
export const dayTold = (wanted: string, found: readonly TwoHeaders[]): Told => {
  const dayOf = (block: Block): TwoHeaders['day'] => found.find((one) => one.block === block)!.day;
  return {
    wanted,
    header: 'the days across',
    lies: (block, column) => ({ cell: dayOf(block)(column) }),
    beside: (block) => dayColumn(block, dayOf(block)),
  };
};

export const massTold: Told = {
  wanted: 'mass',
  header: 'the figures below them',
  lies: (_, column) => column,
};
