import { placeOf, rangeOf } from '../xlsx/address';
import type { Reads } from '../xlsx/describe';

/** A column of an answer: its header, how it reads, and its width in characters. */
type Told = readonly [header: string, reads: Reads, width: number];

const day = (header: string): Told => [header, 'date', 12];
const name = (header: string, width = 14): Told => [header, 'text', width];
const counted = (header: string): Told => [header, 'count', 9];
const mass = (header: string): Told => [header, 'mass', 11];

/** The answers that sheets are laid out for, each with the columns it usually has. */
const TOLD = {
  READYLOTS: [
    // Lines below the lots say what is left out: their words run on over the columns beside them.
    name('lot', 18),
    name('strain'),
    counted('blocks'),
    ...['inoculated', 'ready', 'best', 'latest'].map(day),
    counted('age'),
    name('state'),
  ],
  'LOADPLAN plan': [
    day('loaded'),
    name('lot'),
    name('strain'),
    name('room'),
    counted('blocks'),
    counted('age'),
    day('first pick'),
    ['block mass', 'number', 16],
    ['moisture', 'percent', 14],
    name('product', 18),
    name('for', 80),
  ],
  'LOADPLAN orders': [
    name('product', 18),
    ...['from', 'due'].map(day),
    ...['mass', 'planned', 'short', 'surplus'].map(mass),
    name('cause', 22),
    name('what would close it', 40),
  ],
  'LOADPLAN lots': [
    name('lot'),
    name('strain'),
    ...['blocks', 'loaded', 'waiting', 'going over age'].map(counted),
    day('expires'),
  ],
  'LOADPLAN picks': [day('date'), ...['expected', 'from standing', 'from plan', 'limit', 'spare'].map(mass)],
  SHELFUSE: [day('date'), name('room'), ...['blocks', 'places', 'free'].map(counted), name('note', 26)],
  YIELDAUDIT: [
    name('table', 11),
    counted('row'),
    name('lot'),
    name('what is wrong', 44),
    name('value', 14),
    name('expected', 24),
    name('if corrected', 13),
    name('suspected slip', 38),
    name('how sure', 15),
    ['sureness', 'percent', 10],
  ],
  CROPTABLE: [
    name('lot'),
    name('strain'),
    counted('blocks'),
    ...['total', 'per block'].map(mass),
    ['efficiency', 'percent', 11],
    counted('days'),
    ['efficiency per day', 'percent', 11],
  ],
  MIX: [
    name('ingredient', 30),
    ['dry mass', 'number', 11],
    ['mass to weigh', 'number', 11],
    ['packs', 'number', 9],
  ],
} satisfies Record<string, readonly Told[]>;

export type AnswerTable = keyof typeof TOLD;

/** The headers that an answer usually has. */
export const usualHeaders = (table: AnswerTable): string[] => TOLD[table].map(([header]) => header);

/** How the columns of an answer read and how wide they are, under the headers that it has with these cells. */
export function looksOf(
  table: AnswerTable,
  headers: readonly string[] = usualHeaders(table),
): { reads: readonly Reads[]; widths: readonly number[] } {
  const told = new Map<string, Told>(TOLD[table].map((one) => [one[0], one]));
  const columns = headers.map((header) => told.get(header) ?? mass(header));
  return {
    reads: columns.map(([, reads]) => reads),
    // A header is bold, and has a margin.
    widths: columns.map(([header, , width]) => Math.max(width, header.length * 1.15 + 2.5)),
  };
}

/** Rows kept above a plan for what is wrong with it. */
export const HEADLINES = 4;

/** Cells below a cell of an answer, so many columns to its right. */
function below(at: string, right: number, rows: number): string {
  const { row, column } = placeOf(at)!;
  return rangeOf({ top: row + 1, bottom: row + rows, left: column + right, right: column + right });
}

/** What the plan in a cell begins with where something is wrong: a line in each row, as many as there are rows for. */
export function planHeadlines(at: string): string {
  const cells = (header: string): string =>
    below(at, usualHeaders('LOADPLAN plan').indexOf(header), HEADLINES);
  return `IF(${cells('lot')}="",${cells('for')}&"","")`;
}

/** Lots that a list of ready ones may have. */
const MOST_LOTS = 1000;

/** The lines below a list of ready lots, which say what is left out, as one. */
export const leftOutWords = (at: string): string =>
  `TEXTJOIN(". ",TRUE,IF(${below(at, 1, MOST_LOTS)}="",${below(at, 0, MOST_LOTS)},""))`;

/** Told above an answer that is an error, as a formula holds it. */
export const UNANSWERED =
  '"This cannot be worked out yet: select the cell with the error to read why, or open Check."';
