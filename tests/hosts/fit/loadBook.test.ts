import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { readingWords } from '../../../src/hosts/fit/told';
import { bookWith, day, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Lots count what was used of them; another sheet says where it went, and since when. Every figure is counted by hand.

type Rows = readonly (readonly (Held | Date)[])[];
const on = (date: string): Date => new Date(`${date}T00:00:00Z`);
const FRUITING: Rows = [
  ['What went where'],
  ['In', 'Block no.', 'How many', 'Where', 'Out'],
  [on('2026-02-20'), 'B231', 20, 'North', on('2026-03-25')],
  [on('2026-03-20'), 'B232', 12, 'North', null],
  [on('2026-03-24'), 'B232', 10, 'South', null],
  [on('2026-03-24'), 'B233', 6, 'South', null],
];
const bookOf = (fruiting: Rows): Promise<Uint8Array> =>
  bookWith({
    Blocks: [
      ['No.', 'Strain', 'Made', 'Blocks', 'Used', 'kg', 'Moisture'],
      ['B231', 'Blue larch', on('2026-01-20'), 20, 20, 2.5, 0.62],
      ['B232', 'Blue larch', on('2026-02-20'), 30, 22, 2.5, 0.62],
      ['B233', 'Blue larch', on('2026-02-27'), 30, 6, 2.5, 0.62],
      ['B234', 'Blue larch', on('2026-03-05'), 30, null, 2.5, 0.62],
    ],
    Fruiting: fruiting,
    Strains: [
      ['Strain', 'Min days', 'Best', 'Max days', 'First pick', 'Pick days', 'BE'],
      ['Blue larch', 18, 24, 90, 7, 2, 1],
    ],
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf'],
      ['North', 3, 10],
      ['South', 2, 10],
    ],
    Orders: [
      ['Product', 'Mass kg', 'Due'],
      ['Blue larch', 11.4, '2026-04-20'],
    ],
    Picks: [
      ['Date', 'Block no.', 'Kg'],
      [on('2026-02-27'), 'B231', 4.1],
      [on('2026-02-28'), 'B231', 3.9],
      [on('2026-03-27'), 'B232', 2.2],
    ],
  });
const FIGURES: Answers = { figures: { today: '2026-03-30', days: 21 } };

describe('a sheet of what went where, beside lots that count what was used', () => {
  test('says what stands in each room, in a plan', async () => {
    const bytes = await bookOf(FRUITING);
    expect(fitted(opened(bytes), 'plan', FIGURES).questions.map(questionWords)).toEqual([
      'Other sheets list blocks of some of your lots: Fruiting (4). Which of them take blocks off their lot, as loaded or ' +
        'thrown away?',
    ]);
    const [fit, prepared] = await laidOut(bytes, 'plan', { ...FIGURES, taken: { lots: ['Fruiting'] } });
    expect(readingWords(fit.tables.get('lots')!, 'blocks')).toMatch(
      /of these stand 12 in North and 16 in South/,
    );
    const left = valuesOf(prepared, '"lots"')
      .slice(1)
      .map(([lot, , blocks]) => [lot, blocks]);
    expect(new Map(left as [string, number][])).toEqual(
      new Map([
        ['B232', 8],
        ['B233', 24],
        ['B234', 30],
      ]),
    );
    // 11 kg dry or so of 28 blocks are picked from what stands, from seven days after it was set out.
    const standing = valuesOf(prepared, '"picks"').slice(1);
    expect(standing.find(([date]) => date === day(3, 31))![2]).toBeGreaterThan(0);
    await doAllAgree(bytes, prepared);
  });

  test('is not asked about where the grower says that it takes none off: the count holds', async () => {
    const [fit, prepared] = await laidOut(await bookOf(FRUITING), 'plan', {
      ...FIGURES,
      taken: { lots: [] },
    });
    expect(fit.tables.get('lots')!.readings.map(({ name }) => name)).toContain('loaded');
    expect(valuesOf(prepared, '"lots"').flat()).not.toContain('B231');
  });

  test('is nothing to ask about where no room or no clearing is said', async () => {
    for (const columns of [
      [0, 1, 2, 3],
      [0, 1, 2, 4],
    ]) {
      const rows = FRUITING.map((row) => (row.length === 1 ? row : columns.map((at) => row[at] ?? null)));
      expect(fitted(opened(await bookOf(rows)), 'plan', FIGURES).questions).toEqual([]);
    }
  });

  test('says in an audit when each lot was first set out', async () => {
    const { tables } = fitted(opened(await bookOf(FRUITING)), 'audit', FIGURES);
    expect(tables.get('lots')!.values.get('loaded')).toEqual([day(2, 20), day(3, 20), day(3, 24), null]);
  });
});
