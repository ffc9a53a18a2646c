import type { Block } from './block';
import type { Told } from './blockParts';
import { cellAt, textOf } from './book';

// Prices in a block of orders: a row of them is no order.

/** What a price is called: by a sign of money, or by a word for it. */
const isPriceWord = (text: string): boolean =>
  /[$€£¥]|(?:^|[^\p{L}])(?:prices?|prix|preise?|precios?|prijs|prijzen|prezz[io]|cen[ay])(?!\p{L})/iu.test(
    text,
  );

/** A block without its row of prices, which is no order. */
export function withoutPrices(block: Block): Block {
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
export function pricesOf(blocks: readonly Block[]): Told[] {
  const isRightOfEach = ({ sheet, row, across }: Block): boolean =>
    across.every((column) => isPriceWord(textOf(cellAt(sheet, row, column + 1)).trim()));
  if (blocks.every(({ prices }) => prices !== undefined)) {
    const lies: Told['lies'] = ({ prices }, column) => ({ cell: { row: prices!, column } });
    return [{ wanted: 'price', header: 'the row of prices', lies }];
  }
  if (!blocks.every(isRightOfEach)) return [];
  return [{ wanted: 'price', header: 'the price beside each product', lies: (_, column) => column + 1 }];
}
