import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';
import { excelValuesOf, gridOf } from '../../../src/hosts/excel/adapter';
import { handlerOf, type ExcelSide } from '../../../src/hosts/excel/handler';
import { solverHere } from '../../../src/hosts/worker/solver';
import { defectWords, newCaller, type Caller } from '../../../src/worksheet/call';
import { catalogue } from '../../../src/worksheet/catalogue';
import { keyColumn } from '../../../src/worksheet/cells/arguments';
import { type Block, type CellError, cellError, formatted } from '../../../src/worksheet/cells/cell';
import { SheetFault } from '../../../src/worksheet/cells/fault';
import { mass } from '../../../src/worksheet/cells/kinds';
import { amount, value } from '../../../src/worksheet/cells/results';
import { defineFunction } from '../../../src/worksheet/define';
import type { WorksheetFunction } from '../../../src/worksheet/definition';

/** As far as the vendor's own class goes; the browser tests use the real one. */
class ExcelError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

const scope = globalThis as { CustomFunctions?: unknown };
beforeAll(() => {
  scope.CustomFunctions = { Error: ExcelError };
});
afterAll(() => {
  delete scope.CustomFunctions;
});

const INVOCATION = { address: 'Sheet1!A1' };

function side(takesFormats: boolean, caller: Caller = newCaller()): ExcelSide {
  return {
    takesFormats: () => takesFormats,
    dateSystem: () => Promise.resolve(1900),
    knownDateSystem: () => 1900,
    caller,
    solve: solverHere(caller),
  };
}

/** A handler for a function that is not in the catalogue. */
const handlerFor = (
  definition: WorksheetFunction,
  more: Partial<ExcelSide> = {},
): ReturnType<typeof handlerOf> =>
  handlerOf(definition, { ...side(false, newCaller([definition])), ...more });

const handlerNamed = (name: string): ReturnType<typeof handlerOf> =>
  handlerOf(
    catalogue.find((definition) => definition.name === name)!,
    side(false),
  );

/** What was thrown: the vendor's error is no plain `Error`, which `toThrow` would ask for. */
function thrownBy(work: () => unknown): unknown {
  try {
    return { returned: work() };
  } catch (thrown) {
    return thrown;
  }
}

describe('gridOf(given) reads what Excel passes for an argument', () => {
  test.each([
    ['left out', null, undefined],
    ['left out in another version', undefined, undefined],
    ['one cell', [[12]], [[12]]],
    ['a bare value', 'Oak', [['Oak']]],
    ['blanks of every kind', [[null], [undefined], ['']], [[null], [null], ['']]],
    ['truth', [[true, false]], [[true, false]]],
    [
      'an error of the functions runtime',
      [[new ExcelError('#N/A', 'no such strain')]],
      [[cellError('#N/A', 'no such strain')]],
    ],
    [
      'an error as a data type',
      [[{ type: 'Error', basicType: 'Error', basicValue: '#DIV/0!', errorType: 'Div0' }]],
      [[cellError('#DIV/0!')]],
    ],
    ['an error of a later Excel', [[new ExcelError('#PYTHON!')]], [[cellError('#VALUE!')]]],
    [
      'numbers, text and truth as data types',
      [
        [
          { type: 'Double', basicValue: 46000, numberFormat: 'yyyy-mm-dd' },
          { type: 'FormattedNumber', basicValue: 0.62, numberFormat: '0%' },
          { type: 'String', basicType: 'String', basicValue: 'Oak' },
          { type: 'Boolean', basicType: 'Boolean', basicValue: true },
          { type: 'Empty', basicType: 'Empty', basicValue: '' },
        ],
      ],
      [[46000, 0.62, 'Oak', true, null]],
    ],
  ])('%s', (_what, given, grid) => {
    expect(gridOf(given)).toEqual(grid);
  });

  test('says what a record or a picture is refused for', () => {
    const record = { type: 'Entity', text: 'Oak', basicType: 'Error', basicValue: '#VALUE!' };
    const picture = { type: 'WebImage', basicType: 'Error', basicValue: '#VALUE!' };
    const refused = gridOf([[record], [picture]])!.flat() as CellError[];
    expect(refused.map(({ code }) => code)).toEqual(['#VALUE!', '#VALUE!']);
    expect(refused.map(({ reason }) => reason)).toEqual([
      'a plain number, date or text needed, got the data type "Oak"',
      'a plain number, date or text needed, got a data type such as a picture',
    ]);
  });

  test('does not copy plain cells', () => {
    const given = [[1], ['a'], [null]];
    expect(gridOf(given)).toBe(given);
  });
});

