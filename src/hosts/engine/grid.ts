import {
  CorePlugin,
  helpers,
  load,
  registries,
  Spreadsheet,
  type CommandResult,
  type CoreCommand,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import { App } from '@odoo/owl';
import { child, childrenOf, parseXml } from '../xlsx/xml';
import { withRelativeTargets } from './relativeTargets';
import type { Solve } from '../worker/solver';
import { chartsOf } from './charts';
import { EngineWorkbook } from './engineWorkbook';
import type { WorkbookContent } from './workbook';

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
]);

class CellsOnly extends CorePlugin {
  static override getters = [] as never[];

  override allowDispatch(command: CoreCommand): CommandResult {
    const isFixed =
      command.type === 'ADD_COLUMNS_ROWS'
        ? command.base !== this.getters.getNumberHeaders(command.sheetId, command.dimension) - 1
        : FIXED.has(command.type);
    return (isFixed ? 'Readonly' : 'Success') as CommandResult;
  }
}
registries.corePluginRegistry.add('cells only', CellsOnly);

const OFFERED = new Set(['cut', 'copy', 'paste', 'clear_row', 'clear_column']);
for (const menu of [registries.cellMenuRegistry, registries.rowMenuRegistry, registries.colMenuRegistry]) {
  for (const key of menu.getKeys()) if (!OFFERED.has(key)) menu.remove(key);
}

export interface Selection {
  readonly sheet: string;
  readonly address: string;
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
  undo(): void;
  redo(): void;
  canUndo(): boolean;
  canRedo(): boolean;
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
  /** What the engine has to tell the person, in a sentence. */
  readonly onNotice: (text: string) => void;
}

/** Shows a workbook in an element of the page, calculated and ready to be typed into. */
export async function showGrid(options: GridOptions): Promise<Grid> {
  const { target, content, parts, templates, solve, onChange, onNotice } = options;
  const workbook = new EngineWorkbook(content, looksOf(parts), solve);
  await workbook.calculateWhole();
  const { model } = workbook;
  const { getters } = model;
  const app = new App(Spreadsheet, {
    props: {
      model,
      colorScheme: 'light',
      notifyUser: ({ text }: { text: string }) => onNotice(text),
      raiseError: (text: string) => onNotice(text),
      askConfirmation: (text: string, confirm: () => void) => {
        if (window.confirm(text)) confirm();
      },
    },
    env: { isSmall: false } as Spreadsheet['env'],
    templates,
    translateFn: (text: string) => text,
    warnIfNoStaticProps: false,
  });
  await app.mount(target);
  for (const composer of target.querySelectorAll<HTMLElement>('[contenteditable]')) {
    composer.setAttribute('aria-label', 'Formula or value of the selected cell');
    // The engine's own would bring it before everything else on the page.
    composer.tabIndex = 0;
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
    focus: () => target.querySelector<HTMLElement>('.o-grid [contenteditable]')?.focus(),
    undo: () => void model.dispatch('REQUEST_UNDO'),
    redo: () => void model.dispatch('REQUEST_REDO'),
    canUndo: () => getters.canUndo(),
    canRedo: () => getters.canRedo(),
    close: () => {
      workbook.close();
      model.off('update', watch);
      app.destroy();
    },
  };
}

/** What the engine's own reader makes of the file's looks; nothing where it cannot read them. */
function looksOf(written: Readonly<Record<string, string>>): WorkbookData | undefined {
  try {
    const parts = withRelativeTargets(written);
    const looks = load(parts);
    const usual = usualSize(parts);
    // Cells without a style have the engine's own size: those of the file's usual size should look alike.
    for (const style of Object.values(looks?.styles ?? {})) {
      if (style.fontSize === usual) delete style.fontSize;
    }
    for (const sheet of looks?.sheets ?? []) sheet.figures = chartsOf(sheet.figures, parts);
    return looks;
  } catch {
    return undefined;
  }
}

/** The size of letters in cells without a style: that of the first font (ISO/IEC 29500-1, 18.8.22). */
function usualSize(parts: Readonly<Record<string, string>>): number | undefined {
  const styles = Object.keys(parts).find((name) => /(^|\/)styles\.xml$/i.test(name));
  if (styles === undefined) return undefined;
  const [font] = childrenOf(child(parseXml(parts[styles]!, styles), 'fonts'), 'font');
  const size = child(font, 'sz')?.attributes['val'];
  return size === undefined ? undefined : Number(size);
}
