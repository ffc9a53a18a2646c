import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf } from './book';
import { freeTexts, labelsOf, matched, onlyOne, withMatch } from './byLabels';
import type { Candidate } from './candidate';
import type { TableFit } from './fitted';
import type { TableName } from './jobs';
import { knownAmong, looseKey } from './labels';

// What a room may hold, in a grower's words: `oysters only`, `shiitake / lion's mane`, `any`.

const ANY = /^(?:any|all|anything|everything|any strain|all strains|mixed|-|–|—)$/i;
const PARTS = /\s*(?:[,;/&+]|\band\b|\bor\b)\s*/i;

/** The words of a cell, without those that say nothing more. */
const bareWords = (words: string): string => words.replace(/\b(?:only|just)\b/gi, '').trim();

/** Headers of what a room is for; what stands in it now, or stood, is no rule. */
const OF_USE =
  /\b(?:for|takes?|us(?:e|es|ed)|suits?|suitable|only|grows?|crops?|species|strains?|variet\w*|allowed|type|mushrooms?)\b/i;
const NOT_USE = /\b(?:now|current\w*|last|previous\w*|present\w*|moment|today|in it|standing|next)\b/i;

/** The rooms with the column that says in names of strains and products what each is for. */
export function withRoomStrains(
  tables: Map<TableName, Candidate>,
  answers: Answers,
): Map<TableName, Candidate> {
  const [rooms, strains] = [tables.get('rooms'), tables.get('strains')];
  const isSaid = answers.columns?.['rooms']?.['strains'] !== undefined;
  const isWanted = rooms?.table.columns.some(({ name }) => name === 'strains') === true;
  if (!rooms || isSaid || !isWanted || matched(rooms, 'strains') !== undefined) return tables;
  const labels = [
    ...(strains ? ['strain', 'product'].flatMap((name) => labelsOf(strains, matched(strains, name))) : []),
    ...(['lots', 'orders'] as const).flatMap((name) => {
      const one = tables.get(name);
      return one ? labelsOf(one, matched(one, name === 'lots' ? 'strain' : 'product')) : [];
    }),
  ];
  const isKnown = knownAmong(labels, true);
  const parts = (words: string): string[] => bareWords(words).split(PARTS);
  const column = onlyOne(freeTexts(rooms, 'strains'), (at) => {
    const header = rooms.headers.get(at)!;
    const words = labelsOf(rooms, at).filter((word) => !ANY.test(bareWords(word)));
    const isOfUse = OF_USE.test(header) && !NOT_USE.test(header);
    return isOfUse && words.length > 0 && words.every((word) => parts(word).every(isKnown));
  });
  return column === undefined ? tables : new Map([...tables, ['rooms', withMatch(rooms, 'strains', column)]]);
}

/** A strain, and what it is sold as. */
export interface Sold {
  readonly strain: string;
  readonly product: string;
}

/** The strains of the book or of the answers, with every name that they are sold under. */
export function strainsSold(
  strains: TableFit | undefined,
  filled: readonly Readonly<Record<string, Answer>>[] = [],
  products: ReadonlyMap<string, readonly string[]>,
): Sold[] {
  const of = (name: string): string[] =>
    (strains?.values.get(name) ?? []).map((cell) => (isBlank(cell) ? '' : textOf(cell).trim()));
  const sold = of('product');
  return [
    ...of('strain').map((strain, i) => ({ strain, product: sold[i] ?? '' })),
    ...filled.map(({ strain, product }) => ({
      strain: textOf(strain ?? null).trim(),
      product: textOf(product ?? null).trim(),
    })),
    ...[...products].flatMap(([product, own]) => own.map((strain) => ({ strain, product }))),
  ].filter(({ strain }) => strain !== '');
}

/** The strains that a cell's words name, with commas between; '' where that is any, undefined where a word names none. */
function strainsNamed(words: string, all: readonly Sold[]): string | undefined {
  const bare = bareWords(words);
  if (ANY.test(bare)) return '';
  const named = bare.split(PARTS).map((part) => {
    const own = all.filter(({ strain }) => looseKey(strain) === looseKey(part));
    if (own.length > 0) return own;
    const isIt = (label: string): boolean => label !== '' && knownAmong([label], true)(part);
    return all.filter(({ strain, product }) => isIt(product) || isIt(strain));
  });
  const strains = named.flat().map(({ strain }) => strain);
  return named.every((part) => part.length > 0) ? [...new Set(strains)].join(', ') : undefined;
}

/** Reads what rooms may hold as strains, where all of its words name some. */
export function readRoomStrains(tables: Map<TableName, TableFit>, strains: readonly Sold[]): void {
  const rooms = tables.get('rooms');
  const own = rooms?.values.get('strains');
  if (!rooms || !own || strains.length === 0) return;
  const words = [...new Set(own.flatMap((cell) => (isBlank(cell) ? [] : [textOf(cell).trim()])))];
  const inStrains = new Map(
    words.flatMap((word) => {
      const named = strainsNamed(word, strains);
      return named === undefined ? [] : [[word, named] as const];
    }),
  );
  if ([...inStrains].every(([word, named]) => word === named)) return;
  const read = (cell: Cell): Cell =>
    isBlank(cell) ? cell : (inStrains.get(textOf(cell).trim()) ?? textOf(cell).trim());
  tables.set('rooms', {
    ...rooms,
    values: new Map([...rooms.values, ['strains', own.map(read)]]),
    readings: rooms.readings.map((one) => (one.name === 'strains' ? { ...one, inStrains } : one)),
  });
}

/** The strains as a formula reads them: other words stay, for the plan to say what is wrong with them. */
export function inStrainsText(cells: string, inStrains: ReadonlyMap<string, string>): string {
  const text = (one: string): string => `"${one.replaceAll('"', '""')}"`;
  const rows = [...inStrains].map(([word, strains]) => `${text(word)},${text(strains)}`).join(';');
  return rows === '' ? cells : `IFERROR(VLOOKUP(TRIM(${cells}),{${rows}},2,FALSE),${cells})`;
}
