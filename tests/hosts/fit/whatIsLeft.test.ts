import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { bookOf } from '../../../src/hosts/fit/content';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { isTold } from '../../../src/hosts/fit/tellingWords';
import { ignoredWords, readingWords, sourceWords } from '../../../src/hosts/fit/told';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// What is left of a lot, as farm books say it. Every figure is counted by hand from the cells.

type Rows = readonly (readonly Held[])[];
const TODAY: Answers = { figures: { today: '2026-03-30', days: 7 } };
const STRAINS: Rows = [
  ['Strain', 'Min days', 'Best', 'Max days'],
  ['Blue larch', 18, 24, 45],
];
/** The lots that are listed as ready, with their blocks. */
const readyIn = (prepared: Parameters<typeof valuesOf>[0]): unknown[] =>
  valuesOf(prepared, 'READYLOTS(')
    .slice(1)
    .filter(([, strain]) => strain === 'Blue larch')
    .map(([lot, , blocks]) => [lot, blocks]);

test.each<[string, string]>([
  ['Tossed', 'Tossed'],
  ['Bad', 'Bad'],
  ['discarded_count', 'discarded_count'],
  ['Duds', 'Duds'],
])('blocks under %s come off', async (_, header) => {
  const lots: Rows = [
    ['Lot', 'Strain', 'Bags', header, 'Inoculated'],
    ['A1', 'Blue larch', 20, 3, '2026-02-26'],
    ['A2', 'Blue larch', 24, null, '2026-03-02'],
  ];
  const fit = fitted(opened(await bookWith({ Lots: lots, Strains: STRAINS })), 'ready', TODAY);
  expect(fit.tables.get('lots')!.values.get('blocks')).toEqual([17, 24]);
});

test('blocks that two columns count as lost come off together; the formulas say the same', async () => {
  const lots: Rows = [
    ['Lot', 'Strain', 'Bags', 'Contam', 'Tossed', 'Inoculated'],
    ['A1', 'Blue larch', 20, 3, 2, '2026-02-26'],
    ['A2', 'Blue larch', 24, null, 1, '2026-03-02'],
    ['A3', 'Blue larch', 24, 20, 4, '2026-03-02'],
  ];
  const [fit, prepared] = await laidOut(await bookWith({ Lots: lots, Strains: STRAINS }), 'ready', TODAY);
  expect(readingWords(fit.tables.get('lots')!, 'blocks')).toBe('without those under Contam and Tossed');
  expect(ignoredWords(fit.tables.get('lots')!)).toBe('');
  expect(readyIn(prepared)).toEqual([
    ['A1', 15],
    ['A2', 23],
  ]);
});

describe('what is left beside the day of loading', () => {
  const withLeft = (left: readonly number[], made = true): Rows => [
    ['Lot', 'Strain', ...(made ? ['Bags', 'Contam'] : []), 'Left', 'Inoculated', 'To fruiting'],
    ['A1', 'Blue larch', ...(made ? [20, 3] : []), left[0]!, '2026-02-26', '2026-03-25'],
    ['A2', 'Blue larch', ...(made ? [24, null] : []), left[1]!, '2026-02-26', '2026-03-26'],
    ['A3', 'Blue larch', ...(made ? [30, 1] : []), left[2]!, '2026-03-01', null],
  ];
  const bookOfLots = (lots: Rows): Promise<Uint8Array> => bookWith({ Lots: lots, Strains: STRAINS });

  test('is what was made less what was lost: the day says which lots are still to open', async () => {
    const [, prepared] = await laidOut(await bookOfLots(withLeft([17, 24, 29])), 'ready', TODAY);
    expect(readyIn(prepared)).toEqual([['A3', 29]]);
  });

  test('falls with what was opened: what is left of those lots is still to open', async () => {
    const [, prepared] = await laidOut(await bookOfLots(withLeft([5, 24, 29])), 'ready', TODAY);
    expect(readyIn(prepared)).toEqual([
      ['A1', 5],
      ['A2', 24],
      ['A3', 29],
    ]);
  });

  test('is asked about where no column says what was made', async () => {
    const bytes = await bookOfLots(withLeft([17, 24, 29], false));
    const { questions } = fitted(opened(bytes), 'ready', TODAY);
    expect(questions.map(questionWords)).toEqual([
      'Is “To fruiting” of your lots the day a lot was loaded into a room? Say none if it is another day. ' +
        '2 lots with such a day have blocks left. Say none if those are still to open',
    ]);
    const say = (loaded: string | null): Answers => ({ ...TODAY, columns: { lots: { loaded } } });
    const [, loaded] = await laidOut(bytes, 'ready', say('To fruiting'));
    expect(readyIn(loaded)).toEqual([['A3', 29]]);
    const [, open] = await laidOut(bytes, 'ready', say(null));
    expect(readyIn(open)).toHaveLength(3);
  });
});

