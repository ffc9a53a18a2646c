import {
  DEFAULT_LOCALE,
  helpers,
  Model,
  type CellPosition,
  type DataValidationCriterion,
  type EvaluatedCell,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import type { Cell, Format } from '../../worksheet/cells/cell';
import { formatOf, isErrorText, readableFormat, toCell, written } from './cells';
import { needsOf, type Needs } from './formulas';
import type { Solve } from '../worker/solver';
import { isCatalogueName, type WorkbookSettings } from './functions';
import './builtIns';
import { LongCalls } from './longCalls';
import type { CalculatingWorkbook, CellContent, CellResult, SheetContent, WorkbookContent } from './workbook';

const LOCALE = { ...DEFAULT_LOCALE, dateFormat: 'yyyy-mm-dd', timeFormat: 'hh:mm:ss', weekStart: 1 };

interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** Room beside what a sheet uses, so that what is typed later fits. */
const SPARE: Size = { rows: 60, columns: 6 };
const LEAST: Size = { rows: 100, columns: 26 };
const MOST: Size = { rows: 1_048_576, columns: 16_384 };
/** One round settles unless the size of one result hangs on another that had no room either. */
const MOST_ROUNDS = 10;

/** Ids of rules that were made here begin so. */
const OFFERED = 'offered ';

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
  /** Whether it keeps the stored result of a formula that is not calculated, or is a part of one. */
  readonly isKept: boolean;
}

/** A workbook in the engine's model. `calculate` comes first, once its functions are prepared. */
export class EngineWorkbook implements CalculatingWorkbook {
  private readonly needs = new Map<CellContent, Needs>();
  /** Formulas that keep their stored result, and what the engine lacks for each. */
  private readonly kept = new Map<string, string>();
  private readonly stored = new Map<string, CellContent>();
  private readonly sizes = new Map<string, Size>();
  /** What the model held for each formula's cell when it was opened. */
  private readonly opened = new Map<string, string>();
  private readonly longCalls: LongCalls | undefined;
  private held: Model | undefined;

  /**
   * `looks`: what else of the file the engine can show, such as widths, fills and borders. `solve`: who answers the
   * functions that may take long; their cells show #BUSY! until then.
   */
  constructor(
    private readonly content: WorkbookContent,
    private readonly looks?: WorkbookData,
    solve?: Solve,
  ) {
    this.longCalls = solve && new LongCalls(solve, (cells) => this.recalculate(cells));
    for (const { name, cells } of content.sheets) for (const cell of cells) this.read(name, cell);
  }

  /** Names of the functions its formulas call, in capitals. */
  functionsUsed(): Set<string> {
    return new Set([...this.needs.values()].flatMap(({ functions }) => functions));
  }

