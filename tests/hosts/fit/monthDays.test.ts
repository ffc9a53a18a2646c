import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { readingWords } from '../../../src/hosts/fit/told';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// A sheet for each month: the day alone is written, the month is in the sheet's name or over the table.

type Rows = readonly (readonly Held[])[];
const STRAINS: Rows = [
  ['What', 'Ready', 'Best', 'Bin'],
  ['Blue larch', 18, 24, 45],
];
const month = (rows: Rows, over: Rows = []): Rows => [
  ...over,
  ['Day', 'Lot', 'What', 'Blocks', 'In'],
  ...rows,
];
const FEBRUARY: Rows = [
  [3, 'B1', 'Blue larch', 20, '27/2'],
  [26, 'B2', 'Blue larch', 24, null],
];
const MARCH: Rows = [
  [2, 'B3', 'Blue larch', 16, null],
  [5, 'B4', 'Blue larch', 18, null],
  [31, 'B5', 'Blue larch', 18, null],
];
const TODAY = { figures: { today: '2026-03-30', days: 7 } };

describe('days of months', () => {
  test('are dates of the month that the sheet is named after; another day is no day that a lot was made', async () => {
    const bytes = await bookWith({ 'FEB 26': month(FEBRUARY), 'MAR 26': month(MARCH), Strains: STRAINS });
    const { questions } = fitted(opened(bytes), 'ready', TODAY);
    expect(questions.map(questionWords)).toEqual([
      'Is “In” of your lots the day a lot was loaded into a room? Say none if it is another day',
    ]);
    const said = { columns: { lots: { loaded: 'In' } }, years: { 'lots, loaded': 2026 } };
    const [fit, prepared] = await laidOut(bytes, 'ready', { ...TODAY, ...said });
    const lots = fit.tables.get('lots')!;
    expect(lots.values.get('inoculated')).toEqual([day(2, 3), day(2, 26), day(3, 2), day(3, 5), day(3, 31)]);
    expect(lots.evidence[0]!['inoculated']).toBe('2026-02-03');
    expect(readingWords(lots, 'inoculated')).toBe('days of the month that is over them');
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready.slice(1, 4).map(([lot]) => lot)).toEqual(['B2', 'B3', 'B4']);
    expect(workbook.result(prepared.answer, prepared.calls[0]!.address).block).toEqual(ready);
  });

  test('are dates of the month in the title over the table', async () => {
    const over: Rows = [['Whiteboard, March 2026'], []];
    const bytes = await bookWith({ Board: month(MARCH, over), Strains: STRAINS });
    const lots = fitted(opened(bytes), 'ready', TODAY).tables.get('lots')!;
    expect(lots.values.get('inoculated')).toEqual([day(3, 2), day(3, 5), day(3, 31)]);
  });

  test('ask for the year where no sheet says it', async () => {
    const bytes = await bookWith({ Feb: month(FEBRUARY), March: month(MARCH), Strains: STRAINS });
    const answers = { ...TODAY, columns: { lots: { loaded: null } } };
    const { questions } = fitted(opened(bytes), 'ready', answers);
    expect(questions.map(({ kind }) => kind)).toEqual(['years']);
    const said = { ...answers, years: { 'lots, inoculated': 2026 } };
    const [fit] = await laidOut(bytes, 'ready', said);
    expect(fit.tables.get('lots')!.values.get('inoculated')!.slice(0, 3)).toEqual([
      day(2, 3),
      day(2, 26),
      day(3, 2),
    ]);
  });

  test.each([
    ['LUTY 26', 'Marzec 26'],
    ['Februari 2026', 'Mrt 2026'],
    ['Lot list feb 26', 'Lot list mar 26'],
  ])('are dates of months in the names %s and %s', async (first, second) => {
    const bytes = await bookWith({ [first]: month(FEBRUARY), [second]: month(MARCH), Strains: STRAINS });
    const answers = { ...TODAY, columns: { lots: { loaded: null } } };
    const lots = fitted(opened(bytes), 'ready', answers).tables.get('lots')!;
    expect(lots.values.get('inoculated')).toEqual([day(2, 3), day(2, 26), day(3, 2), day(3, 5), day(3, 31)]);
  });

  test('that no month has are told at their cell', async () => {
    const bytes = await bookWith({
      'FEB 26': month([...FEBRUARY, [30, 'B9', 'Blue larch', 9, null]]),
      'MAR 26': month(MARCH),
      Strains: STRAINS,
    });
    const { unread } = fitted(opened(bytes), 'ready', { ...TODAY, columns: { lots: { loaded: null } } });
    expect(unread.map(({ sheet, row, column }) => [sheet, row, column])).toEqual([['FEB 26', 3, 0]]);
  });

  test('are figures on sheets that no month names', async () => {
    const bytes = await bookWith({ Board: month(MARCH), Strains: STRAINS });
    const lots = fitted(opened(bytes), 'ready', TODAY).tables.get('lots');
    expect(lots?.values.get('inoculated')).not.toEqual([day(3, 2), day(3, 5), day(3, 31)]);
  });
});
