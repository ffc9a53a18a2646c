import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { CellContent, ProvableWorkbook, SheetContent } from '../../../src/hosts/engine/workbook';
import type { TableShape, Vocabulary } from '../../../src/hosts/xlsx/formula';
import { covers } from '../../../src/hosts/xlsx/address';
import { type Cell, isCellError } from '../../../src/worksheet/cells/cell';
import { addressOf } from './addressOf';

// How formulas are put together: signs, blocks, references, variables. Expected values: ISO/IEC 29500-1:2016, 18.17,
// for what it has; spilling, `@`, LET and LAMBDA as the vendor's reference describes them; arithmetic by hand.

const cell = (address: string, value: Cell): CellContent => ({ address, value });
const formula = (address: string, text: string, more: Partial<CellContent> = {}): CellContent => ({
  address,
  value: null,
  formula: text,
  spill: address,
  ...more,
});
/** As files store what was typed before formulas could spill. */
const older = (address: string, text: string, value: Cell = null): CellContent => ({
  address,
  value,
  formula: text,
});

const LOTS: TableShape = {
  name: 'Lots',
  sheet: 'Data',
  area: { top: 0, left: 5, bottom: 3, right: 7 },
  headerRows: 1,
  totalsRows: 0,
  columns: ['Strain', 'Blocks', 'Mass per block'],
};
const NAMES: Readonly<Record<string, string>> = {
  blockmass: '2.5',
  counts: 'Data!$G$2:$G$4',
  double: 'LAMBDA(x,2*x)',
  circle: 'circle+1',
  above: 'Data!XFD1048576',
};
const vocabulary: Vocabulary = {
  name: (name) => NAMES[name.toLowerCase()],
  table: (name) => (name.toLowerCase() === 'lots' ? LOTS : undefined),
  tableAt: (sheet, place) => (sheet === LOTS.sheet && covers(LOTS.area, place) ? LOTS : undefined),
};
const DATA: readonly CellContent[] = [
  ...[3, 1, 2].map((value, row) => cell(addressOf(0, row), value)),
  ...[10, 20, 30].map((value, row) => cell(addressOf(1, row), value)),
  ...['Oak', 'Beech', 'oak'].map((value, row) => cell(addressOf(2, row), value)),
  ...LOTS.columns.map((value, column) => cell(addressOf(5 + column, 0), value)),
  ...['Alder-3', 'Birch-1', 'Alder-3'].map((value, row) => cell(addressOf(5, row + 1), value)),
  ...[4, 6, 5].map((value, row) => cell(addressOf(6, row + 1), value)),
  ...[2.5, 2, 3].map((value, row) => cell(addressOf(7, row + 1), value)),
];
const MORE: readonly SheetContent[] = ['January', 'February', "Lee's"].map((name, at) => ({
  name,
  cells: [cell('A1', at + 1), cell('B1', 10 * (at + 1))],
}));

const opened = (cells: readonly CellContent[]): Promise<ProvableWorkbook> =>
  openWorkbook({
    dateSystem: 1900,
    vocabulary,
    sheets: [{ name: 'Data', cells: [...DATA, ...cells] }, ...MORE],
  });
const plain = (value: Cell): Cell => (isCellError(value) ? value.code : value);
const shown = (book: ProvableWorkbook, address: string): unknown => {
  const { value, block, unsupported } = book.result('Data', address);
  return unsupported ?? block?.map((row) => row.map(plain)) ?? plain(value);
};

