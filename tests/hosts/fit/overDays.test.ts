import { describe, expect, test } from '@jest/globals';
import { evidenceOf } from '../../../src/hosts/fit/evidence';
import type { Answers } from '../../../src/hosts/fit/answers';
import { readingWords } from '../../../src/hosts/fit/told';
import { bookWith, day, doAllAgree, laidOut, valuesOf, type Held } from './laidOut';

// Standing orders of so much a week that go out on several of its days. Farm, customers and strains are invented.

const FIGURES: Answers = { figures: { today: '2026-04-06', days: 14 } };
const bookOf = (header: string, lines: readonly (readonly Held[])[]): Promise<Uint8Array> =>
  bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated'],
      ['L1', 'Blue larch', 40, 2, 0.6, '2026-03-02'],
    ],
    Strains: [
      ['Strain', 'Earliest', 'Best', 'Latest', 'First pick', 'Pick days', 'Efficiency'],
      ['Blue larch', 18, 24, 60, 6, 2, 0.5],
    ],
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf'],
      ['North', 4, 10],
    ],
    Orders: [['Customer', 'Product', header, 'Day'], ...lines],
  });
const LINES = [
  ['Inn', 'Blue larch', 6, 'Tue & Fri'],
  ['Deli', 'Blue larch', 4, 'Thu'],
] as const;

describe('what goes out in a week, on several of its days', () => {
  test.each([
    'kg per week',
    'Weekly kg',
    'kg/wk',
    'kg a week',
    'kg pro Woche',
    'kg par semaine',
    'kg / week',
  ])('is in equal parts on each under %s', async (header) => {
    const bytes = await bookOf(header, LINES);
    const [fit, prepared] = await laidOut(bytes, 'plan', FIGURES);
    const orders = valuesOf(prepared, '"orders"')
      .slice(1)
      .filter(([product]) => product === 'Blue larch')
      .map(([, , due, mass]) => [due, mass]);
    // 7 April 2026 is a Tuesday.
    expect(orders).toEqual([
      [day(4, 7), 3],
      [day(4, 9), 4],
      [day(4, 10), 3],
      [day(4, 14), 3],
      [day(4, 16), 4],
      [day(4, 17), 3],
    ]);
    await doAllAgree(bytes, prepared);
    const given = fit.tables.get('orders')!;
    const mass = given.readings.find(({ name }) => name === 'mass')!;
    expect(
      given.candidate.dataRows.slice(0, 2).map((row) => evidenceOf(fit.book, given.candidate, row, mass)),
    ).toEqual(['6 ÷ 2', '4']);
    expect(readingWords(given, 'mass')).toMatch(/what is for a week in equal parts on its days under Day$/);
  });

  test('is whole on each where nothing says that it is for a week', async () => {
    const [fit, prepared] = await laidOut(await bookOf('kg', LINES), 'plan', FIGURES);
    const masses = valuesOf(prepared, '"orders"')
      .slice(1)
      .map(([, , , mass]) => mass);
    expect(masses.filter((mass) => typeof mass === 'number')).toEqual([6, 4, 6, 6, 4, 6]);
    expect(readingWords(fit.tables.get('orders')!, 'due')).toBe(
      'every week of the plan, 2 weeks, the whole on each of several days',
    );
  });
});
