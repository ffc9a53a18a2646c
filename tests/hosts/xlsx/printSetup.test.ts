import { describe, expect, test } from '@jest/globals';
import { COLUMNS, ROWS } from '../../../src/hosts/xlsx/address';
import { withLines, type LineChange } from '../../../src/hosts/xlsx/lines';
import { readPrintSetup, type PrintSetup } from '../../../src/hosts/xlsx/printSetup';
import { workbookOf } from './packages';

// What files say of paper: ISO/IEC 29500-1, 18.2.6 (`_xlnm.Print_Area`, `_xlnm.Print_Titles`, scoped to their sheet),
// 18.3.1.63 (pageSetup: fitToWidth is 1 where it is left out) and 18.3.1.65 (fitToPage).

const CELLS = '<row r="1"><c r="A1"><v>1</v></c></row><row r="9"><c r="H9"><v>9</v></c></row>';

/** A book of two sheets whose second, `Shed 1`, has these names and these elements around its cells. */
function book(names: Readonly<Record<string, string>>, before = '', after = ''): Uint8Array {
  return workbookOf({
    names: Object.entries(names)
      .map(([name, text]) => `<definedName name="_xlnm.${name}" localSheetId="1">${text}</definedName>`)
      .join(''),
    sheets: [
      { name: 'Lots', data: `<sheetData>${CELLS}</sheetData>` },
      { name: 'Shed 1', before, data: `<sheetData>${CELLS}</sheetData>${after}` },
    ],
  });
}

const setupOf = (names: Readonly<Record<string, string>>, before?: string, after?: string): PrintSetup =>
  readPrintSetup(book(names, before, after), 'Shed 1');

const area = (top: number, left: number, bottom: number, right: number) => ({ top, left, bottom, right });

describe('readPrintSetup(bytes, sheet)', () => {
  test('has the areas of the sheet in their order, whole columns and rows to the end', () => {
    const areas = "'Shed 1'!$A$2:$D$9,'Shed 1'!$F:$G,'Shed 1'!$3:$4,'Shed 1'!$H$9";
    expect(setupOf({ Print_Area: areas }).areas).toEqual([
      area(1, 0, 8, 3),
      area(0, 5, ROWS - 1, 6),
      area(2, 0, 3, COLUMNS - 1),
      area(8, 7, 8, 7),
    ]);
    expect(readPrintSetup(book({ Print_Area: areas }), 'Lots').areas).toEqual([]);
  });

  test('passes over what is broken, of another sheet, or worked out by a formula', () => {
    expect(setupOf({ Print_Area: "'Shed 1'!#REF!" }).areas).toEqual([]);
    expect(setupOf({ Print_Area: "'Shed 1'!#REF!,'Shed 1'!$A$1:$B$2" }).areas).toEqual([area(0, 0, 1, 1)]);
    expect(setupOf({ Print_Area: "OFFSET('Shed 1'!$A$1,0,0,9,4)" }).areas).toEqual([]);
    expect(setupOf({ Print_Area: 'Lots!$A$1:$B$2' }).areas).toEqual([]);
  });

  test('has the rows and columns that are repeated, whichever comes first', () => {
    expect(setupOf({ Print_Titles: "'Shed 1'!$A:$B,'Shed 1'!$4:$5" })).toMatchObject({
      titleRows: { from: 3, to: 4 },
      titleColumns: { from: 0, to: 1 },
    });
    const rows = setupOf({ Print_Titles: "'Shed 1'!$1:$1" });
    expect([rows.titleRows, rows.titleColumns]).toEqual([{ from: 0, to: 0 }, undefined]);
  });

  test('says how the paper lies only where the file does, and fits the width only where it is to be fitted', () => {
    const [across, upright] = ['landscape', 'portrait'].map((way) => `<pageSetup orientation="${way}"/>`);
    const fitted = '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>';
    expect(setupOf({})).toEqual({ areas: [], fitsWidth: false });
    expect(setupOf({}, '', across)).toEqual({ areas: [], orientation: 'landscape', fitsWidth: false });
    expect(setupOf({}, fitted, upright)).toEqual({ areas: [], orientation: 'portrait', fitsWidth: true });
    expect(setupOf({}, fitted).fitsWidth).toBe(true);
    expect(setupOf({}, fitted, '<pageSetup fitToWidth="0"/>').fitsWidth).toBe(false);
    expect(setupOf({}, '', '<pageSetup fitToWidth="1"/>').fitsWidth).toBe(false);
  });

  test('areas and titles go along with rows and columns that are put in and taken out', () => {
    const names = { Print_Area: "'Shed 1'!$A$2:$D$9,'Shed 1'!$F:$G", Print_Titles: "'Shed 1'!$2:$2" };
    const after = (change: Pick<LineChange, 'axis' | 'kind' | 'at' | 'count'>): PrintSetup =>
      readPrintSetup(withLines(book(names), { sheet: 'Shed 1', ...change }), 'Shed 1');
    expect(after({ axis: 'row', kind: 'insert', at: 0, count: 3 })).toMatchObject({
      areas: [area(4, 0, 11, 3), area(0, 5, ROWS - 1, 6)],
      titleRows: { from: 4, to: 4 },
    });
    expect(after({ axis: 'row', kind: 'insert', at: 5, count: 2 }).areas[0]).toEqual(area(1, 0, 10, 3));
    expect(after({ axis: 'row', kind: 'delete', at: 4, count: 2 }).areas[0]).toEqual(area(1, 0, 6, 3));
    expect(after({ axis: 'column', kind: 'delete', at: 0, count: 1 }).areas).toEqual([
      area(1, 0, 8, 2),
      area(0, 4, ROWS - 1, 5),
    ]);
    const gone = after({ axis: 'row', kind: 'delete', at: 1, count: 8 });
    expect([gone.areas, gone.titleRows]).toEqual([[area(0, 5, ROWS - 1, 6)], undefined]);
  });
});
