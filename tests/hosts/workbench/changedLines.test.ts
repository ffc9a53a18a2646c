import { expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { isCellError } from '../../../src/worksheet/cells/cell';
import { EngineWorkbook, type StandingFormula } from '../../../src/hosts/engine/engineWorkbook';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { addressAfter, withLines, type LineChange } from '../../../src/hosts/xlsx/lines';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// A row or column that comes or goes changes what formulas give whose cells it moves: what the file stores for them is
// old then, and says nothing against the calculation. Only what it could not prove before stays as it is.

/** Picks of four lots, with results as they were stored before the change; F7 holds one that no calculation gives. */
async function book(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Picks');
  sheet.addRow(['lot', 'mass']);
  for (const row of [
    ['L1', 4],
    ['L2', 2],
    ['L3', 6],
    ['L4', 3],
  ])
    sheet.addRow(row);
  const stored: Readonly<Record<string, [formula: string, result: number]>> = {
    D2: ['ROW()-1', 1],
    D5: ['ROW()-1', 4],
    F2: ['INDEX(A2:B5,3,2)', 6],
    F3: ['MATCH("L3",A1:A5,0)', 4],
    F4: ['B3/B2', 0.5],
    F5: ['VLOOKUP("L2",A2:B5,2,FALSE)', 2],
    F6: ['COLUMN()', 6],
    F7: ['SUM(B2:B5)', 16],
    F8: ['F7*2', 32],
  };
  for (const [address, [formula, result]] of Object.entries(stored)) {
    sheet.getCell(address).value = { formula, result };
  }
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

async function opened(bytes: Uint8Array, standing?: readonly StandingFormula[]) {
  const content = readWorkbook(bytes);
  const workbook = new EngineWorkbook(content, { standing });
  await workbook.calculateWhole();
  return { content, workbook };
}

async function afterChange(change: Omit<LineChange, 'sheet' | 'count'>) {
  const lines: LineChange = { sheet: 'Picks', count: 1, ...change };
  const bytes = await book();
  const before = await opened(bytes);
  const changed = withLines(bytes, lines);
  const standing = before.workbook.keptNow().flatMap((one) => {
    const address = addressAfter(lines, one.sheet, one.address);
    return address === undefined ? [] : [{ ...one, address }];
  });
  const { content, workbook } = await opened(changed, standing);
  const saved = readWorkbook(patchWorkbook(changed, changesSince(content, workbook))).sheets[0]!.cells;
  const inFile = (address: string) => saved.find((cell) => cell.address === address)?.value;
  return {
    shown: (address: string) => workbook.result('Picks', address),
    inFile: (address: string) => {
      const value = inFile(address)!;
      return isCellError(value) ? value.code : value;
    },
  };
}

test('a row above formulas that count rows or look one up leaves none of their old results', async () => {
  const { shown, inFile } = await afterChange({ axis: 'row', kind: 'insert', at: 2 });
  // INDEX counts three rows of a block that has grown: the lot that was its second.
  const expected = { D2: 1, D6: 5, F2: 2, F4: 5, F5: 0.5, F6: 2, F7: 6 };
  for (const [address, value] of Object.entries(expected)) {
    expect([address, shown(address).value, inFile(address)]).toEqual([address, value, value]);
    expect(shown(address).unsupported).toBeUndefined();
  }
});

test('a row taken out turns what was looked up in it into an error, in the page and in the file', async () => {
  const { shown, inFile } = await afterChange({ axis: 'row', kind: 'delete', at: 2 });
  expect(shown('D4')).toMatchObject({ value: 3 });
  expect(shown('F3')).toMatchObject({ value: { code: '#REF!' } });
  expect(shown('F4')).toMatchObject({ value: { code: '#N/A' } });
  expect([inFile('D4'), inFile('F3'), inFile('F4')]).toEqual([3, '#REF!', '#N/A']);
  expect(shown('F4').unsupported).toBeUndefined();
});

test('a column to the left moves what counts columns', async () => {
  const { shown, inFile } = await afterChange({ axis: 'column', kind: 'insert', at: 3 });
  expect([shown('G6').value, inFile('G6')]).toEqual([7, 7]);
});

test('a result that the file did not prove before is kept where it went, and named', async () => {
  const { shown, inFile } = await afterChange({ axis: 'row', kind: 'insert', at: 2 });
  expect(shown('F8')).toMatchObject({ value: 16, unsupported: 'this calculation gives 15 instead' });
  expect(shown('F9')).toMatchObject({ value: 32, restsOn: { sheet: 'Picks', address: 'F8' } });
  expect(inFile('F8')).toBe(16);
});
