/// <reference types="office-js" />
import type { DateSystem } from '../../worksheet/calendar';
import type { Cell } from '../../worksheet/cells/cell';
import { isCellError } from '../../worksheet/cells/cell';
import {
  VERSION_PROPERTY,
  type Book,
  type BookContents,
  type FormulaCell,
  type OfferedList,
  type Place,
  type TableArea,
  type Written,
} from '../pane/book';
import { freeName, type Layout, type PlacedChart } from '../pane/layout';
import { addressOf, areaOf, fixedRangeOf, placeOf } from '../xlsx/address';
import { faultAt } from './faultLog';

/** `B7` of `'My lots'!B7:C9`. */
const firstCell = (address: string): string => address.slice(address.lastIndexOf('!') + 1).split(':')[0]!;

/** A cell as `range.formulas` takes it: text with an apostrophe, so that Excel never reads it as anything else. */
function typed(cell: Written): string | number | boolean | null {
  if ('formula' in cell) return cell.formula;
  const { constant } = cell;
  if (typeof constant === 'string') return constant === '' ? null : `'${constant}`;
  return isCellError(constant) ? constant.code : constant;
}

function writeBlock(range: Excel.Range, cells: readonly (readonly Written[])[]): void {
  cells.forEach((row, r) =>
    row.forEach((cell, c) => {
      if ('constant' in cell && cell.numberFormat !== undefined) {
        range.getCell(r, c).numberFormat = [[cell.numberFormat]];
      }
    }),
  );
  range.formulas = cells.map((row) => row.map(typed));
}

const blockAt = (sheet: Excel.Worksheet, address: string, rows: number, columns: number): Excel.Range =>
  sheet.getRange(address).getResizedRange(rows - 1, columns - 1);

/** What the pane does to a workbook, done through Office.js. `version` is the add-in's own. */
export function officeBook(version: string, dateSystem: () => Promise<DateSystem>): Book {
  const marked = (context: Excel.RequestContext): void => {
    context.workbook.properties.custom.add(VERSION_PROPERTY, version);
  };

  const addSheet = (name: string): Promise<string> =>
    Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load('items/name');
      await context.sync();
      const free = freeName(
        name,
        worksheets.items.map((sheet) => sheet.name),
      );
      worksheets.add(free);
      await context.sync();
      return free;
    });

  return {
    addSheet,

    selection: () =>
      Excel.run(async (context) => {
        const range = context.workbook.getSelectedRange();
        range.load('address');
        range.worksheet.load('name');
        await context.sync();
        return { sheet: range.worksheet.name, address: firstCell(range.address) };
      }),

    occupied: ({ sheet, address }, rows, columns) =>
      Excel.run(async (context) => {
        const range = blockAt(context.workbook.worksheets.getItem(sheet), address, rows, columns);
        range.load('formulas');
        await context.sync();
        const start = placeOf(address)!;
        return (range.formulas as Cell[][]).flatMap((row, r) =>
          row.flatMap((cell, c) =>
            cell === '' || cell === null ? [] : [addressOf({ row: start.row + r, column: start.column + c })],
          ),
        );
      }),

    write: ({ sheet, address }, { cells, lists }) =>
      Excel.run(async (context) => {
        const target = context.workbook.worksheets.getItem(sheet);
        writeBlock(blockAt(target, address, cells.length, cells[0]!.length), cells);
        for (const list of lists) offer(target, list);
        marked(context);
        await context.sync();
      }),

    tableNames: () =>
      Excel.run(async (context) => {
        const { tables } = context.workbook;
        tables.load('items/name');
        await context.sync();
        return tables.items.map((table) => table.name);
      }),

    layDown: async (name, layout) => {
      const sheet = await addSheet(name);
      return Excel.run(async (context) => {
        const target = context.workbook.worksheets.getItem(sheet);
        const { tables } = context.workbook;
        tables.load('items/name');
        await context.sync();
        layDown(
          target,
          layout,
          tables.items.map((table) => table.name),
        );
        marked(context);
        await context.sync();
        return sheet;
      });
    },

    contents: () => Excel.run((context) => contentsOf(context, dateSystem)),

    goTo: ({ sheet, address }: Place) =>
      Excel.run(async (context) => {
        const target = context.workbook.worksheets.getItem(sheet);
        target.activate();
        target.getRange(address).select();
        await context.sync();
      }),
  };
}

