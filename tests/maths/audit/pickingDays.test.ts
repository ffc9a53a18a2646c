import { expect, test } from '@jest/globals';
import { knownBook } from '../../../src/maths/audit/knownBook';
import { PickingDays } from '../../../src/maths/audit/pickingDays';
import type { LotRecord, PickRecord } from '../../../src/maths/audit/yieldRecords';

// A week begins here; which weekday it is makes no difference.
const MONDAY = 45_304;
const FEW = { blocks: 10, blockMass: 2, moisture: 0.6, inoculated: undefined, total: undefined };
const PICK = { mass: 5, flush: 1, blocks: undefined, picker: '', scale: '', grade: '', crate: '' };

/** Twenty weeks: one strain is picked on weekdays 0 to 5, another on 0, 2 and 4; day 70, a Monday, is a holiday. */
function daysOf(): {
  days: PickingDays;
  daily: LotRecord;
  thrice: LotRecord;
  book: ReturnType<typeof knownBook>;
} {
  const [daily, thrice] = ['daily', 'thrice'].map((strain, i): LotRecord => ({
    ...FEW,
    row: i + 2,
    lot: strain,
    strain,
    loaded: MONDAY - 5,
  })) as [LotRecord, LotRecord];
  const picks: PickRecord[] = [];
  const lots: LotRecord[] = [daily, thrice];
  for (let n = 0; n < 8; n++) lots.push({ ...daily, row: lots.length + 2, lot: `daily ${n}` });
  for (let day = 0; day < 140; day++) {
    if (day === 70) continue;
    for (const { lot, strain } of lots) {
      if (day % 7 > 5 || (strain === 'thrice' && ![0, 2, 4].includes(day % 7))) continue;
      picks.push({ ...PICK, row: picks.length + 2, lot, date: MONDAY + day });
    }
  }
  const book = knownBook(picks, lots, new Map());
  return { days: new PickingDays(book), daily, thrice, book };
}

test('PickingDays counts the days on which a strain is picked: Sundays, days of other strains and holidays are none', () => {
  const { days, book } = daysOf();
  const [daily, thrice] = [book.lots.get('daily')!, book.lots.get('thrice')!];
  const between = (lot: typeof daily, from: number, to: number): number =>
    days.between(lot, MONDAY + from, MONDAY + to);
  expect(between(daily, 0, 1)).toBe(1);
  expect(between(daily, 5, 7)).toBe(1); // Saturday to Monday
  expect(between(thrice, 0, 2)).toBe(1); // Monday to Wednesday
  expect(between(thrice, 0, 4)).toBe(2);
  expect(between(daily, 69 - 1, 71)).toBe(1); // Saturday to Tuesday, the Monday between being a holiday
  expect(days.often(daily, MONDAY + 1)).toBe(1);
  expect(days.often(thrice, MONDAY + 1)).toBeLessThan(0.1);
  expect(days.often(daily, MONDAY + 6)).toBeLessThan(0.05);
});

test('PickingDays knows how long a strain grew before a day, and whether for a holiday', () => {
  const { days, book } = daysOf();
  const [daily, thrice] = [book.lots.get('daily')!, book.lots.get('thrice')!];
  expect(days.restBefore(daily, MONDAY + 8)).toEqual({ days: 1, usual: 1, isHoliday: false });
  expect(days.restBefore(daily, MONDAY + 7)).toEqual({ days: 2, usual: 1, isHoliday: false });
  expect(days.restBefore(daily, MONDAY + 71)).toEqual({ days: 3, usual: 1, isHoliday: true });
  expect(days.restBefore(thrice, MONDAY + 72)).toEqual({ days: 5, usual: 2, isHoliday: true });
});

test('PickingDays takes no pick of another year for the end of a holiday', () => {
  const { book } = daysOf();
  const daily = book.lots.get('daily')!;
  const late = daily.picks[0]!;
  late.day = MONDAY + 500;
  const days = new PickingDays(book);
  // From Saturday of the last week over Sunday to Thursday: four days of picking.
  expect(days.between(daily, MONDAY + 138, MONDAY + 143)).toBe(4);
});
