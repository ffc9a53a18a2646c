import { cellAt } from './book';
import type { Candidate } from './candidate';
import { unreadHeaders } from './columnChoices';
import { inOrder } from './inOrder';
import { unaccented } from './otherLanguages';

// A lot may say how many blocks were started and, beside them, how many are good: those are the lot.

const GOOD =
  /\b(?:good|ok|sound|healthy|clean|usable|viable|gut[e]?|bons?|buen[oa]s?|goed[e]?|buon[ie]|dobr[ey])\b/;
const COUNTED =
  /\b(?:blocks?|bags?|units?|bricks?|qty|quantity|number|no|count|pcs|pieces?|bloecke|blocke|beutel|sacs|blocs|bolsas|bloques|zakken|blokken|sacchi|blocchi)\b|#/;
/** Of those that were started so many are good at least; fewer count something else. */
const FEWEST = 0.5;

/** Lots with their good blocks, where a column counts these beside all that were started. */
export function withGoodBlocks(candidate: Candidate): Candidate {
  const { table, matches, sheet, dataRows, lies, parts } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks');
  if (table.name !== 'lots' || !blocks || blocks.by === 'you' || lies || parts) return candidate;
  const figureAt = (row: number, column: number): number => {
    const cell = cellAt(sheet, row, column);
    return typeof cell === 'number' ? cell : Number.NaN;
  };
  const found = unreadHeaders(candidate).filter(([column, header]) => {
    const words = unaccented(header).toLowerCase().replaceAll('_', ' ');
    const isCount = COUNTED.test(words) || /^\P{L}*good\P{L}*$/u.test(words);
    return (
      GOOD.test(words) &&
      isCount &&
      dataRows.every((row) => {
        const [good, all] = [figureAt(row, column), figureAt(row, blocks.column)];
        return Number.isInteger(good) && good >= 0 && good <= all;
      }) &&
      dataRows.some((row) => figureAt(row, column) >= FEWEST * figureAt(row, blocks.column))
    );
  });
  const [only, more] = found;
  if (!only || more) return candidate;
  const [column, header] = only;
  const others = matches.filter(({ wanted }) => wanted !== 'blocks');
  return {
    ...candidate,
    matches: inOrder(table, [...others, { wanted: 'blocks', column, header, by: 'its data' }]),
  };
}
