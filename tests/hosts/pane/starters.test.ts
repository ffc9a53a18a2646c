import { beforeAll, describe, expect, jest, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { isCellError } from '../../../src/worksheet/cells/cell';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import { freeName, type Book } from '../../../src/hosts/pane/book';
import { checkBook } from '../../../src/hosts/pane/check';
import { fitted, layDownStarter, withTablesRenamed, type Found } from '../../../src/hosts/pane/layDown';
import { STARTERS, startersIn } from '../../../src/hosts/pane/starters';
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
  return bookOf(new Uint8Array(await file.xlsx.writeBuffer()));
}

async function bookOf(file: Uint8Array): Promise<OpenBook> {
  let open = await opened(file);
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
      const { sheets, beside } = await layDownStarter(name, book);
      expect([sheets.at(-1), beside]).toEqual([name, []]);
      expect(await ourCalls(book)).toBe(callsOf(STARTERS.filter((other) => sheets.includes(other.name))));
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
    // 30 ÷ (2.5 × 0.4 × 0.8) rounded up.
    ['Orders', 'G5', 38],
    ['Orders', 'G6', 38],
    // Birch-1 is first picked 6 days from loading.
    ['Loads', 'I5', 46083],
    // 40 × 2.5 × 0.38 × 0.9 × 0.95 × 0.65 over 3 days.
    ['Loads', 'K5', 46083],
    ['Loads', 'L5', (40 * 2.5 * 0.38 * 0.9 * 0.95 * 0.65) / 3],
    // 100 at 60% holds 40 dry: 31.2 of sawdust at 20%, 8 of bran at 10%, and water to make it 100.
    ['Mix', 'H9', 39],
    ['Mix', 'H10', 8 / 0.9],
  ])('%s!%s shows %d', (sheet, address, wanted) => {
    const shown = open.shown(sheet, address);
    expect(isCellError(shown)).toBe(false);
    expect(shown).toBeCloseTo(wanted, 9);
  });

  test('the plan says above its list what is wrong, and no two of its answers share a column', () => {
    expect(open.shown('Plan', 'A15')).toMatch(/^1 of 2 orders are filled/);
    const headers = ['A', 'K', 'L', 'M', 'N'].map((column) => open.shown('Plan', `${column}20`));
    expect(headers).toEqual(['loaded', 'for', null, 'customer', 'product']);
  });
});

const found = (names: Readonly<Record<string, string>> = {}, taken: readonly string[] = []): Found => ({
  taken: [...Object.values(names), ...taken],
  names: new Map(Object.entries(names)),
  held: new Map(),
});

test('a table that is there already gets a name of its own, in the calls too', () => {
  const taken = ['lots', 'LOTS2', 'Strains'];
  expect(freeName('Lots', taken)).toBe('Lots3');
  const sheet = fitted(starterOf('Lots'), found({ Strains: 'Strains4' }, taken));
  expect(sheet.things[1]).toMatchObject({ kind: 'table', name: 'Lots3' });
  expect(formulasOf([sheet])[0]).toContain('COUNTA(Lots3[lot])');
  expect(formulasOf([sheet]).slice(1)).toEqual([
    '=IF(A3="",PINSET.READYWINDOW(Lots3[inoculated],Lots3[strain],Strains4[#All]),"")',
    expect.stringContaining('TEXTJOIN(". ",TRUE,IF(N5:N1004="",M5:M1004,""))'),
    '=IF(A3="",PINSET.READYLOTS(Lots3[#All],Strains4[#All],Farm[today],Farm[today]+7),"")',
  ]);
});

test('renaming a table touches references to it only', () => {
  const names = new Map([['Lots', 'Lots2']]);
  expect(withTablesRenamed('=F("Lots[x]",Lots[x],LotsB[x],Lots!A1)', names)).toBe(
    '=F("Lots[x]",Lots2[x],LotsB[x],Lots!A1)',
  );
});

