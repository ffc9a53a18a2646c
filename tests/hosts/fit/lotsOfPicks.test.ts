import { expect, test } from '@jest/globals';
import { partText } from '../../../src/hosts/fit/candidate';
import { placeText } from '../../../src/hosts/fit/book';
import { bookWith, fitted, opened, type Held } from './laidOut';

// Which list an audit takes for the lots: the one that has those of the picks.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Code', 'What', 'Days to ready', 'Block kg', 'Moisture', 'BE %', '1st flush day'],
  ['BL', 'Blue larch', 20, 2.3, '60%', 70, 8],
  ['GP', 'Grey pine', 17, 3, '64%', 88, 8],
];
const LOTS: Rows = [
  ['Lot', 'Blocks', 'Out on', 'Room'],
  ['BL-260202-1', 40, '2026-02-24', 'A'],
  ['GP-260203-1', 30, '2026-02-23', 'B'],
  ['BL-260209-1', 40, '2026-03-03', 'A'],
];
const log = (...lots: readonly string[]): Rows => [
  ['Date', 'Lot', 'Flush', 'Weight'],
  ...lots.map((lot, i) => [`2026-03-${String(i + 10)}`, lot, 1, 9.5 - i]),
];
const OWN = log('BL-260202-1', 'GP 260203 1', 'BL-260209-1', 'BL-260209-1', 'GP-260203-1', 'GP-260302-1');

test.each<[string, Readonly<Record<string, Rows>>, string, string[]]>([
  ['it is behind the strains', { Strains: STRAINS, Lots: LOTS, Log: OWN }, 'Lots!A1:D4', ['Log!B7']],
  ['it is before the strains', { Lots: LOTS, Strains: STRAINS, Log: OWN }, 'Lots!A1:D4', ['Log!B7']],
  [
    'they are the strains themselves',
    { Strains: STRAINS, Lots: LOTS, Log: log('BL', 'GP', 'BL') },
    'Strains!A1:G3',
    [],
  ],
])(
  'the lots of an audit are in the list that has those of the picks: %s',
  async (_, sheets, lots, unread) => {
    const fit = fitted(opened(await bookWith(sheets)), 'audit', {});
    expect(partText(fit.tables.get('lots')!.candidate)).toBe(lots);
    const ofPicks = fit.unread.filter(({ about }) => about === 'harvests, lot');
    expect(ofPicks.map(({ sheet, row, column }) => placeText(sheet, row, column))).toEqual(unread);
  },
);

test('the list that the grower names is taken whatever the picks are of', async () => {
  const bytes = await bookWith({ Strains: STRAINS, Lots: LOTS, Log: OWN });
  const fit = fitted(opened(bytes), 'audit', { tables: { lots: 'Strains!A1:G3' } });
  expect(partText(fit.tables.get('lots')!.candidate)).toBe('Strains!A1:G3');
});
