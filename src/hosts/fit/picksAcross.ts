import { isBlank } from '../../worksheet/cells/cell';
import {
  blocksOn,
  columnNamed,
  FEWEST,
  headerAt,
  isDayAcross,
  isKnownDown,
  knownColumn,
  type Block,
} from './block';
import { partsOf } from './blockParts';
import { cellAt, type BookSheet } from './book';
import type { Candidate } from './candidate';
import { JOB, type WantedTable } from './jobs';
import { daysAcross, mayBeDayNumber } from './monthAcross';
import { hasCustomers } from './ordersAcross';
import { dayTold, labelTold, massTold, twoHeadersOn } from './twoHeaders';
import { massUnitIn } from './units';
import type { Look } from './values';
import { byWeek, weekTold } from './weekBlocks';

// Picks in a block: lots down and days across, days down and lots across, or both across.

/** Days without a pick that are read as well, after the last that has one. */
const DAYS_AHEAD = 31;

const ORDERS = JOB.plan.tables.find(({ name }) => name === 'orders')!;

/** What is picked of a lot on a day may lie apart by its grade. */
const GRADE =
  /^(?:(?:grade|class|quality|klasse|kl\.?|cat\.?)\s*)?(?:[abc]|i{1,3}|[123](?:st|nd|rd)|firsts?|seconds?|thirds?|prime|extra)$/i;

const isWords = (look: Look): boolean => look === 'text' || look === 'text number';
/** `5 kg` is a pick. */
const isUnit = (text: string): boolean => !/\d/.test(text) && massUnitIn(`(${text})`) !== undefined;

/** Lots down and days across, or days down and lots across. */
export function picksOn(
  sheet: BookSheet,
  table: WantedTable,
  isKnown: (label: string) => boolean,
): Candidate[] {
  // What customers wait for is no pick, though a lot may be called like a strain.
  const isOfOrders = ORDERS.sheetWords.test(sheet.name) && !table.sheetWords.test(sheet.name);
  const underTwo = twoHeadersOn(sheet, {
    isDay: isDayAcross,
    isLabel: (look, text) => look !== 'blank' && isKnown(text),
    isKnown,
  }).filter(({ block }) => !isOfOrders && !hasCustomers(block));
  if (underTwo.length > 0)
    return partsOf(
      underTwo.map(({ block }) => block),
      table,
      [labelTold('lot', underTwo), dayTold('date', underTwo), massTold],
    );
  const ofGrades = twoHeadersOn(sheet, {
    isDay: isDayAcross,
    isLabel: (look, text) => isWords(look) && (GRADE.test(text) || isUnit(text)),
    isKnown: () => true,
    isOfFigures: true,
  }).flatMap((found) => {
    const down = columnNamed(found.block, table, 'lot') ?? knownColumn(found.block, isKnown);
    return down === undefined ? [] : [{ ...found, block: { ...found.block, down } }];
  });
  if (ofGrades.length > 0)
    return partsOf(
      ofGrades.map(({ block }) => block),
      table,
      [
        { wanted: 'lot', header: headerAt(ofGrades[0]!.block), lies: ({ down }) => down },
        dayTold('date', ofGrades),
        massTold,
      ],
    );
  const byDay = blocksOn(sheet, FEWEST.days, isKnown, isDayAcross).flatMap((block) => {
    const down = columnNamed(block, table, 'lot') ?? (isKnownDown(block, isKnown) ? block.down : undefined);
    return down === undefined ? [] : [{ ...block, down, across: untilAhead({ ...block, down }) }];
  });
  if (byDay.length > 0) {
    return partsOf(byDay, table, [
      { wanted: 'lot', header: headerAt(byDay[0]!), lies: ({ down }) => down },
      { wanted: 'date', header: 'the days across', lies: ({ row }, column) => ({ cell: { row, column } }) },
      { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
    ]);
  }
  const ofMonths = byMonth(sheet, isKnown, table);
  if (ofMonths.size > 0) {
    const blocks = [...ofMonths.keys()];
    return partsOf(blocks, table, [
      { wanted: 'lot', header: headerAt(blocks[0]!), lies: ({ down }) => down },
      {
        wanted: 'date',
        header: 'the month and the days across',
        lies: (block, column) => ({ figure: ofMonths.get(block)!.get(column)! }),
      },
      { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
    ]);
  }
  const byWeekday = byWeek(sheet, isKnown, (block) => columnNamed(block, table, 'lot'));
  if (byWeekday.length > 0) {
    return partsOf(
      byWeekday.map(({ block }) => block),
      table,
      [
        { wanted: 'lot', header: headerAt(byWeekday[0]!.block), lies: ({ down }) => down },
        weekTold('date', byWeekday),
        { wanted: 'mass', header: 'the figures below the days', lies: (_, column) => column },
      ],
    );
  }
  const byLot = blocksOn(
    sheet,
    FEWEST.labels,
    isKnown,
    (look, text) => look !== 'blank' && isKnown(text),
  ).flatMap((block) => {
    const down = columnNamed(block, table, 'date');
    return down === undefined ? [] : [{ ...block, down }];
  });
  if (byLot.length === 0) return [];
  return partsOf(byLot, table, [
    { wanted: 'lot', header: 'the lots across', lies: ({ row }, column) => ({ cell: { row, column } }) },
    { wanted: 'date', header: headerAt(byLot[0]!), lies: ({ down }) => down },
    { wanted: 'mass', header: 'the figures below them', lies: (_, column) => column },
  ]);
}

/** Blocks with lots down and the days of a month across, with the day over each column; none where that of one is not said. */
function byMonth(
  sheet: BookSheet,
  isKnown: (label: string) => boolean,
  table: WantedTable,
): ReadonlyMap<Block, ReadonlyMap<number, string>> {
  const blocks = blocksOn(sheet, FEWEST.dayNumbers, isKnown, (_, text) => mayBeDayNumber(text)).flatMap(
    (block) => {
      const down = columnNamed(block, table, 'lot') ?? knownColumn(block, isKnown);
      return down === undefined ? [] : [{ ...block, down }];
    },
  );
  const found = new Map(blocks.map((block) => [block, daysAcross(block)]));
  const areTold = [...found.values()].every((days) => days !== undefined);
  return areTold ? (found as Map<Block, ReadonlyMap<number, string>>) : new Map();
}

/** The days across up to the last that has a pick, and some more. */
function untilAhead({ sheet, rows, across }: Block): number[] {
  const isPicked = (column: number): boolean => rows.some((row) => !isBlank(cellAt(sheet, row, column)));
  const last = across.filter(isPicked).at(-1);
  return across.slice(0, (last === undefined ? 0 : across.indexOf(last)) + 1 + DAYS_AHEAD);
}
