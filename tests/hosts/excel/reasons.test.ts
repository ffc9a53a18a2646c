import { afterEach, describe, expect, test } from '@jest/globals';
import { officeBook } from '../../../src/hosts/excel/officeBook';
import { checkBook, type Finding } from '../../../src/hosts/pane/check';
import { explained } from '../../../src/hosts/pane/reasons';
import { solverHere } from '../../../src/hosts/worker/solver';
import { newCaller } from '../../../src/worksheet/call';
import { addressOf, areaOf } from '../../../src/hosts/xlsx/address';
import { cutTo, renamed, rowsMoved, type Sheets } from './edits';
import { FakeExcel, type FakeCell } from './fakeExcel';

// Excel gives the code of an error but not its reason, and calculates nothing when a workbook is opened. So the check
// reads what cells show and makes the calls of faulty cells again: these books were calculated in another session.

const caller = newCaller();
const scope = globalThis as { Excel?: unknown; Office?: unknown };
let excel: FakeExcel;

function open(sheets: Sheets, hasSpills = true): void {
  excel = new FakeExcel(sheets);
  scope.Excel = excel.api;
  scope.Office = { context: { requirements: { isSetSupported: () => hasSpills } } };
}
afterEach(() => {
  delete scope.Excel;
  delete scope.Office;
});

async function check(): Promise<Finding[]> {
  const contents = await officeBook('1.0.0', () => Promise.resolve(1900)).contents();
  const formulas = await explained(contents, caller, solverHere(caller));
  return checkBook({ ...contents, formulas }, '1.0.0');
}
const told = async (): Promise<string[]> =>
  (await check()).map(({ place, words }) => `${place!.sheet}!${place!.address} ${words}`);

/** Cells written row by row from a corner; `null` stays empty. */
function cells(column: string, top: number, rows: readonly (readonly unknown[])[]): Record<string, FakeCell> {
  const first = column.charCodeAt(0);
  return Object.fromEntries(
    rows.flatMap((row, r) =>
      row.flatMap((shown, c) =>
        shown === null ? [] : [[`${String.fromCharCode(first + c)}${top + r}`, { formula: shown }]],
      ),
    ),
  );
}

const STRAINS = [
  ['strain', 'earliest', 'best', 'latest'],
  ['Alder-3', 60, 70, 90],
  ['Birch-1', 12, 16, 24],
];
const UNKNOWN = '#N/A: strain: "Hazel-9" is not in strains';

/** A list of lots with a column of ready dates, `top` rows down; the third lot has a strain that nobody grows. */
function lots(top: number, formula: string): Record<string, FakeCell> {
  const rows = [
    ['L-1', 46054, 'Alder-3'],
    ['L-2', 46055, 'Birch-1'],
    ['L-3', 46056, 'Hazel-9'],
    ['L-4', 46057, 'Birch-1'],
  ];
  return {
    ...cells('A', top, [['lot', 'inoculated', 'strain'], ...rows]),
    ...cells(
      'D',
      top + 1,
      [[''], [46071], ['#N/A'], [46073]].slice(1).map(([shown]) => [shown]),
    ),
    [`D${top + 1}`]: { formula, shown: 46124, spill: `D${top + 1}:D${top + 4}` },
    [`D${top + 2}`]: { formula: '', shown: 46071 },
    [`D${top + 3}`]: { formula: '', shown: '#N/A' },
    [`D${top + 4}`]: { formula: '', shown: 46073 },
  };
}

const overRanges = (top: number, sheet = ''): string =>
  `=PINSET.READYDATE(${sheet}B${top + 1}:B${top + 4},${sheet}C${top + 1}:C${top + 4},Strains!$A$1:$D$3)`;

