import { NUMBER_FORMATS, type Cell, type Format, cellError } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import { addressOf, areaOf, covers, placeOf, rangeOf, ROWS, type Area, type Place } from './address';
import { withoutChainEntries } from './calcChain';
import { cellElement, storesAlready, type Held } from './cellText';
import type { Change } from './change';
import { asWritten, callsPinset, cut, movedFormula, spills, stored, type TableShape } from './formula';
import { soundRecords, withDynamicArrays } from './metadata';
import { withNewResults } from './newResults';
import { Package, WorkbookFileError } from './package';
import { isTrue, onlyPart, partsOf, type WorkbookParts } from './parts';
import { readTables } from './read';
import { walkSheet, type StoredCell, type StoredRow } from './sheet';
import { CellStyles } from './styles';
import { appended, escapeText, prefixAt, spliced, withAttribute, type Edit } from './xml';

export type { Change } from './change';

/**
 * An .xlsx file with some cells changed and nothing else: only the sheets named are rewritten, and in them only the
 * cells named; every other part stays byte for byte and in its place. A formula that calls Pinset or spills is stored
 * as Excel stores it: an array over the cells of its result, Pinset's names as `_xldudf_PINSET_NAME`. Its record in the
 * workbook's metadata is added where there is none.
 *
 * To build a workbook: make it with any library, formulas left out, then put them in here:
 *
 *     patchWorkbook(bytes, [
 *       { sheet: 'Lots', address: 'F2', formula: '=PINSET.READYDATE(B2:B61,C2:C61,Strains)', values: dates },
 *     ])
 *
 * @throws WorkbookFileError where the file cannot be read, has no such sheet, or a spilled result would cover another
 * formula
 * @throws CannotWriteOut where a formula to be stored uses what a file cannot hold
 */
export function patchWorkbook(bytes: Uint8Array, changes: readonly Change[]): Uint8Array {
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const bySheet = new Map<string, Change[]>();
  for (const change of changes) {
    const sheet = change.sheet.toLowerCase();
    const asked = bySheet.get(sheet);
    if (asked) asked.push(change);
    else bySheet.set(sheet, [change]);
  }
  const rewritten = new Map<string, string | null>();
  const workbook = new OpenWorkbook(file, parts);
  const gone: string[] = [];
  for (const [key, asked] of bySheet) {
    const sheet = parts.sheets.find(({ name }) => name.toLowerCase() === key);
    if (!sheet) throw new WorkbookFileError(`the workbook has no sheet ${asked[0]!.sheet}`);
    const before = file.text(sheet.part);
    const { text, others } = withNewResults(before, sheet.part, asked);
    const patch =
      others.length > 0 ? new SheetPatch(text, sheet.name, sheet.part, workbook, others) : undefined;
    const after = patch?.apply() ?? text;
    if (after !== before) rewritten.set(sheet.part, after);
    const id = workbook.sheetId(sheet.name);
    for (const address of patch?.withoutFormula ?? []) gone.push(`${id}!${address}`);
  }
  for (const [part, text] of workbook.changedParts()) rewritten.set(part, text);
  withoutChainEntries(file, parts, gone, rewritten);
  return file.with(rewritten);
}

/** What the patches of a workbook's sheets share: its metadata, styles and tables, read only when asked for. */
class OpenWorkbook {
  private styles: CellStyles | undefined;
  private stylesPart: string | undefined;
  private tables: readonly TableShape[] | undefined;
  private dynamicArray: { index: number; parts: ReadonlyMap<string, string> } | undefined;
  private records: ReadonlySet<string> | undefined;

  constructor(
    private readonly file: Package,
    private readonly parts: WorkbookParts,
  ) {}

  /** The value of `cm` for a cell that spills. */
  dynamicArrayIndex(): number {
    this.dynamicArray ??= withDynamicArrays(this.file, this.parts);
    return this.dynamicArray.index;
  }

  /**
   * The `cm` for a formula that stays, where it has one. Excel calls a file damaged whose cell names a record that is
   * not there: such an array gets the record of those that spill.
   */
  standingIndex(cm: string | undefined, isArray: boolean): string | undefined {
    if (cm === undefined) return undefined;
    this.records ??= soundRecords(this.file, this.parts);
    if (this.records.has(cm)) return cm;
    return isArray ? String(this.dynamicArrayIndex()) : undefined;
  }

