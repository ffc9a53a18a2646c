/// <reference types="office-js" />
import type { DateSystem } from '../../worksheet/define';
import type { Cell } from '../../worksheet/cells/cell';
import { CellError } from '../../worksheet/cells/cell';
import type { Book, BookContents, FormulaCell, Place, TableArea, Written } from '../pane/book';
import { freeName, type Layout } from '../pane/layout';
import { addressOf, placeOf } from '../xlsx/address';
import { faultAt } from './faultLog';

/** The custom property that says which version of the add-in last wrote into a workbook. */
const VERSION_PROPERTY = 'PinsetVersion';

/** `B7` of `'My lots'!B7:C9`. */
const firstCell = (address: string): string => address.slice(address.lastIndexOf('!') + 1).split(':')[0]!;

/** A cell as `range.formulas` takes it: text with an apostrophe, so that Excel never reads it as anything else. */
function typed(cell: Written): string | number | boolean | null {
  if ('formula' in cell) return cell.formula;
  const { constant } = cell;
  if (typeof constant === 'string') return constant === '' ? null : `'${constant}`;
  return constant instanceof CellError ? constant.code : constant;
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

    write: ({ sheet, address }, cells) =>
      Excel.run(async (context) => {
        const target = context.workbook.worksheets.getItem(sheet);
        writeBlock(blockAt(target, address, cells.length, cells[0]!.length), cells);
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

    drawsCharts: true,

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
  for (const { range, words, column } of lists) {
    const known = column === undefined || tableNames.includes(column.split('[')[0]!);
    if (!known) continue;
    const source = words ? words.join(',') : `=INDIRECT("${column}")`;
    sheet.getRange(range).dataValidation.rule = { list: { inCellDropDown: true, source } };
  }
  if (chart) {
    const drawn = sheet.charts.add('ColumnClustered', sheet.getRange(chart.range), 'Columns');
    drawn.title.text = chart.title;
    drawn.setPosition(chart.under);
    drawn.series.getItemAt(1).chartType = 'Line';
  }
  for (const range of [table.range, ...headers]) sheet.getRange(range).format.autofitColumns();
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
