import { otherKey } from '../../worksheet/cells/headerWords';
import { unaccented } from './otherLanguages';

// Headers that say how many blocks of a lot are left.

/** Headers of the blocks of a lot that are still to be opened. */
const LEFT = new Set(
  [
    ...['blocks left', 'left', 'left over', 'left to open', 'to open', 'remaining', 'blocks remaining'],
    ...[
      'still to open',
      'unopened',
      'blocks unopened',
      'not opened',
      'waiting',
      'blocks waiting',
      'still here',
      'still in',
      'still growing',
      'still waiting',
      'not yet opened',
      'in hand',
    ],
    ...[
      'restants',
      'blocs restants',
      'sacs restants',
      'reste',
      'ubrig',
      'noch ubrig',
      'noch da',
      'restbestand',
    ],
    ...[
      'restantes',
      'bloques restantes',
      'quedan',
      'over',
      'nog over',
      'resterend',
      'rimasti',
      'blocchi rimasti',
    ],
    ...[
      'on hand',
      'quantity on hand',
      'qty on hand',
      'blocks on hand',
      'bags on hand',
      'in stock',
      'stock',
      'balance',
    ],
    ...['restam', 'restantes', 'blocos restantes', 'sobram', 'por abrir', 'em stock'],
    ...['zostalo', 'pozostalo', 'bloki zostalo', 'zostalo blokow'],
    ...['rest', 'tilbage', 'poser tilbage', 'blokke tilbage', 'resterende'],
    ...['onhand', 'qty onhand', 'quantity onhand'],
    ...[
      'nog te openen',
      'te openen',
      'noch zu offnen',
      'zu offnen',
      'a ouvrir',
      'reste a ouvrir',
      'sin abrir',
    ],
    ...['da aprire', 'do otwarcia', 'mangler at abne', 'uabnede', 'ungeoffnet', 'ongeopend', 'non ouverts'],
    ...[
      'yet to open',
      'bags to open',
      'blocks to open',
      'still to fruit',
      'left to fruit',
      'bags left to open',
    ],
    ...['noch zu', 'davon noch zu', 'noch geschlossen', 'noch geschlossene', 'encore fermes', 'aun cerrados'],
    ...['not fruited', 'unfruited', 'left in incubation', 'still incubating', 'in incubation'],
  ].map(otherKey),
);

/** What is counted of a lot. */
const COUNTED = new Set(
  (
    'blocos sacos block blocks bag bags unit units piece pieces pcs qty quantity number count blocs sacs bloques bolsas blokken ' +
    'zakken blocchi sacchi bloki worki blocke beutel stuck n'
  ).split(' '),
);
/** What says that they are left. */
const REMAIN = new Set(
  'left remain remaining unopened available standing unused untouched restants restantes ubrig rimasti resterend'.split(
    ' ',
  ),
);

const plainWords = (header: string): string[] =>
  unaccented(header)
    .toLowerCase()
    .replace(/\([^)]*\)|\[[^\]]*\]/g, ' ')
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '');

const isOf = (telling: ReadonlySet<string>, words: readonly string[]): boolean =>
  words.some((word) => telling.has(word)) && words.every((word) => telling.has(word) || COUNTED.has(word));

/** Whether a header is of the blocks that are left to open, beside those that were made. */
export const isOfLeft = (header: string): boolean =>
  LEFT.has(otherKey(unaccented(header))) || isOf(REMAIN, plainWords(header));
