import { labelKey } from '../../maths/shared/labels';

/** The keys of the lots there are: one whose name holds a sign stays whole. */
export type KnownLots = ReadonlySet<string>;

/** What growers put between two parents in a cell, full-width signs included. */
const BETWEEN = /[,;/+&|\t\r\n，；／＋＆｜、]|\s+and\s+/giu;

/** No label is put together from more pieces than this. */
const MOST_PIECES = 8;

/**
 * The parents in a cell. A label that is a lot of its own stays whole, whatever signs it holds; of several ways the
 * longest label is taken.
 */
export function splitParents(cell: string, known: KnownLots): string[] {
  if (known.has(labelKey(cell))) return [cell];
  const signs = [...cell.matchAll(BETWEEN)];
  const starts = [0, ...signs.map((sign) => sign.index + sign[0].length)];
  const ends = [...signs.map((sign) => sign.index), cell.length];
  const parents: string[] = [];
  for (let first = 0; first < starts.length;) {
    let last = Math.min(first + MOST_PIECES, starts.length) - 1;
    while (last > first && !known.has(labelKey(cell.slice(starts[first], ends[last])))) last--;
    const parent = cell.slice(starts[first], ends[last]).trim();
    if (parent !== '') parents.push(parent);
    first = last + 1;
  }
  return parents;
}
