import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { readingWords, sourceWords } from '../../../src/hosts/fit/told';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { plainValues } from '../../../src/worksheet/cells/cell';
import { bookWith, day, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// A sheet for each room lists what was set out there, when, and when it was cleared. Every figure is counted by hand.

type Rows = readonly (readonly (Held | Date)[])[];
const on = (date: string): Date => new Date(`${date}T00:00:00Z`);
const SHEETS: Readonly<Record<string, Rows>> = {
  Batches: [
    ['Batch', 'Strain', 'Blocks', 'Block kg', 'Moisture', 'Binned', 'Inoculated'],
    // All cleared; out in both rooms, one load cleared; a few left; all left.
    ['B01', 'Blue larch', 20, 2.5, 'wet', null, on('2026-01-20')],
    ['B02', 'Blue larch', 24, 2.5, 0.62, 2, on('2026-02-27')],
    ['B03', 'Blue larch', 30, 2.5, 0.62, null, on('2026-03-01')],
    ['B04', 'Blue larch', 30, 2.5, 0.62, 1, on('2026-03-05')],
  ],
  'Room 1': [
    ['Batch', 'Set out', 'Blocks', 'Cleared'],
    ['B01', on('2026-02-10'), 20, on('2026-03-20')],
    ['B02', on('2026-03-22'), 12, null],
    ['B 03', on('2026-03-25'), 8, '-'],
  ],
  'Room 2': [
    ['Batch', 'Set out', 'Blocks', 'Cleared'],
    ['b02', on('2026-03-20'), 10, on('2026-03-29')],
    ['B03', '26/03/2026', 6, null],
  ],
  Strains: [
    ['Strain', 'Min days', 'Best', 'Max days', 'First pick', 'Pick days', 'BE'],
    ['Blue larch', 18, 24, 90, 7, 2, 1],
  ],
  Orders: [
    ['Product', 'Mass kg', 'Due'],
    ['Blue larch', 11.4, '2026-03-31'],
  ],
};
const ANSWERS: Answers = {
  figures: { today: '2026-03-30', days: 21 },
  taken: { lots: ['Room 1', 'Room 2'] },
  fill: {
    rooms: [
      { room: 'Room 1', shelves: 3, 'blocks per shelf': 10 },
      { room: 'Room 2', shelves: 1, 'blocks per shelf': 10 },
    ],
  },
};
const leftOf = (prepared: Parameters<typeof valuesOf>[0]): unknown[] =>
  valuesOf(prepared, '"lots"')
    .slice(1)
    .map(([lot, , blocks]) => [lot, blocks]);

describe('what room tabs list', () => {
  test('stands there until it is cleared: it is picked, holds its shelves and is not opened again', async () => {
    const bytes = await bookWith(SHEETS);
    const [fit, prepared] = await laidOut(bytes, 'plan', ANSWERS);
    expect([fit.unread, fit.hasShelves]).toEqual([[], true]);
    expect(readingWords(fit.tables.get('lots')!, 'blocks')).toBe(
      'less those of Room 1 / Room 2, without those under Binned; of these stand 20 in Room 1 and 6 in Room 2',
    );
    expect(leftOf(prepared)).toEqual([
      ['B03', 16],
      ['B04', 29],
    ]);
    // 0.95 kg of a block on two days, seven days after it was set out.
    const [, ...picks] = valuesOf(prepared, '"picks"');
    const standing = picks.flatMap(([date, , mass]) => (Number(mass) > 0 ? [[date, mass]] : []));
    expect(standing).toEqual([
      [day(3, 30), expect.closeTo(5.7, 9)],
      [day(4, 1), expect.closeTo(3.8, 9)],
      [day(4, 2), expect.closeTo(6.65, 9)],
      [day(4, 3), expect.closeTo(2.85, 9)],
    ]);
    // Of the 30 places of Room 1 20 are taken until the 30th of March, 8 until the 2nd of April.
    const before = valuesOf(prepared, 'LOADPLAN(').filter(
      ([date, , , room]) => typeof date === 'number' && date < day(3, 31) && room === 'Room 1',
    );
    expect(before.reduce((sum, [, , , , blocks]) => sum + Number(blocks), 0)).toBeLessThanOrEqual(10);
    await doAllAgree(bytes, prepared);
  });

  test('is kept by the book: the next time gives the same', async () => {
    const bytes = await bookWith(SHEETS);
    const [, first] = await laidOut(bytes, 'plan', ANSWERS);
    const kept = withSheets(bytes, first.sheets);
    const [fit, later] = await laidOut(kept, 'plan', {
      ...keptAnswers(opened(kept), 'plan'),
      figures: ANSWERS.figures!,
    });
    expect(fit.unused).toEqual([]);
    expect(later.calls.map(({ block }) => plainValues(block))).toEqual(
      first.calls.map(({ block }) => plainValues(block)),
    );
  });

  test('may say its room in a column, and one that is no room is told and stands nowhere', async () => {
    const { 'Room 1': _, 'Room 2': __, ...others } = SHEETS;
    const bytes = await bookWith({
      ...others,
      Loads: [
        ['Batch', 'Loaded', 'Blocks', 'Where', 'Cleared'],
        ['B02', on('2026-03-22'), 12, 'room 1', null],
        ['B03', on('2026-03-25'), 8, 'Room 2', null],
        ['B03', on('2026-03-25'), 4, 'Room 2', null],
        ['B04', on('2026-03-26'), 5, 'Room 2', on('2026-03-28')],
        ['B04', on('2026-03-26'), 6, 'Rom 7', null],
        ['B04', null, 2, 'Room 1', null],
      ],
    });
    const [fit, prepared] = await laidOut(bytes, 'plan', {
      ...ANSWERS,
      taken: { lots: ['Loads'] },
      leaveOut: { lots: true },
    });
    expect(fit.unread.map((one) => [placeOfUnread(one), one.about, one.why])).toEqual([
      ['Loads!D6', 'loads, room', expect.stringMatching(/^is not among your rooms/)],
      ['Loads!B7', 'loads, loaded', 'is blank'],
      ['Batches!E2', 'lots, moisture', expect.any(String)],
    ]);
    expect(readingWords(fit.tables.get('lots')!, 'blocks')).toContain(
      'of these stand 12 in Room 1 and 12 in Room 2',
    );
    expect(leftOf(prepared)).toEqual([
      ['B02', 10],
      ['B03', 18],
      ['B04', 16],
    ]);
    await doAllAgree(bytes, prepared);
  });

  test('is no more than the lot had: one that is may be left out with what stands of it', async () => {
    const bytes = await bookWith({
      ...SHEETS,
      'Room 2': [...SHEETS['Room 2']!, ['B04', on('2026-03-26'), 90, null]],
    });
    const [fit, prepared] = await laidOut(bytes, 'plan', { ...ANSWERS, leaveOut: { lots: true } });
    expect(fit.unread.map((one) => [placeOfUnread(one), one.why])).toEqual([
      ['Batches!C5', 'is less than what Room 1 and Room 2 take off it and what is lost of it under Binned'],
    ]);
    expect(leftOf(prepared)).toEqual([['B03', 16]]);
    await doAllAgree(bytes, prepared);
  });

  test.each<[string, Readonly<Record<string, Rows>>, string]>([
    [
      'no column says what is cleared',
      { 'Room 1': SHEETS['Room 1']!.map((row) => row.slice(0, 3)) },
      'no column says which are cleared',
    ],
    [
      'no column says the day',
      { 'Room 1': SHEETS['Room 1']!.map(([lot, , blocks, cleared]) => [lot!, blocks!, cleared!]) },
      'no column says when they were set out',
    ],
  ])('is only taken off where %s, and that is told', async (_, sheets, why) => {
    const { tables } = fitted(opened(await bookWith({ ...SHEETS, ...sheets })), 'plan', ANSWERS);
    expect(readingWords(tables.get('lots')!, 'blocks')).toBe(
      'less those of Room 1 / Room 2, without those under Binned; of these stand 6 in Room 2; ' +
        `the places on the shelves and the picks of what is in Room 1 are not counted: ${why}`,
    );
    expect(tables.get('lots')!.values.get('blocks')).toEqual([22, 29]);
  });

  test('is only taken off where no room has the name of the sheet, and in a job that asks for no rooms', async () => {
    const book = opened(await bookWith(SHEETS));
    const rooms = [{ room: 'Shed', shelves: 3, 'blocks per shelf': 10 }];
    const plan = fitted(book, 'plan', { ...ANSWERS, fill: { rooms } });
    expect(plan.hasShelves).toBe(false);
    expect(readingWords(plan.tables.get('lots')!, 'blocks')).toContain('no room is called Room 2');
    const ready = fitted(book, 'ready', ANSWERS);
    expect(ready.tables.get('lots')!.values.get('blocks')).toEqual([16, 29]);
    expect(readingWords(ready.tables.get('lots')!, 'blocks')).toBe(
      'less those of Room 1 / Room 2, without those under Binned',
    );
  });
});

describe('the first load of each lot on room tabs', () => {
  const picks: Rows = [
    ['Batch', 'Picked', 'kg'],
    ...['B02', 'B03', 'B04', 'B05', 'B06', 'B07'].flatMap((lot, i) => [
      [lot, on(`2026-03-${17 + i}`), 4.1 + i / 10] as const,
      [lot, on(`2026-03-${18 + i}`), 3.9 - i / 10] as const,
    ]),
  ];
  const book = (days: readonly (Date | string)[], header = 'Set out'): Readonly<Record<string, Rows>> => ({
    Batches: [
      SHEETS['Batches']![0]!,
      ...[2, 3, 4, 5, 6, 7].map((no) => [`B0${no}`, 'Blue larch', 10, 2.5, 0.62, null, on(`2026-02-0${no}`)]),
    ],
    'Room 1': [
      ['Cleared', header, 'Batch', 'Blocks'],
      ...days.map((date, i) => [null, date, i === 1 ? 'b 03' : `B0${i + 2}`, 5]),
    ],
    // Of B02 and B03 the rest went out later.
    'Room 2': [
      ['Cleared', header, 'Batch', 'Blocks'],
      [null, on('2026-03-14'), 'B02', 5],
      [null, on('2026-03-15'), 'B03', 5],
    ],
    Strains: SHEETS['Strains']!,
    Harvest: picks,
  });
  const DAYS = [10, 11, 12, 13, 14, 15].map((date) => on(`2026-03-${date}`));

  test('is the day on which it was loaded, in any spelling of its label, as the workbook itself says', async () => {
    const bytes = await bookWith(book(DAYS));
    const [fit, prepared] = await laidOut(bytes, 'audit', {});
    const lots = fit.tables.get('lots')!;
    expect(lots.values.get('loaded')).toEqual([10, 11, 12, 13, 14, 15].map((date) => day(3, date)));
    expect(sourceWords(lots)).toContain('the first Set out of Room 1 and Room 2, by Batch');
    await doAllAgree(bytes, prepared);
    // What the book keeps is no header of the lots in another job.
    const kept = opened(withSheets(bytes, prepared.sheets));
    expect(fitted(kept, 'ready', { ...keptAnswers(kept, 'ready'), taken: { lots: [] } }).unused).toEqual([]);
  });

  test('is named where a finding is about it', async () => {
    const slipped = DAYS.map((date, i) => (i === 3 ? on('2026-08-13') : date));
    const bytes = await bookWith(book(slipped));
    const [, prepared] = await laidOut(bytes, 'audit', {});
    const findings = valuesOf(prepared, 'YIELDAUDIT(');
    const about = findings.findIndex(
      (row) => row.includes('B05') && row.some((one) => typeof one === 'string' && one.includes('load')),
    );
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const places = workbook.result(prepared.answer, 'A5').block!;
    expect(about).toBeGreaterThan(0);
    expect(places[about - 1]).toEqual(["'Room 1'!B5"]);
  });

  test.each<[string, Readonly<Record<string, Rows>>, Answers]>([
    ['the grower says that no day is that', book(DAYS), { columns: { lots: { loaded: null } } }],
    ['the header says another day', book(DAYS, 'Watered'), {}],
    [
      'the lots say it themselves',
      {
        ...book(DAYS),
        Batches: book(DAYS)['Batches']!.map((row, i) => [...row, i === 0 ? 'Loaded' : on('2026-03-09')]),
      },
      {},
    ],
  ])('is not read where %s', async (_, sheets, answers) => {
    const { tables } = fitted(opened(await bookWith(sheets)), 'audit', answers);
    expect(sourceWords(tables.get('lots')!)).not.toContain('the first');
  });
});

test.each<[string, string, string, readonly unknown[]]>([
  ['the room that its sheet is named after', 'Room 1', '26 shelves x 24 blocks = 624', ['Room 1', 26, 24]],
  ['the room of its own words', 'Room 1', 'Loft: 4 shelves of 12', ['Loft', 4, 12]],
  ['no room on a sheet of several', 'Grow rooms', '26 shelves x 24 blocks = 624', []],
])('shelves over a list of loads are those of %s', async (_, sheet, says, room) => {
  const { 'Room 1': first, 'Room 2': __, ...others } = SHEETS;
  const bytes = await bookWith({ ...others, [sheet]: [[says], [], ...first!] });
  const { questions } = fitted(opened(bytes), 'plan', { ...ANSWERS, fill: {} });
  const asked = questions.flatMap((one) => (one.kind === 'fill' && one.table === 'rooms' ? one.rows : []));
  expect(asked.map((row) => Object.values(row))).toEqual(room.length === 0 ? [] : [room]);
});
