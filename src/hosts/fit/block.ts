import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { cellAt, textOf, type BookSheet } from './book';
import type { WantedTable } from './jobs';
import { couldBe, looksIn } from './looks';
import { namedPairs } from './matching';
import { onceFor } from './once';
import { rowKind } from './rows';
import { areSums } from './sums';
import { lookAt, mayBeDay, type Look } from './values';

/** Columns of one block whose headers are of a kind. */
export interface Block {
  readonly sheet: BookSheet;
  /** The header row. */
  readonly row: number;
  /** Columns with figures, under a label or a day each. */
  readonly across: readonly number[];
  /** The column that names what each row is of; `across` says the other. */
  readonly down: number;
  readonly bottom: number;
  readonly rows: readonly number[];
  readonly passedOver: readonly number[];
  /** The row that has the prices of what is across. */
  readonly prices?: number;
  /** What totals rows are called in the column `down`. */
  readonly totals: readonly string[];
  readonly isEnd: boolean;
}

export const isDay = (look: Look): boolean => look === 'date' || look === 'text date';

/** A header that is a day: `12/4` is one too, where others beside it are. */
export const isDayAcross = (look: Look, text: string): boolean => isDay(look) || mayBeDay(text);

/** How many columns make a block. */
export const FEWEST = { labels: 2, days: 3, dayNumbers: 7 } as const;

export const headerAt = ({ sheet, row, down }: Block): string =>
  textOf(cellAt(sheet, row, down)) || 'the first column';

/** The column of a block that a header names as a wanted one. */
export function columnNamed(
  { sheet, row, across, rows }: Block,
  table: WantedTable,
  wanted: string,
): number | undefined {
  const names = new Map(
    sheet.rows[row]!.flatMap((cell, column) =>
      typeof cell === 'string' && cell.trim() !== '' && !across.includes(column)
        ? [[column, [cell.trim()]] as const]
        : [],
    ),
  );
  const { kind } = table.columns.find(({ name }) => name === wanted)!.column;
  return namedPairs(names, table)
    .filter(
      (pair) => pair.wanted.name === wanted && couldBe(kind.word, wanted, looksIn(sheet, rows, pair.column)),
    )
    .sort((a, b) => b.points - a.points)[0]?.column;
}

/** Whether most labels down a block are known ones. */
export function isKnownDown({ sheet, rows, down }: Block, isKnown: (label: string) => boolean): boolean {
  const labels = rows.map((row) => cellAt(sheet, row, down)).filter((cell) => !isBlank(cell));
  return labels.length > 0 && labels.filter((cell) => isKnown(textOf(cell))).length >= 0.5 * labels.length;
}

/** The first column beside the figures in which most labels are known ones. */
export const knownColumn = (block: Block, isKnown: (label: string) => boolean): number | undefined =>
  (block.sheet.rows[block.row] ?? [])
    .map((_, column) => column)
    .filter((column) => !block.across.includes(column) && hasTexts(block, column))
    .find((down) => isKnownDown({ ...block, down }, isKnown));

/** Whether a column names something: figures under a name name nothing. */
const hasTexts = ({ sheet, rows }: Block, column: number): boolean => {
  const looks = looksIn(sheet, rows, column);
  return (looks.get('text') ?? 0) >= (looks.get('number') ?? 0);
};

/** Rows above a block in which the day that it is for may lie. */
export const ABOVE = 3;

/** The blocks of a sheet that have at least so many columns with figures under headers that serve. */
export function blocksOn(
  sheet: BookSheet,
  fewest: number,
  isKnown: (label: string) => boolean,
  serves: (look: Look, text: string) => boolean,
): Block[] {
  const blocks: Block[] = [];
  for (let row = 0; row < sheet.rows.length; row++) {
    const block = blockAt(sheet, row, fewest, isKnown, serves);
    if (!block) continue;
    blocks.push(block);
    row = block.bottom;
  }
  return blocks;
}

