import type { Grid } from '../engine/grid';
import type { WorkbookContent } from '../engine/workbook';
import { writtenDate } from '../../worksheet/calendar';
import type { Cell } from '../../worksheet/cells/cell';
import { freeName } from '../pane/book';
import { addressOf } from '../xlsx/address';
import { withLines, type LineChange } from '../xlsx/lines';
import type { Filter } from '../xlsx/filters';
import { withSheets } from '../xlsx/newSheets';
import { WorkbookFileError } from '../xlsx/package';
import { patchWorkbook, type Change } from '../xlsx/patch';
import { readPrintSetup } from '../xlsx/printSetup';
import { READERS_DAY, READERS_DAY_AND_TIME } from '../xlsx/styles';
import { withWidths } from '../xlsx/widths';
import { csvOf, type CsvCell } from './csv';
import { askForCsv } from './csvDialog';
import { download } from './download';
import { byId } from './element';
import { askForFilter } from './filterDialog';
import { chooseFormat } from './formatDialog';
import { allShown, appliedAgain, countOf, filterableAt, filtersWith } from './filtering';
import { plainNumberChanges } from './plainNumbers';
import { printSheet } from './printing';
import { sortableAt, sortedEntries } from './sorting';

/** The workbook that is open, and what can be done with it as a whole. */
export interface OpenBook {
  readonly name: string;
  readonly content: WorkbookContent;
  readonly grid: Grid;
  /** The file before anything was typed into it. */
  readonly opened: Uint8Array;
  /** The file with all that was typed into it. */
  readonly bytes: () => Uint8Array;
  /** The workbook becomes another in a step that undo takes back: with a new sheet, or with other rows or columns. */
  readonly goOn: (bytes: Uint8Array, step: Step) => Promise<void>;
  readonly tell: (sentence: string) => void;
}

export type Step = { readonly added: string } | { readonly lines: LineChange };