describe('a sheet that lists blocks of some of the lots', () => {
  const lots: Rows = [
    ['Batch number', 'Strain', 'How many blocks did you make?', 'Contam', 'Inoculated'],
    [100, 'Blue larch', 20, 2, '2026-02-26'],
    [101, 'Blue larch', 24, null, '2026-02-27'],
    [102, 'Blue larch', 30, null, '2026-03-01'],
  ];
  const moved: Rows = [
    ['When', 'Batch number', 'How many blocks did you put in the fruiting room?', 'Which room?'],
    ['2026-03-24', 100, 10, 'Shed'],
    ['2026-03-25', 101, 24, 'Shed'],
    ['2026-03-26', 100, 3, 'Tent'],
  ];
  const book = (): Promise<Uint8Array> => bookWith({ Made: lots, Moved: moved, Strains: STRAINS });

  test('is asked about, takes blocks off them, and is kept', async () => {
    const bytes = await book();
    const { questions } = fitted(opened(bytes), 'ready', TODAY);
    expect(questions.map(questionWords)).toEqual([
      'Other sheets list blocks of some of your lots: Moved (3). ' +
        'Which of them take blocks off their lot, as loaded or thrown away?',
    ]);
    const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, taken: { lots: ['Moved'] } });
    expect(readyIn(prepared)).toEqual([
      ['100', 5],
      ['102', 30],
    ]);
    const written = withSheets(bytes, prepared.sheets);
    const workbook = await openWorkbook(readWorkbook(written));
    const { address } = prepared.calls[0]!;
    expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, 'READYLOTS('));
    expect(keptAnswers(bookOf(readWorkbook(written), []), 'ready').taken).toEqual({ lots: ['Moved'] });
  });

  test('may list old lots too', async () => {
    const old: Rows = [...moved, ['2026-02-24', 98, 10, 'Shed'], ['2026-02-25', 99, 10, 'Shed']];
    const bytes = await bookWith({ Made: lots, Moved: old, Strains: STRAINS });
    const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, taken: { lots: ['Moved'] } });
    expect(readyIn(prepared)).toEqual([
      ['100', 5],
      ['102', 30],
    ]);
  });

  describe('whose labels are spelled otherwise', () => {
    const batches: Rows = [
      ['Batch', 'Strain', 'Blocks', 'Binned', 'Inoculated'],
      ['B01', 'Blue larch', 20, 1, '2026-02-26'],
      ['B02', 'Blue larch', 24, null, '2026-02-27'],
      ['B03', 'Blue larch', 30, null, '2026-03-01'],
      ['B04', 'Blue larch', 30, 2, '2026-03-02'],
    ];
    const rooms = (label: string): Record<string, Rows> => ({
      Batches: batches,
      'Room 1': [
        ['Batch', 'Set out', 'Blocks', 'Cleared'],
        ['B01', '2026-03-24', 19, null],
        ['b02', '2026-03-24', 14, null],
        [label, '2026-03-25', 12, null],
      ],
      Strains: STRAINS,
    });
    const taken: Answers = { ...TODAY, taken: { lots: ['Room 1'] } };

    test.each<[string]>([['B 03'], ['B-03'], [' B03 '], ['Bо3']])(
      '%s comes off B03, as the workbook itself says; a lot that is used up by loads and losses is passed over',
      async (label) => {
        const bytes = await bookWith(rooms(label));
        const [fit, prepared] = await laidOut(bytes, 'ready', taken);
        expect(readyIn(prepared)).toEqual([
          ['B02', 10],
          ['B03', 18],
          ['B04', 28],
        ]);
        expect(fit.unread).toEqual([]);
        expect(sourceWords(fit.tables.get('lots')!)).toContain('1 lot with none left is passed over');
        const isSame = label.trim() === 'B03';
        expect(fit.joined).toEqual(isSame ? [] : [{ table: 'standing', label, as: 'B03', cells: 1 }]);
        await doAllAgree(bytes, prepared);
      },
    );

    test.each<[string, readonly (Held | Date)[], string, string]>([
      ['a label of no lot', ['B07', '2026-03-25', 12, null], 'A5', 'is not among your lots'],
      ['no number of blocks', ['B03', new Date('2026-03-25'), null, null], 'C5', 'is blank'],
    ])('%s takes nothing off, and is told with its cell', async (_, load, place, why) => {
      const book = rooms('B04');
      const sheets = { ...book, 'Room 1': [...book['Room 1']!, load] };
      const fit = fitted(opened(await bookWith(sheets)), 'ready', taken);
      expect(fit.unread.map((one) => [placeOfUnread(one), one.why])).toEqual([[`'Room 1'!${place}`, why]]);
      expect(fit.tables.get('lots')!.values.get('blocks')).toEqual([10, 30, 16]);
    });

    test('comes off lots that two people list, each on a sheet of their own', async () => {
      const { Batches, ...others } = rooms('C 01');
      const more: Rows = [
        batches[0]!,
        ['C01', 'Blue larch', 15, null, '2026-02-26'],
        ['C02', 'Blue larch', 16, null, '2026-02-27'],
        ['C03', 'Blue larch', 17, null, '2026-03-01'],
      ];
      const bytes = await bookWith({ 'Batches 1': Batches!, 'Batches 2': more, ...others });
      const [, prepared] = await laidOut(bytes, 'ready', taken);
      expect(readyIn(prepared)).toEqual([
        ['C01', 3],
        ['B02', 10],
        ['C02', 16],
        ['B03', 30],
        ['C03', 17],
        ['B04', 28],
      ]);
      await doAllAgree(bytes, prepared);
    });
  });

  test('says nothing of the shelves, and a plan tells that', async () => {
    const answers = { ...TODAY, taken: { lots: ['Moved'] } };
    const { tables } = fitted(opened(await book()), 'plan', answers);
    expect(readingWords(tables.get('lots')!, 'blocks')).toBe(
      'less those of Moved, without those under Contam; ' +
        'the places on the shelves and the picks of what is in Moved are not counted: no column says which are cleared',
    );
  });

  test('may be said to take nothing', async () => {
    const [, prepared] = await laidOut(await book(), 'ready', { ...TODAY, taken: { lots: [] } });
    expect(readyIn(prepared)).toEqual([
      ['100', 18],
      ['101', 24],
      ['102', 30],
    ]);
  });

  test.each<[string, Rows]>([
    ['of picks', [['When', 'Batch number', 'Blocks', 'kg picked'], ...moved.slice(1)]],
    ['of all lots', [moved[0]!, ...[100, 101, 102].map((lot) => ['2026-03-24', lot, 3, 'Shed'])]],
    ['of more than was made', [moved[0]!, ...[100, 101].map((lot) => ['2026-03-24', lot, 40, 'Shed'])]],
  ])('is no such list %s', async (_, rows) => {
    const bytes = await bookWith({ Made: lots, Moved: rows, Strains: STRAINS });
    const { questions } = fitted(opened(bytes), 'ready', TODAY);
    expect(questions.filter(({ kind }) => kind === 'taken')).toEqual([]);
  });
});

