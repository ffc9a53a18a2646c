import { isCellError } from '../../worksheet/cells/cell';
import type { CellEntry, EngineWorkbook } from '../engine/engineWorkbook';
import type { WorkbookContent } from '../engine/workbook';
import { bookOf } from '../fit/content';
import { freeName, type Book, type FormulaCell, type Place, type TableArea } from '../pane/book';
import type { CellsShown } from '../pane/reasons';
import { addressOf, areaOf, COLUMNS, fixedRangeOf, placeOf, ROWS } from '../xlsx/address';
import type { PlainSheet } from '../xlsx/describe';
import type { Vocabulary } from '../xlsx/formula';
import { codeOf } from '../xlsx/look';
import { withSheets } from '../xlsx/newSheets';
import { Package } from '../xlsx/package';
import { partsOf } from '../xlsx/parts';
import { definedNames, readTables, readWorkbook } from '../xlsx/read';

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
  /** Whether anything was typed since the file was opened or became another. */
  isTypedInto(): boolean;
  /** Opens the file as it was before these sheets were added. */
  becomeAgain(bytes: Uint8Array, without: readonly string[]): Promise<void>;
}

/**
 * What the pane does to the workbook that is open in the page. New sheets are added to the file, tables and lists
 * included, and the file is opened again: what a saved copy holds is what the page shows.
 */
export function workbenchBook(desk: () => Desk): Book {
  /** The file before each sheet was added. */
  const before = new Map<string, Uint8Array>();

  async function add(sheet: PlainSheet): Promise<string> {
    const bytes = desk().bytes();
    const name = freeName(sheet.name, contentsOf(bytes).sheetNames);
    await desk().become(withSheets(bytes, [{ ...sheet, name }]), name);
    before.set(name, bytes);
    return name;
  }

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
      const { row, column } = placeOf(address)!;
      const entries = cells.flatMap((inRow, r) =>
        inRow.flatMap(({ value, reads, formula }, c): CellEntry[] => {
          const at = { sheet, address: addressOf({ row: row + r, column: column + c }) };
          if (formula !== undefined) return [{ ...at, formula }];
          return value === null ? [] : [{ ...at, value, numberFormat: reads && codeOf(reads) }];
        }),
      );
      const offers = lists.map(({ area, choices }) => ({
        sheet,
        area,
        from: typeof choices === 'string' ? fixedRangeOf(areaOf(choices)!) : choices,
      }));
      desk().workbook.enterAll(entries, offers);
      return Promise.resolve();
    },

    addSheet: (name) => add({ name, title: '', notes: [], things: [], gridLines: true }),

    takenNames: () => {
      const { tables, names } = contentsOf(desk().bytes());
      return Promise.resolve([...tables.map(({ name }) => name), ...names]);
    },

    layDown: add,

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
        ...(workbook.vocabulary && { shown: shownIn(workbook, workbook.vocabulary, content.sheets) }),
      });
    },

    everything: () => {
      const bytes = desk().bytes();
      return Promise.resolve(bookOf(readWorkbook(bytes), contentsOf(bytes).tables));
    },

    change: (changes) => {
      desk().workbook.enterAll(
        changes.map(({ place, value, format }) => ({ ...place, value, numberFormat: format })),
      );
      return Promise.resolve();
    },

    takeBack: async (sheets) => {
      const bytes = before.get(sheets[0]!);
      if (bytes === undefined || desk().isTypedInto()) {
        throw new Error('cells were typed into since, and they would be lost');
      }
      await desk().becomeAgain(bytes, sheets);
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
  return { sheetNames: parts.allSheets, tables, names: definedNames(parts) };
}

/** What the cells show now, for calls that are made again. */
function shownIn(
  workbook: EngineWorkbook,
  vocabulary: Vocabulary,
  sheets: WorkbookContent['sheets'],
): CellsShown {
  const named = (name: string): string | undefined =>
    sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase())?.name;
  return {
    vocabulary,
    cells(name, { top, left, bottom, right }) {
      const sheet = named(name);
      if (sheet === undefined) return undefined;
      // Of whole rows and columns only what is used.
      const reach = workbook.reachOf(sheet);
      const rows = (bottom < ROWS - 1 ? bottom : Math.max(top, reach.row)) - top + 1;
      const columns = (right < COLUMNS - 1 ? right : Math.max(left, reach.column)) - left + 1;
      return Array.from({ length: rows }, (_, row) =>
        Array.from(
          { length: columns },
          (__, column) => workbook.result(sheet, addressOf({ row: top + row, column: left + column })).value,
        ),
      );
    },
    spill(name, { row, column }) {
      const sheet = named(name);
      const block = sheet && workbook.result(sheet, addressOf({ row, column })).block;
      if (!block) return undefined;
      return { top: row, left: column, bottom: row + block.length - 1, right: column + block[0]!.length - 1 };
    },
  };
}

/** A fault anywhere in a call's answer counts, so that a bad row of a spilled column is found. */
function formulasIn(workbook: EngineWorkbook, sheet: string): FormulaCell[] {
  return [...workbook.entries(sheet)].flatMap(({ address }): FormulaCell[] => {
    const formula = workbook.formulaAt(sheet, address);
    if (formula === undefined) return [];
    const { value, block = [[value]] } = workbook.result(sheet, address);
    const own = placeOf(address)!;
    const faults = block.flatMap((row, r) =>
      row.flatMap((cell, c) =>
        isCellError(cell) ? [{ ...cell, at: addressOf({ row: own.row + r, column: own.column + c }) }] : [],
      ),
    );
    const [first] = faults;
    if (!first) return [{ sheet, address, formula }];
    const { code: error, reason, at } = first;
    return [{ sheet, address, formula, error, reason, at, more: faults.length - 1 }];
  });
}