export const XLSX_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** Names of sheets have 31 characters at most and none of these signs. */
const sheetNameOf = (file: string): string =>
  file
    .replace(/\.[^.]*$/, '')
    .replace(/[[\]:*?/\\']/g, ' ')
    .trim()
    .slice(0, 28) || 'Text file';

/** Listens to the menu of the sheet, and gives what does one of its things from elsewhere. */
export function listenToSheetMenu(book: () => OpenBook | undefined): (name: string) => void {
  const menu = byId('sheet-menu');
  const button = byId('sheet-button');
  menu.addEventListener('beforetoggle', () => {
    const { left, bottom, right } = button.getBoundingClientRect();
    const room = document.documentElement.clientWidth;
    menu.style.top = `${bottom + 4}px`;
    menu.style.left = left + 300 < room ? `${left}px` : 'auto';
    menu.style.right = left + 300 < room ? 'auto' : `${Math.max(8, room - right)}px`;
  });
  const picker = byId<HTMLInputElement>('csv-picker');
  picker.addEventListener('change', () => {
    const [file] = picker.files ?? [];
    const open = book();
    if (file && open)
      void told(open, async () => takeCsv(open, file.name, new Uint8Array(await file.arrayBuffer())));
    picker.value = '';
  });
  menu.addEventListener('click', ({ target }) => {
    const kind = (target as HTMLElement).closest<HTMLElement>('[data-do]')?.dataset['do'];
    if (kind === undefined || !book()) return;
    menu.hidePopover();
    if (kind === 'csv-in') picker.click();
    else act(kind);
  });
  const act = (name: string): void => {
    const open = book();
    if (open) void told(open, () => ACTIONS[name]!(open));
  };
  return act;
}

/** Does something, and tells in a sentence why it cannot be done. */
async function told(book: OpenBook, action: () => Promise<void> | void): Promise<void> {
  try {
    await action();
  } catch (fault) {
    if (!(fault instanceof Error)) throw fault;
    book.tell(`Nothing was changed: ${fault.message}.`);
  }
}

const ACTIONS: Readonly<Record<string, (book: OpenBook) => Promise<void> | void>> = {
  'new-sheet': addSheet,
  'rows-in': (book) => changeLines(book, 'row', 'insert'),
  'columns-in': (book) => changeLines(book, 'column', 'insert'),
  'rows-out': (book) => changeLines(book, 'row', 'delete'),
  'columns-out': (book) => changeLines(book, 'column', 'delete'),
  'sort-up': (book) => sort(book, false),
  'sort-down': (book) => sort(book, true),
  formats: async ({ grid, tell }) => {
    const done = await chooseFormat(grid.workbook, grid.selection(), grid.selected());
    grid.focus();
    if (done !== undefined) tell(done);
  },
  filter: filterRows,
  'filter-again': filterAgain,
  'filter-off': showAllRows,
  'csv-out': saveCsv,
  plain: savePlain,
  print: ({ name, grid, opened, tell }) => {
    const fault = printSheet(name, grid, readPrintSetup(opened, grid.selection().sheet));
    if (fault !== undefined) tell(fault);
  },
};

async function addSheet({ bytes, content, goOn }: OpenBook): Promise<void> {
  const name = freeName(
    'Sheet',
    content.sheets.map((one) => one.name),
  );
  await goOn(withSheets(bytes(), [emptySheet(name)]), { added: name });
}

const emptySheet = (name: string) => ({ name, title: '', notes: [], things: [], gridLines: true }) as const;

async function changeLines(
  { grid, bytes, goOn, tell }: OpenBook,
  axis: LineChange['axis'],
  kind: LineChange['kind'],
): Promise<void> {
  const { sheet } = grid.selection();
  const { top, bottom, left, right } = grid.selected();
  const [at, last] = axis === 'row' ? [top, bottom] : [left, right];
  await grid.workbook.longCallsAnswered();
  const count = last - at + 1;
  const lines: LineChange = { sheet, axis, kind, at, count };
  await goOn(withLines(bytes(), lines), { lines });
  const named = `${count} ${axis}${count === 1 ? '' : 's'}`;
  tell(`${kind === 'insert' ? 'Inserted' : 'Deleted'} ${named}; undo takes it back.`);
}

function sort({ grid, tell }: OpenBook, isDescending: boolean): void {
  const sortable = sortableAt(grid.workbook, grid.workbook.vocabulary, grid.selection());
  if (!sortable) {
    tell('Select a cell of the column that you want to sort by: there are no rows to sort here.');
    return;
  }
  grid.workbook.enterAll(sortedEntries(grid.workbook, sortable, isDescending));
  const { area } = sortable;
  tell(`Sorted the rows ${area.top + 1} to ${area.bottom + 1}; undo takes it back.`);
}

/** Asks which rows are shown by the column of the selected cell. */
async function filterRows({ grid, tell }: OpenBook): Promise<void> {
  const { workbook } = grid;
  const filterable = filterableAt(workbook, workbook.vocabulary, grid.selection());
  const chosen = await askForFilter(workbook, filterable);
  grid.focus();
  if (!chosen) return;
  const filters = filtersWith(workbook, filterable, chosen.criterion);
  workbook.setFilters(filterable.sheet, filters);
  tell(shownWords(filters));
}

function shownWords(filters: readonly Filter[]): string {
  const count = countOf(filters);
  return count ? `${count.shown} of ${count.all} rows are shown; undo takes it back.` : 'All rows are shown.';
}

/** Shows and hides rows by what they hold now. */
function filterAgain({ grid, tell }: OpenBook): void {
  const { sheet } = grid.selection();
  const filters = appliedAgain(grid.workbook, sheet);
  if (!countOf(filters)) return tell(`No filter hides rows of ${sheet}.`);
  grid.workbook.setFilters(sheet, filters);
  grid.focus();
  tell(shownWords(filters));
}

function showAllRows({ grid, tell }: OpenBook): void {
  const { sheet } = grid.selection();
  const filters = grid.workbook.filtersIn(sheet);
  if (!countOf(filters)) return tell(`No filter hides rows of ${sheet}.`);
  grid.workbook.setFilters(sheet, allShown(filters));
  tell('All rows are shown.');
}

async function takeCsv({ bytes, content, goOn }: OpenBook, file: string, text: Uint8Array): Promise<void> {
  const rows = await askForCsv(file, text, content.dateSystem);
  if (!rows) return;
  if (rows.length === 0) throw new WorkbookFileError(`${file} holds nothing`);
  const name = freeName(
    sheetNameOf(file),
    content.sheets.map((one) => one.name),
  );
  const changes = rows.flatMap((row, r) => row.flatMap((cell, c) => changeFor(name, cell, r, c)));
  const filled = patchWorkbook(withSheets(bytes(), [emptySheet(name)]), changes);
  await goOn(withWidths(filled, widthsOf(name, rows)), { added: name });
}

function changeFor(sheet: string, { value, numberFormat }: CsvCell, row: number, column: number): Change[] {
  if (value === null) return [];
  const format = numberFormat === undefined ? {} : { numberFormat: readersFormat(numberFormat) };
  return [{ sheet, address: addressOf({ row, column }), formula: null, values: [[value]], ...format }];
}

/** On the sheet a day is shown in the order of whoever reads it, however the file wrote it. */
function readersFormat(code: string): string {
  if (!/^(d\/m|m\/d)\/yyyy( hh:mm)?$/.test(code)) return code;
  return code.endsWith('yyyy') ? READERS_DAY : READERS_DAY_AND_TIME;
}

const MOST_CHARACTERS = 40;

function widthsOf(sheet: string, rows: readonly (readonly CsvCell[])[]) {
  const count = rows.reduce((most, { length }) => Math.max(most, length), 0);
  return Array.from({ length: count }, (_, column) => {
    const longest = rows.slice(0, 200).reduce((most, row) => Math.max(most, lengthOf(row[column])), 8);
    return { sheet, column, width: Math.min(longest, MOST_CHARACTERS) + 2 };
  });
}

const lengthOf = (cell: CsvCell | undefined): number =>
  cell?.numberFormat !== undefined && /[dy]/i.test(cell.numberFormat)
    ? cell.numberFormat.length + 3
    : String((cell?.value as string | null) ?? '').length;

function saveCsv({ name, content, grid }: OpenBook): void {
  const { workbook } = grid;
  const { sheet } = grid.selection();
  const { row: rows, column: columns } = workbook.reachOf(sheet);
  const cells = Array.from({ length: rows + 1 }, (_, row) =>
    Array.from({ length: columns + 1 }, (__, column): Cell | { day: string } => {
      const address = addressOf({ row, column });
      const { value } = workbook.result(sheet, address);
      if (typeof value !== 'number' || !workbook.isDay(sheet, address)) return value;
      const minutes = Math.round(value * 1440);
      const [hour, minute] = [Math.floor(minutes / 60) % 24, minutes % 60];
      const clock = ` ${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
      const day = writtenDate(Math.floor(minutes / 1440), content.dateSystem);
      return { day: hour + minute === 0 ? day : day + clock };
    }),
  );
  download(`${name.replace(/\.xlsx$/i, '')} - ${sheet}.csv`, csvOf(cells, workbook.habits), 'text/csv');
}

async function savePlain({ name, content, grid, bytes, tell }: OpenBook): Promise<void> {
  await grid.workbook.longCallsAnswered();
  const changes = plainNumberChanges(
    grid.workbook,
    content.sheets.map((one) => one.name),
  );
  const numbers = changes.filter(({ formula }) => formula === null).length;
  download(name.replace(/(\.xlsx)?$/i, ' - plain numbers.xlsx'), patchWorkbook(bytes(), changes), XLSX_TYPE);
  tell(
    `Saved a copy with plain numbers in place of ${numbers} of Pinset\u2019s formulas; other formulas stay.`,
  );
}
