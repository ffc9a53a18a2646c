import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { readingWords } from '../../../src/hosts/fit/told';
import { bookWith, day, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// How long blocks stay good once they are ready, behind the wait of each strain. Every day is counted by hand.

type Rows = readonly (readonly Held[])[];

const LOTS: Rows = [
  ['Lot', 'Strain', 'Bags', 'Inoculated'],
  ['A1', 'Blue larch', 40, '2026-02-20'],
  ['A2', 'Blue larch', 40, '2026-03-06'],
  ['B1', 'Grey fen', 30, '2026-01-05'],
  ['B2', 'Grey fen', 30, '2026-01-12'],
];
const TODAY: Answers = { figures: { today: '2026-03-30', days: 7 } };
const bookOf = (strains: Rows): Promise<Uint8Array> => bookWith({ Lots: LOTS, Strains: strains });
const strainsWith = (header: string, ...keeps: readonly Held[]): Rows => [
  ['Strain', 'Days to ready', header],
  ['Blue larch', 20, keeps[0] ?? null],
  ['Grey fen', 70, keeps[1] ?? null],
];

describe('days that a block stays good', () => {
  test.each([
    ['Keeps (days)'],
    ['OK for (days)'],
    ['Good for'],
    ['Stays ok'],
    ['Use within (days)'],
    ['Ready window'],
    ['Can be held'],
  ])('under %s are counted from when it is ready: after them it is too old', async (header) => {
    const bytes = await bookOf(strainsWith(header, 10, 14));
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    const strains = fit.tables.get('strains')!;
    expect(strains.values.get('latest')).toEqual([30, 84]);
    expect(readingWords(strains, 'latest')).toBe(`the sum of Days to ready + ${header}`);
    // A1 is ready from 12 to 22 March, A2 from 26 March to 5 April; B1 from 16 to 30 March, B2 from 23 March to 6 April.
    const [headers, ...rows] = valuesOf(prepared, 'READYLOTS(');
    const at = ['lot', 'latest', 'state'].map((name) => headers!.indexOf(name));
    const listed = rows.map((row) => at.map((column) => row[column]));
    expect(listed.filter(([, latest]) => typeof latest === 'number')).toEqual([
      ['B1', day(3, 30), 'ready, goes over age'],
      ['A2', day(4, 5), 'ready, goes over age'],
      ['B2', day(4, 6), 'ready'],
    ]);
    expect(rows.flat()).toContainEqual(expect.stringContaining('past the latest day: A1'));
    await doAllAgree(bytes, prepared);
  });

  test('are added to all parts of the wait', async () => {
    const bytes = await bookOf([
      ['Strain', 'Spawn run (days)', 'Browning (days)', 'Keeps (days)'],
      ['Blue larch', 20, null, 10],
      ['Grey fen', 50, 20, 14],
    ]);
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(fit.tables.get('strains')!.values.get('latest')).toEqual([30, 84]);
    await doAllAgree(bytes, prepared);
  });

  test('of one strain alone leave the others without a last day', async () => {
    const bytes = await bookOf(strainsWith('Keeps (days)', 10, null));
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(fit.tables.get('strains')!.values.get('latest')).toEqual([30, null]);
    await doAllAgree(bytes, prepared);
  });

  test.each<[string, Rows]>([
    ['what is picked', strainsWith('Keeps in fridge (days)', 10, 14)],
    ['more than the wait, each of them', strainsWith('Good for (days)', 30, 84)],
    [
      'another place than behind the wait',
      [
        ['Strain', 'Days to ready', 'BE', 'Keeps (days)'],
        ['Blue larch', 20, 0.8, 10],
        ['Grey fen', 70, 0.7, 14],
      ],
    ],
  ])('are not read of %s, nor asked', async (_, strains) => {
    const fit = fitted(opened(await bookOf(strains)), 'ready', TODAY);
    expect(fit.questions).toEqual([]);
    expect(fit.tables.get('strains')!.values.get('latest')).toBeUndefined();
  });
});