describe('excelValuesOf(block, formats) gives what Excel spills', () => {
  const block: Block = {
    rows: [
      ['lot', 'ready', 'share'],
      [true, 46000, 0.5],
      ['', cellError('#N/A', 'no such strain'), formatted(3, 'plain')],
      [cellError('#DIV/0!', 'nothing to divide by'), cellError('#REF!'), 2],
    ],
    formats: ['plain', 'date', 'percent'],
  };

  test('numbers carry their format where this Excel takes it', () => {
    expect(excelValuesOf(block, true)).toEqual([
      ['lot', 'ready', 'share'],
      [
        true,
        { type: 'Double', basicValue: 46000, numberFormat: 'yyyy-mm-dd' },
        { type: 'Double', basicValue: 0.5, numberFormat: '0.0%' },
      ],
      ['', new ExcelError('#N/A', 'no such strain'), 3],
      [
        new ExcelError('#DIV/0!', 'nothing to divide by'),
        new ExcelError('#VALUE!', '#REF! in a cell it was given'),
        { type: 'Double', basicValue: 2, numberFormat: '0.0%' },
      ],
    ]);
  });

  test('and are plain elsewhere', () => {
    expect(excelValuesOf(block, false)[1]).toEqual([true, 46000, 0.5]);
  });

  test('and in answers so long that Excel on the web would refuse their formats', () => {
    const rows = Array.from({ length: 20_001 }, () => [46000]);
    expect(excelValuesOf({ rows, formats: ['date'] }, true)).toEqual(rows);
  });

  test('a fault of the whole call is thrown, as every version of Excel shows it', () => {
    const fault: Block = { rows: [[cellError('#VALUE!', 'mass: needed')]], formats: ['plain'] };
    expect(thrownBy(() => excelValuesOf(fault, true))).toEqual(new ExcelError('#VALUE!', 'mass: needed'));
  });
});

