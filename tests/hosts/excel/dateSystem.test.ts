import { afterEach, beforeEach, expect, jest, test } from '@jest/globals';
import type * as DateSystemModule from '../../../src/hosts/excel/dateSystem';
import { SheetFault } from '../../../src/worksheet/cells/fault';

// The question runs inside a calculation, where `Excel.run` may never be answered: while a cell is typed into, while a
// book loads, in a hidden file (issues 1395, 1773 and 3019 of the vendor's tracker).

const scope = globalThis as { Excel?: unknown; Office?: unknown };
let answers: ((day: number) => void)[];
let asking: typeof DateSystemModule;

beforeEach(() => {
  jest.useFakeTimers();
  answers = [];
  scope.Office = { onReady: () => Promise.resolve() };
  scope.Excel = {
    run: (_options: object, work: (context: unknown) => Promise<unknown>) => {
      const day = { load: () => undefined, value: 0 };
      const sync = () =>
        new Promise<void>((resolve) => answers.push((value) => resolve(void (day.value = value))));
      return work({ sync, workbook: { functions: { date: () => day } } });
    },
  };
  jest.isolateModules(() => {
    asking = jest.requireActual('../../../src/hosts/excel/dateSystem');
  });
});
afterEach(() => {
  jest.useRealTimers();
  delete scope.Excel;
  delete scope.Office;
});

test('the day a workbook counts from is asked once, for all who ask', async () => {
  const both = Promise.all([asking.dateSystem(), asking.dateSystem()]);
  await jest.advanceTimersByTimeAsync(0);
  expect(answers).toHaveLength(1);
  answers[0]!(35064);
  expect(await both).toEqual([1904, 1904]);
  expect(asking.knownDateSystem()).toBe(1904);
});

test('a question that Excel does not answer ends in words, never in a guess', async () => {
  const asked = asking.dateSystem().catch((fault: unknown) => fault);
  await jest.advanceTimersByTimeAsync(asking.ASKING_LIMIT);
  const fault = (await asked) as SheetFault;
  expect(fault.message).toContain('Excel did not say which day the workbook counts from');
  expect(asking.knownDateSystem()).toBeUndefined();
});

test('an answer that comes late serves the next call, and a question that failed is asked again', async () => {
  const first = asking.dateSystem().catch((fault: unknown) => fault);
  await jest.advanceTimersByTimeAsync(asking.ASKING_LIMIT);
  await first;
  const second = asking.dateSystem();
  await jest.advanceTimersByTimeAsync(0);
  expect(answers).toHaveLength(2);
  answers[0]!(36526);
  await jest.advanceTimersByTimeAsync(0);
  expect(await asking.dateSystem()).toBe(1900);
  answers[1]!(36526);
  expect(await second).toBe(1900);
});
