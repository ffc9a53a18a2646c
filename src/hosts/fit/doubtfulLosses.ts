import { isBlank } from '../../worksheet/cells/cell';
import { cellAt, showsDate } from './book';
import type { Candidate } from './candidate';
import { isOfWhatCameOff } from './flushHeaders';
import { isOfNames } from './idHeaders';
import { JOB, type WantedColumn } from './jobs';
import { isOfLeft } from './leftHeaders';
import { naming } from './naming';
import { unaccented } from './otherLanguages';
import { isTold } from './tellingWords';
import { isOfWeeks, massUnitIn } from './units';
import { isDash } from './values';

// A column of lots that nothing reads may count blocks that are gone, whatever its header: whole numbers up to the blocks of
// each lot, many of them 0 or blank, most of them much smaller. Only the grower knows what it counts.

/** Headers, without accents, of what is no count of blocks. */
const OTHER =
  /[%°#]|\b(?:temp\w*|deg|humid\w*|rh|ph|co2|ppm|hours?|hrs?|h|min|mins|minutes|time|date|day|days|week|wk|month|year|season|kw|semaine|semana|woche|age|generation|gen|spawn|grain|brut|rate|ratio|pct|percent|share|price|cost|value|invoice|order|orders|customer|recipe|mix|formula|cycle|run|row|column|pos|position|place|slot|spot|seat|pallet|trolley|cart|crate|score|rating|grade|rank|priority|quality|people|staff|version|page|line|seq|sequence|serial|weight|size|volume|liters?|litres?|stunden|temperatur\w*|numero|nummer|platz|preis|prix|precio|prezzo|cena|prijs)\b/;

const plain = (header: string): string => unaccented(header).toLowerCase().replaceAll('_', ' ');

const KNOWN: readonly WantedColumn[] = [
  ...JOB.plan.tables.filter(({ name }) => name === 'lots' || name === 'rooms' || name === 'strains'),
  ...JOB.audit.tables.filter(({ name }) => name === 'lots'),
].flatMap(({ columns }) => columns.filter(({ name }) => name !== 'blocks' && name !== 'loss'));

/** Whether a header names what is no count of blocks that are gone, as far as any list knows. */
function isOther(header: string): boolean {
  const own = plain(header);
  const isCrop = isOfWhatCameOff(header) && !/\bsold\b/.test(own);
  return (
    OTHER.test(own) ||
    isCrop ||
    isOfNames(header) ||
    isOfWeeks(header) ||
    isOfLeft(header) ||
    massUnitIn(own) !== undefined ||
    isTold(header, 'shelves') ||
    KNOWN.some(({ name, column }) => naming(header, name, column.alsoCalled) > 0)
  );
}

/** How many of the lots have to be within their blocks, as one may be a slip; and how many have lost few or none. */
const [WITHIN, FEW] = [0.8, 0.5];
/** Below which share of the blocks a count is much smaller. */
const SMALL = 0.5;
/** How many lots have none, where a count says so by itself. */
const NONE = 0.25;
/** Where most lots have lost some: losses go up and down, and are a small part of the blocks. */
const ALWAYS = { different: 4, spread: 3, part: 0.3 } as const;

/** The columns of lots that may count blocks which are gone, and of which nothing says it. */
export function doubtfulLosses(candidate: Candidate, blocks: number): number[] {
  const { headers, matches, lies, parts } = candidate;
  if (lies || parts?.some((part) => part.lies)) return [];
  return [...headers].flatMap(([column, header]) => {
    const isTaken =
      matches.some((one) => one.column === column) ||
      column === candidate.countedElsewhere ||
      candidate.counted?.some((one) => one.column === column);
    return !isTaken && !isOther(header) && mayCountLosses(candidate, column, blocks) ? [column] : [];
  });
}

function mayCountLosses({ sheet, dataRows }: Candidate, column: number, blocks: number): boolean {
  const lots = dataRows.flatMap((row) => {
    const [made, cell] = [cellAt(sheet, row, blocks), cellAt(sheet, row, column)];
    return typeof made === 'number' && made > 0 ? [{ made, cell, row }] : [];
  });
  const isNone = ({ cell }: (typeof lots)[number]): boolean => isBlank(cell) || isDash(cell) || cell === 0;
  const isCount = ({ cell, row }: (typeof lots)[number]): boolean =>
    Number.isInteger(cell) && Number(cell) > 0 && !showsDate(sheet.formatAt(row, column));
  const said = lots.filter((one) => !isNone(one));
  const counts = said.filter(isCount).map(({ made, cell }) => ({ made, lost: Number(cell) }));
  if (counts.length === 0 || counts.length < WITHIN * said.length) return false;
  const none = lots.length - said.length;
  const within = counts.filter(({ made, lost }) => lost <= made);
  const few = counts.filter(({ made, lost }) => lost <= SMALL * made);
  if (within.length < WITHIN * counts.length || few.length + none < FEW * lots.length) return false;
  const figures = counts.map(({ lost }) => lost);
  if (isRunning(figures)) return false;
  if (none >= NONE * lots.length) return true;
  const isSmallPart =
    counts.filter(({ made, lost }) => lost <= ALWAYS.part * made).length >= FEW * lots.length;
  return (
    isSmallPart &&
    new Set(figures).size >= Math.max(ALWAYS.different, figures.length / 2) &&
    Math.max(...figures) >= ALWAYS.spread * Math.min(...figures)
  );
}

/** Whether figures go up one by one, as numbers of records do. */
const isRunning = (figures: readonly number[]): boolean =>
  figures.length >= 3 &&
  figures.every((one, i) => i === 0 || one > figures[i - 1]!) &&
  figures.filter((one, i) => i > 0 && one === figures[i - 1]! + 1).length >= figures.length / 2;
