import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { cellAt, textOf, type BookSheet, type GrowersBook } from './book';
import { couldBe, isOurs, looksIn, namedPairs, type Candidate, type FixedCell } from './find';
import type { WantedTable } from './jobs';
import { rowKind } from './rows';
import { areWeekdays, weekdaysIn } from './standing';
import { massUnitIn } from './units';
import { lookAt, type Look } from './values';

// Figures in a block: customers down and products across, lots down and days across, or the other way round. Each column
// is read as if it were a list of its own, of which its header says one thing about every record.

/** Words of the sheets and columns that hold orders in a block. */
const CUSTOMERS =
  /customer|client|buyer|outlet|shop|market|restaurant|\bwho\b|kunde|klient|cliente|klant|odbiorca/i;

/** Columns of one block whose headers are of a kind. */
interface Block {
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

const FEWEST = { labels: 2, days: 3 } as const;

/** Rows below the last record of each column that are read as well. */
const [MOST_GROWTH, ALL_GROWTH] = [100, 600];

/** Days without a pick that are read as well, after the last that has one. */
const DAYS_AHEAD = 31;

/** A record put together from a column of a block, its header and what stands beside or above it. */
interface Told {
  readonly wanted: string;
  readonly header: string;
  /** A column of the sheet, or one cell that is true of all rows. */
  readonly lies: (block: Block, column: number) => number | FixedCell;
}

/** The columns of blocks that serve for picks or orders, each as a list; none where the book has no such block. */
export function crosstabParts(
  book: GrowersBook,
  table: WantedTable,
  isKnown: (label: string) => boolean,
): Candidate[] {
  const all = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) =>
      table.name === 'harvests'
        ? picksOn(sheet, table, isKnown)
        : table.name === 'orders'
          ? ordersOn(sheet, table, isKnown)
          : [],
    );
  const growth = Math.max(5, Math.min(MOST_GROWTH, Math.floor(ALL_GROWTH / Math.max(1, all.length))));
  return all.map((part) => (part.growth === undefined ? { ...part, growth } : part));
}

