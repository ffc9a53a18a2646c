import type { Cell } from '../../worksheet/cells/cell';
import { addressOf, placeOf } from '../xlsx/address';
import type { WorkbookContent } from '../xlsx/content';
import type { TableShape } from '../xlsx/formula';
import type { BookSheet, GrowersBook } from './book';

/** A workbook file as the grower sees it: what its cells hold, results as `resultAt` or the file has them. */
export function bookOf(
  { dateSystem, sheets }: WorkbookContent,
  tables: readonly TableShape[],
  resultAt?: (sheet: string, address: string) => Cell,
): GrowersBook {
  return {
    dateSystem,
    sheets: sheets.map(({ name, cells, merged = [] }): BookSheet => {
      const rows: Cell[][] = [];
      const formats = new Map<string, string>();
      const formulas = new Set<string>();
      const struck = new Set<string>();
      for (const cell of cells) {
        const { row, column } = placeOf(cell.address)!;
        const isResult = cell.formula !== undefined || cell.spilledFrom !== undefined;
        while (rows.length <= row) rows.push([]);
        const inRow = rows[row]!;
        while (inRow.length <= column) inRow.push(null);
        inRow[column] = isResult && resultAt ? resultAt(name, cell.address) : cell.value;
        if (cell.numberFormat !== undefined) formats.set(cell.address, cell.numberFormat);
        if (cell.isStruck) struck.add(cell.address);
        if (isResult || cell.unsupported !== undefined) formulas.add(cell.address);
      }
      return {
        name,
        rows,
        formatAt: (row, column) => formats.get(addressOf({ row, column })),
        isFormula: (row, column) => formulas.has(addressOf({ row, column })),
        isStruck: (row, column) => struck.has(addressOf({ row, column })),
        isMergedUp: (row, column) =>
          merged.some(
            ({ top, bottom, left, right }) => row > top && row <= bottom && column >= left && column <= right,
          ),
      };
    }),
    tables: tables.map(({ name, sheet, area, totalsRows }) => ({
      name,
      sheet,
      area: { ...area, bottom: area.bottom - totalsRows },
    })),
  };
}