  /** The style that shows numbers in `format` and else looks like `style`; unchanged where the file has no styles. */
  styleFor(style: number, format: Format): number {
    if (format === 'plain') return style;
    this.stylesPart ??= onlyPart(this.parts, 'styles');
    if (this.stylesPart === undefined) return style;
    this.styles ??= new CellStyles(this.file.text(this.stylesPart), this.stylesPart);
    return this.styles.withFormat(style, NUMBER_FORMATS[format]);
  }

  /** The style that shows numbers by `code` and is otherwise `style`. */
  styleIn(style: number, code: string): number {
    this.stylesPart ??= onlyPart(this.parts, 'styles');
    if (this.stylesPart === undefined) return style;
    this.styles ??= new CellStyles(this.file.text(this.stylesPart), this.stylesPart);
    return this.styles.inFormat(style, code);
  }

  tableAt(sheet: string, place: Place): string | undefined {
    this.tables ??= readTables(this.file, this.parts);
    return this.tables.find((table) => table.sheet === sheet && covers(table.area, place))?.name;
  }

  sheetId(name: string): string | undefined {
    return this.parts.root.children
      .find((one) => one.name === 'sheets')
      ?.children.find(({ attributes }) => attributes['name'] === name)?.attributes['sheetId'];
  }

  changedParts(): ReadonlyMap<string, string> {
    const changed = new Map(this.dynamicArray?.parts ?? []);
    const styles = this.styles?.changed();
    if (styles !== undefined) changed.set(this.stylesPart!, styles);
    return changed;
  }
}

/** What a cell's elements are to be. */
interface NewCell extends Held {
  formula: string | undefined;
  /** Whether that is the element that stood there. */
  readonly formulaStays: boolean;
  /** The cell's `cm`; undefined for none. */
  readonly metadata: string | undefined;
  readonly format: Format;
  readonly numberFormat: string | undefined;
}

interface NewFormula {
  readonly xml: string;
  readonly stays: boolean;
  readonly metadata: string | undefined;
}

class SheetPatch {
  /** Cells that had a formula, or lay in the spill of one, and have none now. */
  readonly withoutFormula: string[] = [];
  private readonly cells = new Map<number, Map<number, StoredCell>>();
  /** The cells with the text of a shared formula, in their order: a damaged file may have two of one number. */
  private readonly sharedHeads = new Map<string, StoredCell[]>();
  private readonly rows: StoredRow[] = [];
  private readonly columnStyles: { from: number; to: number; style: number }[] = [];
  /** By row and column; null clears the cell. */
  private readonly planned = new Map<number, Map<number, NewCell | null>>();
  private prefix = '';
  private data = { start: 0, inner: 0, innerEnd: 0, end: 0 };
  private dimension: { start: number; inner: number; area: Area } | undefined;

  constructor(
    private readonly xml: string,
    private readonly name: string,
    part: string,
    private readonly workbook: OpenWorkbook,
    private readonly changes: readonly Change[],
  ) {
    const touched = rowsOf(changes);
    if (this.read(part, touched)) return;
    this.cells.clear();
    this.sharedHeads.clear();
    this.rows.length = 0;
    this.columnStyles.length = 0;
    this.read(part, touched.fill(1));
  }

  /**
   * Reads the sheet and keeps the cells of the rows that are touched, and those that share a formula. False where a
   * damaged file has a row that is touched before what says so.
   */
  private read(part: string, touched: Uint8Array): boolean {
    let [reached, isWhole] = [-1, true];
    walkSheet(this.xml, part, {
      cell: (cell) => {
        const { kind, text, ref = '', shared = '' } = cell.formula ?? {};
        if (touched[cell.row]) {
          const area = kind === 'array' ? areaOf(ref) : undefined;
          if (area) {
            isWhole &&= area.top >= cell.row && cell.row >= reached;
            touched.fill(1, area.top, area.bottom + 1);
          }
        }
        reached = Math.max(reached, cell.row);
        if (touched[cell.row] || kind === 'shared') valueIn(this.cells, cell.row).set(cell.column, cell);
        if (kind !== 'shared' || text === '') return;
        const heads = this.sharedHeads.get(shared);
        if (heads) heads.push(cell);
        else this.sharedHeads.set(shared, [cell]);
      },
      row: (row) => this.rows.push(row),
      other: (element, attributes, start, inner) => {
        if (element === 'sheetData') {
          this.prefix = prefixAt(this.xml, start);
          this.data = { ...this.data, start, inner };
        } else if (element === 'dimension') {
          const area = areaOf(attributes['ref'] ?? '');
          if (area) this.dimension = { start, inner, area };
        } else if (element === 'col' && attributes['style'] !== undefined) {
          this.columnStyles.push({
            from: Number(attributes['min']) - 1,
            to: Number(attributes['max']) - 1,
            style: Number(attributes['style']),
          });
        }
      },
      sheetDataEnds: (innerEnd, end) => {
        this.data = { ...this.data, innerEnd, end };
      },
    });
    return isWhole;
  }

