import ExcelJS from 'exceljs';
import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import type { JobName, TableName } from '../../../src/hosts/fit/jobs';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { sourceWords } from '../../../src/hosts/fit/told';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// How tables lie on a sheet: on their side, side by side, as blocks. What is expected is read off the cells by eye.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Species', 'Open from', 'Best at', 'Toss after', '1st pick', 'Picking days', 'Between', 'BE'],
  ['Blue larch', 18, 24, 45, 7, 4, 12, 0.7],
  ['Fen grey', 22, 28, 42, 10, 4, 14, 0.55],
];
const turned = (rows: Rows): Rows => rows[0]!.map((_, column) => rows.map((row) => row[column] ?? null));

/** Two lots, of which B1 was loaded on 27 March. */
const LOTS: Rows = [
  ['Batch', 'Species', 'Bags', 'Bag wt', 'MC%', 'Made on', 'Into room'],
  ['B1', 'Blue larch', 40, '2.5 kg', 0.6, '2026-03-02', '2026-03-27'],
  ['B2', 'Fen grey', 30, '2.5 kg', 0.6, '2026-03-03', null],
];
const PICKS: Rows = [
  ['Picked on', 'Batch', 'kg'],
  ['2026-04-03', 'B1', 6.5],
  ['2026-04-04', 'B1', 11.7],
];

/** What a job reads of a table, a row a record. */
const readIn = (bytes: Uint8Array, job: JobName, table: TableName, answers: Answers = {}) => {
  const fit = fitted(opened(bytes), job, answers);
  const { readings, values, candidate } = fit.tables.get(table)!;
  return {
    fit,
    asked: fit.questions.map(questionWords),
    unread: fit.unread.map(placeOfUnread),
    from: sourceWords(fit.tables.get(table)!),
    rows: candidate.dataRows.map((_, i) =>
      Object.fromEntries(readings.map(({ name }) => [name, values.get(name)![i]!])),
    ),
  };
};

/** The formulas on the sheets give what was shown before they were written. */
async function doAgree(bytes: Uint8Array, prepared: Prepared, name: string): Promise<Prepared> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const { address } = prepared.calls.find(({ formula }) => formula.includes(name))!;
  expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, name));
  return prepared;
}

const TODAY = { figures: { today: '2026-03-28', days: 7 } };