describe('a check right after a workbook was edited', () => {
  /** What the column of ready dates shows for each lot, whatever row it is in. */
  const SHOWN: Readonly<Record<string, unknown>> = {
    'L-1': 46124,
    'L-2': 46071,
    'L-3': '#N/A',
    'L-4': 46073,
  };

  const BOOK: Sheets = { Lots: lots(1, overRanges(1)), Strains: cells('A', 1, STRAINS) };

  /** As Excel leaves it: the call is calculated again and fills as many cells as it has lots. */
  function calculated(book: Sheets, sheet = 'Lots'): Sheets {
    const held = { ...book[sheet]! };
    const [anchor, { formula, spill }] = Object.entries(held).find(([, cell]) => cell.spill !== undefined)!;
    const { top, bottom, left } = areaOf(spill!)!;
    for (let row = top; row <= bottom; row++) {
      const lot = held[addressOf({ row, column: 0 })]!.formula as string;
      const address = addressOf({ row, column: left });
      held[address] = { formula: '', ...held[address], shown: SHOWN[lot] };
    }
    held[anchor] = { ...held[anchor]!, formula };
    return { ...book, [sheet]: held };
  }
  const toldOf = (book: Sheets): Promise<string[]> => {
    open(book);
    return told();
  };
  const row = (n: number): string => `${UNKNOWN} (row ${n} of the column)`;

  test.each<[string, (book: Sheets) => Sheets, string[]]>([
    ['nothing yet', (book) => book, [`Lots!D4 ${row(3)}`]],
    ['three rows inserted above it', (book) => rowsMoved(book, 'Lots', 0, 3), [`Lots!D7 ${row(3)}`]],
    ['a row inserted above the strains', (book) => rowsMoved(book, 'Strains', 0, 1), [`Lots!D4 ${row(3)}`]],
    ['the lot before it deleted', (book) => rowsMoved(book, 'Lots', 2, -1), [`Lots!D3 ${row(2)}`]],
    ['the lot after it deleted', (book) => rowsMoved(book, 'Lots', 4, -1), [`Lots!D4 ${row(3)}`]],
    ['the faulty lot deleted', (book) => rowsMoved(book, 'Lots', 3, -1), []],
    ['the call moved', (book) => cutTo(book, 'Lots', 'D2:D5', 'Lots', 'F2'), [`Lots!F4 ${row(3)}`]],
    [
      'its strains moved to another sheet',
      (book) => cutTo(book, 'Strains', 'A1:D3', 'All that we grow', 'C5'),
      [`Lots!D4 ${row(3)}`],
    ],
    [
      'the sheet of the strains renamed',
      (book) => renamed(book, 'Strains', 'Grower’s list'),
      [`Lots!D4 ${row(3)}`],
    ],
  ])('%s', async (_what, edit, expected) => {
    const after = calculated(edit(BOOK));
    expect(await toldOf(after)).toEqual(expected);
    // Undone: the cells are as they were, and so is what is told.
    expect(await toldOf(BOOK)).toEqual([`Lots!D4 ${row(3)}`]);
  });

  test('its own sheet renamed, rows inserted after that, then all of it undone step by step', async () => {
    const second = renamed(BOOK, 'Lots', 'Spring 2026');
    const third = rowsMoved(second, 'Spring 2026', 1, 2);
    expect(await toldOf(calculated(third, 'Spring 2026'))).toEqual([`Spring 2026!D6 ${row(3)}`]);
    expect(await toldOf(second)).toEqual([`Spring 2026!D4 ${row(3)}`]);
    expect(await toldOf(BOOK)).toEqual([`Lots!D4 ${row(3)}`]);
  });

  test('the strains deleted: the call refers to nothing, and the check says what to do', async () => {
    const without = rowsMoved(BOOK, 'Strains', 0, -3);
    const sheet = { ...without['Lots']! };
    for (const address of ['D2', 'D3', 'D4', 'D5']) delete sheet[address];
    sheet['D2'] = { formula: without['Lots']!['D2']!.formula, shown: '#REF!' };
    expect(sheet['D2'].formula).toBe('=PINSET.READYDATE(B2:B5,C2:C5,#REF!)');
    for (const shown of ['#REF!', '#VALUE!']) {
      sheet['D2'] = { ...sheet['D2'], shown };
      expect(await toldOf({ ...without, Lots: sheet })).toEqual([
        `Lots!D2 Shows ${shown}: the formula refers to cells that were deleted: write it again`,
      ]);
    }
  });

  test('a second workbook is told by its own cells, and the first by its own when one goes back to it', async () => {
    const other: Sheets = {
      Lots: { ...lots(1, overRanges(1)), C4: { formula: 'Birch-1' }, C3: { formula: 'Elm-2' } },
      Strains: cells('A', 1, STRAINS),
    };
    const shownThere = {
      ...other,
      Lots: { ...other['Lots']!, D3: { formula: '', shown: '#N/A' }, D4: { formula: '', shown: 46072 } },
    };
    expect(await toldOf(BOOK)).toEqual([`Lots!D4 ${row(3)}`]);
    expect(await toldOf(shownThere)).toEqual([
      'Lots!D3 #N/A: strain: "Elm-2" is not in strains (row 2 of the column)',
    ]);
    expect(await toldOf(BOOK)).toEqual([`Lots!D4 ${row(3)}`]);
  });
});

