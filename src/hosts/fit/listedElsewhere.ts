import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { fixedRangeOf } from '../xlsx/address';
import type { Answers } from './answers';
import { cellAt, sheetText, textOf, type GrowersBook } from './book';
import { overlap, type Candidate } from './candidate';
import { lastRowOf } from './columns';
import { anyParts } from './find';
import type { Joined } from './fitted';
import { isOfWhatCameOff } from './flushHeaders';
import { notAmong } from './joining';
import type { Reader } from './readCells';
import {
  columnOf,
  lotsOf,
  nameAt,
  namesOfLots,
  takenElsewhereAt,
  type TakenElsewhere,
} from './takenElsewhere';
import type { TakenWords } from './takenOff';
import { standingAt, standingWay, type Known, type StandingLoad } from './loadsStanding';
import { massUnitIn } from './units';
import type { UnreadCell } from './unreadCells';

// Finds the sheets that list blocks of lots. The grower is asked which of them take blocks off.

/** Rows below the last one that a formula reads besides. */
const GROWTH = 500;

/** How many of its labels have to be lots, as old lots may be listed too; and how many to be within what was made. */
const [KNOWN, WITHIN] = [0.5, 0.8];

function listedIn(
  part: Candidate,
  lots: ReadonlyMap<string, number>,
  names: readonly string[],
  places: Known | undefined,
  isSaid: boolean,
  reader: Reader,
): TakenElsewhere | undefined {
  const { sheet, area, headers, dataRows, matches, origin } = part;
  const lot = lotsOf(part, names, reader);
  const counts = matches.find(
    ({ wanted, by }) => (wanted === 'loaded' || wanted === 'blocks') && by !== 'its data',
  );
  const isOfPicks = [sheet.name, ...headers.values()].some(isOfWhatCameOff);
  if (lot === undefined || !counts || isOfPicks || massUnitIn(counts.header)) return undefined;
  const rows = dataRows.filter((row) => nameAt(part, row, lot) !== '');
  const labels = rows.map((row) => cellAt(sheet, row, lot));
  const read = reader.labels(labels, names);
  const known = rows.flatMap((row, i) => {
    const own = read[i]!;
    return isCellError(own) ? [] : [{ row, written: textOf(labels[i]!).trim(), own: textOf(own) }];
  });
  const blocksAt = (row: number): Cell => cellAt(sheet, row, counts.column);
  const areCounts = rows.every((row) => isBlank(blocksAt(row)) || Number.isInteger(blocksAt(row)));
  const loads = known.flatMap(({ row, own }) => {
    const [key, blocks] = [own.trim().toLowerCase(), blocksAt(row)];
    return lots.has(key) && !isBlank(blocks) ? [{ row, own, key, blocks: Number(blocks) }] : [];
  });
  const ofLots = sumsOf(loads);
  // A second list of all lots says what they are, not what was done with some of them.
  const isOfSome = ofLots.size >= 2 && ofLots.size < lots.size;
  // One slip is told where the lot is read.
  const within = [...ofLots].filter(([name, blocks]) => blocks >= 0 && blocks <= lots.get(name)!);
  const isWithinMade = within.length >= WITHIN * ofLots.size;
  const isLikely = isOfSome && isWithinMade && known.length >= KNOWN * rows.length;
  if (!areCounts || !(isSaid || isLikely)) return undefined;
  const last = lastRowOf(part, GROWTH);
  const range = (column: number): string =>
    `${sheetText(sheet.name)}!${fixedRangeOf({ top: area.top + 1, bottom: last, left: column, right: column })}`;
  const joined = new Map<string, Joined>();
  for (const { written, own } of known) {
    if (written.toLowerCase() === own.toLowerCase()) continue;
    const key = `${written}\n${own}`;
    joined.set(key, { table: 'standing', label: written, as: own, cells: (joined.get(key)?.cells ?? 0) + 1 });
  }
  const unread = rows.flatMap((row, i): UnreadCell[] => {
    const own = read[i]!;
    const isOfLot = !isCellError(own);
    const column = isOfLot ? counts.column : lot;
    const about = `loads, ${isOfLot ? 'blocks' : 'lot'}`;
    if (isOfLot !== isBlank(blocksAt(row))) return [];
    const why = isOfLot ? 'is blank' : notAmong(own, 'lots');
    return [{ ...origin(row, column), about, held: cellAt(sheet, row, column), why }];
  });
  const way = places && standingWay(part, [lot, counts.column], places, reader);
  const standing = new Map<number, StandingLoad & { lot: string; blocks: number }>();
  const isRead = typeof way === 'object';
  for (const { row, own, blocks } of loads) {
    if (!isRead || !places) break;
    const load = standingAt(part, way, row, places.rooms, reader);
    if ('loaded' in load) standing.set(row - area.top - 1, { ...load, lot: own, blocks });
    else unread.push(...load);
  }
  const stands = ({ row }: { readonly row: number }): boolean => standing.has(row - area.top - 1);
  return {
    sheet: sheet.name,
    lots: range(lot),
    blocks: range(counts.column),
    height: last - area.top,
    ofLots: sumsOf(loads.filter((one) => !stands(one))),
    standing: isRead
      ? {
          way,
          day: range(way.day),
          room: typeof way.room === 'number' ? range(way.room) : `"${way.room.replaceAll('"', '""')}"`,
          cleared: range(way.cleared),
          ofLots: sumsOf(loads.filter(stands)),
          loads: standing,
        }
      : way,
    rows: rows.length,
    joined: [...joined.values()],
    unread,
  };
}