const SPILLING: readonly (readonly [text: string, gives: unknown])[] = [
  // signs
  ['=-A1^2', 9],
  ['=-(A1^2)', -9],
  ['=2^-1', 0.5],
  ['=2^3^2', 64],
  ['=1-50%', 0.5],
  ['=-A1%', -0.03],
  ['=0.5-0.4-0.1', 0],
  ['=(0.5-0.4-0.1)', -2.7755575615629e-17],
  ['="a""b"&1', 'a"b1'],
  ['=+"text"', 'text'],
  ['=0^-1', '#DIV/0!'],
  ['=(-8)^(1/3)', '#NUM!'],
  ['=10^309', '#NUM!'],
  // blocks
  [
    '=A1:A3+{10,20}',
    [
      [13, 23],
      [11, 21],
      [12, 22],
    ],
  ],
  ['=A1:A3+{1;2}', [[4], [3], ['#N/A']]],
  [
    '={1,-2;3,#N/A}',
    [
      [1, -2],
      [3, '#N/A'],
    ],
  ],
  ['=IF(A1:A3>1,"yes")', [['yes'], [false], ['yes']]],
  ['=IF(A1:A3>1,B1:B3,0)', [[10], [0], [30]]],
  ['=SUM(IF(C1:C3="oak",B1:B3))', 40],
  ['=IFS(A1:A3>2,"big",A1:A3>1,"middle",TRUE,"small")', [['big'], ['small'], ['middle']]],
  ['=SWITCH(A1:A3,1,"one",2,"two","other")', [['other'], ['one'], ['two']]],
  [
    '=CHOOSE({1,2},A1:A2,B1:B2)',
    [
      [3, 10],
      [1, 20],
    ],
  ],
  ['=IFERROR(A1:A3/{1;0;1},"none")', [[3], ['none'], [2]]],
  // only what is needed is calculated
  ['=IF(TRUE,1,1/0)', 1],
  ['=IF(FALSE,1)', false],
  ['=IF(TRUE,)', 0],
  ['=CHOOSE(2,1/0,7)', 7],
  ['=IFNA(1/0,7)', '#DIV/0!'],
  ['=IFERROR(LET(x,1/0,x+1),9)', 9],
  // references
  ['=SUM(A1:B3 A2:C2)', 21],
  ['=A1:A2 B1:B2', '#NULL!'],
  ['=SUM((A1,B1:B2,A3))', 35],
  ['=SUM(A1:OFFSET(A1,2,1))', 66],
  ['=SUM(OFFSET(B3,0,0,-2))', 50],
  ['=OFFSET(A1,-1,0)', '#REF!'],
  ['=SUM(INDIRECT("B1:B"&A1))', 60],
  ['=INDIRECT("R2C2",FALSE)', 20],
  ['=SUM(INDIRECT("counts"))', 15],
  ['=SUM(INDIRECT("Lots[Blocks]"))', 15],
  ['=INDIRECT("nothing here")', '#REF!'],
  ["=SUM('January:Lee''s'!A1)", 6],
  ['=SUM(January:February!A1:B1)', 33],
  ["='Lee''s'!A1+0", 3],
  ['=Away!A1', '#REF!'],
  ['=SUM(#REF!)', '#REF!'],
  ['=January!#REF!+1', '#REF!'],
  ['=SUM(B:B)', 60],
  ['=SUMPRODUCT((C:C="oak")*1,B:B)', 40],
  ['=SUMPRODUCT(--(C:C=""))', 1048573],
  ['=SUM(January!A1:A1:B1)', 11],
  ['=@A1:A3', 3],
  // names and tables
  ['=A1*BlockMass', 7.5],
  ['=SUM(Counts)', 15],
  ['=Double(A1)', 6],
  ['=SUM(Lots[Blocks])', 15],
  ['=SUM(Lots[[Blocks]:[Mass per block]])', 22.5],
  ['=Lots[[#Headers],[Blocks]]', 'Blocks'],
  [
    '=Lots',
    [
      ['Alder-3', 4, 2.5],
      ['Birch-1', 6, 2],
      ['Alder-3', 5, 3],
    ],
  ],
  ['=Lots[#Totals]', '#REF!'],
  // variables and functions
  ['=LET(x,2,y,x*3,x+y)', 8],
  ['=LET(x,1,LET(x,x+1,x*10))', 20],
  ['=LAMBDA(x,y,x*y)(3,4)', 12],
  ['=LET(f,LAMBDA(x,x+1),f(f(1)))', 3],
  ['=LET(step,LAMBDA(n,LAMBDA(x,x+n)),step(2)(5))', 7],
  ['=LAMBDA(x,[y],IF(ISOMITTED(y),x,x+y))(5)', 5],
  ['=MAP(A1:A3,LAMBDA(x,x*x))', [[9], [1], [4]]],
  ['=MAP(A1:A3,B1:B3,LAMBDA(x,y,x+y))', [[13], [21], [32]]],
  ['=BYROW(A1:B3,LAMBDA(r,SUM(r)))', [[13], [21], [32]]],
  ['=BYCOL(A1:B3,LAMBDA(c,SUM(c)))', [[6, 60]]],
  ['=BYROW(A1:B3,SUM)', [[13], [21], [32]]],
  ['=REDUCE(0,A1:A3,LAMBDA(a,x,a+x))', 6],
  ['=SCAN(0,A1:A3,LAMBDA(a,x,a+x))', [[3], [4], [6]]],
  [
    '=MAKEARRAY(2,3,LAMBDA(r,c,r*10+c))',
    [
      [11, 12, 13],
      [21, 22, 23],
    ],
  ],
  ['=LAMBDA(x,x)', '#CALC!'],
  ['=LET(f,LAMBDA(f,n,f(f,n+1)),f(f,1))', '#NUM!'],
];

describe('formulas that may spill', () => {
  const places = SPILLING.map((_, at) => addressOf(20 + 5 * at, 0));
  const book = opened(SPILLING.map(([text], at) => formula(places[at]!, text)));
  test.each(SPILLING.map(([text, gives], at) => [text, gives, places[at]!] as const))(
    '%s gives %j',
    async (_text, gives, place) => {
      const got = shown(await book, place);
      expect(typeof got === 'number' ? Number(got.toPrecision(14)) : got).toEqual(gives);
    },
  );
});

