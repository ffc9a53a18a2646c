import {
  DEFAULT_LOCALE,
  helpers,
  Model,
  SPREADSHEET_DIMENSIONS,
  type CellPosition,
  type CoreCommand,
  type DataValidationCriterion,
  type Locale,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import { writtenDate, type DateSystem } from '../../worksheet/calendar';
import { type Cell, type Format, isCellError } from '../../worksheet/cells/cell';
import type { Solve } from '../worker/solver';
import { formatOf, readableFormat, toCell, written } from './cells';
import { EvaluatedWorkbook, type Entered } from './evaluator/evaluatedWorkbook';
import { toScalar } from './evaluator/pinsetValues';
import type { Seat } from './evaluator/references';
import { FilledCell, FormulaCell, type Slot } from './evaluator/sheetStore';
import { reachesOf } from './formulas';
import './functions';
import { GridCells, seatOf, sheetIdOf } from './gridCells';
import './copiedFormulas';
import { filtersOf, hidesRow, setFilters, type FilteredCell } from './filters';
import { keepUnpacked, together, withoutStep } from './history';
import './typedCells';
import { grownTables, likeAbove, withTables } from './tables';
import { READERS_DAY, READERS_DAY_AND_TIME } from '../xlsx/styles';
import { habitsOf, type Habits } from './typing/habits';
import { AS_TEXT, marksOf, shownFormat, Typing } from './typing/typing';
import { isFormula } from '../xlsx/content';
import type { Filter, SheetFilters } from '../xlsx/filters';
import type { TableShape, Vocabulary } from '../xlsx/formula';
import type { NumberFormat } from '../xlsx/numberFormats';
import type { ColumnWidth } from '../xlsx/widths';
import { LongCalls } from './longCalls';
import { calculateKeeping, proven, withoutResults } from './openWorkbook';
import { reasonOf, type Kept, type KeptFormula } from './proof';
import './shownCells';
import type { Surroundings } from './shownCells';
import type {
  CalculatingWorkbook,
  CellContent,
  CellName,
  CellResult,
  SheetContent,
  WorkbookContent,
} from './workbook';

const LOCALE: Locale = { ...DEFAULT_LOCALE, dateFormat: 'yyyy-mm-dd', timeFormat: 'hh:mm:ss', weekStart: 1 };

interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** Room beside what a sheet uses, so that what is typed later fits. */
const SPARE: Size = { rows: 60, columns: 6 };
const LEAST: Size = { rows: 100, columns: 26 };
const MOST: Size = { rows: 1_048_576, columns: 16_384 };
/** Ids of rules that were made here begin so. */
const OFFERED = 'offered ';
export const isOffered = ({ id }: { readonly id: string }): boolean => id.startsWith(OFFERED);

/** Cells that offer a list of words, or of what the cells of a range on their sheet hold. */
export interface OfferedCells {
  readonly sheet: string;
  readonly area: Zone;
  readonly from: string | readonly string[];
}

/** What a cell of the model holds now. */
export interface Entry {
  readonly address: string;
  readonly value: Cell;
  readonly formula?: string;
  /** Whether the formula is the one the workbook was opened with. */
  readonly isStored: boolean;
  /** Whether it keeps the stored result of a formula that is not calculated. */
  readonly isKept: boolean;
  /** The number format that it was given here. */
  readonly numberFormat?: string;
}

/** A formula that shows what the file stores for it; without a reason where only its calculation tells whether it does. */
export type StandingFormula = Omit<KeptFormula, 'why'> & { readonly why: Kept | undefined };

/** What else a workbook may be opened with. */
export interface Around {
  /** What else of the file the grid can show, such as widths, fills and borders. */
  readonly looks?: WorkbookData | undefined;
  /** Who answers the functions that may take long; their cells show #BUSY! until then. */
  readonly solve?: Solve | undefined;
  /** Where the file does not say how its people write days and numbers: `en-US`. */
  readonly language?: string;
  /** Of a workbook that was changed here: which formulas keep their results. Its file proves nothing any more. */
  readonly standing?: readonly StandingFormula[] | undefined;
  readonly filters?: readonly SheetFilters[];
}

/** Characters of a file's column to a pixel, as the engine reads them. */
const CHARACTERS_A_PIXEL = 0.143;

/** A constant or a formula for a cell. */
export interface CellEntry extends CellName {
  readonly formula?: string;
  readonly value?: Cell;
  readonly numberFormat?: string | undefined;
}

/**
 * A workbook that a grid shows. The grid's model holds what is in the cells; what comes of it the evaluator calculates.
 * `calculate` comes first, once its functions are prepared.
 */
export class EngineWorkbook implements CalculatingWorkbook {
  private readonly stored = new Map<string, CellContent>();
  private readonly sizes = new Map<string, Size>();
  private readonly longCalls: LongCalls | undefined;
  private evaluated: EvaluatedWorkbook;
  private isFresh = true;
  private kept: ReadonlyMap<string, KeptFormula> = new Map();
  private readonly content: WorkbookContent;
  private readonly looks: WorkbookData | undefined;
  private readonly standing: readonly StandingFormula[] | undefined;
  private readonly openedFilters: ReadonlyMap<string, readonly Filter[]>;
  /** What the grid held for each cell when it was opened, and what the evaluator was last told of it. */
  private readonly opened = new Map<string, string>();
  private readonly told = new Map<string, string>();
  private held: Model | undefined;
  private shown: GridCells | undefined;
  /** The number formats of the cells of the file, as the grid got them, and how the file writes them. */
  private readonly openedFormats = new Map<string, string>();
  /** The grid takes a cell's format away by an empty one. */
  private readonly codesInFile = new Map([
    ['', 'General'],
    [AS_TEXT, '@'],
  ]);
  private readonly openedWidths = new Map<string, number>();
  /** Tables that have taken in rows since the file was opened. */
  private grown: readonly TableShape[] = [];
  private habitsNow: Habits;
  private typed: Typing | undefined;

  constructor(
    content: WorkbookContent,
    { looks, solve, language = 'en-GB', standing, filters = [] }: Around = {},
  ) {
    this.looks = looks;
    this.standing = standing;
    this.openedFilters = new Map(filters.map((one) => [one.sheet, one.filters]));
    this.content = standing ? withoutResults(content, standing) : content;
    this.habitsNow = habitsOf(content, language);
    this.longCalls = solve && new LongCalls(solve, (cells) => this.recalculate(cells));
    this.evaluated = new EvaluatedWorkbook(this.content, this.longCalls);
    for (const { name, cells } of this.content.sheets) for (const cell of cells) this.read(name, cell);
  }

  /** Names of the functions its formulas call, in capitals. */
  functionsUsed(): Set<string> {
    return this.evaluated.functionsUsed();
  }

  /** Calculates everything; formulas that the file does not prove keep what it stores for them. */
  calculate(): void {
    this.workOut();
    this.fillModel();
  }

  /** As `calculate`, waiting for answers that take long: only with them is told which formulas the file proves. */
  async calculateWhole(): Promise<void> {
    this.workOut();
    if (await this.longCallsAnswered()) this.workOut();
    this.fillModel();
  }

  private workOut(): void {
    const open = (content: WorkbookContent) => new EvaluatedWorkbook(content, this.longCalls);
    const fresh = this.isFresh ? this.evaluated : open(this.content);
    const { workbook, kept } = this.standing ? this.goneOn(fresh) : this.triedOut(fresh, open);
    this.isFresh = false;
    this.evaluated = workbook;
    this.kept = new Map(kept.map((one) => [keyOf(one.sheet, one.address), one]));
    this.settleLongCalls();
  }

  private triedOut(fresh: EvaluatedWorkbook, open: (content: WorkbookContent) => EvaluatedWorkbook) {
    const { workbook, proof } = proven(this.content, fresh, open);
    return { workbook, kept: proof.kept };
  }

  private goneOn(workbook: EvaluatedWorkbook) {
    const kept = this.standing!.flatMap(({ why, ...one }) => (why ? [{ ...one, why }] : []));
    calculateKeeping(workbook, kept);
    return { workbook, kept };
  }

  /** Formulas of the file that show its results, because it does not prove them or they cannot be calculated. */
  keptNow(): StandingFormula[] {
    return this.content.sheets.flatMap(({ name: sheet }, at) =>
      [...this.evaluated.seats(at)].flatMap((seat): StandingFormula[] => {
        const slot = this.evaluated.slotAt(seat);
        if (!(slot instanceof FormulaCell) || slot.kept === undefined || !slot.content) return [];
        const address = helpers.toXC(seat.column, seat.row);
        const why = this.kept.get(keyOf(sheet, address))?.why;
        return [{ sheet, address, cell: slot.content, functions: slot.program.functions, why }];
      }),
    );
  }

  private fillModel(): void {
    const shownCells = new GridCells(
      this.evaluated,
      (cells) => this.follow(cells),
      () => this.habitsNow,
    );
    this.shown = shownCells;
    const custom: Surroundings = { shownCells };
    this.opened.clear();
    this.told.clear();
    this.held = quietly(() => new Model(this.data(), { custom: { ...custom } }));
    keepUnpacked(this.held);
    this.typed = new Typing(
      this.held,
      () => this.habitsNow,
      this.content.dateSystem,
      (position) => this.formulaIn(this.evaluated.slotAt(seatOf(position))),
      (position) => this.isText(position),
    );
    for (const [key, content] of this.contents()) {
      this.opened.set(key, content);
      this.told.set(key, content);
    }
    for (const [sheet, filters] of this.openedFilters) {
      withoutStep(() => this.putFilters(sheet, filters));
    }
    for (const { sheet, column, pixels } of this.columns())
      this.openedWidths.set(`${sheet}!${column}`, pixels);
    this.makeRoom();
  }

  /** Whether what is typed into a cell is text, whatever it looks like: so it is below a column of texts in a table. */
  private isText(position: CellPosition): boolean {
    const above = likeAbove(this.model.getters, position);
    if (above && this.isText(above)) return true;
    const format = this.model.getters.getCell(position)?.format;
    if (format !== undefined) return format === AS_TEXT;
    return this.stored.get(this.keyAt(position))?.numberFormat === '@';
  }

  private *columns(): Generator<{ sheet: string; column: number; pixels: number }> {
    const { getters } = this.model;
    for (const sheetId of getters.getSheetIds()) {
      const sheet = getters.getSheetName(sheetId);
      for (let column = 0; column < getters.getNumberCols(sheetId); column++) {
        yield { sheet, column, pixels: getters.getColSize(sheetId, column) };
      }
    }
  }

  /** The columns that were made wider or narrower here, in characters. */
  widths(): ColumnWidth[] {
    return [...this.columns()].flatMap(({ sheet, column, pixels }) => {
      const before = this.openedWidths.get(`${sheet}!${column}`);
      if ((before ?? SPREADSHEET_DIMENSIONS.DEFAULT_CELL_WIDTH) === pixels) return [];
      return [{ sheet, column, width: Math.round(pixels * CHARACTERS_A_PIXEL * 100) / 100 }];
    });
  }

  /** The names and tables of the workbook as they are now. */
  get vocabulary(): Vocabulary | undefined {
    const { vocabulary } = this.content;
    return vocabulary && this.grown.length > 0 ? withTables(vocabulary, this.grown) : vocabulary;
  }

  /** The tables that have taken in rows since the file was opened. */
  tablesGrown(): readonly TableShape[] {
    return this.grown;
  }

  /** Tells the evaluator of rows that have come to tables or gone again. */
  private followTables(): void {
    const { vocabulary } = this.content;
    if (!vocabulary) return;
    const before = this.grown;
    this.grown = grownTables(this.model.getters, vocabulary);
    const isSame = ({ name, area }: TableShape, all: readonly TableShape[]): boolean =>
      all.some((one) => one.name === name && one.area.bottom === area.bottom);
    const changed = [
      ...this.grown.filter((one) => !isSame(one, before)),
      ...before.filter((one) => !isSame(one, this.grown)),
    ];
    if (changed.length > 0) this.evaluated.renameTables(this.vocabulary!, changed);
  }

  /** The filters of a sheet; that of a table goes as far as the table. */
  filtersIn(sheet: string): readonly Filter[] {
    return filtersOf(this.model.getters, this.position(sheet, 'A1').sheetId).map((filter) => {
      const table = this.grown.find(({ name }) => name === filter.table);
      return table ? { ...filter, area: { ...filter.area, bottom: table.area.bottom } } : filter;
    });
  }

  /** Gives a sheet other filters, in a step of its own. */
  setFilters(sheet: string, filters: readonly Filter[]): void {
    this.putFilters(sheet, filters);
  }

  private putFilters(sheet: string, filters: readonly Filter[]): void {
    const { type, ...payload } = setFilters(this.position(sheet, 'A1').sheetId, filters);
    quietly(() => this.model.dispatch(type as never, payload as never));
  }

  /** The sheets that were given other filters than the file's. */
  filters(): SheetFilters[] {
    return this.content.sheets.flatMap(({ name: sheet }) => {
      const filters = this.filtersIn(sheet);
      const isSame = JSON.stringify(filters) === JSON.stringify(this.openedFilters.get(sheet) ?? []);
      return isSame ? [] : [{ sheet, filters }];
    });
  }

  isFiltered(sheet: string, row: number): boolean {
    return hidesRow(this.filtersIn(sheet), row);
  }

  get dateSystem(): DateSystem {
    return this.content.dateSystem;
  }

  /** A cell as filters read it. */
  filteredCell(sheet: string, address: string): FilteredCell {
    const { value } = this.evaluated.result(sheet, address);
    const isDay = typeof value === 'number' && this.isDay(sheet, address);
    const day = isDay ? writtenDate(Math.floor(value), this.content.dateSystem) : undefined;
    return { value, text: this.shownAt(sheet, address), day };
  }

  /** Tells the evaluator which rows are hidden now. */
  private followFilters(): void {
    this.content.sheets.forEach(({ name, hiddenRows = new Map<number, 'hand' | 'filter'>() }, at) => {
      const filtered = new Set(this.filtersIn(name).flatMap(({ hidden }) => hidden));
      const opened = new Set((this.openedFilters.get(name) ?? []).flatMap(({ hidden }) => hidden));
      const byHand = [...hiddenRows.keys()].filter((row) => !opened.has(row) && !filtered.has(row));
      this.evaluated.hide(
        at,
        new Map([
          ...byHand.map((row) => [row, 'hand'] as const),
          ...[...filtered].map((row) => [row, 'filter'] as const),
        ]),
      );
    });
  }

  /** Works out what was stopped. */
  workOutStopped(): void {
    this.longCalls?.again();
  }

  /** Resolves once no cell waits for an answer that takes long: at once to false where none does. */
  longCallsAnswered(): Promise<boolean> {
    return this.longCalls?.answered() ?? Promise.resolve(false);
  }

  /** Ends what is still being worked out. */
  close(): void {
    this.longCalls?.close();
  }

  get model(): Model {
    if (!this.held) throw new Error('a workbook must be calculated before it is read');
    return this.held;
  }

  /** How the workbook's people write days and numbers. */
  get habits(): Habits {
    return this.habitsNow;
  }

  set habits(habits: Habits) {
    this.habitsNow = habits;
    this.shown?.forget();
    const locale = { ...LOCALE, ...marksOf(habits) };
    withoutStep(() => quietly(() => this.model.dispatch('UPDATE_LOCALE', { locale })));
  }

  /** What a person types and pastes. */
  get typing(): Typing {
    if (!this.typed) throw new Error('a workbook must be calculated before it is typed into');
    return this.typed;
  }

  result(sheet: string, address: string): CellResult {
    const { unsupported, ...result } = this.evaluated.result(sheet, address);
    // What was typed has no stored result to keep: it shows an error that says why.
    if (unsupported !== undefined && this.isOfFile(sheet, address)) return { ...result, unsupported };
    const format = formatOf(this.model.getters.getEvaluatedCell(this.position(sheet, address)).format);
    return format === undefined ? result : { ...result, format };
  }

  type(sheet: string, address: string, content: string | number | boolean | null): void {
    const isTyped = typeof content === 'string' && content.startsWith('=');
    if (isTyped) this.extend(reachesOf(content, sheet));
    this.put(sheet, address, isTyped ? content : written(content));
  }

  /** Puts constants and formulas into cells, and lists that cells offer, as one step. */
  enterAll(entries: readonly CellEntry[], offers: readonly OfferedCells[] = []): void {
    for (const { sheet, address, formula } of entries) {
      if (formula !== undefined) this.extend(reachesOf(formula, sheet));
      const { row, col } = this.position(sheet, address);
      this.extend([{ sheet, rows: row + 1, columns: col + 1 }]);
    }
    const cells = entries.map(({ sheet, address, formula, value = null, numberFormat }): CoreCommand => {
      const format = readableFormat(numberFormat, this.content.dateSystem);
      if (format !== undefined) this.codesInFile.set(format, numberFormat!);
      return {
        type: 'UPDATE_CELL',
        ...this.position(sheet, address),
        content: formula ?? written(value),
        ...(format !== undefined && { format }),
      };
    });
    quietly(() => together(this.model, [...cells, ...offers.flatMap((offer) => this.offering(offer) ?? [])]));
    this.makeRoom();
  }

  /** Puts a constant into a cell, text that looks like a formula too, to be shown in `numberFormat` where one is given. */
  enter(sheet: string, address: string, constant: Cell, numberFormat?: string): void {
    this.enterAll([{ sheet, address, value: constant, numberFormat }]);
  }

  /** Cells offer a list: words, or those of a range of the same sheet. Nothing where cells have a rule. */
  private offering({ sheet, area: zone, from }: OfferedCells): CoreCommand | undefined {
    const { getters } = this.model;
    const { sheetId } = this.position(sheet, 'A1');
    const places = rowsOf(zone, (col, row) => ({ sheetId, col, row })).flat();
    if (places.some((place) => getters.getValidationRuleForCell(place))) return undefined;
    const criterion: DataValidationCriterion =
      typeof from === 'string'
        ? { type: 'isValueInRange', values: [from], displayStyle: 'arrow' }
        : { type: 'isValueInList', values: [...from], displayStyle: 'arrow' };
    const { top, left, bottom, right } = zone;
    return {
      type: 'ADD_DATA_VALIDATION_RULE',
      sheetId,
      ranges: [getters.getRangeDataFromZone(sheetId, zone)],
      rule: { id: `${OFFERED}${sheet}!${[top, left, bottom, right].join()}`, criterion, isBlocking: false },
    };
  }

  /** The lists that cells offer and the file does not know. */
  offered(): OfferedCells[] {
    const { getters } = this.model;
    return getters.getSheetIds().flatMap((sheetId) =>
      getters.getDataValidationRules(sheetId).flatMap(({ id, criterion, ranges }) => {
        const isList = criterion.type === 'isValueInRange' || criterion.type === 'isValueInList';
        if (!isOffered({ id }) || !isList) return [];
        const from = criterion.type === 'isValueInRange' ? criterion.values[0]! : criterion.values;
        return ranges.map(({ zone }) => ({ sheet: getters.getSheetName(sheetId), area: zone, from }));
      }),
    );
  }

  private put(sheet: string, address: string, content: string): void {
    const position = this.position(sheet, address);
    this.extend([{ sheet, rows: position.row + 1, columns: position.col + 1 }]);
    quietly(() => this.model.dispatch('UPDATE_CELL', { ...position, content }));
    this.makeRoom();
  }

  /** What a person sees in a cell. */
  shownAt(sheet: string, address: string): string {
    return this.model.getters.getEvaluatedCell(this.position(sheet, address)).formattedValue;
  }

  /** How the cells of an area show numbers from now on, in one step. */
  setNumberFormat(sheet: string, { top, bottom, left, right }: Zone, code: string): void {
    const { sheetId } = this.position(sheet, 'A1');
    this.extend([{ sheet, rows: bottom + 1, columns: right + 1 }]);
    const format = this.formatFor(code);
    if (format !== undefined) this.codesInFile.set(format, code);
    const cells = rowsOf({ top, bottom, left, right }, (col, row) => ({ sheetId, col, row })).flat();
    const commands = cells.map((at): CoreCommand => ({ type: 'UPDATE_CELL', ...at, format: format ?? '' }));
    quietly(() => together(this.model, commands));
  }

  /** The number format of a cell as a file writes it; undefined where it has none. */
  numberFormatOf(sheet: string, address: string): string | undefined {
    const format = this.model.getters.getCell(this.position(sheet, address))?.format;
    return format === undefined ? undefined : (this.codesInFile.get(format) ?? format);
  }

  /** How a number reads in a format. */
  shownIn(code: string, value: number): string {
    const format = shownFormat(this.formatFor(code), this.habitsNow);
    const locale = this.model.getters.getLocale();
    return helpers.formatValue(value, { locale, ...(format !== undefined && { format }) });
  }

  private formatFor(code: string): string | undefined {
    if (code === '@') return AS_TEXT;
    return code === READERS_DAY || code === READERS_DAY_AND_TIME
      ? code
      : readableFormat(code, this.content.dateSystem);
  }

  /** The cells that show numbers otherwise than the file says. */
  numberFormats(): NumberFormat[] {
    const { getters } = this.model;
    const before = new Map(this.openedFormats);
    const changed: NumberFormat[] = [];
    for (const { name: sheet } of this.content.sheets) {
      for (const cell of getters.getCells(this.position(sheet, 'A1').sheetId)) {
        const { col, row } = getters.getCellPosition(cell.id);
        const address = helpers.toXC(col, row);
        const key = keyOf(sheet, address);
        const was = before.get(key);
        before.delete(key);
        const { format } = cell;
        if ((format || undefined) === was) continue;
        changed.push({ sheet, address, code: this.codesInFile.get(format ?? '') ?? format! });
      }
      for (const key of before.keys()) {
        const [of, address] = [key.slice(0, key.lastIndexOf('!')), key.slice(key.lastIndexOf('!') + 1)];
        if (of === sheet.toLowerCase()) changed.push({ sheet, address, code: 'General' });
      }
    }
    return changed;
  }

  /** Whether the number of a cell is shown as a day. */
  isDay(sheet: string, address: string): boolean {
    const { format } = this.model.getters.getEvaluatedCell(this.position(sheet, address));
    return format !== undefined && helpers.isDateTimeFormat(format) && /[dy]/i.test(format);
  }

  /** How the numbers of a cell read, or of each column that its formula fills. */
  formatsFrom(sheet: string, address: string): Format[] {
    const { getters } = this.model;
    const position = this.position(sheet, address);
    const { sheetId, col: left, row: top } = position;
    const slot = this.slot(sheet, address);
    const { right, bottom } = (slot instanceof FormulaCell ? slot.filled : undefined) ?? {
      right: left,
      bottom: top,
    };
    return Array.from({ length: right - left + 1 }, (_, column) => {
      for (let row = top; row <= bottom; row++) {
        const format = formatOf(getters.getEvaluatedCell({ sheetId, col: left + column, row }).format);
        if (format !== undefined) return format;
      }
      return 'plain';
    });
  }

  /** The cell whose formula fills this one: itself, or the first of a result that reaches it. */
  filledFrom(sheet: string, address: string): string | undefined {
    const slot = this.slot(sheet, address);
    if (slot instanceof FilledCell) return helpers.toXC(slot.from.column, slot.from.row);
    return slot instanceof FormulaCell ? address : undefined;
  }

  /** The formula that stands in a cell: the stored one in its author's words while nobody has typed over it. */
  formulaAt(sheet: string, address: string): string | undefined {
    return this.formulaIn(this.slot(sheet, address));
  }

  private formulaIn(slot: Slot): string | undefined {
    return slot instanceof FormulaCell ? slot.text : undefined;
  }

  /** What a cell holds: a constant or its own formula; `filled` for one of several that a formula fills. */
  heldIn(sheet: string, address: string): Omit<CellEntry, keyof CellName> | 'filled' {
    const position = this.position(sheet, address);
    const slot = this.slot(sheet, address);
    if (slot instanceof FilledCell || (slot instanceof FormulaCell && slot.filled)) return 'filled';
    const format = this.model.getters.getCell(position)?.format;
    const numberFormat = format === undefined ? undefined : (this.codesInFile.get(format) ?? format);
    if (slot instanceof FormulaCell) return { formula: slot.text, numberFormat };
    return { value: this.evaluated.result(sheet, address).value, numberFormat };
  }

  /** The last row and column of a sheet that hold something, from 0. */
  reachOf(sheet: string): { readonly row: number; readonly column: number } {
    const at = this.content.sheets.findIndex(({ name }) => name === sheet);
    const store = this.evaluated.stores[at];
    return { row: store?.lastRow ?? -1, column: store?.lastColumn ?? -1 };
  }

  /** Everything the cells of a sheet hold, filled ones left out. */
  *entries(sheet: string): Generator<Entry> {
    const { getters } = this.model;
    for (const cell of getters.getCells(this.position(sheet, 'A1').sheetId)) {
      const position = getters.getCellPosition(cell.id);
      const address = helpers.toXC(position.col, position.row);
      const key = keyOf(sheet, address);
      const { value } = this.evaluated.result(sheet, address);
      const slot = this.slot(sheet, address);
      const held = this.heldAt(position);
      const isStored = this.opened.get(key) === held;
      const isKept = isStored && slot instanceof FormulaCell && slot.kept !== undefined;
      if (cell.isFormula) yield { address, value, formula: held, isStored, isKept };
      else if (cell.content !== '') {
        const numberFormat = this.givenFormat(key, cell.format);
        yield {
          address,
          value,
          isStored: false,
          isKept,
          ...(numberFormat !== undefined && { numberFormat }),
        };
      }
    }
  }

  /** The number format of a cell, as a file writes it, where that is another than the one it was opened with. */
  private givenFormat(key: string, format: string | undefined): string | undefined {
    if (format === undefined || format === this.openedFormats.get(key)) return undefined;
    return this.codesInFile.get(format) ?? format;
  }

  /** Cells that show an error, keep their stored result or depend on one, sheet by sheet and row by row. */
  *troubled(): Generator<CellResult & CellName> {
    for (const [at, { name: sheet }] of this.content.sheets.entries()) {
      for (const { row, column } of this.evaluated.seats(at)) {
        const address = helpers.toXC(column, row);
        const { value, unsupported, restsOn } = this.evaluated.result(sheet, address);
        if (!isCellError(value) && unsupported === undefined && restsOn === undefined) continue;
        yield { sheet, address, ...this.result(sheet, address) };
      }
    }
  }

  /** Why a formula of the file keeps what is stored for it, and the functions that it calls. */
  whyKept(sheet: string, address: string): { readonly why: Kept; readonly functions: readonly string[] } {
    return (
      this.kept.get(keyOf(sheet, address)) ?? {
        why: { because: 'lacking', what: this.result(sheet, address).unsupported ?? '' },
        functions: this.evaluated.functionsOf(sheet, address),
      }
    );
  }

  /** Brings what follows from a change of the model into line: results that grew get room. */
  settle(): void {
    this.makeRoom();
    this.settleLongCalls();
  }

  private settleLongCalls(): void {
    this.longCalls?.settle((seat) => this.evaluated.slotAt(seat) instanceof FormulaCell);
  }

  private recalculate(seats: readonly Seat[]): void {
    if (!this.held) return this.evaluated.recalculate(seats);
    const { getters } = this.held;
    const cellIds = seats.flatMap(
      ({ sheet, row, column }) => getters.getCell({ sheetId: sheetIdOf(sheet), row, col: column })?.id ?? [],
    );
    if (cellIds.length > 0) quietly(() => this.model.dispatch('EVALUATE_CELLS', { cellIds }));
  }

  /** Tells the evaluator what cells of the grid hold now. */
  private follow(cells: readonly CellPosition[] | 'any'): boolean {
    const now =
      cells === 'any'
        ? this.changedContents()
        : cells.map((at): [string, string] => [this.keyAt(at), this.heldAt(at)]);
    if (cells === 'any') this.followFilters();
    this.followTables();
    const entries: Entered[] = [];
    for (const [key, held] of now) {
      if (held === (this.told.get(key) ?? '')) continue;
      this.told.set(key, held);
      entries.push(this.entered(key, held));
    }
    if (entries.length > 0) this.evaluated.enter(entries);
    return entries.length > 0;
  }

  /** What the cells of the grid hold, and nothing for those that the evaluator knows of and that are empty now. */
  private changedContents(): Map<string, string> {
    const now = new Map([...this.told.keys()].map((key) => [key, '']));
    for (const [key, held] of this.contents()) now.set(key, held);
    return now;
  }

  private *contents(): Generator<[key: string, held: string]> {
    const { getters } = this.model;
    for (const sheetId of getters.getSheetIds()) {
      for (const cell of getters.getCells(sheetId)) {
        const position = getters.getCellPosition(cell.id);
        yield [this.keyAt(position), this.heldAt(position)];
      }
    }
  }

  private entered(key: string, held: string): Entered {
    const position = this.positionOf(key);
    const seat = seatOf(position);
    const stored = this.stored.get(key);
    if (stored && held === (this.opened.get(key) ?? '')) {
      const kept = this.kept.get(key);
      return { seat, stored, kept: kept && reasonOf(kept.why) };
    }
    const cell = this.model.getters.getCell(position);
    if (!cell) return { seat, value: null };
    if (cell.isFormula) return { seat, formula: held };
    return { seat, value: toScalar(toCell({ value: cell.parsedValue })) };
  }

  private heldAt(position: CellPosition): string {
    const { getters } = this.model;
    const cell = getters.getCell(position);
    if (!cell) return '';
    return cell.isFormula ? cell.compiledFormula.toFormulaString(getters) : cell.content;
  }

  private keyAt({ sheetId, col, row }: CellPosition): string {
    return keyOf(this.model.getters.getSheetName(sheetId), helpers.toXC(col, row));
  }

  private positionOf(key: string): CellPosition {
    const at = key.lastIndexOf('!');
    const sheetId = sheetIdOf(this.evaluated.book.sheetAt(key.slice(0, at))!);
    return { sheetId, ...helpers.toCartesian(key.slice(at + 1)) };
  }

  /** Whether a formula is the file's own, not one that was typed. */
  private isOfFile(sheet: string, address: string): boolean {
    const slot = this.slot(sheet, address);
    return slot instanceof FormulaCell && slot.content !== undefined;
  }

  private slot(sheet: string, address: string) {
    return this.evaluated.slotAt(this.evaluated.seatOf(sheet, address));
  }

  private read(sheet: string, cell: CellContent): void {
    this.stored.set(keyOf(sheet, cell.address), cell);
    const { bottom, right } = helpers.toZone(cell.spill ?? cell.address);
    this.enlarge(sheet, bottom + 1, right + 1);
    if (cell.formula === undefined) return;
    for (const reach of reachesOf(cell.formula, sheet)) this.enlarge(reach.sheet, reach.rows, reach.columns);
  }

  private enlarge(sheet: string, rows: number, columns: number): void {
    const name = sheet.toLowerCase();
    const size = this.sizes.get(name) ?? { rows: 0, columns: 0 };
    this.sizes.set(name, {
      rows: Math.max(size.rows, rows),
      columns: Math.max(size.columns, columns),
    });
  }

  private data(): WorkbookData {
    const formats = new Map<string, number>();
    const sheets = this.content.sheets.map((sheet, at) => this.sheetData(sheet, sheetIdOf(at), formats));
    return {
      ...helpers.createEmptyWorkbookData(),
      ...(this.looks && {
        styles: this.looks.styles,
        borders: this.looks.borders,
        // Rules for looks may speak of them; formulas come with names written out.
        namedRanges: this.looks.namedRanges,
      }),
      settings: { locale: { ...LOCALE, ...marksOf(this.habitsNow) } },
      sheets,
      formats: Object.fromEntries([...formats].map(([code, id]) => [id, code])),
    };
  }

  private sheetData(
    { name, cells }: SheetContent,
    id: string,
    formats: Map<string, number>,
  ): WorkbookData['sheets'][number] {
    const size = this.sizes.get(name.toLowerCase()) ?? { rows: 0, columns: 0 };
    const contents: Record<string, string> = {};
    const formatOfCell: Record<string, number> = {};
    for (const cell of cells) {
      const content = this.contentFor(name, cell);
      if (content !== '') contents[cell.address] = content;
      const code = this.formatIn(cell);
      if (code === undefined) continue;
      this.openedFormats.set(keyOf(name, cell.address), code);
      if (!cell.followsReader) this.codesInFile.set(code, cell.numberFormat!);
      if (!formats.has(code)) formats.set(code, formats.size + 1);
      formatOfCell[cell.address] = formats.get(code)!;
    }
    const looks = this.looks?.sheets.find((sheet) => sheet.name === name);
    const filtered = new Set(this.openedFilters.get(name)?.flatMap(({ hidden }) => hidden));
    return {
      ...helpers.createEmptySheet(id, name),
      ...looks,
      rows: Object.fromEntries(
        Object.entries(looks?.rows ?? {}).map(([row, one]) =>
          filtered.has(Number(row)) ? [row, { ...one, isHidden: false }] : [row, one],
        ),
      ),
      id,
      // Filter buttons would hide what the headers say.
      tables: (looks?.tables ?? []).map(({ config, ...table }) => ({
        ...table,
        ...(config && { config: { ...config, hasFilters: false } }),
      })),
      rowNumber: Math.min(MOST.rows, Math.max(LEAST.rows, size.rows + SPARE.rows, looks?.rowNumber ?? 0)),
      colNumber: Math.min(
        MOST.columns,
        Math.max(LEAST.columns, size.columns + SPARE.columns, looks?.colNumber ?? 0),
      ),
      cells: contents,
      formats: formatOfCell,
    };
  }

  private formatIn({ numberFormat, followsReader }: CellContent): string | undefined {
    const code = readableFormat(numberFormat, this.content.dateSystem);
    if (code === undefined || !followsReader) return code;
    return /h/i.test(code) ? READERS_DAY_AND_TIME : READERS_DAY;
  }

  /** What the grid is given for a cell, a formula as it was written; nothing for a cell that a formula elsewhere fills. */
  private contentFor(sheet: string, cell: CellContent): string {
    if (cell.formula !== undefined) return (this.content.vocabulary && cell.written) ?? cell.formula;
    const source = cell.spilledFrom && this.stored.get(keyOf(sheet, cell.spilledFrom));
    return source && isFormula(source) ? '' : written(cell.value);
  }

  /** Makes sheets larger for results that reach further. */
  makeRoom(): void {
    this.extend(
      this.content.sheets.map(({ name: sheet }, at) => ({
        sheet,
        rows: this.evaluated.stores[at]!.lastRow + 1,
        columns: this.evaluated.stores[at]!.lastColumn + 1,
      })),
    );
  }

  private extend(reaches: readonly (Size & { sheet: string })[]): void {
    for (const { sheet, rows, columns } of reaches) {
      const sheetId = this.sheetId(sheet);
      if (sheetId === undefined) continue;
      this.extendBy(sheetId, 'ROW', rows, MOST.rows);
      this.extendBy(sheetId, 'COL', columns, MOST.columns);
    }
  }

  private extendBy(sheetId: string, dimension: 'ROW' | 'COL', wanted: number, most: number): void {
    const { getters } = this.model;
    const now = getters.getNumberHeaders(sheetId, dimension);
    const quantity = Math.min(wanted, most) - now;
    if (quantity <= 0) return;
    const sheetName = getters.getSheetName(sheetId);
    withoutStep(() =>
      quietly(() =>
        this.model.dispatch('ADD_COLUMNS_ROWS', {
          sheetId,
          sheetName,
          dimension,
          base: now - 1,
          position: 'after',
          quantity,
        }),
      ),
    );
  }

  private sheetId(sheet: string): string | undefined {
    return this.model.getters.getSheetIdByName(sheet);
  }

  private position(sheet: string, address: string): CellPosition {
    const sheetId = this.sheetId(sheet);
    if (sheetId === undefined) throw new Error(`no sheet named ${sheet}`);
    return { sheetId, ...helpers.toCartesian(address) };
  }
}

const keyOf = (sheet: string, address: string): string => `${sheet.toLowerCase()}!${address}`;

interface Zone {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

function rowsOf<T>({ top, bottom, left, right }: Zone, at: (column: number, row: number) => T): T[][] {
  return Array.from({ length: bottom - top + 1 }, (_, row) =>
    Array.from({ length: right - left + 1 }, (_, column) => at(left + column, top + row)),
  );
}

/** The engine tells on the console how long it took: on a command line that would be among the results. */
function quietly<T>(run: () => T): T {
  const { debug } = console;
  console.debug = () => undefined;
  try {
    return run();
  } finally {
    console.debug = debug;
  }
}
