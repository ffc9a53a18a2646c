import {
  CorePlugin,
  helpers,
  registries,
  Spreadsheet,
  type CommandResult,
  type CoreCommand,
} from '@odoo/o-spreadsheet';
import { App } from '@odoo/owl';
import type { Solve } from '../worker/solver';
import { drawDark, dyeSheets } from './darkSheet';
import { EngineWorkbook, isOffered, type StandingFormula } from './engineWorkbook';
import { forgetUndone, onStep } from './history';
import './drawnCharts';
import { inOurClothes, inOurWords } from './clothes';
import { isEdited } from './keys';
import { looksOf } from './looks';
import { tooWideAt } from './numbersTooWide';
import type { Listener } from './typing/typing';
import type { WorkbookContent } from './workbook';
import type { SheetFilters } from '../xlsx/filters';

// The engine's own grid, for a page. It changes what cells hold; rows, columns, sheets and looks stay as they are in
// the file, because only cells are written back to it.

const FIXED: ReadonlySet<string> = new Set([
  'REMOVE_COLUMNS_ROWS',
  'MOVE_COLUMNS_ROWS',
  'CREATE_SHEET',
  'DELETE_SHEET',
  'DUPLICATE_SHEET',
  'RENAME_SHEET',
  'MOVE_SHEET',
  'HIDE_SHEET',
  'ADD_MERGE',
  'REMOVE_MERGE',
  'SET_FORMATTING',
  'CLEAR_FORMATTING',
  'CREATE_TABLE',
  'CREATE_CHART',
  'CREATE_FIGURE',
  'UPDATE_FIGURE',
  'DELETE_FIGURE',
  'UPDATE_CHART',
  'DELETE_CHART',
  'SET_BORDER',
  'SET_ZONE_BORDERS',
  'SET_BORDERS_ON_TARGET',
  'ADD_CONDITIONAL_FORMAT',
  'REMOVE_CONDITIONAL_FORMAT',
  'REMOVE_DATA_VALIDATION_RULE',
]);

class CellsOnly extends CorePlugin {
  static override getters = [] as never[];

  override allowDispatch(command: CoreCommand): CommandResult {
    return (this.isFixed(command) ? 'Readonly' : 'Success') as CommandResult;
  }

  private isFixed(command: CoreCommand): boolean {
    if (command.type === 'ADD_COLUMNS_ROWS') {
      return command.base !== this.getters.getNumberHeaders(command.sheetId, command.dimension) - 1;
    }
    if (command.type === 'ADD_DATA_VALIDATION_RULE') return !isOffered(command.rule);
    // What is pasted or filled brings its looks along, which no file would get.
    if (command.type === 'UPDATE_CELL') delete command.style;
    return FIXED.has(command.type);
  }
}
registries.corePluginRegistry.add('cells only', CellsOnly);

const OFFERED = new Set(['cut', 'copy', 'paste', 'clear_row', 'clear_column']);
for (const menu of [registries.cellMenuRegistry, registries.rowMenuRegistry, registries.colMenuRegistry]) {
  for (const key of menu.getKeys()) if (!OFFERED.has(key)) menu.remove(key);
}

/** A cell as it is printed. */
export interface PrintedCell {
  readonly text: string;
  readonly isNumber: boolean;
  readonly bold: boolean;
  /** Where the file says it. */
  readonly align: string | undefined;
  readonly fill: string | undefined;
  readonly colour: string | undefined;
  /** How many columns it takes. */
  readonly across: number;
  /** The colours of the lines that the file draws along it. */
  readonly ruled: Partial<Record<(typeof SIDES)[number], string>>;
}

/** Cells as they are printed: those of hidden rows and columns are left out. */
export interface PrintedCells {
  readonly columns: readonly number[];
  readonly rows: readonly { readonly row: number; readonly cells: readonly PrintedCell[] }[];
}

export interface Selection {
  readonly sheet: string;
  readonly address: string;
}

