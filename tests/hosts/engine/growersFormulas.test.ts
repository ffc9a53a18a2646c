import { describe, expect, test } from '@jest/globals';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { builtIns } from '../../../src/hosts/engine/evaluator/functions';
import { FORMS } from '../../../src/hosts/engine/evaluator/forms';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type {
  CalculatingWorkbook,
  CellContent,
  CellResult,
  WorkbookContent,
} from '../../../src/hosts/engine/workbook';
import { type Cell, isCellError } from '../../../src/worksheet/cells/cell';
import { arrays } from './conformance/arrays';
import { conditions } from './conformance/conditions';
import { dates } from './conformance/dates';
import { farmWorkbook } from './conformance/farmWorkbook';
import { formats } from './conformance/formats';
import { harvest } from './conformance/harvest';
import { harvestWorkbook } from './conformance/harvestWorkbook';
import { logic } from './conformance/logic';
import { lookups } from './conformance/lookups';
import { moneyAndUnits } from './conformance/moneyAndUnits';
import { numbers } from './conformance/numbers';
import { rarely } from './conformance/rarely';
import { references } from './conformance/references';
import type { Chapter, Row } from './conformance/row';
import { statistics } from './conformance/statistics';
import { stored } from './conformance/stored';
import { texts } from './conformance/texts';

/** A farm's workbook as the workbench opens it: a file without stored results, so that nothing is kept of them. */
async function openInWorkbench({ sheets, ...content }: WorkbookContent): Promise<CalculatingWorkbook> {
  const workbook = new EngineWorkbook({
    ...content,
    sheets: sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((cell) => (cell.formula === undefined ? cell : { ...cell, value: null })),
    })),
  });
  await prepareFunctions(workbook.functionsUsed());
  workbook.calculate();
  return workbook;
}

/** Every engine that a host may calculate with: another is tried by adding it here. */
const ENGINES: Readonly<Record<string, (content: WorkbookContent) => Promise<CalculatingWorkbook>>> = {
  'the command': openWorkbook,
  'the workbench': openInWorkbench,
};

const CHAPTERS: readonly Chapter[] = [
  ...conditions,
  ...lookups,
  ...references,
  ...dates,
  ...formats,
  ...texts,
  ...numbers,
  ...statistics,
  ...arrays,
  ...logic,
  ...moneyAndUnits,
  ...rarely,
  ...harvest,
  ...stored,
];

const BOOKS = { farm: farmWorkbook, harvest: harvestWorkbook } as const;
type BookName = keyof typeof BOOKS;

const OWN_SHEET = 'Figures';
/** Rows between two formulas: room for what spills. */
const APART = 20;

interface Placed {
  readonly chapter: string;
  readonly book: BookName;
  readonly row: Row;
  readonly sheet: string;
  readonly cell: CellContent;
}

const placed: readonly Placed[] = CHAPTERS.flatMap(({ title, rows, entered, book = 'farm' as const }) =>
  rows.map((row) => ({ title, row, entered, book })),
).map(({ title, row, entered, book }, at) => {
  const [text, gives, place] = row;
  const [sheet, address] = (place?.at ?? `${OWN_SHEET}!A${1000 + at * APART}`).split('!') as [string, string];
  const isArray = text.startsWith('{');
  const spills = isArray || entered === 'spilling' || Array.isArray(gives);
  const cell: CellContent = {
    address,
    value: 'as stored',
    formula: isArray ? text.slice(1, -1) : text,
    ...(spills && { spill: place?.fills ?? address }),
    ...(isArray && { isFixedArray: true as const }),
  };
  return { chapter: title, book, row, sheet, cell };
});

function contentOf(book: BookName): WorkbookContent {
  const further = new Map<string, CellContent[]>();
  for (const { sheet, cell } of placed.filter((one) => one.book === book)) {
    const cells = further.get(sheet);
    if (cells) cells.push(cell);
    else further.set(sheet, [cell]);
  }
  return BOOKS[book](further);
}

const plain = (value: Cell): unknown => {
  if (isCellError(value)) return value.code;
  // Fifteen digits are what a sheet keeps; three are left to the last steps of a calculation.
  return typeof value === 'number' ? Number(value.toPrecision(12)) : value;
};
const shown = ({ value, block }: CellResult): unknown => block?.map((row) => row.map(plain)) ?? plain(value);
const wanted = ([, gives]: Row): unknown =>
  Array.isArray(gives) ? (gives as Cell[][]).map((row) => row.map(plain)) : plain(gives as Cell);

test('every formula is there once, with its source', () => {
  expect(placed.length).toBeGreaterThan(600);
  expect(new Set(placed.map(({ sheet, cell }) => `${sheet}!${cell.address}`)).size).toBe(placed.length);
  expect(CHAPTERS.filter(({ source }) => source.length < 20)).toEqual([]);
});

test('every function the evaluator has is in a formula of the table', async () => {
  const [farm, harvested] = [await openWorkbook(contentOf('farm')), await openWorkbook(contentOf('harvest'))];
  const met = new Set(
    placed.flatMap(({ book, sheet, cell }) =>
      (book === 'farm' ? farm : harvested).functionsOf(sheet, cell.address),
    ),
  );
  const STORED_SPELLINGS = ['ANCHORARRAY', 'SINGLE'];
  const all = [...builtIns.keys(), ...Object.keys(FORMS)];
  expect(all.filter((name) => !met.has(name))).toEqual(STORED_SPELLINGS);
  expect(builtIns.size).toBeGreaterThan(380);
});

describe.each(Object.entries(ENGINES))('formulas of growers calculated by %s', (engine, open) => {
  const opened = new Map<BookName, Promise<CalculatingWorkbook>>();
  const result = async ({ book, sheet, cell }: Placed): Promise<CellResult> => {
    const workbook = opened.get(book) ?? open(contentOf(book));
    opened.set(book, workbook);
    return (await workbook).result(sheet, cell.address);
  };

  test('are right or named, never wrong', async () => {
    const wrong: string[] = [];
    const lacking: string[] = [];
    for (const one of placed) {
      const got = await result(one);
      const [text] = one.row;
      if (got.unsupported !== undefined) lacking.push(`${text} (${got.unsupported})`);
      else if (JSON.stringify(shown(got)) !== JSON.stringify(wanted(one.row)))
        wrong.push(`${text} gives ${JSON.stringify(shown(got))}, not ${JSON.stringify(wanted(one.row))}`);
    }
    const right = placed.length - wrong.length - lacking.length;
    console.log(
      [`${engine}: ${right} right, ${lacking.length} named, ${wrong.length} wrong`, ...lacking].join('\n  '),
    );
    expect(wrong).toEqual([]);
  });
});
