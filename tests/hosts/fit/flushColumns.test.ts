import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// The flush of each pick in a column of words, written once for several picks. What is expected is read off the cells.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Strain', 'Open from', 'Best at', 'Toss after', '1st pick', 'Picking days', 'Between', 'Flushes', 'BE'],
  ['Tawny', 14, 18, 28, 6, 3, 12, 3, 0.9],
];
const LOTS: Rows = [
  ['Charge', 'Strain', 'Made on', 'Bags', 'Bag kg', 'Moist %', 'Opened'],
  ['P25/01', 'Tawny', '2026-01-19', 40, 2.5, 62, '2026-02-06'],
  ['P25/02', 'Tawny', '2026-01-26', 44, 2.5, 62, '2026-02-13'],
];
/** Two lots with two flushes each, every lot and flush written once, in words with a figure for #. */
const picksOf = (word: string, header = 'Wave'): Rows => {
  const flush = (figure: number): string => word.replace('#', String(figure));
  return [
    ['Charge', header, 'Date', 'kg'],
    ['P25/01', flush(1), '2026-02-12', 8],
    [null, null, '2026-02-13', 7],
    [null, flush(2), '2026-02-27', 4],
    [null, null, '2026-02-28', 3],
    ['Summe P25/01', null, null, 22],
    ['P25/02', flush(1), '2026-02-19', 9],
    [null, null, '2026-02-20', 8],
    [null, flush(2), '2026-03-06', 5],
    ['Summe P25/02', null, null, 22],
  ];
};
const farm = (picks: Rows): Promise<Uint8Array> =>
  bookWith({ Growing: STRAINS, Charges: LOTS, Harvest: picks });

const ANSWERS: Answers = { blanks: { 'harvests, lot': 'as above' }, figures: { today: '2026-04-01' } };

const readIn = (bytes: Uint8Array) => {
  const fit = fitted(opened(bytes), 'audit', ANSWERS);
  const { values } = fit.tables.get('harvests')!;
  return {
    asked: fit.questions.map(questionWords),
    unread: fit.unread.map(placeOfUnread),
    lots: values.get('lot'),
    flushes: values.get('flush'),
  };
};

describe('a flush that is counted in words, at its first pick', () => {
  const one = Array.from({ length: 4 }, () => 'P25/01');
  const other = Array.from({ length: 3 }, () => 'P25/02');

  test.each([
    '#. wave',
    '#st flush',
    'Flush #',
    'wave #',
    '#. Welle',
    '#.Welle',
    'Welle #',
    'Schub #',
    '#e volée',
    '#ª oleada',
    'F#',
    '#',
  ])('%s holds for the picks below, and sums of lots are none', async (word) => {
    expect(readIn(await farm(picksOf(word)))).toEqual({
      asked: [],
      unread: [],
      lots: [...one, ...other],
      flushes: [1, 1, 2, 2, 1, 1, 2],
    });
  });

  test('the formulas on the sheets give what was shown', async () => {
    const bytes = await farm(picksOf('#. wave'));
    const [, prepared] = await laidOut(bytes, 'audit', ANSWERS);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    for (const name of ['YIELDAUDIT', 'CROPTABLE']) {
      const { address } = prepared.calls.find(({ formula }) => formula.includes(name))!;
      expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, name));
    }
    const table = valuesOf(prepared, 'CROPTABLE');
    const flushAt = table[0]!.indexOf('flush 1');
    expect(table.slice(1).map((row) => row.slice(flushAt, flushAt + 2))).toEqual([
      [15, 7],
      [17, 5],
    ]);
  });

  test('where a number comes again, a blank stays a flush that nobody wrote', async () => {
    const picks: Rows = [
      ['Charge', 'Flush', 'Date', 'kg'],
      ['P25/01', 1, '2026-02-12', 8],
      ['P25/01', 1, '2026-02-13', 7],
      ['P25/01', null, '2026-02-27', 4],
      ['P25/02', 1, '2026-02-19', 9],
      ['P25/02', null, '2026-02-20', 8],
    ];
    expect(readIn(await farm(picks)).flushes).toEqual([1, 1, null, 1, null]);
  });
});