/** How many blocks of each lot some loads are. */
function sumsOf(loads: readonly { readonly key: string; readonly blocks: number }[]): Map<string, number> {
  const sums = new Map<string, number>();
  for (const { key, blocks } of loads) sums.set(key, (sums.get(key) ?? 0) + blocks);
  return sums;
}

const areNumbers = ({ sheet, dataRows }: Candidate, column: number): boolean =>
  dataRows.every(
    (row) => isBlank(cellAt(sheet, row, column)) || Number.isInteger(cellAt(sheet, row, column)),
  );

function withoutLoaded(candidate: Candidate): Candidate {
  const loaded = columnOf(candidate, 'loaded');
  if (loaded === undefined) return candidate;
  const matches = candidate.matches.filter(({ wanted }) => wanted !== 'loaded');
  return { ...candidate, matches, countedElsewhere: loaded };
}

/** Lots with what other sheets take off them, without those of which nothing is left; and what is asked of it. */
export function lessTakenElsewhere(
  book: GrowersBook,
  candidate: Candidate,
  served: readonly Candidate[],
  answers: Answers,
  known: Known,
  reader: Reader,
): readonly [Candidate, TakenWords | undefined] {
  const { table, sheet, dataRows, takenOff, left } = candidate;
  const [lot, blocks] = [columnOf(candidate, 'lot'), columnOf(candidate, 'blocks')];
  const isOfWhatIsLeft = table.columns.some((one) => one.isOfWhatIsLeft);
  const loaded = columnOf(candidate, 'loaded');
  const isTracked = takenOff !== undefined || left !== undefined;
  if (!isOfWhatIsLeft || isTracked || lot === undefined || blocks === undefined)
    return [candidate, undefined];
  const made = new Map(
    dataRows.map((row) => [nameAt(candidate, row, lot), Number(cellAt(sheet, row, blocks) ?? 0)] as const),
  );
  const serving = served.flatMap((one) => [one, ...(one.parts ?? [])]);
  const others = anyParts(book, table).filter((part) => !serving.some((one) => overlap(one, part)));
  const names = namesOfLots(candidate, lot);
  const said = answers.taken?.[table.name];
  // Only a plan asks what stands where, and only of what takes blocks off.
  const isPlan = table.columns.some(({ name }) => name === 'room');
  // Lots that say themselves how many were loaded say it once; where a list says in which room they stand, that is more.
  const isCounted = loaded !== undefined;
  if (isCounted && (!isPlan || columnOf(candidate, 'room') !== undefined || !areNumbers(candidate, loaded)))
    return [candidate, undefined];
  const places = isPlan && (said || isCounted) ? known : undefined;
  const found = others.flatMap((part) => {
    const isSaid = said?.includes(part.sheet.name) === true;
    const listed = listedIn(part, made, names, places, isSaid, reader);
    return listed && (!isCounted || typeof listed.standing === 'object') ? [listed] : [];
  });
  if (found.length === 0) return [candidate, undefined];
  const counted = said ? found.filter((one) => said.includes(one.sheet)) : found;
  const asked = {
    header: 'sheet',
    isElsewhere: true,
    words: new Map(found.map(({ sheet: name, rows }) => [name, rows])),
  };
  // What is listed takes the place of the count.
  const own = { ...(counted.length > 0 ? withoutLoaded(candidate) : candidate), takenElsewhere: counted };
  const records = dataRows.filter(
    (row) =>
      made.get(nameAt(candidate, row, lot)) !== takenElsewhereAt(own, counted, row) || counted.length === 0,
  );
  const usedUp = (candidate.usedUp ?? 0) + dataRows.length - records.length;
  const less = counted.length === 0 ? candidate : { ...own, dataRows: records, usedUp };
  return [less, said ? undefined : asked];
}
