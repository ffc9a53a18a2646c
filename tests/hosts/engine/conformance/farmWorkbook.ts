import type { CellContent, SheetContent, WorkbookContent } from '../../../../src/hosts/engine/workbook';
import { type Cell, cellError } from '../../../../src/worksheet/cells/cell';
import { addressOf } from '../addressOf';

// An invented farm's workbook, small enough to work every figure out by hand. 46023 is 1 January 2026, a Thursday.

const NA = cellError('#N/A');
const DIVIDED = cellError('#DIV/0!');

const SHEETS: Readonly<Record<string, readonly (readonly Cell[])[]>> = {
  Lots: [
    ['lot', 'strain', 'started', 'blocks', 'kg', 'price', 'room', 'note'],
    ['L-01', 'Alder-3', 46023, 40, 52, 9.5, 'A', null],
    ['L-02', 'Birch-1', 46030, 30, 27, 12, 'B', 'late'],
    ['L-03', 'Alder-3', 46037, 50, 70, 9.5, 'A', null],
    ['L-04', 'Cedar-2', 46054, 20, 0, 15, 'C', 'lost'],
    ['L-05', 'alder-3', 46061, 60, 81, 10, 'B', null],
    ['L-06', 'Birch-1', 46075, 30, null, 12, 'B', 'late'],
    ['L-07', 'Cedar-2', 46082, 25, 20, 15, 'C', null],
    ['L-08', 'Alder-3', 46096, 45, 63, 9, 'A', '?'],
  ],
  Strains: [
    ['strain', 'earliest', 'best', 'latest', 'price'],
    ['Alder-3', 60, 70, 90, 9.5],
    ['Birch-1', 40, 50, 60, 12],
    ['Cedar-2', 80, 95, 120, 15],
  ],
  Grades: [
    [0, 'C'],
    [20, 'B'],
    [50, 'A'],
    [70, 'A+'],
  ],
  // Row 4 is hidden by hand.
  Picks: [
    ['lot', 'kg'],
    ['L-01', 5],
    ['L-01', 3],
    ['L-02', 2],
    ['L-02', 4],
    ['L-03', 6],
    ['L-03', 1],
  ],
  // A filter hides rows 3 and 5.
  Filtered: [
    ['lot', 'kg'],
    ['L-01', 5],
    ['L-02', 3],
    ['L-01', 2],
    ['L-02', 4],
    ['L-01', 6],
    ['L-01', 1],
  ],
  Messy: [
    [1, 10],
    ['2', 20],
    [true, 30],
    [null, 40],
    [NA, 50],
    ['', 60],
    ['x', 70],
    [5, 80],
    [DIVIDED, 90],
  ],
  "Grower's list": [
    [7, 'Alder-3'],
    [8, 'Birch-1'],
  ],
  Jan: [
    [null, null],
    [null, 10],
    [null, 1],
  ],
  Feb: [
    [null, null],
    [null, 20],
    [null, 'x'],
  ],
  Mar: [
    [null, null],
    [null, 30],
    [null, 3],
  ],
  Series: [
    ['x', 'y', 'z'],
    [1, 2, 4],
    [2, 4, 4],
    [3, 5, 9],
    [4, 4, 1],
    [5, 5, 2],
  ],
};

const HIDDEN: Readonly<Record<string, ReadonlyMap<number, 'hand' | 'filter'>>> = {
  Picks: new Map([[3, 'hand']]),
  Filtered: new Map([
    [2, 'filter'],
    [4, 'filter'],
  ]),
};

export const FARM_NAMES: Readonly<Record<string, string>> = {
  KgAll: 'Lots!$E$2:$E$9',
  StrainNames: 'Strains!$A$2:$A$4',
  Share: '0.25',
};

/** Cells that hold a formula giving empty text. */
const EMPTY_TEXT = '=IF(TRUE,"","")';

function cellsOf(rows: readonly (readonly Cell[])[]): CellContent[] {
  return rows.flatMap((row, r) =>
    row.flatMap((value, c) => {
      if (value === null) return [];
      const address = addressOf(c, r);
      return value === '' ? [{ address, value, formula: EMPTY_TEXT }] : [{ address, value }];
    }),
  );
}

/** The farm's workbook with further cells on its sheets; sheets it has not are added. */
export function farmWorkbook(further: ReadonlyMap<string, readonly CellContent[]>): WorkbookContent {
  const names = [...new Set([...Object.keys(SHEETS), ...further.keys()])];
  return {
    dateSystem: 1900,
    vocabulary: {
      name: (name) =>
        Object.entries(FARM_NAMES).find(([own]) => own.toUpperCase() === name.toUpperCase())?.[1],
      table: () => undefined,
      tableAt: () => undefined,
    },
    sheets: names.map((name): SheetContent => {
      const hiddenRows = HIDDEN[name];
      return {
        name,
        cells: [...cellsOf(SHEETS[name] ?? []), ...(further.get(name) ?? [])],
        ...(hiddenRows && { hiddenRows }),
      };
    }),
  };
}
