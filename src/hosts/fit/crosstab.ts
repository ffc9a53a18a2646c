import { isBlank } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { ABOVE, blocksOn, columnNamed, headerAt, isDay, isKnownDown, knownColumn, type Block } from './block';
import { partsOf, type Told } from './blockParts';
import { cellAt, textOf, type BookSheet, type GrowersBook } from './book';
import type { Candidate, FixedCell } from './candidate';
import type { WantedTable } from './jobs';
import { looksIn } from './looks';
import { namedPairs } from './matching';
import { daysAcross, mayBeDayNumber } from './monthAcross';
import { isOurs } from './ours';
import { NAMED } from './naming';
import { pricesOf, withoutPrices } from './prices';
import { areWeekdays, weekdaysIn } from './standing';
import { lookAt, mayBeDay, type Look } from './values';
import { weekdayAt, weekOver } from './weekOf';
import { wordGridParts } from './wordGrid';

// Figures in a block: customers down and products across, lots down and days across, or the other way round. Each column
// is read as if it were a list of its own, of which its header says one thing about every record.

/** Words of the sheets and columns that hold orders in a block. */
const CUSTOMERS =
  /customer|client|buyer|outlet|shop|market|restaurant|\bwho\b|kunde|klient|cliente|klant|odbiorca/i;

const FEWEST = { labels: 2, days: 3, dayNumbers: 7 } as const;

/** Rows below the last record of each column that are read as well. */
const [MOST_GROWTH, ALL_GROWTH] = [100, 600];

/** Days without a pick that are read as well, after the last that has one. */
const DAYS_AHEAD = 31;

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

/** A header that is a day: `12/4` is one too, where others beside it are. */
const isDayAcross = (look: Look, text: string): boolean => isDay(look) || mayBeDay(text);

