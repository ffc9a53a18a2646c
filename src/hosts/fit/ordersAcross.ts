import { isTotalsWord } from '../../worksheet/cells/totals';
import {
  ABOVE,
  blocksOn,
  columnNamed,
  FEWEST,
  headerAt,
  isDay,
  isDayAcross,
  knownColumn,
  type Block,
} from './block';
import { partsOf, type Told } from './blockParts';
import { cellAt, textOf, type BookSheet } from './book';
import type { Candidate, FixedCell } from './candidate';
import { dayColumn } from './dayBeside';
import type { WantedTable } from './jobs';
import { looksIn } from './looks';
import { namedPairs } from './matching';
import { NAMED } from './naming';
import { pricesOf, withoutPrices } from './prices';
import { areWeekdays, weekdaysIn } from './standing';
import { dayTold, labelTold, massTold, twoHeadersOn } from './twoHeaders';
import { lookAt, type Look } from './values';
import { byWeek, weekTold } from './weekBlocks';
import { weekIn } from './weeks';
import { wordGridParts } from './wordGrid';

// Orders in a block: customers or days down and products across, products down and days across, or both across.

/** Words of the sheets and columns that hold orders in a block. */
const CUSTOMERS =
  /customer|client|buyer|outlet|shop|market|restaurant|chef|kitchen|caf[eé]|\bpub\b|hotel|stockist|\bstall|\bwho\b|kunde|klient|cliente|klant|odbiorca/i;

/** What a column may say of each product, beside the days. */
const OF_PRODUCTS = ['keep days', 'price'];

/** Customers or days down and products across, or products down and days across. */
export function ordersOn(
  sheet: BookSheet,
  table: WantedTable,
  isKnown: (label: string) => boolean,
): Candidate[] {
  const isOrders = table.sheetWords.test(sheet.name);
  const isDue = (look: Look, text: string): boolean =>
    isDayAcross(look, text) ||
    (look === 'text' && weekdaysIn(text).length > 0) ||
    (look !== 'number' && weekIn(text) !== undefined);
  const inWords = wordGridParts(sheet, table, isKnown, (block) => dueOf(block, table));
  if (inWords.length > 0) return inWords;
  const isOther = othersNamed(table);
  const isMass = massNamed(table);
  const isProduct = (look: Look, text: string): boolean =>
    look === 'text' && !isOther(text) && !isTotalsWord(text);
  const underTwo = twoHeadersOn(sheet, {
    isDay: isDue,
    isLabel: (look, text) => isProduct(look, text) && !isMass(text),
    isKnown,
    isOfRows: (text) => CUSTOMERS.test(text),
  }).filter(({ block }) => isOrders || hasCustomers(block));
  if (underTwo.length > 0)
    return partsOf(
      underTwo.map(({ block }) => block),
      table,
      [labelTold('product', underTwo), massTold, dayTold('due', underTwo)],
    );
  const withUnits = twoHeadersOn(sheet, {
    isDay: isDue,
    isLabel: (look, text) => look === 'text' && !/\d/.test(text) && isMass(text),
    isKnown: isMass,
    isOfFigures: true,
  }).flatMap((found) => {
    const down = columnNamed(found.block, table, 'product') ?? knownColumn(found.block, isKnown);
    const serves = (isOrders || hasCustomers(found.block)) && down !== undefined;
    return serves ? [{ ...found, block: { ...found.block, down } }] : [];
  });
  if (withUnits.length > 0)
    return partsOf(
      withUnits.map(({ block }) => block),
      table,
      [
        { wanted: 'product', header: headerAt(withUnits[0]!.block), lies: ({ down }) => down },
        massTold,
        dayTold('due', withUnits),
      ],
    );
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
      {
        wanted: 'due',
        header: 'the days across',
        lies: ({ row }, column) => ({ cell: { row, column } }),
        beside: (block) => dayColumn(block),
      },
      ...OF_PRODUCTS.flatMap((wanted): Told[] => {
        const at = columnNamed(byDay[0]!, table, wanted);
        const header = at === undefined ? '' : textOf(cellAt(sheet, byDay[0]!.row, at));
        return at === undefined ? [] : [{ wanted, header, lies: () => at }];
      }),
    ]);
  }
  const byProduct = blocksOn(sheet, FEWEST.labels, isKnown, isProduct).flatMap((found) => {
    const block = withoutPrices(found);
    const headers = block.across.map((column) => textOf(cellAt(sheet, block.row, column)));
    const hasKnown = headers.some(isKnown);
    const isPlain =
      headers.some(isMass) ||
      ['product', 'mass'].some((name) => columnNamed(block, table, name) !== undefined);
    const forCustomers = hasCustomers(block);
    const serves = !isPlain && (isOrders ? hasKnown || forCustomers : hasKnown && forCustomers);
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
export const hasCustomers = ({ sheet, row, across }: Block): boolean =>
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