/** The block whose headers are in a row. */
export function blockAt(
  sheet: BookSheet,
  row: number,
  fewest: number,
  isKnown: (label: string) => boolean,
  serves: (look: Look, text: string) => boolean,
): Block | undefined {
  const cells = sheet.rows[row]!;
  const filled = cells.flatMap((cell, column) => (isBlank(cell) ? [] : [column]));
  // The first column says what each row is of; its own header may be blank.
  const [first] = filled;
  const isCornerBlank =
    first !== undefined &&
    first > 0 &&
    typeof cells[first] !== 'string' &&
    lookAt(sheet, row + 1, first - 1) === 'text';
  // A product or lot that comes first is no header of what each row is of, where that lies beside it.
  const isLabelFirst =
    first !== undefined &&
    first > 0 &&
    isKnown(textOf(cells[first]!).trim()) &&
    serves(lookAt(sheet, row, first), textOf(cells[first]!).trim()) &&
    ['number', 'text number', 'blank'].includes(lookAt(sheet, row + 1, first)) &&
    ['text', 'date', 'text date'].includes(lookAt(sheet, row + 1, first - 1));
  const hasBlankCorner = isCornerBlank || isLabelFirst;
  const left = hasBlankCorner ? first - 1 : first;
  const headed = filled.filter(
    (column) => column !== left && serves(lookAt(sheet, row, column), textOf(cells[column]!).trim()),
  );
  if (left === undefined || headed.length < fewest) return undefined;
  // The day that all of it is for may stand in the corner.
  if (!hasBlankCorner && typeof cells[left] !== 'string' && !isDay(lookAt(sheet, row, left)))
    return undefined;
  if (!headed.some((column) => hasFigureBelow(sheet, column, row))) return undefined;
  // Days under days are a list: each of its rows looks like headers of days.
  const cannotBe = (record: number): boolean =>
    headed.filter((column) => !isDay(lookAt(sheet, record, column))).length < fewest;
  const found = rowsOf(sheet, row, left, filled.at(-1)!, cannotBe);
  if (!found) return undefined;
  const across = headed.filter((column) => {
    const looks = looksIn(sheet, found.rows, column);
    const figures = (looks.get('number') ?? 0) + (looks.get('text number') ?? 0);
    const others = found.rows.length - figures - (looks.get('blank') ?? 0);
    // A day with one remark is a day; a column of remarks under words is none of figures.
    const header = textOf(cells[column]!).trim();
    const isFigures = isDay(lookAt(sheet, row, column)) || isKnown(header) || figures >= others;
    return !looks.has('date') && !looks.has('text date') && isFigures;
  });
  const hasWords = (column: number): boolean => looksIn(sheet, found.rows, column).has('text');
  // A customer may be written once for several rows: what each of them has tells them from totals.
  const isInEach = (column: number): boolean =>
    found.rows.every(
      (at) => !isBlank(cellAt(sheet, at, column)) || across.every((one) => isBlank(cellAt(sheet, at, one))),
    );
  const named = filled.find((column) => !headed.includes(column) && hasWords(column));
  const others = filled.filter((column) => !across.includes(column) && hasWords(column));
  const down = named !== undefined && !isInEach(named) ? (others.find(isInEach) ?? named) : named;
  const hasFigures = across.some((column) => {
    const looks = looksIn(sheet, found.rows, column);
    return looks.has('number') || looks.has('text number');
  });
  if (across.length < fewest || !hasFigures) return undefined;
  const totals = found.passedOver.flatMap((at) =>
    (sheet.rows[at] ?? []).flatMap((cell) =>
      typeof cell === 'string' && isTotalsWord(cell) ? [cell.trim()] : [],
    ),
  );
  const own = { sheet, row, across, down: down ?? left, totals: [...new Set(totals)], ...found };
  return withoutSums(own);
}

/** A block without the last row where that sums up the others, whatever it is called. */
function withoutSums(block: Block): Block {
  const { sheet, rows, across, down, passedOver, totals } = block;
  const [last, above] = [rows.at(-1), rows.slice(0, -1)];
  const label = last === undefined ? '' : textOf(cellAt(sheet, last, down)).trim();
  if (last === undefined || !areSums(sheet, last, above, across)) return block;
  return {
    ...block,
    rows: above,
    passedOver: [...passedOver, last],
    totals: label === '' ? totals : [...new Set([...totals, label])],
  };
}

type Rows = Pick<Block, 'bottom' | 'rows' | 'passedOver' | 'isEnd'>;

/** A figure further below says nothing of a header. */
const FAR_BELOW = 1000;

/** For each row of a column the next that holds a figure, from the last up. */
const nextFigures = onceFor((sheet: BookSheet) => {
  const known = new Map<number, number[]>();
  return (column: number): readonly number[] => {
    const before = known.get(column);
    if (before) return before;
    const next = new Array<number>(sheet.rows.length).fill(Infinity);
    for (let row = next.length - 1; row > 0; row--) {
      const look = lookAt(sheet, row, column);
      next[row - 1] = look === 'number' || look === 'text number' ? row : next[row]!;
    }
    known.set(column, next);
    return next;
  };
});

const hasFigureBelow = (sheet: BookSheet, column: number, row: number): boolean =>
  nextFigures(sheet)(column)[row]! - row <= FAR_BELOW;

/**
 * The records below a header row: up to the headers again, with the title above those, or to the end. Undefined where the
 * first record shows that these are no headers.
 */
function rowsOf(
  sheet: BookSheet,
  top: number,
  left: number,
  right: number,
  cannotBe: (record: number) => boolean,
): Rows | undefined {
  const columns = Array.from({ length: right - left + 1 }, (_, i) => left + i);
  const headers = columns.map((column) => textOf(cellAt(sheet, top, column)));
  const rows: number[] = [];
  const passedOver: number[] = [];
  const isTitle = (row: number): boolean =>
    !columns.some((column) => lookAt(sheet, row, column) === 'number') &&
    columns.some((column) => isDay(lookAt(sheet, row, column)) || lookAt(sheet, row, column) === 'text');
  let [blanks, bottom] = [0, top];
  for (let row = top + 1; row < sheet.rows.length; row++) {
    const cells = columns.map((column) => cellAt(sheet, row, column));
    const kind = rowKind(cells, headers);
    if (kind === 'headers again') {
      // The title over these headers is no record of the block above.
      while (rows.length > 0 && rows.at(-1)! >= row - ABOVE && isTitle(rows.at(-1)!)) rows.pop();
      return {
        rows,
        passedOver,
        bottom: Math.max(top, rows.at(-1) ?? top, ...passedOver.filter((one) => one < row - 1)),
        isEnd: false,
      };
    }
    if (kind === 'blank') {
      blanks++;
      if (blanks > 4) break;
      continue;
    }
    blanks = 0;
    bottom = row;
    if (kind === 'data') rows.push(row);
    else passedOver.push(row);
    // With so many behind it, the first is no title of what follows.
    if (rows.length === ABOVE + 1 && cannotBe(rows[0]!)) return undefined;
  }
  return { rows, passedOver, bottom, isEnd: bottom >= lastFilled(sheet, left, right) };
}

function lastFilled(sheet: BookSheet, left: number, right: number): number {
  const isFilledRow = (cells: readonly Cell[]): boolean =>
    cells.slice(left, right + 1).some((cell) => !isBlank(cell));
  return sheet.rows.reduce((last, cells, row) => (isFilledRow(cells) ? row : last), 0);
}