describe('a check of a workbook that was opened again', () => {
  test('leads to the faulty cell in the middle of a spilled column, with its reason', async () => {
    open({ Lots: lots(1, overRanges(1)), Strains: cells('A', 1, STRAINS) });
    expect(await told()).toEqual([`Lots!D4 ${UNKNOWN} (row 3 of the column)`]);
  });

  test('after rows were inserted above it and its sheet was renamed', async () => {
    open({ 'Spring 2026': lots(8, overRanges(8)), Strains: cells('A', 1, STRAINS) });
    expect(await told()).toEqual([`Spring 2026!D11 ${UNKNOWN} (row 3 of the column)`]);
  });

  test('never by what stood at the same address in another workbook', async () => {
    open({ Lots: lots(1, overRanges(1)), Strains: cells('A', 1, STRAINS) });
    await check();
    open({ Lots: { D4: { formula: '=PINSET.MIXWATER(100,0.2,0.6)', shown: 100 } } });
    expect(await told()).toEqual([]);
  });

  test('through the columns of a table, a name, and a spill that another formula fills', async () => {
    open({
      Lots: lots(1, '=PINSET.READYDATE(Lots[inoculated],Grown#,AllStrains)'.replace('Grown#', 'F2#')),
      Strains: cells('A', 1, STRAINS),
    });
    const sheet = excel.sheets.get('Lots')!;
    sheet.tables.push({ name: 'Lots', range: 'A1:C5' });
    excel.names.set('AllStrains', '=Strains!$A$1:$D$3');
    sheet.cells.set('F2', { formula: '=TRIM(C2:C5)', shown: 'Alder-3', spill: 'F2:F5' });
    ['Birch-1', 'Hazel-9', 'Birch-1'].forEach((shown, r) =>
      sheet.cells.set(`F${r + 3}`, { formula: '', shown }),
    );
    expect(await told()).toEqual([`Lots!D4 ${UNKNOWN} (row 3 of the column)`]);
  });

  test('counts the other faulty cells of the call, and reads settings, signs, texts and calls within it', async () => {
    open({
      Mix: {
        A1: { formula: '=PINSET.DEWPOINT(-500,PINSET.SHELFDAYYIELD(1,1,2),"C")', shown: '#VALUE!' },
        A2: { formula: '=PINSET.READYDATE({1,2},B1,C1:D2)', shown: '#VALUE!' },
      },
    });
    const [first, second] = await told();
    expect(first).toMatch(/^Mix!A1 #VALUE!: .*-500/);
    // A list within the formula is not read: the cell itself has the reason.
    expect(second).toBe('Mix!A2 Shows #VALUE!: select the cell to read why');
    const sheet = { ...lots(1, overRanges(1)), D5: { formula: '', shown: '#N/A' } };
    open({ Lots: sheet, Strains: cells('A', 1, STRAINS) });
    expect(await told()).toEqual([
      `Lots!D4 ${UNKNOWN} (row 3 of the column). 1 more of its cells show an error`,
    ]);
  });

  test('says so where the call would answer now, and what to do about errors of Excel’s own', async () => {
    const corrected = { ...lots(1, overRanges(1)), C4: { formula: 'Birch-1' } };
    open({ Lots: corrected, Strains: cells('A', 1, STRAINS) });
    expect(await told()).toEqual(['Lots!D4 Shows #N/A, but would answer now: click Calculate again']);
    open({
      Lots: {
        A1: { formula: '=PINSET.MIXWATER(100,0.2,0.6)', shown: '#BUSY!' },
        A2: { formula: '=PINSET.MIXWATER(#REF!,0.2,0.6)', shown: '#REF!' },
        A3: { formula: '=PINSET.MIXWATER(100,0.2,0.6)', shown: '#NAME?' },
      },
    });
    const [busy, deleted, unknown] = await told();
    expect(busy).toContain('it is still waiting for an answer');
    expect(deleted).toContain('#REF!');
    expect(unknown).toContain('Excel did not know the function');
  });

  test('in an Excel without spills each cell of a block is looked at by itself', async () => {
    open({ Lots: lots(1, overRanges(1)), Strains: cells('A', 1, STRAINS) }, false);
    const sheet = excel.sheets.get('Lots')!;
    for (const row of [3, 4, 5]) sheet.cells.get(`D${row}`)!.formula = overRanges(1);
    const [first] = await told();
    expect(first).toMatch(/^Lots!D4 /);
  });
});
