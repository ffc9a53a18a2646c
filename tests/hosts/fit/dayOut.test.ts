import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { bookWith, day, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Lots whose names say when they were made, beside a column of the days they went out. Every figure is counted by hand.

type Rows = readonly (readonly (Held | Date)[])[];

const STRAINS: Rows = [
  ['Strain', 'Days to ready', 'Max days'],
  ['BL', 20, 45],
  ['GP', 30, 60],
];
const IN_NAME = 'YYMMDD in the lot’s name';
const TODAY: Answers = { columns: { lots: { inoculated: IN_NAME } }, figures: { today: '2026-03-30' } };
/** Three lots that went out, and three that wait. */
const lots = (header: string, more: Rows = []): Rows => [
  ['Lot', 'Bags', header, 'Room'],
  ['BL-260202-1', 40, new Date('2026-02-24'), 'A'],
  ['GP-260203-1', 30, new Date('2026-03-06'), 'B'],
  ['BL-260209-1', 40, new Date('2026-03-02'), 'A'],
  ['GP-260302-1', 30, null, null],
  ['BL-260309-1', 40, null, null],
  ['BL-260316-1', 40, null, null],
  ...more,
];
const book = (rows: Rows): Promise<Uint8Array> => bookWith({ Lots: rows, Strains: STRAINS });

describe('the day in the lots’ names is asked before a column of days', () => {
  test.each([['Out on'], ['Set out'], ['To FR'], ['Into room'], ['Moved'], ['Day 2']])(
    'under %s',
    async (header) => {
      const { questions, tables } = fitted(opened(await book(lots(header))), 'ready', {});
      expect(tables.get('lots')!.readings.map(({ name }) => name)).not.toContain('inoculated');
      const inoculated = questions.find((one) => one.kind === 'column' && one.column === 'inoculated');
      expect(inoculated).toMatchObject({ choices: [IN_NAME, header] });
    },
  );

  test('but not where the column has the same days', async () => {
    const rows = lots('Day 2').map((row, i) => (i === 0 ? row : [row[0]!, row[1]!, ISO[i - 1]!, row[3]!]));
    const fit = fitted(opened(await book(rows)), 'ready', {});
    expect(fit.questions.map(({ kind }) => kind)).not.toContain('column');
    expect(fit.tables.get('lots')!.values.get('inoculated')).toEqual(MADE);
  });

  test('nor where the grower says the column', async () => {
    const columns = { lots: { inoculated: 'Out on', loaded: null } };
    const fit = fitted(opened(await book(lots('Out on'))), 'ready', { columns });
    expect(fit.tables.get('lots')!.values.get('inoculated')!.slice(0, 2)).toEqual([day(2, 24), day(3, 6)]);
  });
});

const ISO = ['2026-02-02', '2026-02-03', '2026-02-09', '2026-03-02', '2026-03-09', '2026-03-16'];
const MADE = [day(2, 2), day(2, 3), day(2, 9), day(3, 2), day(3, 9), day(3, 16)];

test('where no name says a day a column of going out is only asked about', async () => {
  const rows = lots('Set out').map((row, i) => (i === 0 ? row : [`BL ${i}`, ...row.slice(1)]));
  const { questions } = fitted(opened(await book(rows)), 'ready', {});
  const inoculated = questions.find((one) => one.kind === 'column' && one.column === 'inoculated');
  expect(inoculated).toMatchObject({ choices: ['Set out'] });
});

test('lots in rooms are not ready, the others are by the day in their names', async () => {
  const bytes = await book(lots('Out on'));
  const [fit, prepared] = await laidOut(bytes, 'ready', {
    ...TODAY,
    columns: { lots: { inoculated: IN_NAME, loaded: 'Out on' } },
  });
  expect(fit.tables.get('lots')!.values.get('inoculated')).toEqual(MADE);
  const listed = valuesOf(prepared, 'READYLOTS(').slice(1);
  expect(listed.filter(([, strain]) => strain === 'BL' || strain === 'GP').map(([lot]) => lot)).toEqual([
    'BL-260309-1',
    'BL-260316-1',
    'GP-260302-1',
  ]);
  await doAllAgree(bytes, prepared);
});

test('one name of twenty without a day is told, and the others are read', async () => {
  const more = Array.from({ length: 14 }, (_, i): readonly Held[] => [`BL-2603${i + 10}-2`, 24, null, null]);
  const bytes = await book(lots('Out on', [...more.slice(1), ['BL-trial-1', 6, null, null]]));
  const fit = fitted(opened(bytes), 'ready', {
    ...TODAY,
    columns: { lots: { inoculated: IN_NAME, loaded: null } },
  });
  expect(fit.questions).toEqual([]);
  expect(fit.unread.map(({ about, held, row }) => [about, held, row])).toEqual([
    ['lots, inoculated', 'BL-trial-1', 20],
  ]);
  const answers = { columns: { lots: { inoculated: IN_NAME, loaded: null } }, leaveOut: { lots: true } };
  const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, ...answers });
  await doAllAgree(bytes, prepared);
});