/** Lots down and days across, or days down and lots across. */
function picksOn(sheet: BookSheet, table: WantedTable, isKnown: (label: string) => boolean): Candidate[] {
  const byDay = blocksOn(sheet, FEWEST.days, isKnown, (look) => isDay(look)).flatMap((block) => {
    const down = columnNamed(block, table, 'lot') ?? (isKnownDown(block, isKnown) ? block.down : undefined);
    return down === undefined ? [] : [{ ...block, down, across: untilAhead({ ...block, down }) }];
  });
  if (byDay.length > 0) {
    return partsOf(byDay, table, [
      { wanted: 'lot', header: headerAt(byDay[0]!), lies: ({ down }) => down },
      { wanted: 'date', header: 'the days across', lies: ({ row }, column) => ({ cell: { row, column } }) },
      { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
    ]);
  }
  const byLot = blocksOn(
    sheet,
    FEWEST.labels,
    isKnown,
    (look, text) => look !== 'blank' && isKnown(text),
  ).flatMap((block) => {
    const down = columnNamed(block, table, 'date');
    return down === undefined ? [] : [{ ...block, down }];
  });
  if (byLot.length === 0) return [];
  return partsOf(byLot, table, [
    { wanted: 'lot', header: 'the lots across', lies: ({ row }, column) => ({ cell: { row, column } }) },
    { wanted: 'date', header: headerAt(byLot[0]!), lies: ({ down }) => down },
    { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
  ]);
}

/** What a column may say of each product, beside the days. */
const OF_PRODUCTS = ['keep days', 'price'];

/** Customers or days down and products across, or products down and days across. */
function ordersOn(sheet: BookSheet, table: WantedTable, isKnown: (label: string) => boolean): Candidate[] {
  const isOrders = table.sheetWords.test(sheet.name);
  const isDue = (look: Look, text: string): boolean =>
    isDay(look) || (look === 'text' && weekdaysIn(text).length > 0);
  const byDay = blocksOn(sheet, FEWEST.labels, isKnown, isDue).flatMap((block) => {
    const down = columnNamed(block, table, 'product') ?? knownColumn(block, isKnown);
    return isOrders && down !== undefined ? [{ ...block, down }] : [];
  });
  if (byDay.length > 0) {
    return partsOf(byDay, table, [
      { wanted: 'product', header: headerAt(byDay[0]!), lies: ({ down }) => down },
      { wanted: 'mass', header: 'the figures below the days', lies: (_, column) => column },
      { wanted: 'due', header: 'the days across', lies: ({ row }, column) => ({ cell: { row, column } }) },
      ...OF_PRODUCTS.flatMap((wanted): Told[] => {
        const at = columnNamed(byDay[0]!, table, wanted);
        const header = at === undefined ? '' : textOf(cellAt(sheet, byDay[0]!.row, at));
        return at === undefined ? [] : [{ wanted, header, lies: () => at }];
      }),
    ]);
  }
  const isOther = othersNamed(table);
  const byProduct = blocksOn(
    sheet,
    FEWEST.labels,
    isKnown,
    (look, text) => look === 'text' && !isOther(text) && !isTotalsWord(text),
  ).flatMap((found) => {
    const block = withoutPrices(found);
    const headers = block.across.map((column) => textOf(cellAt(sheet, block.row, column)));
    const hasKnown = headers.some(isKnown);
    const isPlain = ['product', 'mass'].some((name) => columnNamed(block, table, name) !== undefined);
    const hasCustomers = CUSTOMERS.test(textOf(cellAt(sheet, block.row, block.down)));
    const serves = !isPlain && (isOrders ? hasKnown || hasCustomers : hasKnown && hasCustomers);
    return serves ? [block] : [];
  });
  const dated = byProduct.map((block) => ({ block, due: dueOf(block, table) }));
  if (dated.length === 0) return [];
  const dueIn = new Map(dated.map(({ block, due }) => [block, due]));
  const isDated = dated.every(({ due }) => due !== undefined);
  const [first] = dated;
  const dueHeader =
    typeof first!.due === 'number' ? textOf(cellAt(sheet, first!.block.row, first!.due)) : 'the day above';
  return partsOf(byProduct, table, [
    {
      wanted: 'product',
      header: 'the products across',
      lies: ({ row }, column) => ({ cell: { row, column } }),
    },
    { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
    ...(isDated ? [{ wanted: 'due', header: dueHeader, lies: (block: Block) => dueIn.get(block)! }] : []),
    ...pricesOf(byProduct),
  ]);
}

/** What a price is called: by a sign of money, or by a word for it. */
const isPriceWord = (text: string): boolean =>
  /[$€£¥]|(?:^|[^\p{L}])(?:prices?|prix|preise?|precios?|prijs|prijzen|prezz[io]|cen[ay])(?!\p{L})/iu.test(
    text,
  );

/** A block without its row of prices, which is no order. */
function withoutPrices(block: Block): Block {
  const { sheet, rows, across, down, passedOver, totals } = block;
  const labelOf = (row: number): string => {
    const before = (sheet.rows[row] ?? []).slice(0, across[0]);
    return (
      before
        .map(textOf)
        .find((text) => text.trim() !== '')
        ?.trim() ?? ''
    );
  };
  const prices = rows.filter((row) => isPriceWord(labelOf(row)));
  if (prices.length === 0) return block;
  return {
    ...block,
    rows: rows.filter((row) => !prices.includes(row)),
    passedOver: [...passedOver, ...prices],
    totals: [...new Set([...totals, ...prices.map((row) => textOf(cellAt(sheet, row, down)).trim())])].filter(
      (word) => word !== '',
    ),
    ...(prices.length === 1 && { prices: prices[0]! }),
  };
}

/** The prices of products across: in a row of their own, or in a column right of each product. */
function pricesOf(blocks: readonly Block[]): Told[] {
  const isRightOfEach = ({ sheet, row, across }: Block): boolean =>
    across.every((column) => isPriceWord(textOf(cellAt(sheet, row, column + 1)).trim()));
  if (blocks.every(({ prices }) => prices !== undefined)) {
    const lies: Told['lies'] = ({ prices }, column) => ({ cell: { row: prices!, column } });
    return [{ wanted: 'price', header: 'the row of prices', lies }];
  }
  if (!blocks.every(isRightOfEach)) return [];
  return [{ wanted: 'price', header: 'the price beside each product', lies: (_, column) => column + 1 }];
}

const isDay = (look: Look): boolean => look === 'date' || look === 'text date';

const headerAt = ({ sheet, row, down }: Block): string =>
  textOf(cellAt(sheet, row, down)) || 'the first column';

/** Whether a header names a column of orders that is neither product nor mass: a customer, a price, a day. */
function othersNamed(table: WantedTable): (header: string) => boolean {
  const others = {
    ...table,
    columns: table.columns.filter(({ name }) => name !== 'product' && name !== 'mass'),
  };
  return (header) =>
    CUSTOMERS.test(header) ||
    NO_PRODUCT.test(header) ||
    namedPairs(new Map([[0, [header]]]), others).length > 0;
}

const NO_PRODUCT =
  /^(?:notes?|remarks?|comments?|week|wk|no\.?|#|tel|phone|e-?mail|address|paid|invoice|boxes|crates)\b/i;

/** The column of a block that a header names as a wanted one. */
function columnNamed(
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
function isKnownDown({ sheet, rows, down }: Block, isKnown: (label: string) => boolean): boolean {
  const labels = rows.map((row) => cellAt(sheet, row, down)).filter((cell) => !isBlank(cell));
  return labels.length > 0 && labels.filter((cell) => isKnown(textOf(cell))).length >= 0.5 * labels.length;
}

/** The first column beside the figures in which most labels are known ones. */
const knownColumn = (block: Block, isKnown: (label: string) => boolean): number | undefined =>
  (block.sheet.rows[block.row] ?? [])
    .map((_, column) => column)
    .filter((column) => !block.across.includes(column))
    .find((down) => isKnownDown({ ...block, down }, isKnown));

/** The days across up to the last that has a pick, and some more. */
function untilAhead({ sheet, rows, across }: Block): number[] {
  const isPicked = (column: number): boolean => rows.some((row) => !isBlank(cellAt(sheet, row, column)));
  const last = across.filter(isPicked).at(-1);
  return across.slice(0, (last === undefined ? 0 : across.indexOf(last)) + 1 + DAYS_AHEAD);
}

/** Rows above a block in which the day that it is for may lie. */
const ABOVE = 3;

/** The day that orders of a block are for: in a column of it, or the only day above it. */
function dueOf(block: Block, table: WantedTable): number | FixedCell | undefined {
  const { sheet, row, rows } = block;
  const named = columnNamed(block, table, 'due');
  if (named !== undefined) return named;
  const columns = (sheet.rows[row] ?? []).map((_, column) => column);
  const days = columns.filter(
    (column) => isDayColumn(looksIn(sheet, rows, column)) && !block.across.includes(column),
  );
  if (days.length === 1) return days[0];
  const standing = columns.filter(
    (column) => !block.across.includes(column) && areWeekdays(rows.map((one) => cellAt(sheet, one, column))),
  );
  if (standing.length === 1) return standing[0];
  for (let above = row - 1; above >= Math.max(0, row - ABOVE); above--) {
    const cells = sheet.rows[above] ?? [];
    const at = cells.flatMap((_, column) => (isDay(lookAt(sheet, above, column)) ? [column] : []));
    if (at.length === 1) return { cell: { row: above, column: at[0]! } };
    if (at.length > 1 || cells.some((_, column) => lookAt(sheet, above, column) === 'number'))
      return undefined;
  }
  return undefined;
}

const isDayColumn = (looks: ReadonlyMap<Look, number>): boolean =>
  (looks.get('date') ?? 0) + (looks.get('text date') ?? 0) > 0 && !looks.has('number');

/** The blocks of a sheet that have at least so many columns with figures under headers that serve. */
function blocksOn(
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

function blockAt(
  sheet: BookSheet,
  row: number,
  fewest: number,
  isKnown: (label: string) => boolean,
  serves: (look: Look, text: string) => boolean,
): Block | undefined {
  const cells = sheet.rows[row]!;
  const filled = cells.flatMap((cell, column) => (isBlank(cell) ? [] : [column]));
  // The first column says what each row is of.
  const [left] = filled;
  const headed = filled.filter(
    (column) => column !== left && serves(lookAt(sheet, row, column), textOf(cells[column]!).trim()),
  );
  if (left === undefined || headed.length < fewest || typeof cells[left] !== 'string') return undefined;
  const found = rowsOf(sheet, row, left, filled.at(-1)!);
  const down = filled
    .filter((column) => !headed.includes(column))
    .find((column) => looksIn(sheet, found.rows, column).has('text'));
  const across = headed.filter((column) => {
    const looks = looksIn(sheet, found.rows, column);
    const figures = (looks.get('number') ?? 0) + (looks.get('text number') ?? 0);
    const others = found.rows.length - figures - (looks.get('blank') ?? 0);
    // A day with one remark is a day; a column of remarks under words is none of figures.
    const header = textOf(cells[column]!).trim();
    const isFigures = isDay(lookAt(sheet, row, column)) || isKnown(header) || figures >= others;
    return !looks.has('date') && !looks.has('text date') && isFigures;
  });
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
  return { sheet, row, across, down: down ?? left, totals: [...new Set(totals)], ...found };
}

type Rows = Pick<Block, 'bottom' | 'rows' | 'passedOver' | 'isEnd'>;

/** The records below a header row: up to the headers again, with the title above those, or to the end. */
function rowsOf(sheet: BookSheet, top: number, left: number, right: number): Rows {
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
  }
  return { rows, passedOver, bottom, isEnd: bottom >= lastFilled(sheet, left, right) };
}

function lastFilled(sheet: BookSheet, left: number, right: number): number {
  const isFilledRow = (cells: readonly Cell[]): boolean =>
    cells.slice(left, right + 1).some((cell) => !isBlank(cell));
  return sheet.rows.reduce((last, cells, row) => (isFilledRow(cells) ? row : last), 0);
}

/** Nothing ordered, nothing picked. */
const isNothing = (cell: Cell): boolean =>
  isBlank(cell) || cell === 0 || (typeof cell === 'string' && /^[-–—]$/.test(cell.trim()));

function partsOf(blocks: readonly Block[], table: WantedTable, told: readonly Told[]): Candidate[] {
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
  const read = new Set(across.flatMap((column) => [column, ...told.map((one) => one.lies(block, column))]));
  return (sheet.rows[row] ?? []).flatMap((cell, column) =>
    typeof cell === 'string' && cell.trim() !== '' && !isTotalsWord(cell) && !read.has(column)
      ? [cell.trim()]
      : [],
  );
}

/** A column of a block as a list. */
function partOf(block: Block, column: number, table: WantedTable, told: readonly Told[]): Candidate {
  const { sheet, row: top, down, bottom, totals } = block;
  const lies = told.map((one) => one.lies(block, column));
  const placeAt = (row: number, at: number): { row: number; column: number } => {
    const own = lies[at]!;
    return typeof own === 'number' ? { row, column: own } : own.cell;
  };
  const view: BookSheet = {
    name: sheet.name,
    rows: sheet.rows.map((_, row): Cell[] =>
      lies.map((__, at) => {
        const place = placeAt(row, at);
        return cellAt(sheet, place.row, place.column);
      }),
    ),
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
        `(${cells(down)}<>"")*(${cells(column)}<>0)*(${cells(column)}<>"")*(${cells(column)}<>"-")`,
        ...totals.map((word) => `(${cells(down)}<>"${word.replaceAll('"', '""')}")`),
      ].join('*'),
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

/** Whether a label is one of some; or, where its words count, shares one with them: `Oysters` and `Blue oyster`. */
export function knownAmong(labels: readonly string[], doWordsCount: boolean): (label: string) => boolean {
  const keys = new Set(labels.map(headerKey));
  const words = new Set(doWordsCount ? labels.flatMap(tellingWords) : []);
  return (label) => {
    const key = headerKey(label);
    return key !== '' && (keys.has(key) || tellingWords(label).some((word) => words.has(word)));
  };
}

const tellingWords = (label: string): string[] =>
  (label.toLowerCase().match(/\p{L}{4,}/gu) ?? []).map((word) => word.replace(/s$/, ''));
