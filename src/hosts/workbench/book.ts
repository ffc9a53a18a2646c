import { isCellError } from '../../worksheet/cells/cell';
import type { EngineWorkbook } from '../engine/engineWorkbook';
import type { WorkbookContent } from '../engine/workbook';
import type { Book, FormulaCell, OfferedList, Place, TableArea, Written } from '../pane/book';
import { freeName, type Layout } from '../pane/layout';
import { addressOf, areaOf, fixedRangeOf, placeOf, type Area } from '../xlsx/address';
import { cut, writtenOut } from '../xlsx/formula';
import { listOfWords } from '../xlsx/lists';
import { withNewSheet, type NewCell, type NewSheet } from '../xlsx/newSheet';
import { Package } from '../xlsx/package';
import { partsOf } from '../xlsx/parts';
import { patchWorkbook, type Change } from '../xlsx/patch';
import { readTables, vocabularyOf } from '../xlsx/read';

/** The workbook that is open in the page. */
export interface Desk {
  readonly content: WorkbookContent;
  readonly workbook: EngineWorkbook;
  /** The add-in's version that the file was last saved with, where it says. */
  readonly savedWith: string | undefined;
  selection(): Place;
  select(place: Place): void;
  /** The file with all that was typed into it. */
  bytes(): Uint8Array;
  /** Opens the file that the workbook has become, `sheet` being new in it. */
  become(bytes: Uint8Array, sheet: string): Promise<void>;
}

/**
 * What the pane does to the workbook that is open in the page. New sheets are added to the file, tables and lists
 * included, and the file is opened again: what a saved copy holds is what the page shows.
 */
export function workbenchBook(desk: () => Desk): Book {
  async function add(sheet: NewSheet, formulas: readonly Change[]): Promise<string> {
    const added = withNewSheet(desk().bytes(), sheet);
    await desk().become(patchWorkbook(added, formulas), sheet.name);
    return sheet.name;
  }

  const freeSheetName = (name: string): string => freeName(name, contentsOf(desk().bytes()).sheetNames);

  return {
    selection: () => Promise.resolve(desk().selection()),

    occupied: ({ sheet, address }, rows, columns) => {
      const { workbook } = desk();
      const { row, column } = placeOf(address)!;
      const addresses = Array.from({ length: rows * columns }, (_, i) =>
        addressOf({ row: row + Math.floor(i / columns), column: column + (i % columns) }),
      );
      return Promise.resolve(
        addresses.filter(
          (one) =>
            workbook.filledFrom(sheet, one) !== undefined || workbook.result(sheet, one).value !== null,
        ),
      );
    },

    write: ({ sheet, address }, { cells, lists }) => {
      const { workbook } = desk();
      const { row, column } = placeOf(address)!;
      eachCell(cells, (cell, r, c) => {
        const at = addressOf({ row: row + r, column: column + c });
        if ('formula' in cell) workbook.type(sheet, at, cell.formula);
        else if (cell.constant !== null) workbook.enter(sheet, at, cell.constant, cell.numberFormat);
      });
      for (const { range, from } of lists) {
        if ('words' in from) workbook.offer(sheet, range, from.words);
        else if ('cells' in from) workbook.offer(sheet, range, fixedRangeOf(areaOf(from.cells)!));
      }
      return Promise.resolve();
    },

    addSheet: (name) => add({ name: freeSheetName(name), cells: [], widths: [], lists: [] }, []),

    tableNames: () => Promise.resolve(contentsOf(desk().bytes()).tables.map(({ name }) => name)),

    layDown: (name, layout) => {
      const { vocabulary } = contentsOf(desk().bytes());
      const listed = (column: string): string | undefined => {
        try {
          return writtenOut(
            cut(column),
            { sheet: '', place: { row: 0, column: 0 } },
            { row: 0, column: 0 },
            vocabulary,
          ).formula;
        } catch {
          // The sheet with that column is not there: the cells take any text.
          return undefined;
        }
      };
      const sheet = freeSheetName(name);
      return add(sheetOf(sheet, layout, listed), formulasOf(sheet, layout));
    },

    contents: () => {
      const { content, workbook, savedWith } = desk();
      const { tables } = contentsOf(desk().bytes());
      return Promise.resolve({
        dateSystem: content.dateSystem,
        ...(savedWith !== undefined && { savedWith }),
        formulas: content.sheets.flatMap(({ name }) => formulasIn(workbook, name)),
        tables: tables.map(({ name, sheet, area }): TableArea => ({
          name,
          sheet,
          firstRow: area.top + 1,
          lastRow: area.bottom + 1,
        })),
      });
    },

    goTo: (place) => {
      desk().select(place);
      return Promise.resolve();
    },
  };
}

