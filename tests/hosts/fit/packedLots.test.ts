import { expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Blocks and what each weighs in one cell of a lot. Strains are invented.

const STRAINS = [
  ['Strain', 'Earliest', 'Best', 'Latest', 'First pick', 'Pick days', 'Efficiency'],
  ['Blue larch', 18, 24, 60, 6, 2, 0.5],
];
const bookOf = (cells: readonly Held[], header = 'Bags'): Promise<Uint8Array> =>
  bookWith({
    Lots: [
      ['Lot', 'Strain', header, 'Moisture', 'Inoculated'],
      ...cells.map((cell, i): Held[] => [`L${i + 1}`, 'Blue larch', cell, 0.6, `2026-03-0${i + 1}`]),
    ],
    Strains: STRAINS,
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf'],
      ['North', 8, 10],
    ],
    Orders: [
      ['Product', 'lb', 'Due'],
      ['Blue larch', 12, '2026-04-14'],
    ],
  });
const FIGURES = { figures: { today: '2026-03-30', days: 21 } };

test.each<[string, readonly Held[], readonly (readonly number[])[]]>([
  [
    '24 x 5 lb',
    ['24 x 5 lb', '20 x 5 lb'],
    [
      [24, 20],
      [5, 5],
    ],
  ],
  [
    '24X5lb',
    ['24X5lb', '20X4.5lb'],
    [
      [24, 20],
      [5, 4.5],
    ],
  ],
  [
    '24 bags of 5 lb',
    ['24 bags of 5 lb', '20 bags @ 5 lbs.'],
    [
      [24, 20],
      [5, 5],
    ],
  ],
  [
    '5 lb x 24',
    ['5 lb x 24', '4 lb × 20 bags'],
    [
      [24, 20],
      [5, 4],
    ],
  ],
  [
    'another unit in one lot',
    ['24 x 5 lb', '20 x 5 lb', '10 x 80 oz'],
    [
      [24, 20, 10],
      [5, 5, 5],
    ],
  ],
])(
  '%s is read as blocks and their mass, and the formulas say the same',
  async (_, cells, [blocks, masses]) => {
    const bytes = await bookOf(cells);
    const [fit, prepared] = await laidOut(bytes, 'plan', FIGURES);
    const { values } = fit.tables.get('lots')!;
    expect([values.get('blocks'), values.get('block mass')]).toEqual([blocks, masses]);
    expect(fit.unread).toEqual([]);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const plan = workbook.result(prepared.answer, prepared.calls[0]!.address).block;
    expect(plan).toEqual(valuesOf(prepared, 'LOADPLAN('));
    const [ready] = await laidOut(bytes, 'ready', FIGURES);
    expect(ready.tables.get('lots')!.values.get('blocks')).toEqual(blocks);
  },
);

test('a cell without its second figure is told, and a lot of another size keeps its own', async () => {
  const fit = fitted(opened(await bookOf(['24 x 5 lb', '20 x 5 lb', 12])), 'plan', FIGURES);
  expect(fit.tables.get('lots')!.values.get('blocks')).toEqual([24, 20, 12]);
  expect(fit.unread.map(({ row, about, why }) => [row, about, why])).toEqual([
    [3, 'lots, block mass', 'has one of its two figures'],
  ]);
});

test('a unit in the header alone serves for the mass', async () => {
  const fit = fitted(opened(await bookOf(['24 x 5', '20 x 4'], 'Bags (lb)')), 'plan', FIGURES);
  const { values } = fit.tables.get('lots')!;
  expect([values.get('blocks'), values.get('block mass')]).toEqual([
    [24, 20],
    [5, 4],
  ]);
});
