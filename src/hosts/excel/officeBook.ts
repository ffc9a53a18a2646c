/// <reference types="office-js" />
import type { DateSystem } from '../../worksheet/calendar';
import type { Cell } from '../../worksheet/cells/cell';
import { isCellError } from '../../worksheet/cells/cell';
import { textOf, type BookSheet, type GrowersBook } from '../fit/book';
import {
  freeName,
  VERSION_PROPERTY,
  type Book,
  type BookContents,
  type FormulaCell,
  type Place,
  type TableArea,
} from '../pane/book';
import { isErrorCode, shownCell } from '../pane/reasons';
import {
  addressOf,
  areaOf,
  covers,
  fixedRangeOf,
  placeOf,
  rangeOf,
  type Area,
  type Place as CellPlace,
} from '../xlsx/address';
import type { Chart, PlainSheet, Reads } from '../xlsx/describe';
import { callsPinset, type TableShape, type Vocabulary } from '../xlsx/formula';
import {
  codeOf,
  COLOURS,
  HEADS,
  LIMIT_COLOUR,
  LOOKS,
  NOT_IN_LIST,
  TALL_HEADER_HEIGHT,
  type Role,
} from '../xlsx/look';
import { layOut, runsOf, type ValidatedCells, type Written } from '../xlsx/page';
import { Places } from '../xlsx/places';
import { supports } from './requirements';

/** `B7` of `'My lots'!B7:C9`. */
const firstCell = (address: string): string => address.slice(address.lastIndexOf('!') + 1).split(':')[0]!;

/** A cell as `range.formulas` takes it: text with an apostrophe, so that Excel never reads it as anything else. */
function typed({ value, formula }: Written): string | number | boolean | null {
  if (formula !== undefined) return formula;
  if (typeof value === 'string') return value === '' ? null : `'${value}`;
  return isCellError(value) ? value.code : value;
}

