import { isBlank } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { unreadHeaders } from './columnChoices';
import { isOfWhatCameOff } from './flushHeaders';
import { inOrder } from './inOrder';
import { OUT_SINCE } from './jobs';
import { looksIn } from './looks';
import { lostAt, lostColumns } from './lost';
import { unaccented } from './otherLanguages';
import { FIRST_SERIAL } from './values';
import { massUnitIn } from './units';

// A lot is often set out in part: beside the day its book says how many of its blocks went. The others are still there.

/** Headers of blocks that were set out, or used otherwise. */
const OUT =
  /\b(?:out|opened|loaded|used|taken|fruited|moved|shelved|placed|hung|cut|racked|(?:in)?to (?:the )?(?:fruiting|fc|fr|rooms?|tents?)|in fruiting|raus|ausgestellt|aufgestellt|ausgebracht|geoffnet|sortis?|ouverts?|abiertos|sacados|uitgezet|geopend|usciti|aperti|wystawione|abertos|sat ud|abnet)\b/;
/** What is no count of them. */
const OTHER =
  /\b(?:days?|age|weeks?|wks?|date|when|rooms? no|temp\w*|rh|co2|kgs?|lbs?|grams?|spawn|flush\w*|price|cost|left|remaining|sold)\b|[%$€£°]/;

/** Of the lots that say their day so many at least are set out whole, where no header says what is counted. */
const MOST = 0.5;

const wordsOf = (header: string): string => unaccented(header).toLowerCase().replaceAll('_', ' ');

/** A column that counts what was set out of each lot, and what was made of them. */
interface OutCount {
  readonly column: number;
  readonly header: string;
  readonly made: ColumnMatch;
  /** The column of the day of it. */
  readonly day: readonly [column: number, header: string] | undefined;
  /** A further column, which is all that what was made and what is left differ by. */
  readonly lost: number | undefined;
  /** The column of what is left, where it is another than that of what was made. */
  readonly left: number | undefined;
}

type Headed = readonly [column: number, header: string];

/** The figure of a cell; 0 where it is blank, NaN where it is something else. */
const figureAt = ({ sheet }: Candidate, row: number, column: number): number => {
  const cell = cellAt(sheet, row, column);
  return isBlank(cell) ? 0 : typeof cell === 'number' ? cell : Number.NaN;
};

const figuresIn = (candidate: Candidate, column: number): number[] =>
  candidate.dataRows.map((row) => figureAt(candidate, row, column));

const isCounting = (figures: readonly number[]): boolean =>
  figures.every((one) => Number.isInteger(one) && one >= 0) && figures.some((one) => one > 0);

/** The column that counts what was set out of each lot; undefined where none does. */
function outCountIn(candidate: Candidate): OutCount | undefined {
  const { matches, dataRows } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks');
  const loaded = matches.find(({ wanted }) => wanted === 'loaded');
  if (!blocks || blocks.by === 'you' || loaded?.by === 'you') return undefined;
  const free: Headed[] = [
    ...unreadHeaders(candidate),
    ...(loaded ? [[loaded.column, loaded.header] as const] : []),
  ];
  const counts = free
    .map(([column, header]) => ({ column, header, figures: figuresIn(candidate, column) }))
    .filter(({ figures }) => isCounting(figures));
  // What is left may be all that its column says of blocks: what was made stands beside it.
  const wholes = [
    blocks,
    ...counts.map(({ column, header }) => ({ ...blocks, column, header, by: 'its data' as const })),
  ].map((made) => ({ made, ...wholeOf(candidate, made.column) }));
  const leftOver = figuresIn(candidate, blocks.column);
  for (const { column, header, figures } of counts.filter(({ header }) => isOfOut(header))) {
    const day = dayOf(candidate, free, column);
    for (const { made, lost, whole } of wholes) {
      if (made.column === column || lost.includes(column)) continue;
      // Blocks that were made and are not told are another slip.
      if (!figures.every((own, i) => Number.isNaN(whole[i]!) || own <= whole[i]!)) continue;
      // A lot of which nothing was set out and nothing is left is gone otherwise.
      const gaps = dataRows.flatMap((_, i) =>
        figures[i] === 0 && leftOver[i] === 0 ? [] : [[i, whole[i]! - figures[i]! - leftOver[i]!] as const],
      );
      const isAll = made === blocks || gaps.every(([, gap]) => gap === 0);
      const proven = isAll
        ? undefined
        : free.find(
            ([at]) =>
              at !== column && gaps.every(([i, gap]) => gap === figureAt(candidate, dataRows[i]!, at)),
          );
      if (!isAll && !proven) continue;
      const set = figures.flatMap((own, i) => (own > 0 ? [own === whole[i]] : []));
      const areWhole = set.filter(Boolean).length >= MOST * set.length;
      if (!OUT.test(wordsOf(header)) && !(day && areWhole)) continue;
      const left = made === blocks ? undefined : blocks.column;
      return { column, header, made, day, lost: proven?.[0], left };
    }
  }
  return undefined;
}

