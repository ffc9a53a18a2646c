import Papa from 'papaparse';
import {
  helpers,
  registries,
  stores,
  type CellPosition,
  type CoreCommand,
  type FormulaCell,
  type Getters,
  type Model,
} from '@odoo/o-spreadsheet';
import { editText } from './typing/editText';
import { shownFormat, typingOf } from './typing/typing';

// The grid reads what is typed by one order of day and month for everybody. Here what is typed and pasted goes through
// the habits of the workbook, and is edited in them.

interface Composer {
  readonly getters: Getters;
  readonly model: Model;
  readonly currentEditedCell: CellPosition;
  readonly _currentContent: string;
  readonly initialContent: string | undefined;
  confirmEdition: (this: Composer, content: string) => void;
  getCurrentCanonicalContent: (this: Composer) => string;
  getComposerContent: (this: Composer, position: CellPosition, selection?: object) => { text: string };
  getPrettifiedFormula: (this: Composer, cell: FormulaCell) => string;
  setContent(text: string): void;
}

const composer = stores.CellComposerStore.prototype as unknown as Composer;
const { confirmEdition, getCurrentCanonicalContent, getComposerContent } = composer;

/** What was typed is a formula, or nothing. */
const isOwn = (content: string): boolean => content === '' || helpers.isFormula(content);

composer.confirmEdition = function (content) {
  const typing = typingOf(this.getters);
  if (!typing || isOwn(content) || this.getters.getEvaluatedCell(this.currentEditedCell).link) {
    return confirmEdition.call(this, content);
  }
  typing.put({ position: this.currentEditedCell, text: this._currentContent });
  this.model.dispatch('AUTOFILL_TABLE_COLUMN', { ...this.currentEditedCell });
  this.setContent('');
};

composer.getCurrentCanonicalContent = function () {
  const typing = typingOf(this.getters);
  const text = this._currentContent;
  if (!typing || isOwn(text) || text === this.initialContent) return getCurrentCanonicalContent.call(this);
  const typed = typing.read({ position: this.currentEditedCell, text });
  return typed.kind === 'number' ? String(typed.value) : text;
};

composer.getComposerContent = function (position, selection) {
  const typing = typingOf(this.getters);
  const cell = this.getters.getCell(position);
  const { value } = this.getters.getEvaluatedCell(position);
  const isFilled = this.getters.getArrayFormulaSpreadingOn(position) !== undefined;
  if (!typing || !cell || cell.isFormula || isFilled || typeof value !== 'number') {
    return getComposerContent.call(this, position, selection);
  }
  const habits = typing.habits();
  return { text: editText(value, shownFormat(cell.format, habits), habits, typing.dateSystem) };
};

// A formula is edited as it was written, not laid out over many lines.
composer.getPrettifiedFormula = function (cell) {
  const position = this.getters.getCellPosition(cell.id);
  return typingOf(this.getters)?.formulaAt(position) ?? cell.compiledFormula.toFormulaString(this.getters);
};

interface Pasted {
  readonly content: string;
  /** Set for what comes from another program. */
  readonly text?: string;
}

interface Clipboard {
  readonly getters: Getters;
  readonly dispatch: (type: string, payload: object) => unknown;
  convertTextToClipboardData: (this: Clipboard, text: string) => { cells: Pasted[][] };
  pasteCell: (
    this: Clipboard,
    origin: Pasted,
    target: CellPosition,
    options?: { pasteOption?: string },
  ) => void;
}

const clipboard = (
  registries.clipboardHandlersRegistries.cellHandlers.get('cell') as unknown as { prototype: Clipboard }
).prototype;
const { convertTextToClipboardData, pasteCell } = clipboard;

clipboard.convertTextToClipboardData = function (text) {
  const rows = rowsIn(text);
  const width = rows.reduce((most, { length }) => Math.max(most, length), 0);
  return {
    cells: rows.map((row) =>
      Array.from({ length: width }, (_, column) => {
        const text = row[column] ?? '';
        const [[cell]] = convertTextToClipboardData.call(this, text.replace(/[\t\r\n]/g, ' ')).cells as [
          [Pasted],
        ];
        return { ...cell, text };
      }),
    ),
  };
};

/**
 * The cells of a text from another program: a cell with a tab, a line break or quotes in it is in quotes. The line break
 * behind the last row begins no other, which would empty the cells below.
 */
export function rowsIn(text: string): string[][] {
  const { data } = Papa.parse<string[]>(text.replace(/\r\n?/g, '\n').replace(/\n$/, ''), { delimiter: '\t' });
  return data;
}

clipboard.pasteCell = function (origin, target, options) {
  const typing = typingOf(this.getters);
  if (!typing || origin.text === undefined || isOwn(origin.text.trim())) {
    return pasteCell.call(this, origin, target, options);
  }
  const command: CoreCommand | undefined = typing.pasted({ position: target, text: origin.text });
  if (!command) return;
  const { type, ...payload } = command;
  this.dispatch(type, payload);
};

interface FindAndReplace {
  readonly getters: Getters;
  replaceMatch: (
    this: FindAndReplace,
    match: CellPosition,
    search: string,
    replacement: string,
    options: Options,
  ) => void;
}

interface Options {
  readonly matchCase: boolean;
  readonly exactMatch: boolean;
}

const finding = stores.FindAndReplaceStore.prototype as unknown as FindAndReplace;
const { replaceMatch } = finding;

finding.replaceMatch = function (match, search, replacement, options) {
  const typing = typingOf(this.getters);
  const cell = this.getters.getCell(match);
  if (!typing || !cell || cell.isFormula || cell.content === '') {
    return replaceMatch.call(this, match, search, replacement, options);
  }
  const { value } = this.getters.getEvaluatedCell(match);
  const habits = typing.habits();
  const before =
    typeof value === 'number'
      ? editText(value, shownFormat(cell.format, habits), habits, typing.dateSystem)
      : String(value ?? '');
  const words = search.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  const pattern = new RegExp(options.exactMatch ? `^${words}$` : words, options.matchCase ? 'g' : 'gi');
  const text = before.replace(pattern, () => replacement);
  if (text !== before) typing.put({ position: match, text });
};
