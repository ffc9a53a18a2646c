import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { CalculatingWorkbook, CellContent, CellResult } from '../../../src/hosts/engine/workbook';
import { type Cell, type CellError, cellError, isCellError } from '../../../src/worksheet/cells/cell';
import { addressOf } from './addressOf';

// What any engine behind the hosts must do. Expected values of built-ins: the definitions and examples of
// ISO/IEC 29500-1:2016, 18.17.7 where it has the function; the others (SORT, FILTER, UNIQUE, …) as the vendor's
// reference of worksheet functions defines them; arithmetic by hand.

const cell = (address: string, value: Cell): CellContent => ({ address, value });
const formula = (address: string, text: string, more: Partial<CellContent> = {}): CellContent => ({
  address,
  value: null,
  formula: text,
  ...more,
});
const open = (...cells: CellContent[]): Promise<CalculatingWorkbook> =>
  openWorkbook({ dateSystem: 1900, sheets: [{ name: 'Sheet', cells }] });
const shown = ({ value, block, unsupported }: CellResult): unknown =>
  unsupported ?? block?.map((row) => row.map(plain)) ?? plain(value);
const rounded = (got: unknown): unknown => (typeof got === 'number' ? Number(got.toPrecision(12)) : got);
const plain = (value: Cell): Cell | string => (isCellError(value) ? value.code : value);

const DATA: readonly CellContent[] = [
  ...[3, 1, 2, 'b', '12'].map((value, row) => cell(addressOf(0, row), value)),
  cell('A7', true),
  formula('B1', '=IF(TRUE,"","")'),
  ...[10, 20, 30].map((value, row) => cell(addressOf(2, row), value)),
  ...['Oak', 'oak', 'Beech'].map((value, row) => cell(addressOf(3, row), value)),
];