/** What was made of each lot by a column, less what others count as lost; NaN where it says nothing. */
function wholeOf(
  candidate: Candidate,
  column: number,
): { lost: readonly number[]; whole: readonly number[] } {
  const lost = lostColumns(candidate, column);
  const whole = candidate.dataRows.map((row) =>
    isBlank(cellAt(candidate.sheet, row, column))
      ? Number.NaN
      : figureAt(candidate, row, column) - lostAt(candidate, { columns: lost, blocks: column }, row),
  );
  return { lost, whole };
}

/** Whether a header says that its days are those of going out. */
export const saysOut = (header: string): boolean => OUT.test(wordsOf(header));

/** Whether a header may be of blocks that were set out. */
const isOfOut = (header: string): boolean =>
  !OTHER.test(wordsOf(header)) && massUnitIn(header) === undefined && !isOfWhatCameOff(header);

/** The column of days that is filled where something was set out, and nowhere else. */
function dayOf(candidate: Candidate, free: readonly Headed[], column: number): Headed | undefined {
  const { sheet, dataRows } = candidate;
  const isSaid = (row: number, at: number): boolean => !isBlank(cellAt(sheet, row, at));
  return free.find(([at]) => {
    if (at === column) return false;
    const looks = looksIn(sheet, dataRows, at);
    const areDays = looks.has('date') || looks.has('text date');
    if (!areDays || looks.has('number') || looks.has('text')) return false;
    // A day beside a blank count is that of the whole lot.
    return dataRows.every(
      (row) =>
        isSaid(row, at) === figureAt(candidate, row, column) > 0 || (isSaid(row, at) && !isSaid(row, column)),
    );
  });
}

/** Lots with the blocks that were set out counted, where a column says how many; the day says since when they stand. */
export function withOutCounts(candidate: Candidate): Candidate {
  const { table, matches, lies, parts, dataRows } = candidate;
  if (table.name !== 'lots' || lies || parts) return candidate;
  const isOfWhatIsLeft = table.columns.some((one) => one.isOfWhatIsLeft);
  if (!isOfWhatIsLeft && isCountOfLoaded(candidate)) {
    const others = matches.filter(({ wanted }) => wanted !== 'loaded');
    return withOutCounts({ ...candidate, matches: others });
  }
  const found = outCountIn(candidate);
  if (!found) return candidate;
  const { column, header, made, day, lost, left } = found;
  // An audit asks when a lot was loaded, not how much of it.
  if (!isOfWhatIsLeft) {
    const isKnown = day === undefined || matches.some(({ wanted }) => wanted === 'loaded');
    const loaded = day && { wanted: 'loaded', column: day[0], header: day[1], by: 'its data' as const };
    return isKnown ? candidate : { ...candidate, matches: inOrder(table, [...matches, loaded!]) };
  }
  const others = matches.filter(({ wanted }) => wanted !== 'loaded' && wanted !== 'blocks');
  const since =
    day && table.columns.some(({ name }) => name === OUT_SINCE)
      ? [{ wanted: OUT_SINCE, column: day[0], header: day[1], by: 'its data' as const }]
      : [];
  const count = { wanted: 'loaded', column, header, by: 'its data' as const };
  const isRecord = (row: number): boolean =>
    left === undefined || [left, column].some((at) => figureAt(candidate, row, at) !== 0);
  const records = dataRows.filter(isRecord);
  return {
    ...candidate,
    matches: inOrder(table, [...others, made, count, ...since]),
    dataRows: records,
    usedUp: (candidate.usedUp ?? 0) + dataRows.length - records.length,
    ...(left !== undefined && { gone: { left, out: column } }),
    ...(lost !== undefined && { provenLost: [lost] }),
  };
}

/** Whether what is called loaded are numbers of blocks and no days, though nobody said so. */
function isCountOfLoaded({ matches, sheet, dataRows }: Candidate): boolean {
  const loaded = matches.find(({ wanted, by }) => wanted === 'loaded' && by !== 'you');
  if (!loaded) return false;
  const figures = dataRows.map((row) => cellAt(sheet, row, loaded.column)).filter((cell) => !isBlank(cell));
  return figures.length > 0 && figures.every((cell) => typeof cell === 'number' && cell < FIRST_SERIAL);
}