/** Rows and columns, from 0. */
export interface Zone {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** A workbook shown in a page. */
export interface Grid {
  readonly workbook: EngineWorkbook;
  /** Sheets that are not hidden, in order. */
  sheets(): readonly string[];
  selection(): Selection;
  select(selection: Selection): void;
  /** Puts the keyboard on the cells. */
  focus(): void;
  /** Whether something is being typed into a cell. */
  isEdited(): boolean;
  undo(): void;
  redo(): void;
  canUndo(): boolean;
  canRedo(): boolean;
  /** Leaves nothing to redo. */
  forgetUndone(): void;
  /** What the selected cell would say if its column were wider; undefined where it says so. */
  tooWide(): string | undefined;
  /** The rows and columns that are selected, from 0. */
  selected(): Zone;
  /** A part of the sheet that is shown: where it has no end, as far as the sheet is filled. */
  printed(part: Zone): PrintedCells;
  /** Takes the cells from the page; the workbook stays as it is. */
  hide(): void;
  /** Puts the cells back into an element of the page. */
  show(target: HTMLElement): Promise<void>;
  close(): void;
}

export interface GridOptions {
  readonly target: HTMLElement;
  readonly content: WorkbookContent;
  /** The file's XML parts by name, for its looks: widths, fills, borders, rules. */
  readonly parts: Readonly<Record<string, string>>;
  /** The engine's templates, as its package ships them. */
  readonly templates: string;
  /** Answers the functions that may take long. */
  readonly solve: Solve;
  /** After every change of a cell or of the selection. */
  readonly onChange: () => void;
  /** After every step of the person that undo takes back. */
  readonly onStep: () => void;
  /** What the engine has to tell the person, in a sentence. */
  readonly onNotice: (text: string) => void;
  /** Answers what a text that is typed may mean. */
  readonly ask: Listener['ask'];
  /** The browser's language, `en-US`. */
  readonly language: string;
  /** Of a workbook that was changed here: which formulas keep their results. */
  readonly standing?: readonly StandingFormula[] | undefined;
  /** The filters of the file. */
  readonly filters: readonly SheetFilters[];
  /** Whether cells are put on a dark sheet; asked whenever they are put into the page. */
  readonly isDark: () => boolean;
}

/** Shows a workbook in an element of the page, calculated and ready to be typed into. */
export async function showGrid(options: GridOptions): Promise<Grid> {
  const { content, parts, solve, onChange, onNotice, ask, language, standing, filters } = options;
  const looks = looksOf(parts);
  const shown = 'data' in looks ? looks.data : undefined;
  const workbook = new EngineWorkbook(content, { looks: shown, solve, language, standing, filters });
  await workbook.calculateWhole();
  const { model } = workbook;
  const { getters } = model;
  workbook.typing.listener = { ask, tell: onNotice, thisYear: () => new Date().getFullYear() };
  if ('fault' in looks) {
    onNotice(
      'The colours, borders and widths of this workbook cannot be shown here ' +
        `(${looks.fault.replace(/[.\s]+$/, '')}). Its cells are all here, and a saved copy keeps its looks.`,
    );
  }
  const watch = {};
  let isSettling = false;
  model.on('update', watch, () => {
    if (isSettling) return;
    isSettling = true;
    workbook.settle();
    isSettling = false;
    onChange();
  });
  onStep(model, options.onStep);
  let hide = await mounted(options.target, workbook, options);
  return {
    workbook,
    sheets: () => getters.getVisibleSheetIds().map((id) => getters.getSheetName(id)),
    selection: () => {
      const { sheetId, col, row } = getters.getActivePosition();
      return { sheet: getters.getSheetName(sheetId), address: helpers.toXC(col, row) };
    },
    select: ({ sheet, address }) => {
      const sheetId = getters.getSheetIdByName(sheet);
      if (sheetId === undefined) return;
      const from = getters.getActiveSheetId();
      if (sheetId !== from) model.dispatch('ACTIVATE_SHEET', { sheetIdFrom: from, sheetIdTo: sheetId });
      const { col, row } = helpers.toCartesian(address);
      model.selection.selectCell(col, row);
    },
    focus: () =>
      options.target.ownerDocument.querySelector<HTMLElement>('#grid .o-grid [contenteditable]')?.focus(),
    isEdited: () => isEdited(getters),
    undo: () => void model.dispatch('REQUEST_UNDO'),
    redo: () => void model.dispatch('REQUEST_REDO'),
    canUndo: () => getters.canUndo(),
    canRedo: () => getters.canRedo(),
    forgetUndone: () => forgetUndone(model),
    tooWide: () => tooWideAt(getters, getters.getActivePosition()),
    selected: () => getters.getSelectedZone(),
    printed: (part) => printedCells(workbook, part),
    hide: () => hide(),
    show: async (target) => {
      hide = await mounted(target, workbook, options);
    },
    close: () => {
      workbook.close();
      model.off('update', watch);
      hide();
    },
  };
}

/** Puts the cells of a workbook into an element, and gives what takes them out again. */
async function mounted(
  target: HTMLElement,
  { model }: EngineWorkbook,
  { templates, onNotice, isDark }: GridOptions,
): Promise<() => void> {
  const { getters } = model;
  dyeSheets(isDark());
  model.dispatch('EVALUATE_CHARTS');
  const app = new App(Spreadsheet, {
    props: {
      model,
      colorScheme: isDark() ? 'dark' : 'light',
      notifyUser: ({ text }: { text: string }) => onNotice(text),
      raiseError: (text: string) => onNotice(text),
      askConfirmation: (text: string, confirm: () => void) => {
        if (window.confirm(text)) confirm();
      },
    },
    env: { isSmall: false } as Spreadsheet['env'],
    templates: inOurClothes(templates),
    translateFn: inOurWords,
    warnIfNoStaticProps: false,
  });
  await app.mount(target);
  for (const canvas of target.querySelectorAll<HTMLCanvasElement>('.o-grid > canvas')) drawDark(canvas);
  for (const composer of target.querySelectorAll<HTMLElement>('[contenteditable]')) {
    composer.setAttribute('aria-label', 'Formula or value of the selected cell');
    // The engine's own would bring it before everything else on the page.
    composer.tabIndex = 0;
  }
  // Keys may come faster than cells are drawn: the field still shows what was entered last, or another cell, and what is
  // typed would be added to that. Drawn between a key and its letter, the field would lose the letter: what is still to be
  // drawn is drawn first.
  const emptyField = ({ isComposing }: KeyboardEvent): void => {
    if (isComposing) return;
    app.scheduler.processTasks();
    if (isEdited(getters)) return;
    for (const field of target.querySelectorAll('.o-grid [contenteditable]')) field.replaceChildren();
  };
  target.addEventListener('keydown', emptyField, { capture: true });
  // Of a cell that shows `####` the pointer tells what it holds.
  const tellAt = ({ target: under, offsetX, offsetY }: MouseEvent): void => {
    if (!(under instanceof HTMLElement) || under.closest('.o-grid-overlay') === null) return;
    const [col, row] = [getters.getColIndex(offsetX), getters.getRowIndex(offsetY)];
    const isCell = col >= 0 && row >= 0;
    const text = isCell ? tooWideAt(getters, { sheetId: getters.getActiveSheetId(), col, row }) : undefined;
    if (target.title !== (text ?? '')) target.title = text ?? '';
  };
  target.addEventListener('mousemove', tellAt);
  return () => {
    target.removeEventListener('keydown', emptyField, { capture: true });
    target.removeEventListener('mousemove', tellAt);
    app.destroy();
  };
}

function printedCells(workbook: EngineWorkbook, part: Zone): PrintedCells {
  const { getters } = workbook.model;
  const sheetId = getters.getActiveSheetId();
  const reach = workbook.reachOf(getters.getSheetName(sheetId));
  const { top, left } = part;
  // What has no end ends where the sheet is filled.
  const bottom = part.bottom < getters.getNumberRows(sheetId) ? part.bottom : reach.row;
  const right = part.right < getters.getNumberCols(sheetId) ? part.right : reach.column;
  const columns = linesOf(left, right).filter((col) => !getters.isColHidden(sheetId, col));
  const rows = linesOf(top, bottom).filter((row) => !getters.isRowHidden(sheetId, row));
  const cellAt = (row: number, col: number): PrintedCell[] => {
    const at = { sheetId, col, row };
    const merge = getters.getMerge(at);
    const across = merge ? columns.filter((one) => one >= merge.left && one <= merge.right) : [col];
    if (across[0] !== col) return [];
    const { bold = false, align, fillColor: fill, textColor: colour } = getters.getCellComputedStyle(at);
    const border = getters.getCellComputedBorder(at);
    const lines = SIDES.flatMap((side) => (border?.[side] ? [[side, border[side].color] as const] : []));
    const looks = { bold, align, fill, colour, across: across.length, ruled: Object.fromEntries(lines) };
    // What is merged is said once, in its first row that is printed.
    if (merge && rows.find((one) => one >= merge.top) !== row)
      return [{ ...looks, text: '', isNumber: false }];
    const held = merge ? { sheetId, col: merge.left, row: merge.top } : at;
    const { formattedValue: text, value } = getters.getEvaluatedCell(held);
    return [{ ...looks, text, isNumber: typeof value === 'number' }];
  };
  return {
    columns,
    rows: rows.map((row) => ({ row, cells: columns.flatMap((col) => cellAt(row, col)) })),
  };
}

const SIDES = ['top', 'right', 'bottom', 'left'] as const;

const linesOf = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => from + at);
