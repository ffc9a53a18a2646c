import { components, stores, type Getters, type Model } from '@odoo/o-spreadsheet';

// Keys as in other spreadsheets: Enter goes down, and behind a run of Tab to the next row of the column where the run
// began; Home and End go to the ends of a row, and to those of what a sheet holds.

interface Spot {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/** Where the last Tab led, and the column where its run began. */
let run: (Spot & { readonly from: number }) | undefined;

const isAt = (a: Spot, b: Spot | undefined): boolean =>
  a.sheetId === b?.sheetId && a.col === b.col && a.row === b.row;

/** Moves on from a cell that Tab or Enter leaves. */
function moveOn(model: Model, from: Spot, direction: string): void {
  const { getters, selection } = model;
  if (direction === 'right') {
    const start = isAt(from, run) ? run!.from : from.col;
    selection.moveAnchorCell('right', 1);
    run = { ...getters.getActivePosition(), from: start };
  } else if (direction === 'down' && isAt(from, run)) {
    const row = Math.min(from.row + 1, getters.getNumberRows(from.sheetId) - 1);
    selection.selectCell(run!.from, row);
    run = undefined;
  } else {
    selection.moveAnchorCell(direction as 'down', 1);
  }
}

const isOneCell = (getters: Getters): boolean =>
  getters.isSingleCellOrMerge(getters.getActiveSheetId(), getters.getSelectedZone());

interface Edited {
  readonly editionMode: string;
}

/** What is typed into the cells of a grid that is shown. */
const composers = new WeakMap<Getters, Edited>();

/** Whether something is being typed into a cell. */
export const isEdited = (getters: Getters): boolean =>
  (composers.get(getters)?.editionMode ?? 'inactive') !== 'inactive';

interface GridKeys {
  readonly env: { readonly model: Model; getStore(store: unknown): Edited };
  readonly keyDownMapping: Record<string, () => void>;
  moveInSelection(direction: string): void;
  setup: (this: GridKeys) => void;
}

const grid = components.Grid.prototype as unknown as GridKeys;
const { setup } = grid;

grid.setup = function () {
  setup.call(this);
  const { model } = this.env;
  const { getters, selection } = model;
  composers.set(getters, this.env.getStore(stores.CellComposerStore));
  const move = (direction: string): void => {
    if (isOneCell(getters)) moveOn(model, getters.getActivePosition(), direction);
    else this.moveInSelection(direction);
  };
  const lastIn = (sheetId: string, row?: number): { col: number; row: number } => {
    const held = getters
      .getEvaluatedCellsPositions(sheetId)
      .filter((at) => row === undefined || at.row === row);
    return {
      col: held.reduce((most, { col }) => Math.max(most, col), 0),
      row: row ?? held.reduce((most, at) => Math.max(most, at.row), 0),
    };
  };
  Object.assign(this.keyDownMapping, {
    Enter: () => move('down'),
    'Shift+Enter': () => move('up'),
    Tab: () => move('right'),
    'Shift+Tab': () => move('left'),
    Home: () => selection.selectCell(0, getters.getActivePosition().row),
    End: () => {
      const { sheetId, row } = getters.getActivePosition();
      selection.selectCell(lastIn(sheetId, row).col, row);
    },
    'Ctrl+End': () => {
      const { col, row } = lastIn(getters.getActiveSheetId());
      selection.selectCell(col, row);
    },
  });
};

interface Composer {
  readonly getters: Getters;
  readonly model: Model;
  readonly currentEditedCell: Spot;
  readonly editionMode: string;
  stopEdition: (this: Composer, direction?: string) => void;
}

const composer = stores.CellComposerStore.prototype as unknown as Composer;
const { stopEdition } = composer;

composer.stopEdition = function (direction) {
  if (direction === undefined || this.editionMode === 'inactive' || !isOneCell(this.getters)) {
    return stopEdition.call(this, direction);
  }
  const from = this.currentEditedCell;
  stopEdition.call(this);
  if (this.editionMode === 'inactive') moveOn(this.model, from, direction);
};
