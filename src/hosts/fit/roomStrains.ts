import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';
import type { TableFit } from './fitted';
import type { TableName } from './jobs';
import { knownAmong, looseKey } from './labels';

// What a room may hold, in a grower's words: `oysters only`, `shiitake / lion's mane`, `any`.

const ANY = /^(?:any|all|anything|everything|any strain|all strains|mixed|-|–|—)$/i;
const PARTS = /\s*(?:[,;/&+]|\band\b|\bor\b)\s*/i;

/** The strains that a cell's words name, with commas between; '' where that is any, undefined where a word names none. */
function strainsNamed(words: string, strains: TableFit): string | undefined {
  const bare = words.replace(/\b(?:only|just)\b/gi, '').trim();
  if (ANY.test(bare)) return '';
  const of = (name: string): string[] =>
    (strains.values.get(name) ?? []).map((cell) => (isBlank(cell) ? '' : textOf(cell).trim()));
  const [names, products] = [of('strain'), of('product')];
  const named = bare.split(PARTS).map((part) => {
    const own = names.filter((name) => looseKey(name) === looseKey(part));
    if (own.length > 0) return own;
    const isIt = (label: string): boolean => label !== '' && knownAmong([label], true)(part);
    return names.filter((name, i) => isIt(products[i] ?? '') || isIt(name));
  });
  return named.every((part) => part.length > 0) ? [...new Set(named.flat())].join(', ') : undefined;
}

/** Reads what rooms may hold as strains, where all of its words name some. */
export function readRoomStrains(tables: Map<TableName, TableFit>): void {
  const [rooms, strains] = [tables.get('rooms'), tables.get('strains')];
  const own = rooms?.values.get('strains');
  if (!rooms || !own || !strains) return;
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
