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
  /\b(?:out|opened|loaded|used|taken|fruited|moved|shelved|placed|hung|cut|racked|to (?:fruiting|fc|fr|rooms?|tents?|the rooms?)|in fruiting|raus|ausgestellt|aufgestellt|ausgebracht|geoffnet|sortis?|ouverts?|abiertos|sacados|uitgezet|geopend|usciti|aperti|wystawione|abertos|sat ud|abnet)\b/;
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

/** Every row of a candidate's sheet that is one of its records, those of which none are left among them. */
function outCountIn(candidate: Candidate): OutCount | undefined {
  const { sheet, dataRows, matches, headers } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks');
  const loaded = matches.find(({ wanted }) => wanted === 'loaded');
  if (!blocks || blocks.by === 'you' || loaded?.by === 'you') return undefined;
  const figureAt = (row: number, column: number): number => {
    const cell = cellAt(sheet, row, column);
    return isBlank(cell) ? 0 : typeof cell === 'number' ? cell : Number.NaN;
  };
  const free = [...unreadHeaders(candidate), ...(loaded ? [[loaded.column, loaded.header] as const] : [])];
  const looks = new Map([...headers.keys()].map((at) => [at, looksIn(sheet, dataRows, at)]));
  const areDays = (at: number): boolean =>
    (looks.get(at)!.get('date') ?? 0) + (looks.get(at)!.get('text date') ?? 0) > 0 &&
    !looks.get(at)!.has('number') &&
    !looks.get(at)!.has('text');
  const isSaid = (row: number, at: number): boolean => !isBlank(cellAt(sheet, row, at));
  // What is left may be all that its column says of blocks: what was made stands beside it.
  const whole = [
    blocks,
    ...free.map(([column, header]) => ({ ...blocks, column, header, by: 'its data' as const })),
  ];
  for (const [column, header] of free) {
    const words = wordsOf(header);
    if (OTHER.test(words) || massUnitIn(header) !== undefined || isOfWhatCameOff(header)) continue;
    const isNamed = OUT.test(words);
    for (const made of whole) {
      if (made.column === column) continue;
      const lost = lostColumns(candidate, made.column);
      const lostOf = (row: number): number => lostAt(candidate, { columns: lost, blocks: made.column }, row);
      const wholeOf = (row: number): number =>
        isSaid(row, made.column) ? figureAt(row, made.column) - lostOf(row) : Number.NaN;
      const isPart = dataRows.every((row) => {
        const [own, all] = [figureAt(row, column), wholeOf(row)];
        return Number.isInteger(own) && own >= 0 && (Number.isNaN(all) || own <= all);
      });
      const set = dataRows.filter((row) => figureAt(row, column) > 0);
      if (!isPart || set.length === 0 || lost.includes(column)) continue;
      // A lot of which nothing was set out and nothing is left is gone otherwise.
      const isGone = (row: number): boolean =>
        figureAt(row, column) === 0 && figureAt(row, blocks.column) === 0;
      const gaps = dataRows.map(
        (row) => [row, wholeOf(row) - figureAt(row, column) - figureAt(row, blocks.column)] as const,
      );
      const isGap = (of: (row: number) => number): boolean =>
        gaps.every(([row, gap]) => isGone(row) || gap === of(row));
      const isAll = made === blocks || isGap(() => 0);
      const proven = isAll
        ? undefined
        : free.find(([at]) => at !== column && isGap((row) => figureAt(row, at)));
      if (!isAll && !proven) continue;
      const [day] = free.filter(
        ([at]) =>
          at !== column &&
          areDays(at) &&
          dataRows.every(
            (row) =>
              isSaid(row, at) === figureAt(row, column) > 0 || (isSaid(row, at) && !isSaid(row, column)),
          ),
      );
      const areWhole =
        set.filter((row) => figureAt(row, column) === wholeOf(row)).length >= MOST * set.length;
      if (isNamed || (day && areWhole))
        return {
          column,
          header,
          made,
          day,
          lost: proven?.[0],
          left: made === blocks ? undefined : blocks.column,
        };
    }
  }
  return undefined;
}

/** Lots with the blocks that were set out counted, where a column says how many; the day says since when they stand. */
export function withOutCounts(candidate: Candidate): Candidate {
  const { table, matches, lies, parts, sheet, dataRows } = candidate;
  const isNone = (row: number, at: number): boolean => Number(cellAt(sheet, row, at) ?? 0) === 0;
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
  const isRecord = (row: number): boolean => left === undefined || !isNone(row, left) || !isNone(row, column);
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