/** Lots down and days across, or days down and lots across. */
function picksOn(sheet: BookSheet, table: WantedTable, isKnown: (label: string) => boolean): Candidate[] {
  const byDay = blocksOn(sheet, FEWEST.days, isKnown, isDayAcross).flatMap((block) => {
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
  const ofMonths = byMonth(sheet, isKnown, table);
  if (ofMonths.size > 0) {
    const blocks = [...ofMonths.keys()];
    return partsOf(blocks, table, [
      { wanted: 'lot', header: headerAt(blocks[0]!), lies: ({ down }) => down },
      {
        wanted: 'date',
        header: 'the month and the days across',
        lies: (block, column) => ({ figure: ofMonths.get(block)!.get(column)! }),
      },
      { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
    ]);
  }
  const byWeekday = byWeek(sheet, isKnown, (block) => columnNamed(block, table, 'lot'));
  if (byWeekday.length > 0) {
    return partsOf(
      byWeekday.map(({ block }) => block),
      table,
      [
        { wanted: 'lot', header: headerAt(byWeekday[0]!.block), lies: ({ down }) => down },
        weekTold('date', byWeekday),
        { wanted: 'mass', header: 'the figures below the days', lies: (_, column) => column },
      ],
    );
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

/** Blocks with lots down and the days of a month across, with the day over each column; none where that of one is not said. */
function byMonth(
  sheet: BookSheet,
  isKnown: (label: string) => boolean,
  table: WantedTable,
): ReadonlyMap<Block, ReadonlyMap<number, string>> {
  const blocks = blocksOn(sheet, FEWEST.dayNumbers, isKnown, (_, text) => mayBeDayNumber(text)).flatMap(
    (block) => {
      const down = columnNamed(block, table, 'lot') ?? knownColumn(block, isKnown);
      return down === undefined ? [] : [{ ...block, down }];
    },
  );
  const found = new Map(blocks.map((block) => [block, daysAcross(block)]));
  const areTold = [...found.values()].every((days) => days !== undefined);
  return areTold ? (found as Map<Block, ReadonlyMap<number, string>>) : new Map();
}

interface BlockOfWeek {
  readonly block: Block;
  readonly week: NonNullable<ReturnType<typeof weekOver>>;
}

/** Blocks with days of the week across and labels down whose week is said; none where that of one is not. */
function byWeek(
  sheet: BookSheet,
  isKnown: (label: string) => boolean,
  labels: (block: Block) => number | undefined,
): BlockOfWeek[] {
  const isWeekday = (look: Look, text: string): boolean => look === 'text' && weekdaysIn(text).length === 1;
  const blocks = blocksOn(sheet, FEWEST.days, isKnown, isWeekday).flatMap((block) => {
    const down = labels(block) ?? knownColumn(block, isKnown);
    return down === undefined ? [] : [{ ...block, down }];
  });
  const found = blocks.flatMap((block) => {
    const week = weekOver(block);
    return week === undefined ? [] : [{ block, week }];
  });
  return found.length === blocks.length ? found : [];
}

/** The day of each figure in blocks of weeks. */
function weekTold(wanted: string, blocks: readonly BlockOfWeek[]): Told {
  const weekIn = new Map(blocks.map(({ block, week }) => [block, week]));
  return {
    wanted,
    header: 'the week and the days across',
    lies: (block) => weekIn.get(block)!,
    weekday: weekdayAt,
  };
}

/** What a column may say of each product, beside the days. */
const OF_PRODUCTS = ['keep days', 'price'];

/** Customers or days down and products across, or products down and days across. */
function ordersOn(sheet: BookSheet, table: WantedTable, isKnown: (label: string) => boolean): Candidate[] {
  const isOrders = table.sheetWords.test(sheet.name);
  const isDue = (look: Look, text: string): boolean =>
    isDayAcross(look, text) || (look === 'text' && weekdaysIn(text).length > 0);
  const inWords = wordGridParts(sheet, table, isKnown, (block) => dueOf(block, table));
  if (inWords.length > 0) return inWords;
  const ofWeeks = byWeek(sheet, isKnown, (block) => columnNamed(block, table, 'product')).filter(
    ({ block }) => isOrders || hasCustomers(block),
  );
  if (ofWeeks.length > 0) {
    return partsOf(
      ofWeeks.map(({ block }) => block),
      table,
      [
        { wanted: 'product', header: headerAt(ofWeeks[0]!.block), lies: ({ down }) => down },
        { wanted: 'mass', header: 'the figures below the days', lies: (_, column) => column },
        weekTold('due', ofWeeks),
      ],
    );
  }
  const byDay = blocksOn(sheet, FEWEST.labels, isKnown, isDue).flatMap((block) => {
    const down = columnNamed(block, table, 'product') ?? knownColumn(block, isKnown);
    return (isOrders || hasCustomers(block)) && down !== undefined ? [{ ...block, down }] : [];
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
  const isMass = massNamed(table);
  const byProduct = blocksOn(
    sheet,
    FEWEST.labels,
    isKnown,
    (look, text) => look === 'text' && !isOther(text) && !isTotalsWord(text),
  ).flatMap((found) => {
    const block = withoutPrices(found);
    const headers = block.across.map((column) => textOf(cellAt(sheet, block.row, column)));
    const hasKnown = headers.some(isKnown);
    const isPlain =
      headers.some(isMass) ||
      ['product', 'mass'].some((name) => columnNamed(block, table, name) !== undefined);
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

/** Whether a header beside the figures of a block names customers. */
const hasCustomers = ({ sheet, row, across }: Block): boolean =>
  (sheet.rows[row] ?? []).some((cell, column) => !across.includes(column) && CUSTOMERS.test(textOf(cell)));

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

/** Whether a header itself names the mass of an order: it is no product, though its unit alone may stand behind one. */
function massNamed(table: WantedTable): (header: string) => boolean {
  const mass = { ...table, columns: table.columns.filter(({ name }) => name === 'mass') };
  return (header) =>
    namedPairs(new Map([[0, [header]]]), mass).some(({ points }) => points > NAMED.bare * 1.5);
}

const NO_PRODUCT =
  /^(?:notes?|remarks?|comments?|week|wk|no\.?|#|tel|phone|e-?mail|address|paid|invoice|boxes|crates)\b/i;

/** The days across up to the last that has a pick, and some more. */
function untilAhead({ sheet, rows, across }: Block): number[] {
  const isPicked = (column: number): boolean => rows.some((row) => !isBlank(cellAt(sheet, row, column)));
  const last = across.filter(isPicked).at(-1);
  return across.slice(0, (last === undefined ? 0 : across.indexOf(last)) + 1 + DAYS_AHEAD);
}

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
  const isCorner = !block.across.includes(block.down) && isDay(lookAt(sheet, row, block.down));
  if (isCorner) return { cell: { row, column: block.down } };
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