  /** The sheet's part as changed. */
  apply(): string {
    for (const change of this.changes) this.plan(this.withExcelsForm(change));
    const edits = [...this.unshared(), ...this.cellEdits()];
    return spliced(this.xml, edits);
  }

  /** A formula that stays but calls Pinset in a form that Excel does not calculate is stored anew. */
  private withExcelsForm(change: Change): Change {
    const place = placeOf(change.address);
    const standing = place && this.cells.get(place.row)?.get(place.column);
    if (change.formula !== undefined || !standing?.formula) return change;
    const head = this.headOf(standing);
    const text = head.formula!.text;
    const spilling = standing.formula.kind === 'array' && standing.attributes['cm'] !== undefined;
    if (!callsPinset(text) || (spilling && !text.toUpperCase().includes(PREFIX))) return change;
    const moved = { row: standing.row - head.row, column: standing.column - head.column };
    return { ...change, formula: `=${asWritten(cut(text), moved)}` };
  }

  /** The cell whose formula a cell shares; itself where it shares none. */
  private headOf(cell: StoredCell): StoredCell {
    if (cell.formula?.kind !== 'shared' || cell.formula.text !== '') return cell;
    const heads = this.sharedHeads.get(cell.formula.shared ?? '');
    return heads?.filter(({ start }) => start < cell.start).at(-1) ?? heads?.at(-1) ?? cell;
  }

  private plan(change: Change): void {
    const place = placeOf(change.address);
    if (!place) throw new WorkbookFileError(`${change.address} is no cell of a sheet`);
    const standing = this.cells.get(place.row)?.get(place.column);
    const before = standing?.formula;
    const oldArea = before?.kind === 'array' && before.ref !== undefined ? areaOf(before.ref) : undefined;
    const area = areaOfResult(change, place, standing, oldArea);
    if (oldArea) this.clear(oldArea, area);
    const formula = this.newFormula(change, place, area, standing);
    const formats = change.formats ?? ['plain'];
    for (let row = area.top; row <= area.bottom; row++) {
      for (let column = area.left; column <= area.right; column++) {
        const first = row === place.row && column === place.column;
        const wasInResult = oldArea ? covers(oldArea, { row, column }) : first && before !== undefined;
        if (!wasInResult && !first) this.checkFree(row, column, change);
        const value = valueAt(change.values, row - area.top, column - area.left);
        valueIn(this.planned, row).set(column, {
          formula: first ? formula?.xml : undefined,
          formulaStays: first && formula?.stays === true,
          metadata: first ? formula?.metadata : undefined,
          value: value === '' && !formula ? null : value,
          format: formats[Math.min(column - area.left, formats.length - 1)]!,
          numberFormat: change.numberFormat,
          calculated: formula !== undefined,
        });
        if (!formula && wasInResult) this.withoutFormula.push(addressOf({ row, column }));
      }
    }
  }

  private clear(oldArea: Area, area: Area): void {
    const { top, bottom, left, right } = oldArea;
    // Place by place of the area or of the sheet, whichever has fewer: an area may claim the whole sheet.
    for (const row of keysBetween(this.cells, top, bottom)) {
      for (const column of keysBetween(this.cells.get(row)!, left, right)) {
        if (covers(area, { row, column })) continue;
        valueIn(this.planned, row).set(column, null);
        this.withoutFormula.push(addressOf({ row, column }));
      }
    }
  }

  private checkFree(row: number, column: number, { address }: Change): void {
    if (!this.cells.get(row)?.get(column)?.formula) return;
    const covered = addressOf({ row, column });
    throw new WorkbookFileError(
      `the result of ${this.name}!${address} would cover the formula in ${covered}`,
    );
  }

