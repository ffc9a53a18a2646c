import ExcelJS from 'exceljs';
import { beforeAll, expect } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import type { GrowersBook } from '../../../src/hosts/fit/book';
import { bookOf } from '../../../src/hosts/fit/content';
import { fitJob } from '../../../src/hosts/fit/fit';
import type { Fit } from '../../../src/hosts/fit/fitted';
import { functionReader } from '../../../src/hosts/fit/functionReader';
import type { JobName } from '../../../src/hosts/fit/jobs';
import { prepare, type Prepared } from '../../../src/hosts/fit/prepare';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { Package } from '../../../src/hosts/xlsx/package';
import { partsOf } from '../../../src/hosts/xlsx/parts';
import { readTables, readWorkbook } from '../../../src/hosts/xlsx/read';
import { newCaller } from '../../../src/worksheet/call';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { plainValues, type Cell } from '../../../src/worksheet/cells/cell';

/** What a grower's book becomes. Every function is ready before the first test. */
const caller = newCaller();
beforeAll(() => caller.ready());

export const tablesIn = (bytes: Uint8Array) => {
  const file = Package.open(bytes);
  return readTables(file, partsOf(file));
};
export const opened = (bytes: Uint8Array): GrowersBook => bookOf(readWorkbook(bytes), tablesIn(bytes));
/** How much can be picked in a day, as most tests have it. */
const NO_LIMIT: Answers['fill'] = {
  calendar: [{ day: 'every day', 'pick limit': 'none', 'load limit': 'none' }],
};

/** A fit with nothing answered but what is given. */
export const fittedBare = (book: GrowersBook, job: JobName, answers: Answers): Fit =>
  fitJob(book, job, answers, functionReader(caller, book.dateSystem));
export const fitted = (book: GrowersBook, job: JobName, answers: Answers): Fit =>
  fittedBare(book, job, job === 'plan' ? { ...answers, fill: { ...NO_LIMIT, ...answers.fill } } : answers);

export async function laidOut(bytes: Uint8Array, job: JobName, answers: Answers): Promise<[Fit, Prepared]> {
  const fit = fitted(opened(bytes), job, answers);
  expect(fit.questions.map(questionWords)).toEqual([]);
  const around = {
    sheets: fit.book.sheets.map(({ name }) => name),
    tables: tablesIn(bytes).map(({ name }) => name),
    today: 46113,
  };
  const prepared = await prepare(fit, around, (name, grids, dateSystem) =>
    Promise.resolve(caller.call(name, grids, { dateSystem })),
  );
  return [fit, prepared!];
}

export const valuesOf = ({ calls }: Prepared, name: string): Cell[][] =>
  plainValues(calls.find((call) => call.formula.includes(name))!.block);

/** The serial of a day of 2026: 1 January 2026 is 46023, and 44561 in a workbook that counts from 1904. */
export const day = (month: number, date: number, system: 1900 | 1904 = 1900): number =>
  (system === 1900 ? 46023 : 44561) + (Date.UTC(2026, month - 1, date) - Date.UTC(2026, 0, 1)) / 86_400_000;

export type Held = string | number | boolean | null;

/** A workbook of these sheets. */
export async function bookWith(
  sheets: Readonly<Record<string, readonly (readonly (Held | Date)[])[]>>,
): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  for (const [name, rows] of Object.entries(sheets)) {
    const sheet = workbook.addWorksheet(name);
    rows.forEach((row, r) =>
      row.forEach((value, c) => {
        if (value !== null) sheet.getCell(r + 1, c + 1).value = value;
      }),
    );
  }
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

/** The workbook itself gives what was shown; a formula has the factor of two units in twelve figures. */
export async function doAllAgree(bytes: Uint8Array, prepared: Prepared): Promise<void> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const rounded = (cells: readonly (readonly Cell[])[]): Cell[][] =>
    cells.map((row) => row.map((cell) => (typeof cell === 'number' ? Number(cell.toPrecision(9)) : cell)));
  for (const { address, block } of prepared.calls)
    expect(rounded(workbook.result(prepared.answer, address).block!)).toEqual(rounded(plainValues(block)));
}