const BUILT_INS: readonly (readonly [formula: string, gives: unknown])[] = [
  // blanks, empty text, text and numbers
  ['=A6+1', 1],
  ['=A6=0', true],
  ['=A6=""', true],
  ['=A6&"x"', 'x'],
  ['=B1=0', false],
  ['=B1=""', true],
  ['=B1+1', '#VALUE!'],
  ['=B1*2', '#VALUE!'],
  ['=-B1', '#VALUE!'],
  ['=SUM(B1,1)', 1],
  ['=A4*1', '#VALUE!'],
  ['=A5*1', 12],
  ['=SUM(A5)', 0],
  ['=A7+1', 2],
  ['=ISBLANK(A6)', true],
  ['=ISBLANK(B1)', false],
  ['=ISNUMBER(A5)', false],
  ['=LEN(A6)', 0],
  ['=COUNTA(A1:A7)', 6],
  ['=COUNT(A1:A7)', 3],
  ['=COUNTBLANK(A1:A7)', 1],
  ['=AVERAGE(A6)', '#DIV/0!'],
  ['=MIN(A4:A6)', 0],
  ['=MONTH(A6)', 1],
  // comparison
  ['="a"="A"', true],
  ['=1="1"', false],
  ['=TRUE=1', false],
  ['="a">1', true],
  ['=TRUE>"z"', true],
  ['=TRUE>9', true],
  ['=1<"a"', true],
  // arithmetic
  ['=0.1+0.2=0.3', true],
  ['=2^3^2', 64],
  ['=1-1%', 0.99],
  ['=0^0', '#NUM!'],
  ['=1/0', '#DIV/0!'],
  ['=SQRT(-1)', '#NUM!'],
  ['=LN(0)', '#NUM!'],
  ['=ROUND(2.5,0)', 3],
  ['=ROUND(-2.5,0)', -3],
  ['=ROUND(1.005,2)', 1.01],
  ['=ROUND(2.675,2)', 2.68],
  ['=ROUND(1250,-2)', 1300],
  ['=ROUNDUP(3.2,0)', 4],
  ['=ROUNDUP(1.1*3,1)', 3.3],
  ['=ROUNDDOWN(-3.79,1)', -3.7],
  ['=INT(-2.5)', -3],
  ['=MOD(-3,2)', 1],
  ['=CEILING(2.1,0.5)', 2.5],
  ['=SUM(TRUE,"3")', 4],
  ['=SUMPRODUCT((A1:A3>1)*C1:C3)', 40],
  ['=MEDIAN(A1:A3)', 2],
  ['=PERCENTILE(C1:C3,0.25)', 15],
  ['=SUBTOTAL(9,C1:C3)', 60],
  // looking up and counting
  ['=VLOOKUP(2,A1:C3,3,FALSE)', 30],
  ['=INDEX(C1:C3,MATCH("oak",D1:D3,0))', 10],
  ['=MATCH("B*",D1:D3,0)', 3],
  ['=XLOOKUP("BEECH",D1:D3,C1:C3)', 30],
  ['=XLOOKUP("elm",D1:D3,C1:C3)', '#N/A'],
  ['=XLOOKUP("elm",D1:D3,C1:C3,"none")', 'none'],
  ['=COUNTIF(D1:D3,"OAK")', 2],
  ['=COUNTIF(D1:D3,"?ak")', 2],
  ['=COUNTIF(A1:A7,">1")', 2],
  ['=COUNTIFS(D1:D3,"oak",C1:C3,">10")', 1],
  ['=SUMIF(D1:D3,"<>oak",C1:C3)', 30],
  ['=SUMIFS(C1:C3,D1:D3,"*e*")', 30],
  ['=AVERAGEIFS(C1:C3,A1:A3,">=2")', 20],
  ['=MAXIFS(C1:C3,A1:A3,"<3")', 30],
  ['=OFFSET(A1,1,2)', 20],
  ['=INDIRECT("C2")', 20],
  // dates
  ['=DATE(2024,2,30)', 45352],
  ['=EDATE(DATE(2024,1,31),1)', 45351],
  ['=WEEKDAY(DATE(2026,3,1),2)', 7],
  ['=WEEKNUM(DATE(2026,3,1))', 10],
  ['=ISOWEEKNUM(DATE(2026,3,1))', 9],
  ['=WORKDAY(DATE(2026,3,1),5)', 46087],
  ['=NETWORKDAYS(DATE(2026,3,1),DATE(2026,3,31))', 22],
  ['=TEXT(46082,"yyyy-mm-dd")', '2026-03-01'],
  ['=TEXT(0.256,"0.0%")', '25.6%'],
  // text
  ['=D1&A1:A3', [['Oak3'], ['Oak1'], ['Oak2']]],
  ['=0.1*3&""', '0.3'],
  ['=1/3&""', '0.333333333333333'],
  ['=1E+21&""', '1E+21'],
  ['=CONCAT(D1:D3)', 'OakoakBeech'],
  ['=TEXTJOIN(", ",TRUE,D1:D3,A6,0.1*3)', 'Oak, oak, Beech, 0.3'],
  // choosing
  ['=IF(A6,1,2)', 2],
  ['=IF("a",1,2)', '#VALUE!'],
  ['=IFS(A1>5,1,A1>2,2)', 2],
  ['=SWITCH(A1,1,"x",3,"y")', 'y'],
  ['=IFERROR(1/0,5)', 5],
  ['=IFNA(1/0,5)', '#DIV/0!'],
  ['=ISNA(NA())', true],
  ['=ISERROR(SUM(1/0))', true],
  ['=ISNA("x"&NA())', true],
  ['=IF(ISERROR(ROUND(VALUE("x"),2)),"none",1)', 'none'],
  ['=ERROR.TYPE(SUM(NA()))', 7],
  ['=COUNTIF(D1:D3,"<>"&NA())', 0],
  ['=ISERR(LEFT(1/0,1))', true],
  // whole blocks
  ['=SORT(A1:A3)', [[1], [2], [3]]],
  ['=SORT(A1:A3,1,-1)', [[3], [2], [1]]],
  [
    '=SORT(C1:D3,2)',
    [
      [30, 'Beech'],
      [10, 'Oak'],
      [20, 'oak'],
    ],
  ],
  [
    '=SORT(C1:D3,{2,1},{1,-1})',
    [
      [30, 'Beech'],
      [20, 'oak'],
      [10, 'Oak'],
    ],
  ],
  ['=SORT({3,1,2},1,1,TRUE)', [[1, 2, 3]]],
  ['=SORTBY(D1:D3,C1:C3,-1)', [['Beech'], ['oak'], ['Oak']]],
  ['=FILTER(C1:C3,A1:A3>1)', [[10], [30]]],
  ['=FILTER(C1:C3,A1:A3>5)', '#CALC!'],
  ['=FILTER(C1:C3,A1:A3>5,"none")', 'none'],
  ['=UNIQUE(D1:D3)', [['Oak'], ['Beech']]],
  ['=UNIQUE({1,1,2},TRUE,TRUE)', 2],
  [
    '=SEQUENCE(2,2)',
    [
      [1, 2],
      [3, 4],
    ],
  ],
  ['=VSTACK(A1:A2,C1:C2)', [[3], [1], [10], [20]]],
  ['=TRANSPOSE(A1:A3)', [[3, 1, 2]]],
  ['=A1:A3*C1:C3', [[30], [20], [60]]],
  ['=MMULT({1,2;3,4},{1;1})', [[3], [7]]],
];