describe('handlerOf(definition, excel) is what Excel calls', () => {
  test('a single call gives one value', () => {
    const answer = handlerNamed('BIOEFFICIENCY')([[1.2]], [[4.5]], [[0.6]], null, INVOCATION);
    expect(answer).toEqual([[expect.closeTo(1.2 / 1.8, 12)]]);
  });

  test('a column gives one value per row, a fault in its own row, and a blank for a blank however it arrives', () => {
    const fresh = [[24], ['24'], [null], [0], [''], [{ type: 'Error', basicValue: '#N/A' }]];
    const answer = handlerNamed('BIOEFFICIENCY')(fresh, [[2.5]], [[0.6]], [[30]], INVOCATION);
    const cells = (answer as unknown[][]).map(([cell]) => cell);
    expect(cells.map((cell) => (cell instanceof ExcelError ? cell.code : cell))).toEqual([
      expect.closeTo(0.8, 12),
      '#VALUE!',
      '',
      '',
      '',
      '#N/A',
    ]);
    expect((cells[1] as ExcelError).message).toMatch(/^fresh must be .*\(row 2 of the column\)$/);
  });

  const words = {
    name: 'SAMPLE',
    family: 'harvest',
    arguments: [keyColumn('mass', mass(), 'a mass')],
    result: value('the mass and more', amount()),
  } as const;

  const long = { needs: ['distributions'], takesLong: true } as const;

  test('what must be loaded is loaded before the first answer', async () => {
    const definition = defineFunction({
      ...words,
      needs: ['distributions'],
      eachRow: (given: number, { tools }) => tools.distributions.logGamma(given + 1),
    });
    const handler = handlerFor(definition);
    const [[answer]] = (await handler([[7]], { ...INVOCATION, isInValuePreview: true })) as [[number]];
    // ln 7!
    expect(answer).toBeCloseTo(Math.log(5040), 10);
    // What is loaded keeps no later cell waiting.
    expect(handler([[2]], INVOCATION)).toEqual([[expect.closeTo(Math.log(2), 10)]]);
  });

  describe('a function that solves something long', () => {
    const evaluated = jest.fn((given: number) => given);
    const definition = defineFunction({ ...words, ...long, eachRow: evaluated });
    const handler = handlerFor(definition);

    test('is not worked out while Excel only previews', async () => {
      evaluated.mockClear();
      expect(await handler([[7]], { isInValuePreview: true })).toEqual([['calculated when entered']]);
      expect(evaluated).not.toHaveBeenCalled();
    });

    test('is not worked out once a newer call has taken its place', async () => {
      evaluated.mockClear();
      const call: { onCanceled?: () => void } = {};
      const answer = handler([[7]], call);
      call.onCanceled!();
      await answer;
      expect(evaluated).not.toHaveBeenCalled();
      expect(await handler([[8]], {})).toEqual([[8]]);
    });
  });

  test('a call that Excel cancels while it is solved stops its solver and shows nothing', async () => {
    const definition = defineFunction({
      ...words,
      needsDateSystem: true,
      ...long,
      eachRow: (given: number) => given,
    });
    const solve = jest.fn<ExcelSide['solve']>(
      (_definition, _given, _dateSystem, cancelled) =>
        new Promise((resolve) => cancelled.addEventListener('abort', () => resolve(undefined))),
    );
    const call: { onCanceled?: () => void } = {};
    const answer = handlerFor(definition, { solve })([[7], [null]], call);
    await new Promise((resolve) => setTimeout(resolve));
    expect(solve).toHaveBeenCalledWith(definition, [[[7], [null]]], 1900, expect.any(AbortSignal));
    call.onCanceled!();
    expect(await answer).toEqual([['']]);
  });

  test('a function that needs the date system gets that of the workbook', async () => {
    const definition = defineFunction({
      ...words,
      needsDateSystem: true,
      eachRow: (_given: number, { dateSystem }) => dateSystem,
    });
    const dateSystem = jest.fn<ExcelSide['dateSystem']>().mockResolvedValue(1904);
    const handler = handlerFor(definition, { dateSystem, knownDateSystem: () => undefined });
    await expect(handler([[7]], INVOCATION)).resolves.toEqual([[1904]]);
    // Where it is known already, no cell waits for it.
    const knowing = handlerFor(definition, { knownDateSystem: () => 1904 });
    expect(knowing([[7]], INVOCATION)).toEqual([[1904]]);
  });

  test('a question that Excel does not answer is an error in its own words', async () => {
    const definition = defineFunction({ ...words, needsDateSystem: true, eachRow: (given: number) => given });
    const dateSystem = () => Promise.reject(new SheetFault(cellError('#VALUE!', 'Excel did not say')));
    const handler = handlerFor(definition, { dateSystem, knownDateSystem: () => undefined });
    const thrown = await (handler([[7]], INVOCATION) as Promise<unknown>).catch((fault: unknown) => fault);
    expect(thrown).toEqual(new ExcelError('#VALUE!', 'Excel did not say'));
  });

  test('what could not be loaded is an error in words', async () => {
    const definition = defineFunction({ ...words, ...long, eachRow: (given: number) => given });
    const caller: Caller = {
      ...newCaller([definition]),
      ready: () => Promise.reject(new Error('the solver is missing')),
    };
    await expect(handlerOf(definition, side(false, caller))([[7]], INVOCATION)).rejects.toEqual(
      new ExcelError('#VALUE!', defectWords('SAMPLE', new Error('the solver is missing'))),
    );
  });

  test('a defect of ours is an error in our words', () => {
    const definition = defineFunction({
      ...words,
      eachRow: (): number => {
        throw new TypeError('nothing here');
      },
    });
    expect(thrownBy(() => handlerFor(definition)([[7]], INVOCATION))).toEqual(
      new ExcelError(
        '#VALUE!',
        'SAMPLE has a fault of its own and could not answer; your cells are not to blame (nothing here)',
      ),
    );
  });
});
