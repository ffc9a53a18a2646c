import {
  CoreViewPlugin,
  registries,
  type Command,
  type CellPosition,
  type CompiledFormula,
  type EvaluatedCell,
  type FormulaCell,
  type FunctionResultObject,
  type Getters,
  type Matrix,
  type Range,
  type Zone,
} from '@odoo/o-spreadsheet';

// The grid's own calculation, taken out: what a cell shows comes from the evaluator. The grid asks by these getters
// alone, which are those of the part that this one replaces.

/** Where the grid gets from what its cells show. */
export interface ShownCells {
  /** Comes first: by these the grid tells what its cells hold. */
  attach(getters: Getters): void;
  /** Takes over what cells of the grid hold now; of any cell, where none are named. */
  follow(cells: readonly CellPosition[] | 'any'): void;
  /** Calculates formulas again. */
  recalculate(cells: readonly CellPosition[]): void;
  shown(position: CellPosition): EvaluatedCell;
  /** Cells of a sheet that show something. */
  positions(sheetId: string): CellPosition[];
  /** The cells that the formula of a cell fills, where they are more than its own. */
  spread(position: CellPosition): Zone | undefined;
  /** The cell whose formula fills this one beside others. */
  spreadFrom(position: CellPosition): CellPosition | undefined;
  isBlocked(position: CellPosition): boolean;
  /** What a formula would give in a cell, column by column. */
  trial(formula: string, position: CellPosition): Matrix<FunctionResultObject>;
}

/** What the grid's model is given for its parts. */
export interface Surroundings {
  readonly shownCells: ShownCells;
}

/** Commands after which other cells may hold or show something else than those that were written to. */
const SWEEPING: ReadonlySet<string> = new Set(['UNDO', 'REDO', 'MOVE_RANGES', 'SET_FILTERS']);

const positionsOf = ({ sheetId, zone }: { sheetId: string; zone: Zone }): CellPosition[] => {
  const positions: CellPosition[] = [];
  for (let row = zone.top; row <= zone.bottom; row++) {
    for (let col = zone.left; col <= zone.right; col++) positions.push({ sheetId, col, row });
  }
  return positions;
};

class EvaluatorsCells extends CoreViewPlugin {
  static override getters = [
    'evaluateFormula',
    'evaluateFormulaResult',
    'evaluateCompiledFormula',
    'getCorrespondingFormulaCell',
    'getVisibleRangeValues',
    'getEvaluatedCell',
    'getEvaluatedCells',
    'getEvaluatedCellsInZone',
    'getEvaluatedCellsPositions',
    'getSpreadZone',
    'getArrayFormulaSpreadingOn',
    'isArrayFormulaSpillBlocked',
    'isEmpty',
  ] as never[];

  private readonly cells: ShownCells;
  private written: CellPosition[] = [];
  private again: CellPosition[] = [];
  private isSwept = false;

  constructor(config: ConstructorParameters<typeof CoreViewPlugin>[0]) {
    super(config);
    this.cells = (config.custom as unknown as Surroundings).shownCells;
    this.cells.attach(this.getters);
  }

  override handle(command: Command): void {
    if (SWEEPING.has(command.type)) this.isSwept = true;
    else if (command.type === 'UPDATE_CELL') {
      const { sheetId, col, row } = command;
      this.written.push({ sheetId, col, row });
    } else if (command.type === 'EVALUATE_CELLS') {
      this.again.push(...(command.cellIds ?? []).map((id) => this.getters.getCellPosition(id)));
    }
  }

  override finalize(): void {
    if (this.isSwept || this.written.length > 0) this.cells.follow(this.isSwept ? 'any' : this.written);
    if (this.again.length > 0) this.cells.recalculate(this.again);
    this.written = [];
    this.again = [];
    this.isSwept = false;
  }

  evaluateFormula(sheetId: string, formula: string, position?: CellPosition) {
    const columns = this.trial(formula, position ?? { sheetId, col: 0, row: 0 });
    if (columns.length === 1 && columns[0]!.length === 1) return columns[0]![0]!.value;
    return columns.map((column) => column.map(({ value }) => value));
  }

  evaluateFormulaResult(
    sheetId: string,
    formula: string,
    position?: CellPosition,
  ): FunctionResultObject | Matrix<FunctionResultObject> {
    const columns = this.trial(formula, position ?? { sheetId, col: 0, row: 0 });
    return columns.length === 1 && columns[0]!.length === 1 ? columns[0]![0]! : columns;
  }

  evaluateCompiledFormula(sheetId: string, formula: CompiledFormula) {
    return this.evaluateFormulaResult(sheetId, formula.toFormulaString(this.getters));
  }

  getVisibleRangeValues(range: Range): EvaluatedCell[] {
    if (this.getters.tryGetSheet(range.sheetId) === undefined) return [];
    return positionsOf(range)
      .filter(
        ({ sheetId, col, row }) =>
          !this.getters.isColHidden(sheetId, col) && !this.getters.isRowHidden(sheetId, row),
      )
      .map((position) => this.cells.shown(position));
  }

  getEvaluatedCell(position: CellPosition): EvaluatedCell {
    return this.cells.shown(position);
  }

  getEvaluatedCells(sheetId: string): EvaluatedCell[] {
    return this.cells.positions(sheetId).map((position) => this.cells.shown(position));
  }

  getEvaluatedCellsPositions(sheetId: string): CellPosition[] {
    return this.cells.positions(sheetId);
  }

  getEvaluatedCellsInZone(sheetId: string, zone: Zone): EvaluatedCell[] {
    return positionsOf({ sheetId, zone }).map((position) => this.cells.shown(position));
  }

  getSpreadZone(position: CellPosition): Zone | undefined {
    return this.cells.spread(position);
  }

  getArrayFormulaSpreadingOn(position: CellPosition): CellPosition | undefined {
    return this.cells.spreadFrom(position);
  }

  isArrayFormulaSpillBlocked(position: CellPosition): boolean {
    return this.cells.isBlocked(position);
  }

  isEmpty(sheetId: string, zone: Zone): boolean {
    return positionsOf({ sheetId, zone }).every((position) => this.cells.shown(position).value === null);
  }

  getCorrespondingFormulaCell(position: CellPosition): FormulaCell | undefined {
    const at = this.cells.spreadFrom(position) ?? position;
    const cell = this.getters.getCell(at);
    return cell?.isFormula && !cell.compiledFormula.isBadExpression ? cell : undefined;
  }

  private trial(formula: string, position: CellPosition): Matrix<FunctionResultObject> {
    return this.cells.trial(formula, position);
  }
}

registries.coreViewsPluginRegistry.replace('evaluation', EvaluatorsCells);