describe('built-ins give what a worksheet gives', () => {
  const places = BUILT_INS.map((_, at) => addressOf(6 + 4 * at, 0));
  const opened = open(
    ...DATA,
    ...BUILT_INS.map(([text], at) => formula(places[at]!, text, { spill: places[at]! })),
  );
  test.each(BUILT_INS.map(([text, gives], at) => [text, gives, places[at]!] as const))(
    '%s gives %j',
    async (_text, gives, place) => {
      const got = shown((await opened).result('Sheet', place));
      expect(rounded(got)).toEqual(rounded(gives));
    },
  );
});

describe('constants are read back as they are', () => {
  const constants: readonly (string | number | boolean)[] = [
    0,
    -0.1,
    1e-7,
    1.7e308,
    5e-324,
    0.1 + 0.2,
    123456789012345680,
    true,
    false,
    'Alder-3',
    '12',
    '1,234',
    '12%',
    '2026-03-01',
    '3/4',
    '1-2',
    '=1+1',
    "'quoted",
    'TRUE',
    '$5',
    '1e5',
    'two\nlines',
  ];
  test.each(constants.map((value) => [value]))('%j', async (value) => {
    const workbook = await open(cell('A1', value), formula('B1', '=A1'));
    expect(workbook.result('Sheet', 'A1').value).toBe(value);
    expect(workbook.result('Sheet', 'B1').value).toBe(value);
    workbook.type('Sheet', 'A1', typeof value === 'string' && value.startsWith('=') ? 'x' : value);
    workbook.type('Sheet', 'C1', '=ISTEXT(A1)');
    expect(workbook.result('Sheet', 'C1').value).toBe(typeof value === 'string');
  });

  test.each([
    '#N/A',
    '#VALUE!',
    '#DIV/0!',
    '#NUM!',
    '#REF!',
    '#NAME?',
    '#NULL!',
    '#CALC!',
    '#SPILL!',
  ] as const)('the error %s', async (code) => {
    const workbook = await open(cell('A1', cellError(code)), formula('B1', '=ISERROR(A1)'));
    expect(workbook.result('Sheet', 'A1').value).toEqual(cellError(code));
    expect(workbook.result('Sheet', 'B1').value).toBe(true);
  });
});

describe('results that fill several cells', () => {
  test('grow and shrink with their cause, and what reads them follows at once', async () => {
    const workbook = await open(
      cell('A1', 3),
      formula('B1', '=SEQUENCE(A1)', { spill: 'B1:B3' }),
      { address: 'B2', value: 2, spilledFrom: 'B1' },
      { address: 'B3', value: 3, spilledFrom: 'B1' },
      formula('C1', '=SUM(B1:B10)'),
      formula('D1', '=SUM(B1#)'),
      formula('E1', '=B5'),
    );
    const read = (): unknown[] => ['C1', 'D1', 'E1'].map((at) => workbook.result('Sheet', at).value);
    expect(read()).toEqual([6, 6, 0]);
    workbook.type('Sheet', 'A1', 5);
    expect(read()).toEqual([15, 15, 5]);
    workbook.type('Sheet', 'A1', 2);
    expect(read()).toEqual([3, 3, 0]);
    expect(workbook.result('Sheet', 'B3').value).toBeNull();
    workbook.type('Sheet', 'B1', null);
    expect(workbook.result('Sheet', 'C1').value).toBe(0);
  });

  test('are blocked by a cell in their way, and fill again once it is cleared', async () => {
    const workbook = await open(
      formula('B1', '=SEQUENCE(3)', { spill: 'B1:B3' }),
      formula('C1', '=SUM(B1:B3)'),
    );
    workbook.type('Sheet', 'B2', 'here');
    expect(plain(workbook.result('Sheet', 'B1').value)).toBe('#SPILL!');
    expect(workbook.result('Sheet', 'B3').value).toBeNull();
    workbook.type('Sheet', 'B2', null);
    expect(workbook.result('Sheet', 'C1').value).toBe(6);
  });

  test('are told whole where they begin with an error', async () => {
    const workbook = await open(
      cell('A1', 'x'),
      cell('A2', 4),
      formula('B1', '=A1:A2*2', { spill: 'B1:B2' }),
    );
    expect(shown(workbook.result('Sheet', 'B1'))).toEqual([['#VALUE!'], [8]]);
  });

  test('find room in a sheet that was smaller', async () => {
    const workbook = await open(
      formula('B1', '=SEQUENCE(3000)', { spill: 'B1' }),
      formula('C1', '=SUM(B1#)'),
    );
    expect(workbook.result('Sheet', 'C1').value).toBe(4501500);
    workbook.type('Sheet', 'D1', '=SEQUENCE(1,200)');
    expect(workbook.result('Sheet', 'D1').block).toEqual([Array.from({ length: 200 }, (_, i) => i + 1)]);
  });

  test('leave their source as it was when they sort it', async () => {
    const workbook = await open(
      ...DATA,
      formula('F1', '=SORT(A1:A3)', { spill: 'F1:F3' }),
      formula('G1', '=TEXTJOIN(",",TRUE,A1:A3)'),
      formula('H1', '=A1:A3*10', { spill: 'H1:H3' }),
    );
    expect(workbook.result('Sheet', 'G1').value).toBe('3,1,2');
    expect(workbook.result('Sheet', 'H1').block).toEqual([[30], [10], [20]]);
  });
});