test('the values of another table are offered only where that table is there', () => {
  const choices = (given: Found): unknown[] =>
    fitted(starterOf('Lots'), given).things.flatMap((thing) =>
      thing.kind === 'table' ? thing.columns.flatMap((column) => column.choices ?? []) : [],
    );
  expect(choices(found({}, ['Strains']))).toEqual([]);
  expect(choices(found({ Strains: 'Strains2' }))).toEqual(['Strains2[strain]']);
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
    const content = readWorkbook(newWorkbook({ file: 'x', title: 'x', sheets: empty }));
    const workbook = await openWorkbook(content);
    for (const { name, notes } of empty.slice(1)) {
      const told = workbook.result(name, `A${notes.length + 2}`).value;
      expect([name, told]).toEqual([name, expect.stringContaining('Fill in ')]);
    }
    const shown = content.sheets.flatMap(({ name, cells }) =>
      cells.map(({ address }) => workbook.result(name, address).value),
    );
    expect(shown.filter(isCellError)).toEqual([]);
    // A text in a formula of Excel has at most 255 characters.
    const texts = formulasOf(sheets).flatMap((formula) => formula.match(/"[^"]*"/g) ?? []);
    expect(Math.max(...texts.map((text) => text.length - 2))).toBeLessThanOrEqual(255);
  });
});

describe('the plan starter in a book that has tables and names of the same words', () => {
  /** A book whose tables are headed as nobody’s starter is, with a cell named Farm. */
  async function ownBook(): Promise<Uint8Array> {
    const file = new ExcelJS.Workbook();
    const add = (name: string, headers: string[], rows: unknown[][]): void => {
      file.addWorksheet(name).addTable({
        name,
        ref: 'A1',
        columns: headers.map((header) => ({ name: header })),
        rows: rows as never,
      });
    };
    add('Lots', ['Batch', 'Strain', 'How many'], [['B-1', 'Fern-7', 'forty']]);
    add('Orders', ['Customer', 'Item', 'Due'], [['Mill Inn', 'shiitake', 'soon']]);
    file.addWorksheet('Notes').getCell('A1').value = 'mine';
    file.definedNames.add('Notes!$A$1', 'Farm');
    return new Uint8Array(await file.xlsx.writeBuffer());
  }

  test('reads tables of its own, and says which of the grower’s it does not read', async () => {
    const { book, shown } = await bookOf(await ownBook());
    const { sheets, beside } = await layDownStarter('Plan', book);
    expect(sheets).toEqual(['Farm', 'Strains', 'Lots2', 'Rooms', 'Orders2', 'Loads', 'Plan']);
    expect(beside).toEqual([
      ['Farm', 'Farm2'],
      ['Lots', 'Lots2'],
      ['Orders', 'Orders2'],
    ]);
    expect(shown('Plan', 'A15')).toMatch(/^1 of 2 orders are filled/);
    expect((await book.contents()).formulas.filter(({ error }) => error !== undefined)).toEqual([]);
    // The next starter reads what the first one brought.
    expect(await layDownStarter('Audit', book)).toEqual({ sheets: ['Picks', 'Audit'], beside: [] });
    expect((await book.contents()).formulas.filter(({ error }) => error !== undefined)).toEqual([]);
  });
});

test('a starter beside tables that the grower has filled in brings no invented rows that do not fit, and keeps their unit', async () => {
  const filledIn = (sheets: readonly PlainSheet[]): PlainSheet[] =>
    JSON.parse(JSON.stringify(sheets).replaceAll('Alder-3', 'Fern-7')) as PlainSheet[];
  const begun = startersIn('us').filter(({ name }) => ['Farm', 'Strains', 'Lots'].includes(name));
  const { book, shown } = await bookOf(newWorkbook({ file: 'x', title: 'x', sheets: filledIn(begun) }));
  const { sheets } = await layDownStarter('Plan', book, 'metric');
  expect(sheets).toEqual(['Rooms', 'Orders', 'Loads', 'Plan']);
  expect(['A5', 'B4'].map((address) => shown('Orders', address))).toEqual([null, 'mass (lb)']);
  expect(shown('Orders', 'A3')).toMatch(/^Fill in a row for each order; mass in lb;/);
  expect((await book.contents()).formulas.filter(({ error }) => error !== undefined)).toEqual([]);
});

test('a build whose functions have another prefix writes calls with that prefix', async () => {
  const scope = globalThis as { PINSET_NAMESPACE?: string };
  scope.PINSET_NAMESPACE = 'PINSETDEV';
  try {
    await jest.isolateModulesAsync(async () => {
      const { STARTERS: own } = await import('../../../src/hosts/pane/starters');
      const calls = formulasOf(own).flatMap((formula) => formula.match(/\bPINSET\w*\./g) ?? []);
      expect(calls).toEqual(new Array(callsOf(STARTERS)).fill('PINSETDEV.'));
    });
  } finally {
    delete scope.PINSET_NAMESPACE;
  }
});
