import {
  helpers,
  registries,
  UIPlugin,
  type CellPosition,
  type CoreCommand,
  type CorePlugin,
  type Getters,
} from '@odoo/o-spreadsheet';
import { covers } from '../xlsx/address';
import type { TableShape, Vocabulary } from '../xlsx/formula';
import { shifted } from './copiedFormulas';
import { AS_TEXT, typingOf } from './typing/typing';

// A row that is typed right below a table joins it, as in other spreadsheets. The grid's own tables are the memory of
// that, so that undo takes it back; what a formula gives below a table, as a total, stays outside, and so do columns.

type Drawn = ReturnType<Getters['getCoreTables']>[number];
type CellChange = Extract<CoreCommand, { type: 'UPDATE_CELL' }>;

const Own = registries.corePluginRegistry.get('tables') as unknown as new (
  ...given: ConstructorParameters<typeof CorePlugin>
) => CorePlugin & { canUpdateCellCmdExtendTable(command: CellChange, table: Drawn): string };

class GrowingTables extends Own {
  static getters = (Own as unknown as { getters: readonly string[] }).getters;

  override handle(command: CoreCommand): void {
    // A table whose cells are emptied is still a table.
    if (command.type !== 'DELETE_CONTENT') super.handle(command);
  }

  override canUpdateCellCmdExtendTable(command: CellChange, table: Drawn): string {
    if (table.config.totalRow || helpers.isFormula(command.content ?? '')) return 'none';
    return super.canUpdateCellCmdExtendTable(command, table) === 'down' ? 'down' : 'none';
  }
}
registries.corePluginRegistry.replace('tables', GrowingTables);

const tableAbove = (getters: Getters, { sheetId, row, col }: CellPosition): Drawn | undefined =>
  getters
    .getCoreTables(sheetId)
    .find(({ range: { zone } }) => zone.bottom + 1 === row && zone.left <= col && col <= zone.right);

/** The cell whose looks one takes over that is right below a table. */
export const likeAbove = (getters: Getters, position: CellPosition): CellPosition | undefined =>
  tableAbove(getters, position) && { ...position, row: position.row - 1 };

/** A row that joins a table gets the number formats of the row above, and the formulas of calculated columns. */
class FillsNewRows extends UIPlugin {
  private above: Drawn | undefined;

  override beforeHandle(command: Parameters<UIPlugin['handle']>[0]): void {
    if (command.type === 'UPDATE_CELL') this.above = tableAbove(this.getters, command);
  }

  override handle(command: Parameters<UIPlugin['handle']>[0]): void {
    const { above } = this;
    if (command.type !== 'UPDATE_CELL' || !above) return;
    this.above = undefined;
    const { sheetId, col, row } = command;
    const now = this.getters.getCoreTables(sheetId).find(({ id }) => id === above.id);
    if (now?.range.zone.bottom !== row) return;
    const { left, right } = now.range.zone;
    for (let column = left; column <= right; column++) {
      const to = { sheetId, row, col: column };
      const format = this.getters.getCell(to)?.format ?? this.formatIn({ ...to, row: row - 1 });
      const content = column === col ? undefined : this.calculated(to, above);
      if (format === undefined && content === undefined) continue;
      this.dispatch('UPDATE_CELL', {
        ...to,
        ...(format !== undefined && { format }),
        ...(content !== undefined && { content }),
      });
    }
  }

  private formatIn(position: CellPosition): string | undefined {
    const isText = typingOf(this.getters)?.isText(position) === true;
    return isText ? AS_TEXT : this.getters.getCell(position)?.format;
  }

  /** The formula of a column of which the rows above say the same. */
  private calculated(to: CellPosition, { range: { zone }, config }: Drawn): string | undefined {
    const first = zone.top + config.numberOfHeaders;
    const [last, before] = [to.row - 1, to.row - 2].map((row) => this.formulaIn({ ...to, row }));
    if (last === undefined) return undefined;
    const isAlike = to.row - 2 < first || (before !== undefined && shifted(before, 0, 1) === last);
    return isAlike ? shifted(last, 0, 1) : undefined;
  }

  private formulaIn(position: CellPosition): string | undefined {
    const cell = this.getters.getCell(position);
    if (!cell?.isFormula) return undefined;
    return typingOf(this.getters)?.formulaAt(position) ?? cell.compiledFormula.toFormulaString(this.getters);
  }
}
registries.featurePluginRegistry.add('fills new rows', FillsNewRows);

/** The tables of a workbook that have taken in rows, as they are now. */
export const grownTables = (getters: Getters, vocabulary: Vocabulary): TableShape[] =>
  getters.getSheetIds().flatMap((sheetId) =>
    getters.getCoreTables(sheetId).flatMap(({ range: { zone } }): TableShape[] => {
      const table = vocabulary.tableAt(getters.getSheetName(sheetId), { row: zone.top, column: zone.left });
      if (!table || table.area.top !== zone.top || table.area.left !== zone.left) return [];
      return table.area.bottom < zone.bottom
        ? [{ ...table, area: { ...table.area, bottom: zone.bottom } }]
        : [];
    }),
  );

/** The names and tables of a workbook some of whose tables have grown. */
export const withTables = (vocabulary: Vocabulary, grown: readonly TableShape[]): Vocabulary => ({
  name: (name, sheet) => vocabulary.name(name, sheet),
  table: (name) =>
    grown.find((table) => table.name.toLowerCase() === name.toLowerCase()) ?? vocabulary.table(name),
  tableAt: (sheet, place) =>
    grown.find((table) => table.sheet === sheet && covers(table.area, place)) ??
    vocabulary.tableAt(sheet, place),
});