describe('what the engine lacks keeps its stored result and is named', () => {
  test('a function it does not have: what depends on it calculates from the stored result', async () => {
    const workbook = await open(
      formula('A1', '=GROWLIGHT(2)', { value: 42 }),
      formula('A2', '=A1*2'),
      formula('A3', '=IFERROR(FOGHOURS(1,B1:B2),0)', { value: 7 }),
    );
    expect(workbook.result('Sheet', 'A1')).toEqual({ value: 42, unsupported: 'GROWLIGHT' });
    expect(workbook.result('Sheet', 'A2')).toEqual({
      value: 84,
      restsOn: { sheet: 'Sheet', address: 'A1' },
    });
    expect(workbook.result('Sheet', 'A3')).toEqual({ value: 7, unsupported: 'FOGHOURS' });
  });

  test('a stored block is kept whole until another formula takes its place', async () => {
    const workbook = await open(
      formula('A1', '=GROWLIGHT(C1:C2)', { value: 5, spill: 'A1:A2' }),
      { address: 'A2', value: 6, spilledFrom: 'A1' },
      formula('B1', '=SUM(A1:A2)'),
    );
    expect(workbook.result('Sheet', 'A1')).toMatchObject({ value: 5, block: [[5], [6]] });
    expect(workbook.result('Sheet', 'A1').unsupported).toContain('GROWLIGHT');
    expect(workbook.result('Sheet', 'B1').value).toBe(11);
    workbook.type('Sheet', 'A1', 1);
    expect(workbook.result('Sheet', 'A2').value).toBeNull();
    expect(workbook.result('Sheet', 'B1').value).toBe(1);
  });

  test.each([
    ['=A1+*2', 3, 'way of writing'],
    ['=SUM(A1:A9,H1)', 8, 'circular'],
  ])('%s', async (text, value, reason) => {
    const workbook = await open(...DATA, formula('H1', text, { value }));
    expect(workbook.result('Sheet', 'H1').value).toBe(value);
    expect(workbook.result('Sheet', 'H1').unsupported).toContain(reason);
  });

  test('a reason given by whoever read the file stands', async () => {
    const workbook = await open({
      address: 'A1',
      value: 9,
      formula: '=1+1',
      unsupported: 'a link to another file',
    });
    expect(workbook.result('Sheet', 'A1')).toEqual({ value: 9, unsupported: 'a link to another file' });
  });

  test('a chain of formulas that wait for one further down is never calculated wrong', async () => {
    const chain = Array.from({ length: 3000 }, (_, i) =>
      formula(`A${i + 1}`, `=A${i + 2}+1`, { value: 3000 - i }),
    );
    const workbook = await open(...chain, cell('A3001', 0));
    const values = Array.from({ length: 3001 }, (_, i) => workbook.result('Sheet', `A${i + 1}`).value);
    expect(values).toEqual(Array.from({ length: 3001 }, (_, i) => 3000 - i));
  });
});

test('calendar functions count the days of the workbook, from 1904 too', async () => {
  const workbook = await openWorkbook({
    dateSystem: 1904,
    sheets: [{ name: 'Sheet', cells: [cell('A1', 44620), formula('B1', '=YEAR(A1)', { value: 2026 })] }],
  });
  expect(workbook.result('Sheet', 'B1')).toEqual({ value: 2026 });
  workbook.type('Sheet', 'A1', 44620 + 365);
  expect(workbook.result('Sheet', 'B1').value).toBe(2027);
});

