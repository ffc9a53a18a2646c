import { isBlank, isCellError } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf } from './book';
import { isMissing, strainRows } from './filledIn';
import type { TableFit } from './fitted';
import type { TableName } from './jobs';
import { labelsIn } from './joining';
import { looseKey } from './labels';
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
  const said = new Map(Object.entries(answers.products ?? {}).map(([word, of]) => [looseKey(word), of]));
  // Shiitake and shiitake are one question; of an order that cannot be read nothing is asked.
  const asked = new Map(
    readLabels(orders, 'product')
      .filter((word) => word !== '')
      .reverse()
      .map((word) => [looseKey(word), word]),
  );
  const words = [...asked].flatMap(([own, word]) => (known.has(own) ? [] : [word])).reverse();
  const open = words.filter((word) => (said.get(looseKey(word)) ?? []).length === 0);
  if (open.length > 0) {
    const choices = strains.length > 0 ? strains : strainRows(tables).map(({ strain }) => strain);
    questions.push({ kind: 'products', words: open, strains: choices });
  }
  return new Map(
    words.flatMap((word) => {
      const of = said.get(looseKey(word));
      return of && of.length > 0 ? [[word, of] as const] : [];
    }),
  );
}
