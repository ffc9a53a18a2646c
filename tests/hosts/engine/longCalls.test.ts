import { describe, expect, test } from '@jest/globals';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { STOPPED_BY_HAND, type Solve } from '../../../src/hosts/worker/solver';
import { type Block, type Value, cellError } from '../../../src/worksheet/cells/cell';

const BUSY = cellError('#BUSY!', 'being worked out');

/** A question that the workbook asked: its first argument's first cell, and what answers it. */
interface Asked {
  readonly first: unknown;
  readonly answer: (...rows: Value[][]) => Promise<void>;
  readonly stop: () => Promise<void>;
  readonly fail: (defect: Error) => Promise<void>;
  readonly isCancelled: () => boolean;
}

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

/** A sheet whose calls of functions that take long are answered by the test. */
function workbookOf(formulas: Record<string, string | number>): { workbook: EngineWorkbook; asked: Asked[] } {
  const asked: Asked[] = [];
  const solve: Solve = (_definition, given, _dateSystem, cancelled) =>
    new Promise<Block>((resolve, reject) => {
      asked.push({
        first: given[0]?.[0]?.[0],
        answer: (...rows) => {
          resolve({ rows, formats: rows[0]!.map(() => 'plain') });
          return turn();
        },
        stop: () => {
          resolve(STOPPED_BY_HAND);
          return turn();
        },
        fail: (defect) => {
          reject(defect);
          return turn();
        },
        isCancelled: () => cancelled.aborted,
      });
    });
  const cells = Object.entries(formulas).map(([address, content]) =>
    typeof content === 'number' ? { address, value: content } : { address, value: null, formula: content },
  );
  const workbook = new EngineWorkbook({ dateSystem: 1900, sheets: [{ name: 'S', cells }] }, { solve });
  workbook.calculate();
  return { workbook, asked };
}

/** Types into a cell, as the grid does: the workbook settles after every change of the model. */
function type(workbook: EngineWorkbook, address: string, content: string | number | null): void {
  workbook.type('S', address, content);
  workbook.settle();
}

const valueAt = (workbook: EngineWorkbook, address: string): unknown => workbook.result('S', address).value;

describe('a cell whose answer takes long', () => {
  test('shows #BUSY! with a reason, then its answer, and what reads its cells follows', async () => {
    const { workbook, asked } = workbookOf({ A1: 7, C1: '=PINSET.CHEAPESTMIX(A1)', F1: '=SUM(C1:D2)' });
    expect(valueAt(workbook, 'C1')).toEqual(BUSY);
    expect(valueAt(workbook, 'F1')).toMatchObject({ code: '#BUSY!' });
    await asked[0]!.answer([1, 2], [3, 4]);
    expect(workbook.result('S', 'C1').block).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(valueAt(workbook, 'F1')).toBe(10);
    expect(asked).toHaveLength(1);
  });

  test('keeps it while other cells change', async () => {
    const { workbook, asked } = workbookOf({ A1: 7, A2: 1, C1: '=PINSET.CHEAPESTMIX(A1)' });
    await asked[0]!.answer([5]);
    type(workbook, 'A2', 2);
    expect(valueAt(workbook, 'C1')).toBe(5);
    expect(asked).toHaveLength(1);
  });

  test('asks anew when what it reads changes, and what was asked before is cancelled', async () => {
    const { workbook, asked } = workbookOf({ A1: 7, C1: '=PINSET.CHEAPESTMIX(A1)' });
    type(workbook, 'A1', 8);
    expect(asked.map(({ first, isCancelled }) => [first, isCancelled()])).toEqual([
      [7, true],
      [8, false],
    ]);
    await asked[0]!.answer([70]);
    expect(valueAt(workbook, 'C1')).toEqual(BUSY);
    await asked[1]!.answer([80]);
    expect(valueAt(workbook, 'C1')).toBe(80);
  });

  test('cancels its question when it is cleared, and other answers wait for it no longer', async () => {
    const { workbook, asked } = workbookOf({ C1: '=PINSET.CHEAPESTMIX(1)', C3: '=PINSET.CHEAPESTMIX(3)' });
    await asked[1]!.answer([30]);
    expect(valueAt(workbook, 'C3')).toEqual(BUSY);
    type(workbook, 'C1', null);
    await turn();
    expect(asked[0]!.isCancelled()).toBe(true);
    expect(valueAt(workbook, 'C3')).toBe(30);
  });

  test('says in words what should not have happened', async () => {
    const { workbook, asked } = workbookOf({ C1: '=PINSET.CHEAPESTMIX(1)' });
    await asked[0]!.fail(new Error('what works it out has stopped'));
    expect(valueAt(workbook, 'C1')).toEqual(
      cellError('#VALUE!', 'CHEAPESTMIX could not be calculated: what works it out has stopped'),
    );
  });

  test('has its sheet made larger where the answer has no room', async () => {
    const { workbook, asked } = workbookOf({ A1: '=PINSET.CHEAPESTMIX(1)' });
    const rows = Array.from({ length: 400 }, (_, row) => [row]);
    await asked[0]!.answer(...rows);
    workbook.settle();
    expect(workbook.result('S', 'A1').block).toEqual(rows);
  });
});

