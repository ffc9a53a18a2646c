import {
  helpers,
  type CellPosition,
  type EvaluatedCell,
  type FunctionResultObject,
  type Getters,
  type Locale,
  type Matrix,
  type Zone,
} from '@odoo/o-spreadsheet';
import { codeOf } from './cells';
import type { EvaluatedWorkbook } from './evaluator/evaluatedWorkbook';
import { formatAt } from './evaluator/formats';
import type { Seat } from './evaluator/references';
import { FilledCell, FormulaCell, type CellFormat } from './evaluator/sheetStore';
import { isError, type Scalar } from './evaluator/values';
import type { ShownCells } from './shownCells';
import type { Habits } from './typing/habits';
import { shownFormat } from './typing/typing';

const SHEET = 'sheet';

/** The grid's name for a sheet, by its position in the workbook. */
export const sheetIdOf = (sheet: number): string => `${SHEET}${sheet + 1}`;

export const seatOf = ({ sheetId, col, row }: CellPosition): Seat => ({
  sheet: Number(sheetId.slice(SHEET.length)) - 1,
  row,
  column: col,
});

const positionOf = ({ sheet, row, column }: Seat): CellPosition => ({
  sheetId: sheetIdOf(sheet),
  row,
  col: column,
});

/** A format is taken over from a cell referred to, and by that from another: so far at most. */
const MOST_STEPS = 10;

/** What the evaluator calculated, as a grid shows it. */
export class GridCells implements ShownCells {
  private getters!: Getters;
  private readonly shownCells = new Map<string, Map<number, EvaluatedCell>>();

  constructor(
    private readonly workbook: EvaluatedWorkbook,
    /** Tells the workbook what cells hold now. */
    private readonly tell: (cells: readonly CellPosition[] | 'any') => void,
    private readonly habits: () => Habits,
  ) {}

  /** Shows every cell again, in the habits of now. */
  forget(): void {
    this.shownCells.clear();
  }

  attach(getters: Getters): void {
    this.getters = getters;
  }

  follow(cells: readonly CellPosition[] | 'any'): void {
    this.tell(cells);
    this.shownCells.clear();
  }

  recalculate(cells: readonly CellPosition[]): void {
    this.workbook.recalculate(cells.map(seatOf));
    this.shownCells.clear();
  }

  shown(position: CellPosition): EvaluatedCell {
    const { sheetId, col, row } = position;
    let sheet = this.shownCells.get(sheetId);
    if (!sheet) this.shownCells.set(sheetId, (sheet = new Map<number, EvaluatedCell>()));
    const key = row * 16_384 + col;
    let cell = sheet.get(key);
    if (!cell) sheet.set(key, (cell = this.made(position)));
    return cell;
  }

  positions(sheetId: string): CellPosition[] {
    const { sheet } = seatOf({ sheetId, col: 0, row: 0 });
    return [...this.workbook.seats(sheet)].map(positionOf);
  }

  spread(position: CellPosition): Zone | undefined {
    const slot = this.workbook.slotAt(seatOf(position));
    return slot instanceof FormulaCell ? slot.filled : undefined;
  }

  spreadFrom(position: CellPosition): CellPosition | undefined {
    const slot = this.workbook.slotAt(seatOf(position));
    if (slot instanceof FilledCell) return positionOf(slot.from);
    return slot instanceof FormulaCell && slot.filled ? position : undefined;
  }

  isBlocked(position: CellPosition): boolean {
    const slot = this.workbook.slotAt(seatOf(position));
    return slot instanceof FormulaCell && isError(slot.value) && slot.value.code === '#SPILL!';
  }

  trial(formula: string, position: CellPosition): Matrix<FunctionResultObject> {
    const rows = this.workbook.trial(formula, seatOf(position));
    return rows[0]!.map((_, column) =>
      rows.map((row): FunctionResultObject => {
        const value = row[column]!;
        return isError(value) ? { value: value.code, message: value.reason } : { value };
      }),
    );
  }

  private made(position: CellPosition): EvaluatedCell {
    const slot = this.workbook.slotAt(seatOf(position));
    const held = slot instanceof FormulaCell || slot instanceof FilledCell ? slot.value : slot;
    // A blank in a result lets the text beside it go on over it.
    const value = slot instanceof FilledCell && held === '' ? null : held;
    const format = shownFormat(this.formatAt(position, 0), this.habits());
    return evaluatedCell(value, format, this.getters.getLocale(), position);
  }

  /** The cell's own number format, or that of the result, or that of the one cell it is calculated from. */
  private formatAt(position: CellPosition, steps: number): string | undefined {
    const own = this.getters.getCell(position)?.format;
    if (own !== undefined) return own;
    const seat = seatOf(position);
    const slot = this.workbook.slotAt(seat);
    const formula = slot instanceof FilledCell ? slot.from : slot;
    if (!(formula instanceof FormulaCell)) return undefined;
    const format: CellFormat | undefined = formatAt(
      formula.formats,
      seat.row - formula.row,
      seat.column - formula.column,
    );
    if (format !== undefined) return codeOf(format, this.workbook.dateSystem);
    const { areas, functions, format: kind } = formula.program;
    const [from] = areas;
    const takesOver = kind === 'passed' || (areas.length === 1 && functions.length === 0);
    if (!from || !takesOver || slot !== formula || steps === MOST_STEPS) return undefined;
    const { sheet, top, left } = from.from(formula);
    return this.formatAt(positionOf({ sheet, row: top, column: left }), steps + 1);
  }
}

/** A value as the grid draws it. */
function evaluatedCell(
  value: Scalar,
  format: string | undefined,
  locale: Locale,
  position: CellPosition,
): EvaluatedCell {
  const shared = { position, ...(format !== undefined && { format }) };
  if (isError(value)) {
    const { code, reason } = value;
    const drawn = { value: code, message: reason, formattedValue: code, defaultAlign: 'center' } as const;
    return { ...shared, ...drawn, type: 'error', isAutoSummable: false } as EvaluatedCell;
  }
  const formattedValue = helpers.formatValue(value, { locale, ...(format !== undefined && { format }) });
  const drawn = { ...shared, value, formattedValue };
  if (typeof value === 'number') {
    const isAutoSummable = format === undefined || !helpers.isDateTimeFormat(format);
    return { ...drawn, type: 'number', defaultAlign: 'right', isAutoSummable } as EvaluatedCell;
  }
  if (typeof value === 'boolean') {
    return { ...drawn, type: 'boolean', defaultAlign: 'center', isAutoSummable: false } as EvaluatedCell;
  }
  const type = value === null ? 'empty' : 'text';
  return { ...drawn, type, defaultAlign: 'left', isAutoSummable: true } as EvaluatedCell;
}
