import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from '@jest/globals';
import { strFromU8, unzipSync } from 'fflate';
import { workbooks } from '../../sample-workbooks/workbooks';
import { calculatedFile } from '../../sample-workbooks/calculated';
import { openWorkbook } from '../../src/hosts/engine/openWorkbook';
import type { CalculatingWorkbook, CellContent, WorkbookContent } from '../../src/hosts/engine/workbook';
import { addressOf, areaOf } from '../../src/hosts/xlsx/address';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { type Cell, isCellError } from '../../src/worksheet/cells/cell';

const committed = (file: string): Uint8Array =>
  new Uint8Array(readFileSync(join(__dirname, '../../sample-workbooks', `${file}.xlsx`)));

const partsOf = (bytes: Uint8Array): Record<string, string> =>
  Object.fromEntries(Object.entries(unzipSync(bytes)).map(([name, part]) => [name, strFromU8(part)]));

const cellsOf = (range: string): string[] => {
  const { top, left, bottom, right } = areaOf(range)!;
  const addresses: string[] = [];
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) addresses.push(addressOf({ row, column }));
  }
  return addresses;
};

describe.each(workbooks)('sample-workbooks/$file.xlsx', (workbook) => {
  let bytes: Uint8Array;
  let content: WorkbookContent;
  let calculating: CalculatingWorkbook;
  let formulas: { sheet: string; cell: CellContent }[];

  beforeAll(async () => {
    bytes = committed(workbook.file);
    content = readWorkbook(bytes);
    calculating = await openWorkbook(content);
    formulas = content.sheets.flatMap(({ name, cells }) =>
      cells.filter(({ formula }) => formula !== undefined).map((cell) => ({ sheet: name, cell })),
    );
  });

  test('is what its description builds, to the byte (npm run samples builds it)', async () => {
    const built = await calculatedFile(workbook);
    expect(partsOf(bytes)).toEqual(partsOf(built));
    expect(Buffer.from(bytes).equals(Buffer.from(built))).toBe(true);
  });

  test('holds no formula that the embedded engine cannot calculate', () => {
    const lacking = content.sheets.flatMap(({ name, cells }) =>
      cells
        .map(({ address, unsupported }) => unsupported ?? calculating.result(name, address).unsupported)
        .filter((reason) => reason !== undefined),
    );
    expect(lacking).toEqual([]);
  });

  test('holds exactly the results that calculating it gives', () => {
    expect(formulas.length).toBeGreaterThan(0);
    for (const { sheet, cell } of formulas) {
      const held = new Map(
        content.sheets.find(({ name }) => name === sheet)!.cells.map((one) => [one.address, one.value]),
      );
      const { value, block } = calculating.result(sheet, cell.address);
      const fills = cellsOf(cell.spill ?? cell.address).map((address) => codeOr(held.get(address)!));
      expect({ sheet, cell: cell.address, fills }).toEqual({
        sheet,
        cell: cell.address,
        fills: (block ?? [[value]]).flat().map(codeOr),
      });
    }
  });

  test('has the faults it shows on purpose, with their reasons, and no others', () => {
    const expected = workbook.sheets.flatMap((sheet) =>
      (sheet.faults ?? []).flatMap(({ cells, code, says }) =>
        cellsOf(cells).map((address) => ({ cell: `${sheet.name}!${address}`, code, says })),
      ),
    );
    const found = content.sheets.flatMap(({ name, cells }) =>
      cells.flatMap(({ address }) => {
        const { value } = calculating.result(name, address);
        if (!isCellError(value)) return [];
        const cell = `${name}!${address}`;
        const says = expected.find((fault) => fault.cell === cell)?.says;
        const asSaid = says !== undefined && value.reason.includes(says);
        return [{ cell, code: value.code, says: asSaid ? says : value.reason }];
      }),
    );
    const byCell = (a: { cell: string }, b: { cell: string }): number => a.cell.localeCompare(b.cell);
    expect(found.sort(byCell)).toEqual(expected.sort(byCell));
  });

  test('calls Pinset once per column, not once per row: no call stands in a calculated column of a table', () => {
    const perRow = workbook.sheets.flatMap(({ things }) =>
      things.flatMap((thing) =>
        thing.kind === 'table' ? thing.columns.filter(({ formula }) => formula?.includes('PINSET.')) : [],
      ),
    );
    expect(perRow).toEqual([]);
  });
});

/** A stored error has lost its reason: only its code can be compared. */
const codeOr = (cell: Cell): Cell => (isCellError(cell) ? cell.code : cell);