describe('formulas stored without the array flag take the value of their own row or column', () => {
  const rows: readonly (readonly [address: string, text: string, gives: unknown])[] = [
    ['K2', '=A1:A3*2', 2],
    ['L3', '=SUM(A1:A3*2)', 4],
    ['M9', '=A1:A3', '#VALUE!'],
    ['N2', '=A1:B3+1', '#VALUE!'],
    ['O3', '=IF(A1:A3>1,"yes","no")', 'yes'],
    ['P1', '=SUM({1,2}*10)', 30],
    ['Q2', '=Counts', 4],
    ['B9', '=B1:C1', 10],
    ['R2', '=SUM(A1:A3)', 6],
  ];
  test.each(rows)('in %s: %s gives %j', async (address, text, gives) => {
    expect(shown(await opened([older(address, text)]), address)).toEqual(gives);
  });
});

test('a reference to the own row of a table follows the row, and is an error beside it', async () => {
  const book = await opened([
    older('I2', '=Lots[[#This Row],[Blocks]]*Lots[[#This Row],[Mass per block]]'),
    older('I3', '=Lots[[#This Row],[Blocks]]*Lots[[#This Row],[Mass per block]]'),
    older('I9', '=Lots[[#This Row],[Blocks]]'),
  ]);
  expect(['I2', 'I3', 'I9'].map((address) => shown(book, address))).toEqual([10, 12, '#VALUE!']);
});

test('an older array formula fills its own range and no more', async () => {
  const book = await opened([
    formula('K1', '=A1:A3*10', { spill: 'K1:K5', isFixedArray: true }),
    formula('L1', '=A1:A3*10', { spill: 'L1:L2', isFixedArray: true }),
    formula('M1', '=SUM(A1:A3*10)', { spill: 'M1', isFixedArray: true }),
    formula('N1', '=7', { spill: 'N1:N2', isFixedArray: true }),
  ]);
  expect(shown(book, 'K1')).toEqual([[30], [10], [20], ['#N/A'], ['#N/A']]);
  expect(shown(book, 'L1')).toEqual([[30], [10]]);
  expect(shown(book, 'M1')).toBe(60);
  expect(shown(book, 'N1')).toEqual([[7], [7]]);
});

describe('what the calculation lacks is named, and the stored result stands', () => {
  test.each([
    ['=GROWLIGHT(A1)', 'GROWLIGHT'],
    ['=nowhere+1', 'the name nowhere'],
    ['=circle', 'the name circle, which refers to itself'],
    ['=SUM(Gone[Weight])', 'the table of Gone[Weight], which is not in the workbook'],
    ['=SUM(Lots[Weight])', 'a column Weight in the table Lots'],
    ['=[1]Sheet1!A1+1', 'another workbook ([1]Sheet1!A1)'],
    ['=SQRT(1,2)', 'SQRT with 2 arguments (it takes 1)'],
    ['=1+', 'a way of writing formulas: =1+'],
    ['=K1+1', 'a circular reference'],
  ])('%s', async (text, reason) => {
    const book = await opened([formula('K1', text, { value: 5 }), formula('L1', '=K1*2')]);
    expect(book.result('Data', 'K1')).toEqual({ value: 5, unsupported: reason });
    expect(book.result('Data', 'L1')).toEqual({ value: 10, restsOn: { sheet: 'Data', address: 'K1' } });
  });

  test('all cells of a circle keep their results, and none beside it', async () => {
    const book = await opened([
      formula('K1', '=L1+1', { value: 1 }),
      formula('L1', '=M1+1', { value: 2 }),
      formula('M1', '=IF(A1>9,0,K1)', { value: 3 }),
      formula('N1', '=M1+A1'),
      formula('O1', '=IF(A1<9,4,O1)'),
    ]);
    expect(['K1', 'L1', 'M1'].map((at) => book.result('Data', at).unsupported)).toEqual(
      Array(3).fill('a circular reference'),
    );
    expect(shown(book, 'N1')).toBe(6);
    expect(shown(book, 'O1')).toBe(4);
  });

  test('a formula that is kept is told of all that rests on it, through other cells too', async () => {
    const book = await opened([
      formula('K1', '=GROWLIGHT(1)', { value: 7 }),
      formula('L1', '=K1+1'),
      formula('M1', '=SUM(L1:L5)'),
      formula('N1', '=A1'),
    ]);
    expect(book.result('Data', 'M1')).toEqual({ value: 8, restsOn: { sheet: 'Data', address: 'K1' } });
    expect(book.result('Data', 'N1').restsOn).toBeUndefined();
  });
});

