import { addressOf } from '../xlsx/address';
import { formula, type Thing } from '../xlsx/describe';
import { AnswerPage } from './answerPage';
import type { TableFit } from './fitted';
import type { JoinedColumn } from './joinedColumns';
import type { Referred } from './referred';

/** Rows of findings beside which a cell of the grower's sheet is named. */
const NAMED_ROWS = 500;

/** Words of a finding and the column to look at, the first that fits. */
const ABOUT_PICKS: readonly (readonly [says: string, column: string])[] = [
  ['similar name', 'lot'],
  ['this lot', 'lot'],
  ['no lot', 'lot'],
  ['spelled', 'lot'],
  ['the flush', 'flush'],
  ['blocks', 'blocks'],
  ['date', 'date'],
];

const ABOUT_LOTS: readonly (readonly [says: string, column: string])[] = [
  ['load date', 'loaded'],
  ['loaded', 'loaded'],
  ['block mass', 'block mass'],
  ['moisture', 'moisture'],
  ['number of blocks', 'blocks'],
  ['inoculation', 'inoculated'],
  ['strain', 'strain'],
];

/** The cell of the grower's sheet beside each finding: Pinset counts rows in the table that it was given. */
export function placeColumn(page: AnswerPage): Thing[] {
  const { tables } = page.fit;
  const [picks, batches] = [tables.get('harvests'), tables.get('lots')];
  const [harvests, lots] = [page.referred('harvests'), page.referred('lots')];
  if (!picks || !batches || !harvests.place || !lots.place) return [];
  const column = (letter: string): string => `${letter}5:${letter}${4 + NAMED_ROWS}`;
  const [table, row, says] = [column('B'), column('C'), `${column('E')}&" "&${column('G')}`];
  /** The letter of a column as a formula says it, of a table on its side its row: parts may have it elsewhere each. */
  const letterOf = ({ candidate, readings }: TableFit, { lastRows }: Referred, name: string): string => {
    const at = readings.find((one) => one.name === name)?.match.column ?? readings[0]!.match.column;
    const letters = (candidate.parts ?? [candidate]).map((part) => {
      const { row: ownRow, column } = part.origin(part.dataRows[0]!, at);
      return part.isTurned ? String(ownRow + 1) : `"${addressOf({ row: 0, column }).replace(/\d+/, '')}"`;
    });
    if (new Set(letters).size === 1) return letters[0]!;
    return letters.reduceRight((rest, own, part) => `IF(${row}<=${lastRows![part]!},${own},${rest})`);
  };
  /** The letter of the column that a finding is about, by what it says. */
  const letter = (
    of: TableFit,
    referred: Referred,
    about: readonly (readonly [says: string, column: string])[],
    otherwise: string,
  ) =>
    about.reduceRight(
      (rest, [said, name]) =>
        `IF(ISNUMBER(SEARCH("${said}",${says})),${letterOf(of, referred, name)},${rest})`,
      letterOf(of, referred, otherwise),
    );
  const placeIn = ({ candidate }: TableFit, { place }: Referred, column: string): string => {
    const at = place!(row);
    // On its side, what a table counts as its rows are columns of the sheet.
    const cell = candidate.isTurned ? `ADDRESS(${column},${at.row},4)` : `${at.column ?? column}&${at.row}`;
    return `${at.sheet}&"!"&${cell}`;
  };
  const ofPick = placeIn(picks, harvests, letter(picks, harvests, ABOUT_PICKS, 'mass'));
  const ofLot = placeIn(batches, lots, letter(batches, lots, ABOUT_LOTS, 'lot'));
  const ofLoad = [...(lots.joined?.values() ?? [])].find((one) => one.places);
  const own = ofLoad ? loadPlace(ofLoad, column('D'), says, ofLot) : ofLot;
  const text = `=IF(ISNUMBER(${row}),IF(${table}="harvests",${ofPick},${own}),"")`;
  return [formula('A5', text, 'text', { headers: ['on your sheet'], spills: true, widths: [20] })];
}

/** The cell of the first load of a lot, where a finding is about its day. */
function loadPlace(
  { keys, values, places }: JoinedColumn,
  lot: string,
  says: string,
  otherwise: string,
): string {
  const first = `TRIM(${lot})&"|"&MINIFS(${values},${keys},TRIM(${lot}))`;
  const place = `INDEX(${places!},MATCH(${first},${keys}&"|"&${values},0))`;
  return `IF(ISNUMBER(SEARCH("load",${says})),IFERROR(${place},${otherwise}),${otherwise})`;
}