function writeBlock(range: Excel.Range, cells: readonly (readonly Written[])[]): void {
  cells.forEach((row, r) =>
    row.forEach(({ reads }, c) => {
      if (reads !== undefined) range.getCell(r, c).numberFormat = [[codeOf(reads)]];
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

    // As if every formula had been entered again: cells that show #NAME? or wait for ever are not calculated otherwise.
    calculateAgain: () =>
      Excel.run(async (context) => {
        context.workbook.application.calculate('FullRebuild');
        await context.sync();
      }),

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

    takenNames: () =>
      Excel.run(async (context) => {
        const { tables, names } = context.workbook;
        tables.load('items/name');
        names.load('items/name');
        await context.sync();
        return [...tables.items, ...names.items].map(({ name }) => name);
      }),

    layDown: async (sheet) => {
      const name = await addSheet(sheet.name);
      const system = await dateSystem();
      return Excel.run(async (context) => {
        print(context.workbook.worksheets.getItem(name), sheet, system);
        marked(context);
        await context.sync();
        return name;
      });
    },

    contents: () => Excel.run((context) => contentsOf(context, dateSystem)),

    everything: () => Excel.run((context) => everythingIn(context, dateSystem)),

    change: (changes) =>
      Excel.run(async (context) => {
        for (const { place, value, format } of changes) {
          const range = context.workbook.worksheets.getItem(place.sheet).getRange(place.address);
          // A figure typed into a cell of the format Text would be text again.
          if (format !== undefined) range.numberFormat = [[format]];
          range.formulas = [[typed({ value }) ?? '']];
        }
        marked(context);
        await context.sync();
      }),

    takeBack: (sheets) =>
      Excel.run(async (context) => {
        for (const sheet of sheets) context.workbook.worksheets.getItem(sheet).delete();
        await context.sync();
      }),

    // What is typed counts, and so does what follows from it, which may come much later.
    whenChanged: (listener) =>
      Excel.run(async (context) => {
        if (!supports('ExcelApi', '1.9')) return;
        const tell = (): Promise<void> => Promise.resolve(listener());
        context.workbook.worksheets.onChanged.add(tell);
        context.workbook.worksheets.onCalculated.add(tell);
        await context.sync();
      }),

    goTo: ({ sheet, address }: Place) =>
      Excel.run(async (context) => {
        const target = context.workbook.worksheets.getItem(sheet);
        target.activate();
        target.getRange(address).select();
        await context.sync();
      }),
  };
}

/** Prints a described sheet. */
function print(target: Excel.Worksheet, sheet: PlainSheet, dateSystem: DateSystem): void {
  const places = new Places([sheet], { dateSystem });
  const page = layOut(sheet, places);
  const runs = runsOf(page);
  for (const { area, cells } of runs) {
    const range = target.getRange(rangeOf(area));
    lookLike(range, cells[0]!.role, cells[0]!.reads);
    const values = cells.map((cell) => [cell.calculated ? null : typed(cell)]);
    if (values.some(([value]) => value !== null)) range.formulas = values;
  }
  // The tables must be there before the calls that refer to them.
  for (const { name } of page.tables) {
    const table = target.tables.add(rangeOf(places.areaOfTable(name)), true);
    table.name = name;
    table.style = PLAIN_TABLE;
  }
  for (const { area, cells } of runs) {
    cells.forEach(({ formula }, i) => {
      if (formula === undefined) return;
      const address = addressOf({ row: area.top + i, column: area.left });
      target.getRange(address).formulas = [[formula]];
    });
  }
  for (const list of page.validations) offer(target, list);
  for (const chart of page.charts)
    draw(target, chart, (source) => rangeOf(places.source(sheet, source).area));
  page.widths.forEach((width, column) => {
    const area = { top: 0, bottom: 0, left: column, right: column };
    target.getRange(rangeOf(area)).format.columnWidth = pointsOf(width);
  });
  for (const row of page.tallRows) {
    target.getRange(rangeOf({ top: row, bottom: row, left: 0, right: 0 })).format.rowHeight =
      TALL_HEADER_HEIGHT;
  }
}

/** A width in characters as Office.js takes it: a character has 7 pixels, a cell 5 of margin, and 4 pixels are 3 points. */
const pointsOf = (characters: number): number => (characters * 7 + 5) * 0.75;

/** The table style with the least of its own: the cells have theirs. */
const PLAIN_TABLE = 'TableStyleLight1';

function lookLike(range: Excel.Range, role: Role, reads: Reads): void {
  const { font, fill, wrap } = LOOKS[role];
  const code = codeOf(reads);
  // One value for the whole range: Excel takes it, though its types know tables of formats only.
  if (code !== 'General' && !HEADS.has(role)) range.numberFormat = code as unknown as string[][];
  range.format.font.color = webColour(font.colour ?? COLOURS.ink);
  if (font.bold) range.format.font.bold = true;
  if (font.italic) range.format.font.italic = true;
  if (font.size !== undefined) range.format.font.size = font.size;
  if (fill !== undefined) range.format.fill.color = webColour(fill);
  if (wrap) range.format.wrapText = true;
}

/** `#3E5F4C` of `FF3E5F4C`. */
const webColour = (argb: string): string => `#${argb.slice(2)}`;

/** A rule of Excel cannot name a table's column itself. */
function sourceOf(choices: ValidatedCells['choices']): string {
  if (typeof choices !== 'string') return choices.join(',');
  return choices.includes('[') ? `=INDIRECT("${choices}")` : `=${fixedRangeOf(areaOf(choices)!)}`;
}

function offer(sheet: Excel.Worksheet, { area, choices }: ValidatedCells): void {
  const { dataValidation } = sheet.getRange(rangeOf(area));
  dataValidation.rule = { list: { inCellDropDown: true, source: sourceOf(choices) } };
  dataValidation.errorAlert = { showAlert: true, style: 'Warning', ...NOT_IN_LIST };
}

const CHART_TYPES: Record<
  Chart['type'],
  'Line' | 'LineMarkers' | 'ColumnClustered' | 'ColumnStacked' | 'XYScatterLinesNoMarkers'
> = {
  line: 'Line',
  column: 'ColumnClustered',
  stacked: 'ColumnStacked',
  scatter: 'XYScatterLinesNoMarkers',
  dots: 'LineMarkers',
};

/**
 * Series by series: from a block of cells Excel would guess which of them are days and which figures, and it would guess
 * before the call has filled them. Limits come first, whose cells are filled.
 */
function draw(sheet: Excel.Worksheet, chart: Chart, rangeAt: (source: Chart['across']) => string): void {
  const type = CHART_TYPES[chart.type];
  const all = [
    ...[...(chart.limits ?? []), ...(chart.centre ? [chart.centre] : [])].map((series) => ({
      ...series,
      type: CHART_TYPES.line,
    })),
    ...chart.series.map((series) => ({ ...series, type })),
  ];
  const onColumns = chart.type === 'column' || chart.type === 'stacked';
  const drawn = sheet.charts.add(type, sheet.getRange(rangeAt(all[0]!.values)), 'Columns');
  all.forEach(({ title, values, type: shape }, i) => {
    const series = i === 0 ? drawn.series.getItemAt(0) : drawn.series.add(title);
    if (i === 0) series.name = title;
    else series.setValues(sheet.getRange(rangeAt(values)));
    series.chartType = shape;
    if (onColumns && shape === CHART_TYPES.line) drawSteps(series);
    series.setXAxisValues(sheet.getRange(rangeAt(chart.across)));
  });
  drawn.title.text = chart.title;
  const [first, last = first] = chart.over.split(':');
  drawn.setPosition(first!, last);
}

/** A limit over columns: a mark over each, for a line would slope from day to day. */
function drawSteps(series: Excel.ChartSeries): void {
  series.markerStyle = 'Dash';
  series.markerSize = 8;
  series.markerForegroundColor = `#${LIMIT_COLOUR}`;
  series.markerBackgroundColor = `#${LIMIT_COLOUR}`;
  series.format.line.lineStyle = 'None';
}

async function contentsOf(
  context: Excel.RequestContext,
  dateSystem: () => Promise<DateSystem>,
): Promise<BookContents> {
  const { worksheets, tables, names, properties } = context.workbook;
  worksheets.load('items/name');
  tables.load('items/name,items/showHeaders,items/showTotals,items/worksheet/name');
  names.load('items/name,items/formula');
  const savedWith = properties.custom.getItemOrNullObject(VERSION_PROPERTY);
  savedWith.load('value,isNullObject');
  await context.sync();
  const used = worksheets.items.map((sheet) => {
    const range = sheet.getUsedRangeOrNullObject(true);
    range.load('formulas,values,rowIndex,columnIndex,isNullObject');
    sheet.names.load('items/name,items/formula');
    return { sheet, range };
  });
  const areas = tables.items.map((table) => {
    const range = table.getRange();
    range.load('rowIndex,rowCount,columnIndex,columnCount');
    return { table, range };
  });
  await context.sync();
  const filled = used.flatMap(({ sheet, range }) =>
    range.isNullObject ? [] : [filledFrom(sheet.name, range)],
  );
  const named = [
    ...names.items.map(({ name, formula }) => ({ name, formula: String(formula), sheet: undefined })),
    ...used.flatMap(({ sheet }) =>
      sheet.names.items.map(({ name, formula }) => ({ name, formula: String(formula), sheet: sheet.name })),
    ),
  ];
  const shapes = areas.map(({ table, range }): TableShape => {
    const { rowIndex: top, columnIndex: left } = range;
    const area = { top, left, bottom: top + range.rowCount - 1, right: left + range.columnCount - 1 };
    const sheet = table.worksheet.name;
    const head = filled.find((one) => one.sheet === sheet)?.cells({ ...area, bottom: top })[0] ?? [];
    return {
      name: table.name,
      sheet,
      area,
      headerRows: table.showHeaders ? 1 : 0,
      totalsRows: table.showTotals ? 1 : 0,
      columns: table.showHeaders ? head.map(textOf) : [],
    };
  });
  const spills = await spillsOf(context, filled);
  return {
    dateSystem: await dateSystem(),
    ...(savedWith.isNullObject ? {} : { savedWith: String(savedWith.value) }),
    formulas: filled.flatMap((one) => formulasIn(one, spills)),
    tables: shapes.map(({ name, sheet, area }): TableArea => ({
      name,
      sheet,
      firstRow: area.top + 1,
      lastRow: area.bottom + 1,
    })),
    shown: {
      vocabulary: vocabularyOf(shapes, named),
      cells: (sheet, area) => filled.find((one) => isSame(one.sheet, sheet))?.cells(area),
      spill: (sheet, place) => spills.get(keyOf(sheet, place)),
    },
  };
}

const isSame = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();
const keyOf = (sheet: string, place: CellPlace): string => `${addressOf(place)}!${sheet.toLowerCase()}`;

function vocabularyOf(
  tables: readonly TableShape[],
  names: readonly { name: string; formula: string; sheet: string | undefined }[],
): Vocabulary {
  return {
    table: (name) => tables.find((table) => isSame(table.name, name)),
    tableAt: (sheet, place) => tables.find((table) => table.sheet === sheet && covers(table.area, place)),
    name(name, sheet) {
      const all = names.filter((one) => isSame(one.name, name));
      const own = all.find((one) => one.sheet === sheet) ?? all.find((one) => one.sheet === undefined);
      return own?.formula.replace(/^=/, '');
    },
  };
}

/** The part of a sheet that is used, which need not begin at A1. */
interface Filled {
  readonly sheet: string;
  readonly area: Area;
  readonly formulaAt: (place: CellPlace) => string | undefined;
  readonly shownAt: (place: CellPlace) => unknown;
  /** What the cells of an area show; beyond what is used nothing. */
  readonly cells: (area: Area) => Cell[][];
}

function filledFrom(sheet: string, range: Excel.Range): Filled {
  const { rowIndex: top, columnIndex: left } = range;
  const values = range.values as unknown[][];
  const formulas = range.formulas as unknown[][];
  const area = { top, left, bottom: top + values.length - 1, right: left + values[0]!.length - 1 };
  const shownAt = ({ row, column }: CellPlace): unknown => values[row - top]?.[column - left];
  return {
    sheet,
    area,
    shownAt,
    formulaAt({ row, column }) {
      const formula = formulas[row - top]?.[column - left];
      return typeof formula === 'string' && formula.startsWith('=') ? formula : undefined;
    },
    cells(asked) {
      const bottom = Math.max(asked.top, Math.min(asked.bottom, area.bottom));
      const right = Math.max(asked.left, Math.min(asked.right, area.right));
      return Array.from({ length: bottom - asked.top + 1 }, (_, r) =>
        Array.from({ length: right - asked.left + 1 }, (__, c) =>
          shownCell(shownAt({ row: asked.top + r, column: asked.left + c })),
        ),
      );
    },
  };
}

/** Excel takes no end of questions in one go. */
const MOST_ASKED = 1000;

/**
 * The cells that each formula of ours fills, by the place of the formula, and where one of them reads a spill (`A2#`)
 * those of the others too. An Excel without spills has none.
 */
async function spillsOf(
  context: Excel.RequestContext,
  filled: readonly Filled[],
): Promise<ReadonlyMap<string, Area>> {
  const spills = new Map<string, Area>();
  if (!supports('ExcelApi', '1.12')) return spills;
  const formulas = filled.flatMap((one) =>
    placesIn(one.area).flatMap((place) => {
      const formula = one.formulaAt(place);
      return formula === undefined ? [] : [{ sheet: one.sheet, place, formula }];
    }),
  );
  const ours = formulas.filter(({ formula }) => callsPinset(formula));
  const places = ours.some(({ formula }) => /\d#/.test(formula)) ? formulas : ours;
  for (let from = 0; from < places.length; from += MOST_ASKED) {
    const asked = places.slice(from, from + MOST_ASKED).map(({ sheet, place }) => {
      const range = context.workbook.worksheets
        .getItem(sheet)
        .getRange(addressOf(place))
        .getSpillingToRangeOrNullObject();
      range.load('rowIndex,columnIndex,rowCount,columnCount,isNullObject');
      return { key: keyOf(sheet, place), range };
    });
    await context.sync();
    for (const { key, range } of asked) {
      if (range.isNullObject) continue;
      const { rowIndex: top, columnIndex: left } = range;
      spills.set(key, {
        top,
        left,
        bottom: top + range.rowCount - 1,
        right: left + range.columnCount - 1,
      });
    }
  }
  return spills;
}

const placesIn = ({ top, left, bottom, right }: Area): CellPlace[] =>
  Array.from({ length: bottom - top + 1 }, (_, r) =>
    Array.from({ length: right - left + 1 }, (__, c) => ({ row: top + r, column: left + c })),
  ).flat();

/** The formulas of a sheet with what all their cells show, so that a bad row of a spilled column is found. */
function formulasIn(filled: Filled, spills: ReadonlyMap<string, Area>): FormulaCell[] {
  const { sheet, area, formulaAt, shownAt } = filled;
  const spilled = new Set<string>();
  return placesIn(area).flatMap((place): FormulaCell[] => {
    const [formula, address] = [formulaAt(place), addressOf(place)];
    // Whether Excel repeats the formula in the cells that it spills into is not told.
    if (formula === undefined || spilled.has(address)) return [];
    const fills = placesIn(spills.get(keyOf(sheet, place)) ?? areaOf(address)!);
    for (const one of fills) if (addressOf(one) !== address) spilled.add(addressOf(one));
    const faulty = fills.filter((one) => isErrorCode(shownAt(one)));
    if (faulty.length === 0) return [{ sheet, address, formula }];
    const at = addressOf(faulty[0]!);
    const error = shownAt(faulty[0]!) as string;
    const more = faulty.length - 1;
    return [{ sheet, address, formula, error, ...(at !== address && { at }), ...(more > 0 && { more }) }];
  });
}

async function everythingIn(
  context: Excel.RequestContext,
  dateSystem: () => Promise<DateSystem>,
): Promise<GrowersBook> {
  const { worksheets, tables } = context.workbook;
  worksheets.load('items/name');
  tables.load('items/name,items/showTotals,items/worksheet/name');
  await context.sync();
  const used = worksheets.items.map((sheet) => {
    const range = sheet.getUsedRangeOrNullObject(true);
    range.load('formulas,values,numberFormat,rowIndex,columnIndex,isNullObject,format/font/strikethrough');
    return { name: sheet.name, range };
  });
  const areas = tables.items.map((table) => {
    const range = table.getRange();
    range.load('rowIndex,rowCount,columnIndex,columnCount');
    return { table, range };
  });
  await context.sync();
  // Cell by cell only where some letters of the sheet are struck out.
  const struck = used.map(({ range }) =>
    range.isNullObject || range.format.font.strikethrough === false || supports('ExcelApi', '1.9') === false
      ? undefined
      : range.getCellProperties({ format: { font: { strikethrough: true } } }),
  );
  if (struck.some((one) => one !== undefined)) await context.sync();
  return {
    dateSystem: await dateSystem(),
    sheets: used.map(({ name, range }, i) =>
      range.isNullObject ? emptySheet(name) : sheetFrom(name, range, struck[i]?.value),
    ),
    tables: areas.map(({ table, range }) => ({
      name: table.name,
      sheet: table.worksheet.name,
      area: {
        top: range.rowIndex,
        left: range.columnIndex,
        bottom: range.rowIndex + range.rowCount - (table.showTotals ? 2 : 1),
        right: range.columnIndex + range.columnCount - 1,
      },
    })),
  };
}

const emptySheet = (name: string): BookSheet => ({
  name,
  rows: [],
  formatAt: () => undefined,
  isFormula: () => false,
});

/** A sheet from the part of it that is used, which need not begin at A1. */
function sheetFrom(name: string, range: Excel.Range, struck?: Excel.CellProperties[][]): BookSheet {
  const { rowIndex: top, columnIndex: left } = range;
  const values = range.values as unknown[][];
  const formulas = range.formulas as unknown[][];
  const formats = range.numberFormat as unknown[][];
  const before = new Array<Cell>(left).fill(null);
  return {
    name,
    rows: [
      ...Array.from({ length: top }, (): Cell[] => []),
      ...values.map((row) => [...before, ...row.map(shownCell)]),
    ],
    formatAt: (row, column) => {
      const format = formats[row - top]?.[column - left];
      return typeof format === 'string' && format !== 'General' ? format : undefined;
    },
    isStruck: (row, column) => struck?.[row - top]?.[column - left]?.format?.font?.strikethrough === true,
    // A cell that a formula spills into shows a value and holds none of its own.
    isFormula: (row, column) => {
      const formula = formulas[row - top]?.[column - left];
      const shown = values[row - top]?.[column - left];
      const isOwn = typeof formula === 'string' && formula.startsWith('=');
      return isOwn || (formula === '' && shown !== '' && shown !== undefined);
    },
  };
}