function layDown(sheet: Excel.Worksheet, layout: Layout, tableNames: readonly string[]): void {
  const { writes, table, headers, formats, lists, chart } = layout;
  const isCall = (cells: readonly (readonly Written[])[]): boolean => 'formula' in cells[0]![0]!;
  // The table must be there before the calls that refer to it.
  for (const { address, cells } of writes.filter((write) => !isCall(write.cells))) {
    writeBlock(blockAt(sheet, address, cells.length, cells[0]!.length), cells);
  }
  const added = sheet.tables.add(table.range, true);
  added.name = table.name;
  for (const { range, numberFormat } of formats) {
    // One value for the whole range: Excel takes it, though its types know tables of formats only.
    sheet.getRange(range).numberFormat = numberFormat as unknown as string[][];
  }
  for (const { address, cells } of writes.filter((write) => isCall(write.cells))) {
    writeBlock(blockAt(sheet, address, cells.length, cells[0]!.length), cells);
  }
  sheet.getRange(layout.title).format.font.bold = true;
  sheet.getRange(layout.title).format.font.size = 14;
  for (const range of headers) sheet.getRange(range).format.font.bold = true;
  for (const list of lists) {
    const isThere = !('column' in list.from) || tableNames.includes(list.from.column.split('[')[0]!);
    if (isThere) offer(sheet, list);
  }
  if (chart) draw(sheet, chart);
  for (const range of [table.range, ...headers]) sheet.getRange(range).format.autofitColumns();
}

/** A rule of Excel cannot name a table's column itself. */
function sourceOf(from: OfferedList['from']): string {
  if ('words' in from) return from.words.join(',');
  return 'column' in from ? `=INDIRECT("${from.column}")` : `=${fixedRangeOf(areaOf(from.cells)!)}`;
}

function offer(sheet: Excel.Worksheet, { range, from }: OfferedList): void {
  const { dataValidation } = sheet.getRange(range);
  dataValidation.rule = { list: { inCellDropDown: true, source: sourceOf(from) } };
  dataValidation.errorAlert = {
    showAlert: true,
    style: 'Warning',
    title: 'Not in the list',
    message: 'The list of this cell does not have that.',
  };
}

/**
 * Series by series: from a block of cells Excel would guess which of them are days and which figures, and it would guess
 * before the call has filled them.
 */
function draw(sheet: Excel.Worksheet, { title, over, days, columns, line }: PlacedChart): void {
  const chart = sheet.charts.add('ColumnClustered', sheet.getRange(line.values), 'Columns');
  const limit = chart.series.getItemAt(0);
  limit.name = line.title;
  limit.chartType = 'Line';
  const picks = chart.series.add(columns.title);
  picks.setValues(sheet.getRange(columns.values));
  picks.chartType = 'ColumnClustered';
  for (const series of [limit, picks]) series.setXAxisValues(sheet.getRange(days));
  chart.title.text = title;
  const [first, last = first] = over.split(':');
  chart.setPosition(first!, last);
}

async function contentsOf(
  context: Excel.RequestContext,
  dateSystem: () => Promise<DateSystem>,
): Promise<BookContents> {
  const { worksheets, tables, properties } = context.workbook;
  worksheets.load('items/name');
  tables.load('items/name,items/worksheet/name');
  const savedWith = properties.custom.getItemOrNullObject(VERSION_PROPERTY);
  savedWith.load('value,isNullObject');
  await context.sync();
  const used = worksheets.items.map((sheet) => {
    const range = sheet.getUsedRangeOrNullObject(true);
    range.load('formulas,values,rowIndex,columnIndex,isNullObject');
    return { sheet: sheet.name, range };
  });
  const areas = tables.items.map((table) => {
    const range = table.getRange();
    range.load('rowIndex,rowCount');
    return { table, range };
  });
  await context.sync();
  return {
    dateSystem: await dateSystem(),
    ...(savedWith.isNullObject ? {} : { savedWith: String(savedWith.value) }),
    formulas: used.flatMap(({ sheet, range }) => (range.isNullObject ? [] : formulasIn(sheet, range))),
    tables: areas.map(({ table, range }): TableArea => ({
      name: table.name,
      sheet: table.worksheet.name,
      firstRow: range.rowIndex + 1,
      lastRow: range.rowIndex + range.rowCount,
    })),
  };
}

/** A fault of ours anywhere in a call's answer counts, so that a bad row of a spilled column is found. */
function formulasIn(sheet: string, range: Excel.Range): FormulaCell[] {
  const values = range.values as unknown[][];
  return (range.formulas as unknown[][]).flatMap((row, r) =>
    row.flatMap((formula, c): FormulaCell[] => {
      if (typeof formula !== 'string' || !formula.startsWith('=')) return [];
      const address = addressOf({ row: range.rowIndex + r, column: range.columnIndex + c });
      const shown = values[r]![c];
      const fault = faultAt(sheet, address);
      if (fault) {
        const others = fault.cells > 1 ? `, and ${fault.cells - 1} more of its cells` : '';
        return [{ sheet, address, formula, error: fault.code, reason: `${fault.reason}${others}` }];
      }
      return [{ sheet, address, formula, ...(isErrorCode(shown) ? { error: shown } : {}) }];
    }),
  );
}

const isErrorCode = (shown: unknown): shown is string =>
  typeof shown === 'string' && /^#[A-Z0-9/]+[!?]?$/.test(shown);
