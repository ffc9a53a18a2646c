import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { bookWith, doAllAgree, fitted, laidOut, opened, type Held } from './laidOut';

// What a block weighs and holds of water is said once for each strain; lots say their strain in many ways. Every figure is
// looked up by hand.

type Rows = readonly (readonly Held[])[];
type Sheets = Readonly<Record<string, Rows>>;

const strains = (mass = 'Block kg', moisture = 'Moisture'): Rows => [
  [
    ...['Strain', 'Min days', 'Best', 'Max days', 'First pick', 'Pick days', 'Flushes', 'BE'],
    ...[mass, moisture],
  ],
  ['BL', 18, 24, 90, 7, 4, 1, 0.7, 2.5, '62%'],
  ['GF', 18, 24, 90, 7, 4, 1, 0.7, 3.2, 60],
];
const BLOCKS = { BL: [2.5, 0.62], GF: [3.2, 0.6] } as const;
const REST: Sheets = {
  Rooms: [
    ['Room', 'Shelves', 'Blocks per shelf'],
    ['A', 10, 20],
  ],
  Orders: [
    ['Strain', 'kg', 'Due'],
    ['BL', 4, '2026-04-10'],
    ['GF', 4, '2026-04-11'],
  ],
};
const TODAY: Answers = { figures: { today: '2026-03-20' } };
const LOT: readonly Held[] = ['Lot', 'Bags', 'Inoculated'];

const WAYS: readonly (readonly [
  how: string,
  sheets: Sheets,
  answers: Answers,
  read: readonly (keyof typeof BLOCKS)[],
])[] = [
  [
    'the beginning of the lot’s name',
    {
      Lots: [LOT, ['BL-1', 40, '2026-03-01'], ['GF-1', 30, '2026-03-02'], ['BL-2', 20, '2026-03-03']],
    },
    {},
    ['BL', 'GF', 'BL'],
  ],
  [
    'headings between the rows',
    {
      Lots: [LOT, ['BL'], ['1', 40, '2026-03-01'], ['2', 20, '2026-03-03'], ['GF'], ['3', 30, '2026-03-02']],
    },
    {},
    ['BL', 'BL', 'GF'],
  ],
  [
    'the names of the sheets',
    {
      BL: [LOT, ['1', 40, '2026-03-01'], ['2', 20, '2026-03-03']],
      GF: [LOT, ['3', 30, '2026-03-02'], ['4', 30, '2026-03-04']],
    },
    {},
    ['BL', 'BL', 'GF', 'GF'],
  ],
  [
    'the cell above, where blank',
    {
      Lots: [
        ['Lot', 'Strain', 'Bags', 'Inoculated'],
        ['1', 'BL', 40, '2026-03-01'],
        ['2', null, 20, '2026-03-03'],
        ['3', 'GF', 30, '2026-03-02'],
      ],
    },
    { blanks: { 'lots, strain': 'as above' } },
    ['BL', 'BL', 'GF'],
  ],
  [
    'an answer for all lots',
    { Lots: [LOT, ['1', 40, '2026-03-01'], ['2', 20, '2026-03-03']] },
    { figures: { ...TODAY.figures, 'lots, strain': 'GF' } },
    ['GF', 'GF'],
  ],
];

describe('the mass and the moisture of blocks are looked up by the strain that is read from', () => {
  test.each(WAYS)('%s', async (_, sheets, answers, read) => {
    const bytes = await bookWith({ ...sheets, Strains: strains(), ...REST });
    const [fit, prepared] = await laidOut(bytes, 'plan', { ...TODAY, ...answers });
    const { values } = fit.tables.get('lots')!;
    expect(values.get('block mass')).toEqual(read.map((strain) => BLOCKS[strain][0]));
    expect(values.get('moisture')).toEqual(read.map((strain) => BLOCKS[strain][1]));
    await doAllAgree(bytes, prepared);
  });
});

describe('a column of the strains that no header is sure of', () => {
  const lots = WAYS[0]![1];

  test('is a choice where the lots have none, and an answer', async () => {
    const bytes = await bookWith({ ...lots, Strains: strains('Size', 'Hydro'), ...REST });
    const { questions } = fitted(opened(bytes), 'plan', TODAY);
    const choices = questions.map((one) => (one.kind === 'column' ? [one.column, one.choices] : one));
    expect(choices).toEqual([
      ['block mass', ['Size of Strains', 'Hydro of Strains', 'Bags']],
      ['moisture', ['Size of Strains', 'Hydro of Strains', 'Bags']],
    ]);
    const own = { 'block mass': 'Size of Strains', moisture: 'Hydro' };
    const [fit, prepared] = await laidOut(bytes, 'plan', { ...TODAY, columns: { lots: own } });
    expect(fit.tables.get('lots')!.values.get('block mass')).toEqual([2.5, 3.2, 2.5]);
    expect(fit.tables.get('lots')!.values.get('moisture')).toEqual([0.62, 0.6, 0.62]);
    const headers = fit.tables.get('lots')!.readings.map(({ match }) => match.header);
    expect(headers).toEqual(expect.arrayContaining(['Size of Strains', 'Hydro']));
    await doAllAgree(bytes, prepared);
    const kept = opened(withSheets(bytes, prepared.sheets));
    const again = fitted(kept, 'plan', { ...keptAnswers(kept, 'plan'), figures: TODAY.figures! });
    expect(again.questions).toEqual([]);
    expect(again.tables.get('lots')!.values.get('block mass')).toEqual([2.5, 3.2, 2.5]);
  });

  test('is none where the grower gives one figure for all lots', async () => {
    const bytes = await bookWith({ ...lots, Strains: strains('Size'), ...REST });
    const fit = fitted(opened(bytes), 'plan', {
      figures: { ...TODAY.figures, 'lots, block mass': '2 kg' },
    });
    expect(fit.questions.map(questionWords)).toEqual([]);
    expect(fit.tables.get('lots')!.values.get('block mass')).toEqual([2, 2, 2]);
  });
});

test('lots of a strain that no row of the list has are told, and may be left out', async () => {
  const blocks: Rows = [
    ['Strain', 'Block kg', 'Moisture'],
    ['BL', 2.5, 0.62],
    ['XY', 3, 0.6],
  ];
  const plain = strains('Remark', 'Note').map((row) => row.slice(0, 8));
  const bytes = await bookWith({ ...WAYS[0]![1], Strains: plain, Blocks: blocks, ...REST });
  const fit = fitted(opened(bytes), 'plan', TODAY);
  expect(fit.unread.map(({ about, held, why }) => [about, held, why])).toEqual([
    ['lots, block mass', 'GF', 'is not in Blocks!A1:C3'],
    ['lots, moisture', 'GF', 'is not in Blocks!A1:C3'],
  ]);
  const [, prepared] = await laidOut(bytes, 'plan', { ...TODAY, leaveOut: { lots: true } });
  await doAllAgree(bytes, prepared);
});