describe('a formula is tried from what the file stores', () => {
  const cells = [
    formula('K1', '=A1+1', { value: 40 }),
    formula('K2', '=K1*2', { value: 80 }),
    formula('K3', '=K4*2', { value: 6 }),
    formula('K4', '=A1*1'),
    formula('L1', '=A1:A2', { value: 3, spill: 'L1:L2' }),
    { address: 'L2', value: 1, spilledFrom: 'L1' },
    formula('M1', '=SUM(L1#)', { value: 4 }),
    formula('N1', '=GROWLIGHT(1)', { value: 5 }),
    formula('O1', '=SUM(INDIRECT("A1:A2"))', { value: 4 }),
  ];
  const none = { isVolatile: false, lacksStored: false };
  test.each([
    ['K1', { value: 4, ...none }],
    ['K2', { value: 80, ...none }],
    ['K3', { value: 0, isVolatile: false, lacksStored: true }],
    ['L1', { value: 3, block: [[3], [1]], ...none }],
    ['M1', { value: 4, ...none }],
    ['N1', { value: 5, unsupported: 'GROWLIGHT', ...none }],
    ['O1', { value: 4, isVolatile: true, lacksStored: false }],
  ])('%s', async (address, trial) => {
    expect((await opened(cells)).evaluateFromStored('Data', address)).toEqual(trial);
  });
});

describe('edits', () => {
  test('references found by calculation follow', async () => {
    const book = await opened([
      formula('K1', '=INDIRECT("A"&L1)'),
      cell('L1', 2),
      formula('M1', '=OFFSET(A1,L1,0)*10'),
      formula('N1', '=M1+1'),
    ]);
    expect(['K1', 'M1', 'N1'].map((at) => shown(book, at))).toEqual([1, 20, 21]);
    book.type('Data', 'L1', 1);
    expect(['K1', 'M1', 'N1'].map((at) => shown(book, at))).toEqual([3, 10, 11]);
    book.type('Data', 'A2', 7);
    expect(shown(book, 'N1')).toBe(71);
  });

  test('ranges with one fixed end, names and sums over sheets follow', async () => {
    const book = await opened([
      ...[1, 2, 3].map((row) => formula(`K${row}`, `=SUM(A$1:A${row})`)),
      formula('L1', '=SUM(Counts)'),
      formula('M1', '=SUM(January:February!A1)'),
      formula('N1', '=SUM(B:B)'),
    ]);
    book.type('Data', 'A2', 100);
    expect(['K1', 'K2', 'K3'].map((at) => shown(book, at))).toEqual([3, 103, 105]);
    book.type('Data', 'G3', 60);
    expect(shown(book, 'L1')).toBe(69);
    book.type('February', 'A1', 50);
    expect(shown(book, 'M1')).toBe(51);
    book.type('Data', 'B900000', 40);
    expect(shown(book, 'N1')).toBe(100);
  });

  test('a formula typed into a circle breaks it', async () => {
    const book = await opened([formula('K1', '=A1'), formula('L1', '=K1+1')]);
    book.type('Data', 'K1', '=L1');
    expect(book.result('Data', 'K1').unsupported).toBe('a circular reference');
    book.type('Data', 'K1', 5);
    expect(shown(book, 'L1')).toBe(6);
  });
});

describe('size', () => {
  const COUNT = 50_000;
  test('a running total from the bottom up of fifty thousand rows', async () => {
    const rows = Array.from({ length: COUNT }, (_, at) => [
      cell(`C${at + 1}`, 1),
      older(`D${at + 1}`, `=C${at + 1}+D${at + 2}`),
    ]).flat();
    const book = await openWorkbook({ dateSystem: 1900, sheets: [{ name: 'Data', cells: rows }] });
    expect(book.result('Data', 'D1').value).toBe(COUNT);
    book.type('Data', `C${COUNT}`, 2);
    expect(book.result('Data', 'D1').value).toBe(COUNT + 1);
  }, 20_000);

  test('sums that grow row by row over twenty thousand rows', async () => {
    const rows = Array.from({ length: 20_000 }, (_, at) => [
      cell(`A${at + 1}`, 1),
      older(`B${at + 1}`, `=SUM($A$1:A${at + 1})`),
    ]).flat();
    const book = await openWorkbook({ dateSystem: 1900, sheets: [{ name: 'Data', cells: rows }] });
    expect(book.result('Data', 'B20000').value).toBe(20_000);
  }, 20_000);

  test('a cell in the last row and column costs what it holds', async () => {
    const book = await opened([
      cell('XFD1048576', 7),
      formula('K1', '=SUM(XFD:XFD)+SUM(A:A)'),
      formula('K2', '=SUM(A1:XFD1048576)-SUM(K1:K2)*0'),
    ]);
    expect(shown(book, 'K1')).toBe(13);
    expect(book.result('Data', 'K2').unsupported).toBe('a circular reference');
  });
});