describe('a table on its side', () => {
  test('is read as it lies, and its formulas say so', async () => {
    const bytes = await bookWith({ Cards: [['All batches'], [], ...turned(LOTS)], Kinds: turned(STRAINS) });
    const { rows, asked, unread, from } = readIn(bytes, 'ready', 'lots');
    expect([asked, unread, from]).toEqual([[], [], '2 records in Cards!A3:C9']);
    expect(rows.map(({ lot, blocks, inoculated }) => [lot, blocks, inoculated])).toEqual([
      ['B1', 40, day(3, 2)],
      ['B2', 30, day(3, 3)],
    ]);
    const [, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(prepared.columns.find(({ header }) => header === 'lot')!.formula).toContain(
      'TRANSPOSE(Cards!$B$3',
    );
    await doAgree(bytes, prepared, 'READYLOTS');
  });

  test('has its findings at the cells that they are about', async () => {
    const picks = [...PICKS, ['2026-04-05', 'B7', 8]];
    const bytes = await bookWith({ Cards: turned(LOTS), Kinds: STRAINS, Picked: turned(picks) });
    const [, prepared] = await laidOut(bytes, 'audit', TODAY);
    await doAgree(bytes, prepared, 'YIELDAUDIT');
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    // B7 is the third pick across, in the row of the batches.
    expect(workbook.result(prepared.answer, 'A5').block![0]).toEqual(['Picked!D2']);
  });

  test('is none where labels of records only happen to be like headers', async () => {
    const log = [
      ['Batch', 'Day', 'kg'],
      ...['B1', 'Date', 'B1', 'weight'].map((lot, i) => [lot, day(4, i + 1), 5]),
    ];
    const bytes = await bookWith({ Bags: LOTS, Kinds: STRAINS, Picked: log });
    expect(readIn(bytes, 'audit', 'harvests').from).toBe('4 records in Picked!A1:C5');
  });
});

describe('the same table side by side', () => {
  const beside = (left: Rows, right: Rows): Rows => left.map((row, i) => [...row, null, ...right[i]!]);
  const [head, b1, b2] = LOTS as [readonly Held[], readonly Held[], readonly Held[]];

  test('is one table, the cells of each part its own', async () => {
    const right = [head, ['B3', ...b2.slice(1)], ['B4', ...b1.slice(1, 5), 'soon', null]];
    const bytes = await bookWith({ Bags: beside(LOTS, right), Kinds: STRAINS });
    const { rows, asked, unread } = readIn(bytes, 'ready', 'lots');
    expect([asked, rows.map(({ lot }) => lot), unread]).toEqual([[], ['B1', 'B2', 'B3', 'B4'], ['Bags!N3']]);
    const whole = await bookWith({
      Bags: beside(LOTS, [head, ['B3', ...b2.slice(1)], ['B4', ...b2.slice(1)]]),
      Kinds: STRAINS,
    });
    const [, prepared] = await laidOut(whole, 'ready', TODAY);
    await doAgree(whole, prepared, 'READYLOTS');
  });

  test('is asked about where both have a lot of the same name', async () => {
    const bytes = await bookWith({ Bags: beside(LOTS, [head, b1, ['B4', ...b2.slice(1)]]), Kinds: STRAINS });
    expect(fitted(opened(bytes), 'ready', {}).questions.map(questionWords)).toEqual([
      'Which of these are your lots?',
    ]);
  });
});

describe('units that only the format of a cell names', () => {
  const book = async (formats: readonly string[]): Promise<Uint8Array> => {
    const workbook = new ExcelJS.Workbook();
    const sheets = {
      Bags: LOTS,
      Kinds: STRAINS,
      Picked: [['Picked on', 'Batch', 'Weight'], ...PICKS.slice(1)],
    };
    for (const [name, rows] of Object.entries(sheets)) workbook.addWorksheet(name).addRows(rows as Held[][]);
    formats.forEach((format, i) => (workbook.getWorksheet('Picked')!.getCell(i + 2, 3).numFmt = format));
    return new Uint8Array(await workbook.xlsx.writeBuffer());
  };

  test.each([
    ['0.0" kg"', 'kg'],
    ['#,##0 "lb"', 'lb'],
    ['0.0\\ \\g', 'g'],
    ['0.00', 'number'],
    ['[Red]0.0', 'number'],
  ])('%s is in %s', async (format, unit) => {
    const { fit, unread } = readIn(await book([format, format]), 'audit', 'harvests');
    expect(fit.tables.get('harvests')!.readings.find(({ name }) => name === 'mass')!.unit).toBe(unit);
    expect(unread).toEqual([]);
  });

  test('a cell that is shown in another unit than the others is told', async () => {
    const { fit } = readIn(await book(['0.0" kg"', '0.0" kg"', '0" g"'].slice(1)), 'audit', 'harvests');
    expect(fit.unread.map((one) => [placeOfUnread(one), one.why])).toEqual([
      ['Picked!C3', 'is shown in g, the column in kg: type it in kg'],
    ]);
  });
});

describe('what is left of lots', () => {
  const lots = (header: string): Rows => [
    ['Batch', 'Species', 'Bags', header, 'Made on'],
    ['B1', 'Blue larch', 40, 0, '2026-03-02'],
    ['B2', 'Blue larch', 30, 12, '2026-03-03'],
    ['B3', 'Fen grey', 30, 30, '2026-03-05'],
  ];

  test('a second count that is never above the first is asked about, and 0 of it is a lot used up', async () => {
    const bytes = await bookWith({ Bags: lots('Hanging'), Kinds: STRAINS });
    const [question] = fitted(opened(bytes), 'ready', {}).questions;
    expect(question).toMatchObject({ kind: 'column', column: 'blocks', choices: ['Hanging', 'Bags'] });
    const said = { columns: { lots: { blocks: 'Hanging' } } };
    const { rows, asked, unread } = readIn(bytes, 'ready', 'lots', said);
    expect([asked, unread, rows.map(({ lot, blocks }) => [lot, blocks])]).toEqual([
      [],
      [],
      [
        ['B2', 12],
        ['B3', 30],
      ],
    ]);
  });
});