test('cells that ask the same share one question, and its answers come at once', async () => {
  const { workbook, asked } = workbookOf({
    C1: '=PINSET.CHEAPESTMIX(1)',
    C3: '=PINSET.CHEAPESTMIX(1)',
    C5: '=PINSET.CHEAPESTMIX(5)',
  });
  expect(asked.map(({ first }) => first)).toEqual([1, 5]);
  await asked[0]!.answer([10]);
  await asked[1]!.answer([50]);
  expect(['C1', 'C3', 'C5'].map((address) => valueAt(workbook, address))).toEqual([10, 10, 50]);
});

test('two calls in one formula are both answered', async () => {
  const { workbook, asked } = workbookOf({ C1: '=PINSET.CHEAPESTMIX(1)+PINSET.CHEAPESTMIX(2)' });
  for (let n = 0; n < asked.length; n++) await asked[n]!.answer([10 ** n]);
  expect(valueAt(workbook, 'C1')).toBe(11);
  expect(asked).toHaveLength(2);
});

test('one that reads another’s answer asks when it is there', async () => {
  const { workbook, asked } = workbookOf({
    C1: '=PINSET.CHEAPESTMIX(1)',
    C3: '=PINSET.CHEAPESTMIX(C1)',
    C5: '=PINSET.CHEAPESTMIX(IFERROR(C1,3))',
  });
  expect(asked.map(({ first }) => first)).toEqual([1, 3]);
  await asked[0]!.answer([10]);
  await asked[1]!.answer([30]);
  expect(asked.map(({ first }) => first)).toEqual([1, 3, 10]);
  expect(['C1', 'C3', 'C5'].map((address) => valueAt(workbook, address))).toEqual([10, BUSY, BUSY]);
  await asked[2]!.answer([100]);
  expect(['C1', 'C3', 'C5'].map((address) => valueAt(workbook, address))).toEqual([10, 100, 100]);
});

test('a formula that changes with every calculation says so, after a few tries', async () => {
  const { workbook, asked } = workbookOf({ C1: '=PINSET.CHEAPESTMIX(RAND())' });
  for (let n = 0; n < asked.length && n < 50; n++) await asked[n]!.answer([10 + n]);
  expect(asked.length).toBeLessThan(10);
  expect(valueAt(workbook, 'C1')).toMatchObject({
    code: '#VALUE!',
    reason: expect.stringMatching(/put NOW or RAND in cells of their own/),
  });
  type(workbook, 'C1', '=PINSET.CHEAPESTMIX(1)');
  await asked.at(-1)!.answer([20]);
  expect(valueAt(workbook, 'C1')).toBe(20);
});

test('who saves or opens waits until no answer is owed', async () => {
  const { workbook, asked } = workbookOf({ C1: '=PINSET.CHEAPESTMIX(1)' });
  let isAnswered = false;
  const waited = workbook.longCallsAnswered().then((didWait) => {
    isAnswered = true;
    return didWait;
  });
  await turn();
  expect(isAnswered).toBe(false);
  await asked[0]!.answer([10]);
  expect(await waited).toBe(true);
  expect(await workbook.longCallsAnswered()).toBe(false);
});

test('closing a workbook cancels all it asked, and lets go who waits for it', async () => {
  const { workbook, asked } = workbookOf({ C1: '=PINSET.CHEAPESTMIX(1)', C3: '=PINSET.CHEAPESTMIX(3)' });
  const waited = workbook.longCallsAnswered();
  workbook.close();
  expect(asked.map(({ isCancelled }) => isCancelled())).toEqual([true, true]);
  expect(await waited).toBe(true);
});

test('a cell whose work was stopped says so until it is asked for again, and no other cell is', async () => {
  const { workbook, asked } = workbookOf({
    A1: 7,
    B1: '=PINSET.CHEAPESTMIX(A1)',
    C1: '=PINSET.CHEAPESTMIX(A1+1)',
  });
  await asked[0]!.stop();
  await asked[1]!.answer([80]);
  expect(valueAt(workbook, 'B1')).toMatchObject({ code: '#N/A', reason: 'stopped before it was worked out' });
  workbook.workOutStopped();
  expect(asked.map(({ first }) => first)).toEqual([7, 8, 7]);
  expect([valueAt(workbook, 'B1'), valueAt(workbook, 'C1')]).toEqual([BUSY, 80]);
  await asked[2]!.answer([70]);
  expect(valueAt(workbook, 'B1')).toBe(70);
});
