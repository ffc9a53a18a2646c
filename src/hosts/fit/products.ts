import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf } from './book';
import { isMissing, strainRows } from './filledIn';
import type { Fit, Joined, TableFit } from './fitted';
import type { TableName } from './jobs';
import { labelsIn } from './joining';
import { looseKey, productKey } from './labels';
import type { Question } from './question';

/** Labels of a column, of the records whose needed cells are all there. */
function readLabels({ candidate, readings, values }: TableFit, column: string): string[] {
  const needed = readings.filter(({ wanted }) => wanted.isNeeded).map(({ name }) => values.get(name)!);
  const own = values.get(column) ?? [];
  return [
    ...new Set(
      candidate.dataRows.flatMap((_, i) =>
        needed.some((cells) => isBlank(cells[i]) || isCellError(cells[i]!)) ? [] : [textOf(own[i]!).trim()],
      ),
    ),
  ];
}

/** The strains of the products that orders name. */
export function productsOf(
  tables: ReadonlyMap<TableName, TableFit>,
  filled: ReadonlyMap<TableName, readonly Readonly<Record<string, Answer>>[]>,
  answers: Answers,
  questions: Question[],
): ReadonlyMap<string, readonly string[]> {
  const orders = tables.get('orders');
  if (!orders) return new Map();
  const lots = tables.get('lots');
  const strains = [
    ...labelsIn(tables.get('strains'), 'strain'),
    ...(filled.get('strains') ?? []).flatMap(({ strain }) => (isMissing(strain) ? [] : [String(strain)])),
  ];
  const known = new Set(
    [
      ...strains,
      ...labelsIn(tables.get('strains'), 'product'),
      ...labelsIn(lots, 'strain'),
      ...labelsIn(lots, 'product'),
      'any',
    ].map(looseKey),
  );
  const said = new Map(Object.entries(answers.products ?? {}).map(([word, of]) => [productKey(word), of]));
  // Shiitake and shiitake are one word, as formulas compare them; of an order that cannot be read nothing is asked.
  const spelt = new Map(
    readLabels(orders, 'product')
      .filter((word) => word !== '')
      .reverse()
      .map((word) => [word.toLowerCase(), word]),
  );
  const words = [...spelt.values()].filter((word) => !known.has(looseKey(word))).reverse();
  // Of words for one product the first is asked.
  const open = new Map(
    words
      .filter((word) => (said.get(productKey(word)) ?? []).length === 0)
      .reverse()
      .map((word) => [productKey(word), word]),
  );
  if (open.size > 0) {
    const choices = strains.length > 0 ? strains : strainRows(tables).map(({ strain }) => strain);
    questions.push({ kind: 'products', words: [...open.values()].reverse(), strains: choices });
  }
  return new Map(
    words.flatMap((word) => {
      const of = said.get(productKey(word));
      return of && of.length > 0 ? [[word, of] as const] : [];
    }),
  );
}

/**
 * What each word of orders is read as: the name that its strains are sold under, where no others are, or the first word
 * for the same strains. A lot is sold as one product.
 */
export function readAs(
  products: ReadonlyMap<string, readonly string[]>,
  strains: TableFit | undefined,
): ReadonlyMap<string, string> {
  const keyOf = (names: readonly string[]): string => [...new Set(names.map(looseKey))].sort().join('\n');
  const sold = new Map<string, { readonly label: string; readonly strains: string[] }>();
  (strains?.values.get('strain') ?? []).forEach((strain, i) => {
    const label = strains!.values.get('product')?.[i] ?? null;
    if ([strain, label].some((cell) => isBlank(cell) || isCellError(cell))) return;
    const own = sold.get(looseKey(label)) ?? { label: textOf(label).trim(), strains: [] };
    sold.set(looseKey(label), { ...own, strains: [...own.strains, textOf(strain)] });
  });
  const names = new Map([...sold.values()].map((one) => [keyOf(one.strains), one.label]));
  return new Map(
    [...products].map(([word, of]) => {
      const name = names.get(keyOf(of)) ?? word;
      names.set(keyOf(of), name);
      return [word, name];
    }),
  );
}

/** Puts the products of orders under the names that they are read as. */
export function renameProducts(orders: TableFit | undefined, names: ReadonlyMap<string, string>): Joined[] {
  const own = orders?.values.get('product');
  if (!own) return [];
  const of = new Map([...names].map(([word, name]) => [looseKey(word), name]));
  const cells = own.map((cell) => (isBlank(cell) ? cell : (of.get(looseKey(cell)) ?? cell)));
  (orders!.values as Map<string, readonly Cell[]>).set('product', cells);
  return [...names].flatMap(([word, as]) => {
    const count = own.filter((cell) => looseKey(cell) === looseKey(word)).length;
    return as === word || count === 0 ? [] : [{ table: 'orders' as const, label: word, as, cells: count }];
  });
}

/** The strains of each word that the grower explained, and what the word is read as. */
export const productRows = ({ products, productNames }: Fit) =>
  [...products].flatMap(([word, strains]) =>
    strains.map((strain) => [strain, word, productNames.get(word)!] as const),
  );

/** What a lot is sold as where the grower did not say it: the strain's own name, unless its table says more. */
export function soldAs<T>({ tables }: Fit, strain: T): T | null {
  const { readings = [] } = tables.get('strains') ?? {};
  return readings.some(({ name }) => name === 'product') ? null : strain;
}