  private newFormula(
    { formula, values, spills: mayFill = false }: Change,
    place: Place,
    area: Area,
    standing: StoredCell | undefined,
  ): NewFormula | undefined {
    if (formula === null) return undefined;
    if (formula === undefined) return standing?.formula && this.standingFormula(standing, area);
    const f = `${this.prefix}f`;
    const here = /\[@|#this row/i.test(formula) ? this.workbook.tableAt(this.name, place) : undefined;
    const text = escapeText(stored(formula, here));
    if (values.length === 1 && values[0]!.length === 1 && !mayFill && !spills(formula)) {
      return { xml: `<${f}>${text}</${f}>`, stays: false, metadata: undefined };
    }
    return {
      xml: `<${f} t="array" ref="${rangeOf(area)}">${text}</${f}>`,
      stays: false,
      metadata: String(this.workbook.dynamicArrayIndex()),
    };
  }

  private standingFormula({ formulaAt, formula, attributes }: StoredCell, area: Area): NewFormula {
    const source = this.xml.slice(...formulaAt!);
    const isArray = formula!.kind === 'array';
    const metadata = this.workbook.standingIndex(attributes['cm'], isArray);
    if (!isArray) return { xml: source, stays: true, metadata };
    const tag = { start: 0, inner: source.indexOf('>') + 1 };
    const xml = spliced(source, [withAttribute(source, tag, 'ref', rangeOf(area))]);
    return { xml, stays: true, metadata };
  }

  /**
   * Cells that shared a formula whose first cell has another now: each gets its own text. Edits for cells that are
   * not changed otherwise.
   */
  private unshared(): Edit[] {
    const gone = new Set(
      [...this.sharedHeads.values()].flat().filter(({ row, column }) => {
        const planned = this.planned.get(row)?.get(column);
        return planned === null || planned?.formulaStays === false;
      }),
    );
    if (gone.size === 0) return [];
    const edits: Edit[] = [];
    for (const [row, columns] of this.cells) {
      for (const [column, cell] of columns) {
        const { formulaAt } = cell;
        const head = this.headOf(cell);
        if (head === cell || !gone.has(head)) continue;
        const text = movedFormula(head.formula!.text, { row: row - head.row, column: column - head.column });
        const xml = `<${this.prefix}f>${escapeText(text)}</${this.prefix}f>`;
        const planned = this.planned.get(row)?.get(column);
        if (planned?.formulaStays) planned.formula = xml;
        else if (planned === undefined) edits.push({ start: formulaAt![0], end: formulaAt![1], text: xml });
      }
    }
    return edits;
  }

  private cellEdits(): Edit[] {
    const edits: Edit[] = [];
    const byRow = new Map(this.rows.map((row) => [row.row, row]));
    const newRows: [number, string][] = [];
    let reach = this.dimension?.area;
    for (const row of [...this.planned.keys()].sort((a, b) => a - b)) {
      const planned = [...this.planned.get(row)!].sort(([a], [b]) => a - b);
      const there = byRow.get(row);
      const standing = [...(this.cells.get(row)?.values() ?? [])].sort((a, b) => a.column - b.column);
      const added: number[] = [];
      let inNewRow = '';
      let next = 0;
      for (const [column, cell] of planned) {
        while (next < standing.length && standing[next]!.column < column) next++;
        const old = standing[next]?.column === column ? standing[next] : undefined;
        if (old && cell && this.holds(old, cell)) continue;
        const text = this.cellText({ row, column }, cell, old, there);
        if (old) {
          edits.push({ start: old.start, end: old.end, text });
        } else if (text !== '') {
          added.push(column);
          const at = standing[next]?.start ?? there?.innerEnd;
          if (at === undefined || there!.innerEnd === there!.end) inNewRow += text;
          else edits.push({ start: at, end: at, text });
        }
      }
      if (added.length === 0) continue;
      const reached: Area = { top: row, bottom: row, left: added[0]!, right: added.at(-1)! };
      if (reach) reach = hull(reach, reached);
      if (there) edits.push(...this.rowEdits(there, reached, inNewRow));
      else newRows.push([row, `<${this.prefix}row r="${row + 1}">${inNewRow}</${this.prefix}row>`]);
    }
    edits.push(...this.newRowEdits(newRows));
    if (this.dimension && reach !== this.dimension.area) {
      edits.push(withAttribute(this.xml, this.dimension, 'ref', rangeOf(reach!)));
    }
    return edits;
  }

  /** Opens a row that had no cells, and widens the columns a row says it spans. */
  private rowEdits(row: StoredRow, { left, right }: Area, cells: string): Edit[] {
    const edits: Edit[] = [];
    const [from, to] = (row.attributes['spans'] ?? '').split(':').map(Number);
    if (from !== undefined && to !== undefined && (left + 1 < from || right + 1 > to)) {
      const spans = `${Math.min(from, left + 1)}:${Math.max(to, right + 1)}`;
      edits.push(withAttribute(this.xml, row, 'spans', spans));
    }
    if (cells !== '') edits.push(appended(this.xml, row, cells));
    return edits;
  }

  private newRowEdits(rows: readonly [number, string][]): Edit[] {
    if (rows.length === 0) return [];
    if (this.data.innerEnd === this.data.end) {
      return [appended(this.xml, this.data, rows.map(([, text]) => text).join(''))];
    }
    let next = 0;
    return rows.map(([row, text]) => {
      while (next < this.rows.length && this.rows[next]!.row < row) next++;
      const at = this.rows[next]?.start ?? this.data.innerEnd;
      return { start: at, end: at, text };
    });
  }

  /** Whether a cell holds already what is planned for it. */
  private holds({ attributes, value, formulaAt }: StoredCell, cell: NewCell): boolean {
    const formula = formulaAt && this.xml.slice(...formulaAt);
    if (cell.formula !== formula || attributes['cm'] !== cell.metadata) return false;
    if (cell.format !== 'plain' || cell.numberFormat !== undefined) return false;
    return storesAlready(attributes, value, cell);
  }

  /** A cell's element; empty where nothing is left to say about it. */
  private cellText(
    place: Place,
    cell: NewCell | null,
    old: StoredCell | undefined,
    row: StoredRow | undefined,
  ): string {
    const style = this.styleOf(place, cell, old, row);
    const shown = style !== 0 || old?.attributes['s'] !== undefined ? String(style) : undefined;
    return cellElement(this.prefix, addressOf(place), old?.attributes, shown, cell?.metadata, cell);
  }

  private styleOf(
    { column }: Place,
    cell: NewCell | null,
    old: StoredCell | undefined,
    row: StoredRow | undefined,
  ): number {
    const style = old ? Number(old.attributes['s'] ?? 0) : this.inheritedStyle(column, row);
    if (cell?.numberFormat !== undefined) return this.workbook.styleIn(style, cell.numberFormat);
    return cell && typeof cell.value === 'number' ? this.workbook.styleFor(style, cell.format) : style;
  }

  private inheritedStyle(column: number, row: StoredRow | undefined): number {
    if (isTrue(row?.attributes['customFormat'])) return Number(row!.attributes['s'] ?? 0);
    return this.columnStyles.find(({ from, to }) => column >= from && column <= to)?.style ?? 0;
  }
}

/** Which rows of a sheet changes touch by their results: 1 for those. */
function rowsOf(changes: readonly Change[]): Uint8Array {
  const rows = new Uint8Array(ROWS);
  for (const { address, values } of changes) {
    const place = placeOf(address);
    if (place) rows.fill(1, place.row, place.row + values.length);
  }
  return rows;
}

function areaOfResult(
  { formula, values }: Change,
  { row, column }: Place,
  standing: StoredCell | undefined,
  oldArea: Area | undefined,
): Area {
  const cell: Area = { top: row, left: column, bottom: row, right: column };
  if (formula === undefined && standing?.formula) {
    // A formula that does not spill shows one value; an array formula of the older kind keeps its range.
    if (!oldArea) return cell;
    if (standing.attributes['cm'] === undefined) return oldArea;
  }
  return { ...cell, bottom: row + values.length - 1, right: column + values[0]!.length - 1 };
}

/** A result's value in a cell; in an older array formula a single row or column repeats, and what is missing is #N/A. */
function valueAt(values: Change['values'], row: number, column: number): Cell {
  const cells = values.length === 1 ? values[0]! : values[row];
  const value = cells?.length === 1 ? cells[0] : cells?.[column];
  return value === undefined ? cellError('#N/A') : value;
}

const hull = (a: Area, b: Area): Area => ({
  top: Math.min(a.top, b.top),
  left: Math.min(a.left, b.left),
  bottom: Math.max(a.bottom, b.bottom),
  right: Math.max(a.right, b.right),
});

/** The keys of a map from one number to another. */
function keysBetween(map: ReadonlyMap<number, unknown>, first: number, last: number): number[] {
  const count = last - first + 1;
  return count < map.size
    ? Array.from({ length: count }, (_, n) => first + n).filter((key) => map.has(key))
    : [...map.keys()].filter((key) => key >= first && key <= last);
}

function valueIn<V>(rows: Map<number, Map<number, V>>, row: number): Map<number, V> {
  let columns = rows.get(row);
  if (!columns) rows.set(row, (columns = new Map<number, V>()));
  return columns;
}