  /** Calculates, and again with the stored result in place of every formula the engine turns out not to know. */
  calculate(): void {
    const custom: WorkbookSettings = { dateSystem: this.content.dateSystem, longCalls: this.longCalls };
    do {
      this.held = quietly(() => new Model(this.data(), { custom }));
    } while (this.keepWhatFails());
    this.makeRoom();
    for (const { name, cells } of this.content.sheets) {
      for (const { address, formula } of cells) {
        if (formula === undefined) continue;
        this.opened.set(keyOf(name, address), this.heldAt(this.position(name, address)));
      }
    }
    this.settleLongCalls();
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

  result(sheet: string, address: string): CellResult {
    const key = keyOf(sheet, address);
    const lackingInStored = this.kept.get(key);
    if (lackingInStored !== undefined) return this.storedResult(sheet, key, lackingInStored);
    const position = this.position(sheet, address);
    const held = this.model.getters.getEvaluatedCell(position);
    const format = formatOf(held.format);
    const block = this.block(position);
    const lacking = isErrorText(held.value) ? this.lackingAt(position) : undefined;
    return {
      value: toCell(held),
      ...(format && { format }),
      ...(block && { block }),
      ...(lacking !== undefined && { unsupported: lacking }),
    };
  }

  type(sheet: string, address: string, content: string | number | boolean | null): void {
    const isFormula = typeof content === 'string' && content.startsWith('=');
    if (isFormula) this.extend(needsOf(content, sheet, this.content.dateSystem).reaches);
    this.put(sheet, address, isFormula ? content : written(content));
  }

  /** Puts a constant into a cell, text that looks like a formula too, to be shown in `numberFormat` where one is given. */
  enter(sheet: string, address: string, constant: Cell, numberFormat?: string): void {
    this.put(sheet, address, written(constant), readableFormat(numberFormat, this.content.dateSystem));
  }

  /** Makes cells offer a list: words, or those of a range of the same sheet. Cells that have a rule keep it. */
  offer(sheet: string, range: string, from: OfferedCells['from']): void {
    const { getters } = this.model;
    const { sheetId } = this.position(sheet, 'A1');
    const zone = helpers.toZone(range);
    const places = rowsOf(zone, (col, row) => ({ sheetId, col, row })).flat();
    if (places.some((place) => getters.getValidationRuleForCell(place))) return;
    const criterion: DataValidationCriterion =
      typeof from === 'string'
        ? { type: 'isValueInRange', values: [from], displayStyle: 'arrow' }
        : { type: 'isValueInList', values: [...from], displayStyle: 'arrow' };
    const rule = { id: `${OFFERED}${sheet}!${range}`, criterion, isBlocking: false };
    quietly(() =>
      this.model.dispatch('ADD_DATA_VALIDATION_RULE', {
        sheetId,
        ranges: [getters.getRangeDataFromZone(sheetId, zone)],
        rule,
      }),
    );
  }

  /** The lists that cells offer and the file does not know. */
  offered(): OfferedCells[] {
    const { getters } = this.model;
    return getters.getSheetIds().flatMap((sheetId) =>
      getters.getDataValidationRules(sheetId).flatMap(({ id, criterion, ranges }) => {
        const isList = criterion.type === 'isValueInRange' || criterion.type === 'isValueInList';
        if (!id.startsWith(OFFERED) || !isList) return [];
        const from = criterion.type === 'isValueInRange' ? criterion.values[0]! : criterion.values;
        return ranges.map(({ zone }) => ({ sheet: getters.getSheetName(sheetId), area: zone, from }));
      }),
    );
  }

  private put(sheet: string, address: string, content: string, format?: string): void {
    const position = this.position(sheet, address);
    this.extend([{ sheet, rows: position.row + 1, columns: position.col + 1 }]);
    this.dropStored(sheet, address);
    this.write(position, content, format);
    this.makeRoom();
  }

  /** What a person sees in a cell. */
  shownAt(sheet: string, address: string): string {
    return this.model.getters.getEvaluatedCell(this.position(sheet, address)).formattedValue;
  }

  /** How the numbers of a cell read, or of each column that its formula fills. */
  formatsFrom(sheet: string, address: string): Format[] {
    const { getters } = this.model;
    const position = this.position(sheet, address);
    const { sheetId, col: left, row: top } = position;
    const { right, bottom } = this.spread(position) ?? { right: left, bottom: top };
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
    const { getters } = this.model;
    const position = this.position(sheet, address);
    if (getters.getCell(position)?.isFormula || this.kept.has(keyOf(sheet, address))) return address;
    const source = getters.getArrayFormulaSpreadingOn(position);
    return source && helpers.toXC(source.col, source.row);
  }

  /** The formula that stands in a cell: the stored one in its author's words while nobody has typed over it. */
  formulaAt(sheet: string, address: string): string | undefined {
    const key = keyOf(sheet, address);
    const stored = this.stored.get(key);
    const isStored = this.isStored(key, this.position(sheet, address));
    if (isStored) return stored?.written ?? stored?.formula;
    const cell = this.model.getters.getCell(this.position(sheet, address));
    return cell?.isFormula ? cell.compiledFormula.toFormulaString(this.model.getters) : undefined;
  }

  /** Everything the cells of a sheet hold, filled ones left out. */
  *entries(sheet: string): Generator<Entry> {
    const { getters } = this.model;
    for (const cell of getters.getCells(this.position(sheet, 'A1').sheetId)) {
      const position = getters.getCellPosition(cell.id);
      const address = helpers.toXC(position.col, position.row);
      const key = keyOf(sheet, address);
      const value = toCell(getters.getEvaluatedCell(position));
      const isKept = this.isKept(sheet, address);
      if (cell.isFormula) {
        const formula = cell.compiledFormula.toFormulaString(getters);
        yield { address, value, formula, isStored: this.opened.get(key) === formula, isKept };
      } else if (cell.content !== '') {
        yield { address, value, isStored: false, isKept };
      }
    }
  }

  /** Cells that show an error or keep their stored result, sheet by sheet and row by row. */
  *troubled(): Generator<CellResult & { sheet: string; address: string }> {
    const { getters } = this.model;
    for (const sheetId of getters.getSheetIds()) {
      const sheet = getters.getSheetName(sheetId);
      const cells = getters.getEvaluatedCellsPositions(sheetId);
      cells.sort((a, b) => a.row - b.row || a.col - b.col);
      for (const position of cells) {
        const { value } = getters.getEvaluatedCell(position);
        const address = helpers.toXC(position.col, position.row);
        if (!isErrorText(value) && !this.kept.has(keyOf(sheet, address))) continue;
        yield { sheet, address, ...this.result(sheet, address) };
      }
    }
  }

  /**
   * Brings what hangs on the cells into line after they were changed in the model itself: a formula typed over keeps
   * its stored result no longer, and results that grew get room.
   */
  settle(): void {
    for (const key of [...this.kept.keys()]) {
      const { address } = this.stored.get(key)!;
      const sheet = this.nameOf(key);
      if (!this.isStored(key, this.position(sheet, address))) this.dropStored(sheet, address);
    }
    this.makeRoom();
    this.settleLongCalls();
  }

  private settleLongCalls(): void {
    this.longCalls?.settle((position) => this.model.getters.getCell(position)?.isFormula === true);
  }

  private recalculate(cells: readonly CellPosition[]): void {
    const cellIds = cells.flatMap((position) => this.model.getters.getCell(position)?.id ?? []);
    if (cellIds.length > 0) quietly(() => this.model.dispatch('EVALUATE_CELLS', { cellIds }));
  }

  private nameOf(key: string): string {
    return this.content.sheets.find(({ name }) => key.startsWith(keyOf(name, '')))!.name;
  }

  private heldAt(position: CellPosition): string {
    const { getters } = this.model;
    const cell = getters.getCell(position);
    if (!cell) return '';
    return cell.isFormula ? cell.compiledFormula.toFormulaString(getters) : cell.content;
  }

  private isStored(key: string, position: CellPosition): boolean {
    return this.opened.get(key) === this.heldAt(position);
  }

  private isKept(sheet: string, address: string): boolean {
    const key = keyOf(sheet, address);
    const from = this.stored.get(key)?.spilledFrom;
    return this.kept.has(key) || (from !== undefined && this.kept.has(keyOf(sheet, from)));
  }

  private read(sheet: string, cell: CellContent): void {
    const key = keyOf(sheet, cell.address);
    this.stored.set(key, cell);
    const { bottom, right } = helpers.toZone(cell.spill ?? cell.address);
    this.enlarge(sheet, bottom + 1, right + 1);
    const unreadable = cell.unsupported ?? cell.notWrittenOut;
    if (unreadable !== undefined) this.kept.set(key, unreadable);
    if (cell.formula === undefined) return;
    const needs = needsOf(cell.formula, sheet, this.content.dateSystem);
    this.needs.set(cell, needs);
    for (const reach of needs.reaches) this.enlarge(reach.sheet, reach.rows, reach.columns);
    if (needs.lacking !== undefined) this.kept.set(key, needs.lacking);
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
    const sheets = this.content.sheets.map((sheet, at) => this.sheetData(sheet, `sheet${at + 1}`, formats));
    return {
      ...helpers.createEmptyWorkbookData(),
      ...(this.looks && {
        styles: this.looks.styles,
        borders: this.looks.borders,
        // Rules for looks may speak of them; formulas come with names written out.
        namedRanges: this.looks.namedRanges,
      }),
      settings: { locale: LOCALE },
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
      const code = readableFormat(cell.numberFormat, this.content.dateSystem);
      if (code === undefined) continue;
      if (!formats.has(code)) formats.set(code, formats.size + 1);
      formatOfCell[cell.address] = formats.get(code)!;
    }
    const looks = this.looks?.sheets.find((sheet) => sheet.name === name);
    return {
      ...helpers.createEmptySheet(id, name),
      ...looks,
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

  /** What the engine is given for a cell: its formula, or a value where it is a constant or a result that is kept. */
  private contentFor(sheet: string, cell: CellContent): string {
    if (cell.formula !== undefined && !this.kept.has(keyOf(sheet, cell.address))) return cell.formula;
    const calculatedAnew = cell.spilledFrom !== undefined && !this.kept.has(keyOf(sheet, cell.spilledFrom));
    return calculatedAnew ? '' : written(cell.value);
  }

  /** Whether there was a formula that the engine cannot calculate; its stored result stands for it from now on. */
  private keepWhatFails(): boolean {
    const before = this.kept.size;
    for (const { name, cells } of this.content.sheets) {
      for (const cell of cells) {
        const key = keyOf(name, cell.address);
        if (cell.formula === undefined || this.kept.has(key)) continue;
        const position = this.position(name, cell.address);
        const lacking = this.lackingAt(position) ?? this.intersectionAt(position, cell);
        if (lacking !== undefined) this.kept.set(key, lacking);
      }
    }
    return this.kept.size > before;
  }

  /** What the engine lacks for the formula at `position`. */
  private lackingAt(position: CellPosition): string | undefined {
    const { getters } = this.model;
    const cell = getters.getCell(position);
    if (!cell?.isFormula) return undefined;
    const held = getters.getEvaluatedCell(position);
    if (held.value === '#CYCLE') return 'a circular reference';
    if (isOverflow(held)) return 'a longer chain of formulas that each wait for one further on';
    const isUnknown = cell.compiledFormula.isBadExpression;
    if (!isUnknown && this.content.dateSystem === 1900) return undefined;
    const formula = cell.compiledFormula.toFormulaString(getters);
    const { lacking } = needsOf(formula, getters.getSheetName(position.sheetId), this.content.dateSystem);
    return lacking ?? (isUnknown ? `a way of writing formulas: ${formula}` : undefined);
  }

  /**
   * A formula stored without a range to fill takes one value out of a block, which the engine would spill. Pinset's
   * own do spill: they may have been written by a program that knows no spilling.
   */
  private intersectionAt(position: CellPosition, cell: CellContent): string | undefined {
    if (cell.spill !== undefined || this.needs.get(cell)!.functions.some(isCatalogueName)) return undefined;
    return this.spread(position) && 'one value taken out of a block of cells';
  }

  private storedResult(sheet: string, key: string, unsupported: string): CellResult {
    const { value, spill } = this.stored.get(key)!;
    if (spill === undefined || !spill.includes(':')) return { value, unsupported };
    const block = rowsOf(helpers.toZone(spill), (column, row) => {
      return this.stored.get(keyOf(sheet, helpers.toXC(column, row)))?.value ?? null;
    });
    return { value, block, unsupported };
  }

  private block(position: CellPosition): Cell[][] | undefined {
    const { getters } = this.model;
    const zone = this.spread(position);
    const { sheetId } = position;
    return zone && rowsOf(zone, (col, row) => toCell(getters.getEvaluatedCell({ sheetId, col, row })));
  }

  /** The cells that the formula at `position` fills, where they are more than its own. */
  private spread(position: CellPosition): Zone | undefined {
    const { getters } = this.model;
    if (!getters.getCell(position)?.isFormula) return undefined;
    const { sheetId, col: left, row: top } = position;
    // The engine does not tell the zone of a result that begins with an error: it is walked.
    const isFilled = (col: number, row: number): boolean => {
      const source = getters.getArrayFormulaSpreadingOn({ sheetId, col, row });
      return source?.sheetId === sheetId && source.col === left && source.row === top;
    };
    let [right, bottom] = [left, top];
    while (isFilled(right + 1, top)) right++;
    while (isFilled(left, bottom + 1)) bottom++;
    return right === left && bottom === top ? undefined : { top, bottom, left, right };
  }

  /** A formula whose stored result was kept is gone: so are the cells its result filled. */
  private dropStored(sheet: string, address: string): void {
    const key = keyOf(sheet, address);
    const spill = this.kept.has(key) ? this.stored.get(key)?.spill : undefined;
    this.kept.delete(key);
    if (spill === undefined) return;
    rowsOf(helpers.toZone(spill), (column, row) => {
      const within = helpers.toXC(column, row);
      if (this.stored.get(keyOf(sheet, within))?.spilledFrom === address) {
        this.write(this.position(sheet, within), '');
      }
    });
  }

  private write(position: CellPosition, content: string, format?: string): void {
    quietly(() => this.model.dispatch('UPDATE_CELL', { ...position, content, ...(format && { format }) }));
  }

  /** Makes sheets larger for results that had no room to spill. */
  makeRoom(): void {
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const reaches = this.model.getters.getSheetIds().flatMap((sheetId) => this.wanting(sheetId));
      if (!this.extend(reaches)) return;
    }
  }

  private wanting(sheetId: string): (Size & { sheet: string })[] {
    const { getters } = this.model;
    const sheet = getters.getSheetName(sheetId);
    return getters.getEvaluatedCells(sheetId).flatMap((held) => {
      // A result that meets other cells names the one that blocks it; one without room names none.
      if (held.value !== '#SPILL!' || held.errorOriginPosition || !held.position) return [];
      const { col, row } = held.position;
      const cell = getters.getCell(held.position);
      if (!cell?.isFormula) return [];
      const formula = cell.compiledFormula.toFormulaString(getters);
      const matrix = quietly(() => getters.evaluateFormula(sheetId, formula, held.position));
      if (!Array.isArray(matrix)) return [];
      return [{ sheet, rows: row + matrix[0]!.length, columns: col + matrix.length }];
    });
  }

  private extend(reaches: readonly (Size & { sheet: string })[]): boolean {
    let extended = false;
    for (const { sheet, rows, columns } of reaches) {
      const sheetId = this.sheetId(sheet);
      if (sheetId === undefined) continue;
      extended = this.extendBy(sheetId, 'ROW', rows, MOST.rows) || extended;
      extended = this.extendBy(sheetId, 'COL', columns, MOST.columns) || extended;
    }
    return extended;
  }

  private extendBy(sheetId: string, dimension: 'ROW' | 'COL', wanted: number, most: number): boolean {
    const { getters } = this.model;
    const now = getters.getNumberHeaders(sheetId, dimension);
    const quantity = Math.min(wanted, most) - now;
    if (quantity <= 0) return false;
    const sheetName = getters.getSheetName(sheetId);
    quietly(() =>
      this.model.dispatch('ADD_COLUMNS_ROWS', {
        sheetId,
        sheetName,
        dimension,
        base: now - 1,
        position: 'after',
        quantity,
      }),
    );
    return true;
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

/** The engine calculates what a formula waits for inside it: in a long chain the script's stack does not suffice. */
const isOverflow = ({ value, message }: EvaluatedCell): boolean =>
  isErrorText(value) && /call stack|recursion/.test(message ?? '');

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