function contentsOf(bytes: Uint8Array) {
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const tables = readTables(file, parts);
  return { sheetNames: parts.allSheets, tables, vocabulary: vocabularyOf(parts, tables) };
}

/** A fault anywhere in a call's answer counts, so that a bad row of a spilled column is found. */
function formulasIn(workbook: EngineWorkbook, sheet: string): FormulaCell[] {
  return [...workbook.entries(sheet)].flatMap(({ address }): FormulaCell[] => {
    const formula = workbook.formulaAt(sheet, address);
    if (formula === undefined) return [];
    const { value, block = [[value]] } = workbook.result(sheet, address);
    const faults = block.flat().filter((cell) => isCellError(cell));
    const [first, ...others] = faults;
    if (!first) return [{ sheet, address, formula }];
    const more = others.length > 0 ? `, and ${others.length} more of its cells` : '';
    return [{ sheet, address, formula, error: first.code, reason: `${first.reason}${more}` }];
  });
}

function eachCell(
  cells: readonly (readonly Written[])[],
  take: (cell: Written, row: number, column: number) => void,
): void {
  cells.forEach((row, r) => row.forEach((cell, c) => take(cell, r, c)));
}

/** Formulas of a layout as changes of its sheet; their results come when it is opened. */
const formulasOf = (sheet: string, { writes }: Layout): Change[] =>
  writes.flatMap(({ address, cells }) => {
    const start = placeOf(address)!;
    const changes: Change[] = [];
    eachCell(cells, (cell, r, c) => {
      if (!('formula' in cell)) return;
      const at = addressOf({ row: start.row + r, column: start.column + c });
      changes.push({ sheet, address: at, formula: cell.formula, values: [[null]] });
    });
    return changes;
  });

/** A list's source as a file has it; undefined where the column it is to come from is not there. */
function sourceOf(
  from: OfferedList['from'],
  listed: (column: string) => string | undefined,
): string | undefined {
  if ('words' in from) return listOfWords(from.words);
  return 'cells' in from ? fixedRangeOf(areaOf(from.cells)!) : listed(from.column);
}

const NARROWEST = 12;
const WIDEST = 32;

/** A layout as a sheet to be added to a file, its formulas left out. */
function sheetOf(name: string, layout: Layout, listed: (column: string) => string | undefined): NewSheet {
  const cells = new Map<string, NewCell>();
  const set = (row: number, column: number, more: Partial<NewCell>): void => {
    const address = addressOf({ row, column });
    cells.set(address, { place: { row, column }, value: null, ...cells.get(address), ...more });
  };
  const everyCell = ({ top, left, bottom, right }: Area, more: Partial<NewCell>): void => {
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) set(row, column, more);
    }
  };
  const widths: number[] = [];
  for (const { address, cells: written } of layout.writes) {
    const { row, column } = placeOf(address)!;
    eachCell(written, (cell, r, c) => {
      if (!('constant' in cell)) return;
      set(row + r, column + c, { value: cell.constant });
      // The lines above the table run over the cells beside them.
      if (row < areaOf(layout.table.range)!.top) return;
      const length = typeof cell.constant === 'string' ? cell.constant.length + 2 : 0;
      widths[column + c] = Math.min(WIDEST, Math.max(widths[column + c] ?? NARROWEST, length));
    });
  }
  for (const { range, numberFormat } of layout.formats) everyCell(areaOf(range)!, { numberFormat });
  for (const range of layout.headers) everyCell(areaOf(range)!, { look: 'heading' });
  everyCell(areaOf(layout.title)!, { look: 'title' });
  return {
    name,
    cells: [...cells.values()],
    widths: Array.from(widths, (width) => width ?? NARROWEST),
    table: { name: layout.table.name, area: areaOf(layout.table.range)!, headers: layout.table.columns },
    lists: layout.lists.flatMap(({ range, from }) => {
      const source = sourceOf(from, listed);
      return source === undefined ? [] : [{ area: areaOf(range)!, source }];
    }),
    ...(layout.chart && { chart: { ...layout.chart, over: areaOf(layout.chart.over)! } }),
  };
}
