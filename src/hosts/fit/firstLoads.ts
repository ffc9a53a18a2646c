import { isCellError, type Cell } from '../../worksheet/cells/cell';
import type { DateOrder } from '../../worksheet/writtenDates';
import { addressOf, fixedRangeOf } from '../xlsx/address';
import type { Answers } from './answers';
import { cellAt, sheetText, textOf, type GrowersBook } from './book';
import { overlap, type Candidate, type Place } from './candidate';
import { lastRowOf } from './columns';
import { anyParts } from './find';
import { isOfWhatCameOff } from './flushHeaders';
import { inOrder } from './inOrder';
import type { FirstLoads } from './joinedColumns';
import { dayOfLoads, orderOfLoads, SET } from './loadsStanding';
import type { Reader } from './readCells';
import { columnOf, lotsOf, namesOfLots } from './takenElsewhere';

// An audit asks when each lot was loaded. Where the lots do not say it, sheets that list their loads may: of a lot that was
// loaded on several days the first counts.

/** Headers of a day on which something was set on a shelf. */
const SET_OUT =
  /\b(?:set (?:out|on|in|up)|loaded|placed|hung|(?:moved|put|went|taken) (?:in|out|into .+|to .+)|opened|shelved|racked|fruited|ausgestellt|aufgestellt|eingestellt|ausgebracht)\b/;
const ROOMS = /\b(?:where|rooms?|tents?|house|place|location|shel(?:f|ves)|racks?|tunnels?|chambers?)\b/i;
/** How many of the labels of a sheet have to be lots, and how many lots have to be on it. */
const [KNOWN, FEWEST] = [0.5, 2];
/** Rows below the last one that a formula reads besides. */
const GROWTH = 500;

interface Found extends FirstLoads {
  readonly header: string;
  readonly days: string;
  readonly loads: readonly { readonly key: string; readonly day: number; readonly place: Place }[];
}

function foundIn(
  part: Candidate,
  names: readonly string[],
  proven: DateOrder | undefined,
  reader: Reader,
): Found | undefined {
  const { sheet, headers, dataRows, area, origin } = part;
  const lot = lotsOf(part, names, reader);
  if (lot === undefined || [sheet.name, ...headers.values()].some(isOfWhatCameOff)) return undefined;
  // `In` is the day of loading beside a room and a number of blocks.
  const areLoads =
    columnOf(part, 'blocks') !== undefined && [...headers.values()].some((header) => ROOMS.test(header));
  const day = dayOfLoads(part, [lot], areLoads ? SET : SET_OUT);
  if (day === undefined) return undefined;
  const { order } = orderOfLoads(part, day, proven, reader);
  if (order === undefined) return undefined;
  const rows = dataRows.filter((row) => textOf(cellAt(sheet, row, lot)).trim() !== '');
  const cellsIn = (column: number): Cell[] => rows.map((row) => cellAt(sheet, row, column));
  const [labels, days] = [reader.labels(cellsIn(lot), names), reader.dates(cellsIn(day), order, undefined)];
  const loads = rows.flatMap((row, i) => {
    const [label, own] = [labels[i]!, days[i]!];
    if (isCellError(label) || typeof own !== 'number') return [];
    return [{ key: textOf(label).trim().toLowerCase(), day: own, place: origin(row, day) }];
  });
  const known = labels.filter((label) => !isCellError(label)).length;
  if (known < KNOWN * rows.length || new Set(loads.map(({ key }) => key)).size < FEWEST) return undefined;
  const last = lastRowOf(part, GROWTH);
  const range = (column: number): string =>
    `${sheetText(sheet.name)}!${fixedRangeOf({ top: area.top + 1, bottom: last, left: column, right: column })}`;
  const letter = addressOf({ row: 0, column: day }).replace(/\d+/, '');
  return {
    sheet: sheet.name,
    header: headers.get(day)!,
    lots: range(lot),
    days: range(day),
    order,
    height: last - area.top,
    letter,
    loads,
  };
}

/** Lots of an audit with the day on which each was first loaded, where only sheets of loads say it. */
export function withFirstLoads(
  book: GrowersBook,
  candidate: Candidate,
  served: readonly Candidate[],
  proven: DateOrder | undefined,
  answers: Answers,
  reader: Reader,
): Candidate {
  const { table, matches, parts, lies, isTurned, sheet, dataRows, area, headers } = candidate;
  const lot = columnOf(candidate, 'lot');
  const isAsked =
    table.name === 'lots' &&
    answers.columns?.['lots']?.['loaded'] !== null &&
    table.columns.some(({ name }) => name === 'loaded') &&
    !table.columns.some((one) => one.isOfWhatIsLeft);
  if (
    !isAsked ||
    lot === undefined ||
    parts ||
    lies ||
    isTurned ||
    columnOf(candidate, 'loaded') !== undefined
  )
    return candidate;
  const serving = served.flatMap((one) => [one, ...(one.parts ?? [])]);
  const names = namesOfLots(candidate, lot);
  const found = anyParts(book, table)
    .filter((part) => !serving.some((one) => overlap(one, part)))
    .flatMap((part) => foundIn(part, names, proven, reader) ?? []);
  const [one] = found;
  if (!one) return candidate;
  const first = new Map<string, { readonly day: number; readonly place: Place }>();
  for (const { key, day, place } of found.flatMap(({ loads }) => loads))
    if (day < (first.get(key)?.day ?? Infinity)) first.set(key, { day, place });
  const loadAt = (row: number) =>
    first.get(
      textOf(cellAt(sheet, row, lot))
        .trim()
        .toLowerCase(),
    );
  const records = new Set(dataRows);
  const column = Math.max(area.right + 1, ...sheet.rows.map((row) => row.length));
  const rows = sheet.rows.map((cells, row) => {
    const load = records.has(row) ? loadAt(row) : undefined;
    if (!load) return cells;
    return [...cells, ...Array.from({ length: column - cells.length }, (): Cell => null), load.day];
  });
  const from = found.map((each) => each.sheet).join(' and ');
  const header = `the first ${one.header} of ${from}`;
  return {
    ...candidate,
    sheet: {
      ...sheet,
      rows,
      formatAt: (row, at) => (at === column ? 'yyyy-mm-dd' : sheet.formatAt(row, at)),
      isFormula: (row, at) => at === column || sheet.isFormula(row, at),
    },
    headers: new Map([...headers, [column, header]]),
    matches: inOrder(table, [...matches, { wanted: 'loaded', column, header, by: 'its data' }]),
    joined: new Map([
      ...(candidate.joined ?? []),
      [column, { key: lot, header: `the first ${one.header}`, keys: '', values: '', from, loads: found }],
    ]),
    origin: (row, at) => (at === column ? loadAt(row)?.place : undefined) ?? candidate.origin(row, at),
  };
}