// 1 March 2026 is day 46082 counted from 1900 and day 44620 counted from 1904: 1462 days lie between the two first days
// (ISO/IEC 29500-1:2016, 18.17.4.1).
describe.each([
  [1900, 46082],
  [1904, 44620],
] as const)('a day written as text in a workbook that counts from %i', (dateSystem, day) => {
  test.each([
    ['="2026-03-01"+0', day],
    ['="1 Mar 2026"*1', day],
    ['=--"2026-03-01"', day],
    ['="2026-03-02"-"2026-03-01"', 1],
    ['=DATEVALUE("2026-03-01")', day],
    ['=VALUE("2026-03-01")', day],
    ['=VALUE("2026-03-01 18:00")', day + 0.75],
    ['=TEXT("2026-03-01","yyyy-mm-dd")', '2026-03-01'],
    ['=TEXT("2026-03-01"+1,"d mmm yyyy")', '2 Mar 2026'],
    ['=YEAR("2026-03-01")', 2026],
    ['=WEEKDAY("2026-03-01",2)', 7],
    ['=DATE(2026,3,1)="2026-03-01"+0', true],
    ['=COUNTIF(A1:A2,">=2026-03-01")', 1],
    ['="18:00"+0', 0.75],
    ['=VALUE("12%")', 0.12],
  ])('%s gives %j', async (text, gives) => {
    const workbook = await openWorkbook({
      dateSystem,
      sheets: [{ name: 'Sheet', cells: [cell('A1', day), cell('A2', day - 1), formula('C1', text)] }],
    });
    expect(workbook.result('Sheet', 'C1')).toMatchObject({ value: gives });
  });
});

test('a day before a workbook’s first is no day of it', async () => {
  const cells = [formula('A1', '="1903-12-31"+0'), formula('A2', '=DATEVALUE("1903-12-31")')];
  const workbook = await openWorkbook({ dateSystem: 1904, sheets: [{ name: 'Sheet', cells }] });
  expect(['A1', 'A2'].map((at) => plain(workbook.result('Sheet', at).value))).toEqual(['#VALUE!', '#VALUE!']);
});