test.each<[string, string]>([
  ['How many blocks did you make?', 'blocks'],
  ['Days until it can go in', 'earliest'],
  ['Days from going in to first pick', 'first pick'],
  ['How many days we pick', 'pick days'],
  ['Days till second flush', 'flush gap'],
  ['Bags used so far', 'loaded'],
  ['harvest d', 'pick days'],
])('the question %s is of %s', (header, property) => {
  expect(isTold(header, property)).toBe(true);
});

test('rooms in which nothing fruits are proposed to be left out, as their kind says', async () => {
  const rooms: Rows = [
    ['Room', 'Kind', 'Shelves', 'Blocks per shelf'],
    ['North', 'fruiting', 10, 12],
    ['South', 'fruiting', 8, 12],
    ['Hut', 'incubation', 40, 20],
    ['Walk-in', 'cold store', 8, 30],
  ];
  const lots: Rows = [
    ['Lot', 'Strain', 'Bags', 'Inoculated'],
    ['A1', 'Blue larch', 20, '2026-03-02'],
  ];
  const fit = fitted(opened(await bookWith({ Lots: lots, Strains: STRAINS, Rooms: rooms })), 'plan', TODAY);
  expect(fit.questions.flatMap((one) => (one.kind === 'rows' ? [questionWords(one)] : []))).toEqual([
    '“Kind” tells rows apart: fruiting (2), incubation (1), cold store (1). Which of your rooms still count?',
  ]);
  expect(fit.tables.get('rooms')!.values.get('room')).toEqual(['North', 'South']);
});

test('a mass of each bag is no number of bags, and the days of a harvest are not those until it', async () => {
  const lots: Rows = [
    ['ID', 'Strain', 'n bags', 'g per bag', 'Inoculated'],
    ['A1', 'Blue larch', 20, 1800, '2026-03-02'],
  ];
  const strains: Rows = [
    ['Strain', 'Min d', 'Best d', 'Max d', 'd to 1st harvest', 'harvest d', 'BE'],
    ['Blue larch', 18, 24, 45, 7, 4, '70%'],
  ];
  const { tables } = fitted(opened(await bookWith({ Lots: lots, Strains: strains })), 'plan', TODAY);
  const headersOf = (table: 'lots' | 'strains'): Record<string, string> =>
    Object.fromEntries(tables.get(table)!.candidate.matches.map(({ wanted, header }) => [wanted, header]));
  expect(headersOf('lots')).toMatchObject({ blocks: 'n bags', 'block mass': 'g per bag' });
  expect(headersOf('strains')).toMatchObject({ 'first pick': 'd to 1st harvest', 'pick days': 'harvest d' });
});
