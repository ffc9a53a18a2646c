import { beforeAll, describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { isCellError } from '../../../src/worksheet/cells/cell';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import { freeName, type Book } from '../../../src/hosts/pane/book';
import { checkBook } from '../../../src/hosts/pane/check';
import {
  fitted,
  layDownStarter,
  STARTERS,
  startersIn,
  withTableRenamed,
} from '../../../src/hosts/pane/starters';
import { workbenchBook, type Desk } from '../../../src/hosts/workbench/book';
import type { Formula, PlainSheet, Thing } from '../../../src/hosts/xlsx/describe';
import { newWorkbook } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';

// Every starter sheet, laid down in a file and calculated by the engine behind the workbench.

async function opened(file: Uint8Array): Promise<Pick<Desk, 'content' | 'workbook' | 'bytes'>> {
  const content = readWorkbook(file);
  const workbook = new EngineWorkbook(content);
  await prepareFunctions(workbook.functionsUsed());
  workbook.calculate();
  return { content, workbook, bytes: () => file };
}

interface OpenBook {
  readonly book: Book;
  /** What a cell of a sheet shows. */
  readonly shown: (sheet: string, address: string) => unknown;
}

async function emptyBook(): Promise<OpenBook> {
  const file = new ExcelJS.Workbook();
  file.addWorksheet('Mine');
  let open = await opened(new Uint8Array(await file.xlsx.writeBuffer()));
  const desk = (): Desk => ({
    ...open,
    savedWith: undefined,
    selection: () => ({ sheet: 'Mine', address: 'A1' }),
    select: () => undefined,
    become: async (bytes) => {
      open = await opened(bytes);
    },
    isTypedInto: () => false,
    becomeAgain: async (bytes) => {
      open = await opened(bytes);
    },
  });
  return { book: workbenchBook(desk), shown: (sheet, address) => open.workbook.result(sheet, address).value };
}

const isFormula = (thing: Thing): thing is Formula => thing.kind === 'formula';
const formulasOf = (sheets: readonly PlainSheet[]): string[] =>
  sheets.flatMap(({ things }) => things.filter(isFormula).map(({ formula }) => formula));
const callsOf = (sheets: readonly PlainSheet[]): number =>
  formulasOf(sheets).filter((formula) => formula.includes('PINSET.')).length;
const starterOf = (name: string): PlainSheet => STARTERS.find((sheet) => sheet.name === name)!;
const ourCalls = async (book: Book): Promise<number> =>
  (await book.contents()).formulas.filter(({ formula }) => formula.includes('PINSET.')).length;

describe.each(STARTERS.map(({ name }) => [name] as const))(
  'the starter sheet %s in an empty workbook',
  (name) => {
    test('brings what it reads, calculates without a fault, and the check finds nothing to mend', async () => {
      const { book } = await emptyBook();
      const added = await layDownStarter(name, book);
      expect(added.at(-1)).toBe(name);
      expect(await ourCalls(book)).toBe(callsOf(STARTERS.filter((other) => added.includes(other.name))));
      const { formulas } = await book.contents();
      expect(formulas.filter(({ error }) => error !== undefined)).toEqual([]);
      expect(checkBook(await book.contents(), '0.1.0')).toEqual([]);
    });
  },
);

describe('all starter sheets in one workbook', () => {
  let open: OpenBook;
  beforeAll(async () => {
    open = await emptyBook();
    for (const { name } of STARTERS) await layDownStarter(name, open.book);
  });

  test('calculate without a fault', async () => {
    expect(await ourCalls(open.book)).toBeGreaterThanOrEqual(callsOf(STARTERS));
    expect((await open.book.contents()).formulas.filter(({ error }) => error !== undefined)).toEqual([]);
  });

  // Worked out by hand from the starters' own rows.
  test.each([
    // 2 February 2026 is day 46055; Alder-3 is ready 63, 77 and 98 days on.
    ['Lots', 'I5', 46118],
    ['Lots', 'J5', 46132],
    ['Lots', 'K5', 46153],
    // 40 ÷ (2.5 × 0.4 × 0.8), and 30 ÷ 0.8 rounded up.
    ['Orders', 'G5', 50],
    ['Orders', 'G6', 38],
    // Birch-1 is first picked 6 days from loading.
    ['Loads', 'I5', 46083],
    // 40 × 2.5 × 0.38 × 0.9 × 0.95 × 0.65 over 3 days.
    ['Loads', 'K5', 46083],
    ['Loads', 'L5', (40 * 2.5 * 0.38 * 0.9 * 0.95 * 0.65) / 3],
    // 100 at 60% holds 40 dry: 31.2 of sawdust at 20%, 8 of bran at 10%, and water to make it 100.
    ['Mix', 'H5', 39],
    ['Mix', 'H6', 8 / 0.9],
  ])('%s!%s shows %d', (sheet, address, wanted) => {
    const shown = open.shown(sheet, address);
    expect(isCellError(shown)).toBe(false);
    expect(shown).toBeCloseTo(wanted, 9);
  });

  test('the plan says above its list what is wrong, and no two of its answers share a column', () => {
    expect(open.shown('Plan', 'A13')).toMatch(/^1 of 2 orders are filled/);
    const headers = ['A', 'K', 'L', 'M', 'N'].map((column) => open.shown('Plan', `${column}15`));
    expect(headers).toEqual(['loaded', 'for', null, 'customer', 'product']);
  });
});

test('a table that is there already gets a name of its own, in the calls too', () => {
  const taken = ['lots', 'LOTS2', 'Strains'];
  expect(freeName('Lots', taken)).toBe('Lots3');
  const sheet = fitted(starterOf('Lots'), taken);
  expect(sheet.things[1]).toMatchObject({ kind: 'table', name: 'Lots3' });
  expect(formulasOf([sheet])[0]).toContain('COUNTA(Lots3[lot])');
  expect(formulasOf([sheet]).slice(1)).toEqual([
    '=PINSET.READYWINDOW(Lots3[inoculated],Lots3[strain],Strains[#All])',
    expect.stringContaining('INDEX(M4#,,2)'),
    '=PINSET.READYLOTS(Lots3[#All],Strains[#All],Farm[today],Farm[today]+7)',
  ]);
});

test('renaming a table touches references to it only', () => {
  expect(withTableRenamed('=F("Lots[x]",Lots[x],LotsB[x],Lots!A1)', 'Lots', 'Lots2')).toBe(
    '=F("Lots[x]",Lots2[x],LotsB[x],Lots!A1)',
  );
});

test('the values of another table are offered only where that table is there', () => {
  const choices = (tables: readonly string[]): unknown[] =>
    fitted(starterOf('Lots'), tables).things.flatMap((thing) =>
      thing.kind === 'table' ? thing.columns.flatMap((column) => column.choices ?? []) : [],
    );
  expect(choices([])).toEqual([]);
  expect(choices(['Strains'])).toEqual(['Strains[strain]']);
});

test('the limit of picks is typed once, and its line follows it', async () => {
  const open = await emptyBook();
  await layDownStarter('Loads', open.book);
  expect([open.shown('Loads', 'L3'), open.shown('Loads', 'M5'), open.shown('Loads', 'M32')]).toEqual([
    12, 12, 12,
  ]);
  expect(formulasOf([starterOf('Loads')])).toContain('=SEQUENCE(28,1,L3,0)');
});

describe.each(['metric', 'us'] as const)('starters in %s units', (units) => {
  const sheets = startersIn(units);

  test('say the unit of every mass in its header, and one unit only', () => {
    const headers = sheets.flatMap(({ things }) =>
      things.flatMap((thing) => (thing.kind === 'table' ? thing.columns.map(({ header }) => header) : [])),
    );
    const named = headers.filter((header) => /mass|pack|pick limit/.test(header));
    expect(named.length).toBeGreaterThan(4);
    expect(named.filter((header) => !header.endsWith(units === 'us' ? '(lb)' : '(kg)'))).toEqual([]);
  });

  test('take every day from one cell', () => {
    const dated = formulasOf(sheets).filter((formula) => /\b(?:DATE|TODAY)\(|\d{4}-\d\d/.test(formula));
    expect(dated).toEqual([]);
    expect(formulasOf(sheets).filter((formula) => formula.includes('Farm[today]')).length).toBeGreaterThan(5);
  });

  test('an empty table says what to fill in, in words that Excel takes in a formula', async () => {
    const empty = sheets.map((sheet) => ({
      ...sheet,
      things: sheet.things.map((thing) =>
        thing.kind === 'table' && thing.name !== 'Farm' && thing.name !== 'Calendar'
          ? { ...thing, rows: [thing.columns.map(() => null)] }
          : thing,
      ),
    }));
    const workbook = await openWorkbook(readWorkbook(newWorkbook({ file: 'x', title: 'x', sheets: empty })));
    for (const { name } of empty.slice(1)) {
      expect([name, workbook.result(name, 'A3').value]).toEqual([name, expect.stringContaining('Fill in ')]);
    }
    // A text in a formula of Excel has at most 255 characters.
    const texts = formulasOf(sheets).flatMap((formula) => formula.match(/"[^"]*"/g) ?? []);
    expect(Math.max(...texts.map((text) => text.length - 2))).toBeLessThanOrEqual(255);
  });
});