describe("Pinset's functions in the engine", () => {
  const strains = (): CellContent[] =>
    [
      ['strain', 'earliest', 'best', 'latest'],
      ['Alder-3', 60, 70, 90],
      ['Birch-1', 40, 50, 60],
    ].flatMap((row, r) => row.map((value, c) => cell(addressOf(5 + c, r), value)));

  test('an error cell comes out as that same error, an own fault with its reason', async () => {
    const workbook = await open(
      formula('A1', '=1/0'),
      cell('A2', cellError('#N/A')),
      cell('A3', 1.8),
      formula('B1', '=PINSET.BIOEFFICIENCY(A1:A3,4.5,60%)'),
      formula('C1', '=PINSET.BIOEFFICIENCY(A3,4.5,60)'),
    );
    expect(shown(workbook.result('Sheet', 'B1'))).toEqual([['#DIV/0!'], ['#N/A'], [1]]);
    expect((workbook.result('Sheet', 'C1').value as CellError).reason).toContain('write 60% or 0.6');
  });

  test('IFERROR, IFNA and ISNA see the faults', async () => {
    const call = '=PINSET.READYDATE(46000,"Hazel-9",F1:I3)'.slice(1);
    const workbook = await open(
      ...strains(),
      formula('A1', `=${call}`),
      formula('A2', `=IFERROR(${call},"unknown")`),
      formula('A3', `=ISNA(${call})`),
      formula('A4', `=IFNA(${call},0)`),
    );
    expect(['A1', 'A2', 'A3', 'A4'].map((at) => plain(workbook.result('Sheet', at).value))).toEqual([
      '#N/A',
      'unknown',
      true,
      0,
    ]);
  });

  test('a blank cell, 0 and empty text in a key column give a blank', async () => {
    const workbook = await open(
      cell('A2', 0),
      formula('A3', '=""'),
      cell('A4', 1.8),
      formula('B1', '=PINSET.BIOEFFICIENCY(A1:A4,4.5,60%)'),
    );
    expect(workbook.result('Sheet', 'B1').block).toEqual([[''], [''], [''], [1]]);
  });

  test('an argument left out between commas or at the end is its default', async () => {
    const workbook = await open(
      ...strains(),
      formula('A1', '=PINSET.READYDATE(46000,"Alder-3",F1:I3)'),
      formula('A2', '=PINSET.READYDATE(46000,"Alder-3",F1:I3,)'),
      formula('A3', '=PINSET.BIOEFFICIENCY(1.8,,60%)'),
      formula('A4', '=PINSET.BIOEFFICIENCY()'),
    );
    expect(workbook.result('Sheet', 'A1').value).toBe(46070);
    expect(workbook.result('Sheet', 'A2').value).toBe(46070);
    expect((workbook.result('Sheet', 'A3').value as CellError).reason).toContain(
      'block mass is needed but left out',
    );
    expect((workbook.result('Sheet', 'A4').value as CellError).reason).toContain(
      'fresh is needed but left out',
    );
  });

  test('take a spill of another sheet as it stands there, also where this sheet spills from the same cell', async () => {
    const book = await openWorkbook({
      dateSystem: 1900,
      sheets: [
        { name: 'Lots', cells: [formula('D1', '=SEQUENCE(C1)', { spill: 'D1:D4' }), cell('C1', 4)] },
        {
          name: 'Plan',
          cells: [
            formula('D1', '=SEQUENCE(3)', { spill: 'D1:D3' }),
            formula('A1', '=SUM(Lots!D1#)'),
            formula('A2', '=SUM(D1#)'),
            formula('B1', '=Lots!D1#*2', { spill: 'B1:B4' }),
          ],
        },
      ],
    });
    const all = (): unknown[] => ['A1', 'A2', 'B1'].map((address) => shown(book.result('Plan', address)));
    expect(all()).toEqual([10, 6, [[2], [4], [6], [8]]]);
    book.type('Lots', 'C1', 2);
    expect(all()).toEqual([3, 6, [[2], [4]]]);
  });

  test('read other sheets, spills and whole spilled columns', async () => {
    const workbook = await openWorkbook({
      dateSystem: 1900,
      sheets: [
        { name: 'Strains & days', cells: strains() },
        {
          name: 'Lots',
          cells: [
            cell('A1', 46000),
            cell('A2', 46010),
            cell('B1', 'Alder-3'),
            cell('B2', 'birch-1'),
            formula('C1', "=PINSET.READYDATE(A1:A2,B1:B2,'Strains & days'!F1:I3)"),
            formula('D1', '=SORT(C1#,1,-1)', { spill: 'D1:D2' }),
          ],
        },
      ],
    });
    expect(workbook.result('Lots', 'C1').block).toEqual([[46070], [46060]]);
    expect(workbook.result('Lots', 'C2').format).toBe('date');
    workbook.type('Strains & days', 'H2', 80);
    expect(workbook.result('Lots', 'C1').block).toEqual([[46080], [46060]]);
    workbook.type('Lots', 'A2', 46100);
    expect(workbook.result('Lots', 'D1').block).toEqual([[46150], [46080]]);
  });

  test('give dates and percentages their formats', async () => {
    const workbook = await open(
      ...strains(),
      formula('A1', '=PINSET.READYDATE(46000,"Alder-3",F1:I3)'),
      formula('A2', '=PINSET.BIOEFFICIENCY(1.8,4.5,60%)'),
      formula('A3', '=A1-46000'),
    );
    expect(workbook.result('Sheet', 'A1').format).toBe('date');
    expect(workbook.result('Sheet', 'A2').format).toBe('percent');
  });

  test('calculate in the date system of the workbook', async () => {
    const content = (dateSystem: 1900 | 1904, serial: number): Parameters<typeof openWorkbook>[0] => ({
      dateSystem,
      sheets: [
        {
          name: 'Sheet',
          cells: [...strains(), formula('A1', `=PINSET.READYDATE(${serial},"Alder-3",F1:I3)`)],
        },
      ],
    });
    const late = await openWorkbook(content(1904, 44538));
    expect(late.result('Sheet', 'A1').value).toBe(44608);
  });
});

test('fifty thousand formulas open and follow an edit', async () => {
  const cells = Array.from({ length: 50_000 }, (_, i) => [
    cell(`A${i + 1}`, i),
    formula(`B${i + 1}`, `=A${i + 1}*2`),
  ]).flat();
  const workbook = await open(...cells);
  workbook.type('Sheet', 'A50000', 7);
  expect(workbook.result('Sheet', 'B50000').value).toBe(14);
  expect(workbook.result('Sheet', 'B49999').value).toBe(99_996);
});
