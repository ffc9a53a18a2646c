import type { CellContent, SheetContent } from '../../../../src/hosts/engine/workbook';
import { areaOf, fixedRangeOf, placeOf, rangeOf } from '../../../../src/hosts/xlsx/address';
import { stored, type TableShape } from '../../../../src/hosts/xlsx/formula';
import { escapeAttribute, escapeText } from '../../../../src/hosts/xlsx/xml';
import { isCellError } from '../../../../src/worksheet/cells/cell';
import { table, workbookOf } from '../../xlsx/packages';
import { FARM_NAMES } from './farmWorkbook';
import { HARVEST_NAMES, HARVEST_TABLES } from './harvestWorkbook';
import type { Gives } from './row';
import { contentOf, placed, type BookName } from './table';

const WORDS: Readonly<
  Record<BookName, { names: Readonly<Record<string, string>>; tables: readonly TableShape[] }>
> = {
  farm: { names: FARM_NAMES, tables: [] },
  harvest: { names: HARVEST_NAMES, tables: HARVEST_TABLES },
};

/** The range that a result fills: the cells it was entered over, or as many as the table expects. */
export function filled({ address, spill, isFixedArray }: CellContent, gives: Gives): string {
  if (isFixedArray) return spill!;
  const { row, column } = placeOf(address)!;
  const [height, width] = Array.isArray(gives) ? [gives.length, (gives[0] as unknown[]).length] : [1, 1];
  return rangeOf({ top: row, left: column, bottom: row + height - 1, right: column + width - 1 });
}

/** One of the two books of the conformance table as a file without results: any program calculates it by itself. */
export function fileOf(book: BookName): Uint8Array {
  const givenAt = new Map(placed.map(({ sheet, cell, row }) => [`${sheet}!${cell.address}`, row[1]]));
  const { names, tables } = WORDS[book];
  const { sheets } = contentOf(book);
  return workbookOf({
    sheets: sheets.map((sheet) => {
      const its = tables.filter((one) => one.sheet === sheet.name);
      return {
        name: escapeAttribute(sheet.name),
        data: dataOf(sheet, givenAt) + filterPart(sheet) + tableParts(its),
        tables: its.map((one) => tablePart(one, tables.indexOf(one))),
      };
    }),
    names:
      Object.entries(names)
        .map(([name, meaning]) => `<definedName name="${name}">${escapeText(meaning)}</definedName>`)
        .join('') + sheets.map(filterName).join(''),
  });
}

const tablePart = ({ name, area, columns }: TableShape, at: number): string =>
  table(name, rangeOf(area), columns, '', at + 1);

const tableParts = (tables: readonly TableShape[]): string =>
  tables.length === 0
    ? ''
    : '<tableParts xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">' +
      tables.map((_, n) => `<tablePart r:id="rId${n + 1}"/>`).join('') +
      '</tableParts>';

function dataOf({ name, cells, hiddenRows }: SheetContent, givenAt: ReadonlyMap<string, Gives>): string {
  const rows = new Map<number, (readonly [column: number, xml: string])[]>();
  for (const cell of cells) {
    const { row, column } = placeOf(cell.address)!;
    const line = rows.get(row) ?? [];
    rows.set(row, line);
    line.push([column, cellPart(cell, givenAt.get(`${name}!${cell.address}`))]);
  }
  const lines = [...rows].sort(([one], [other]) => one - other);
  return `<sheetData>${lines
    .map(
      ([row, line]) =>
        `<row r="${row + 1}"${hiddenRows?.has(row) ? ' hidden="1"' : ''}>` +
        line
          .sort(([one], [other]) => one - other)
          .map(([, xml]) => xml)
          .join('') +
        '</row>',
    )
    .join('')}</sheetData>`;
}

function cellPart(cell: CellContent, gives: Gives | undefined): string {
  const { address, value, formula } = cell;
  if (formula !== undefined) {
    const array = cell.spill === undefined ? '' : ` t="array" ref="${filled(cell, gives ?? null)}"`;
    return `<c r="${address}"><f${array}>${escapeText(inFile(formula))}</f></c>`;
  }
  if (typeof value === 'number') return `<c r="${address}"><v>${value}</v></c>`;
  if (typeof value === 'boolean') return `<c r="${address}" t="b"><v>${Number(value)}</v></c>`;
  if (isCellError(value)) return `<c r="${address}" t="e"><v>${value.code}</v></c>`;
  return `<c r="${address}" t="inlineStr"><is><t xml:space="preserve">${escapeText(value ?? '')}</t></is></c>`;
}

const isFiltered = ({ hiddenRows }: SheetContent): boolean =>
  [...(hiddenRows?.values() ?? [])].includes('filter');

/** The filter that hides rows of a sheet: of its first column, for what the rows it shows hold there. */
function filterPart(sheet: SheetContent): string {
  if (!isFiltered(sheet)) return '';
  const shown = sheet.cells.filter(({ address }) => {
    const { row, column } = placeOf(address)!;
    return column === 0 && row > 0 && !sheet.hiddenRows!.has(row);
  });
  const values = [...new Set(shown.flatMap(({ value }) => (typeof value === 'string' ? [value] : [])))];
  return (
    `<autoFilter ref="${usedIn(sheet)}"><filterColumn colId="0"><filters>` +
    values.map((value) => `<filter val="${escapeAttribute(value)}"/>`).join('') +
    '</filters></filterColumn></autoFilter>'
  );
}

/** The name under which files hold the cells of a filter. */
const filterName = (sheet: SheetContent, at: number): string =>
  isFiltered(sheet)
    ? `<definedName name="_xlnm._FilterDatabase" localSheetId="${at}" hidden="1">${sheet.name}!${fixedRangeOf(areaOf(usedIn(sheet))!)}</definedName>`
    : '';

function usedIn({ cells }: SheetContent): string {
  const places = cells.map(({ address }) => placeOf(address)!);
  const bottom = Math.max(...places.map(({ row }) => row));
  return rangeOf({ top: 0, left: 0, bottom, right: Math.max(...places.map(({ column }) => column)) });
}

/** LET and LAMBDA, whose variables have marks of their own in files, are written by their names alone. */
function inFile(formula: string): string {
  return /\b(?:LET|LAMBDA)\(/.test(formula) ? formula.slice(1) : stored(formula);
}

/** The functions that a formula calls, `A1#` and `@` as the functions they are in files. */
export const functionsIn = (formula: string): string[] => [
  ...new Set(
    inFile(formula)
      .replace(/"[^"]*"/g, '""')
      .match(/[A-Z][A-Z0-9.]*(?=\()/g) ?? [],
  ),
];
