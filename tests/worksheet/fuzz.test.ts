import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import type { Block } from '../../src/worksheet/cells/cell';
import { described } from '../../src/worksheet/described';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { callsOf, FOREIGN } from './calls';
import { evaluate, prepared } from './prepared';
import { broken, frozen } from './promises';

// Random calls of every function. `npm run fuzz` makes a hundred times as many.

const CALLS = Number(process.env['PINSET_FUZZ_CALLS'] ?? 2000);
const SEED = 20_260_202;
/** A call of ten rows that takes longer makes a sheet feel stuck. */
const MOST_MILLISECONDS = 50;
/** SEASON makes many plans in a call, beside the page: fewer calls, each of which may take its time. */
const SEASONS = { calls: CALLS / 20, mostMilliseconds: 5000 };
const triesOf = ({ name }: WorksheetFunction): typeof SEASONS =>
  name === 'SEASON' ? SEASONS : { calls: CALLS, mostMilliseconds: MOST_MILLISECONDS };

const processorTime = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/**
 * Whether a call is slow. A busy machine is slow once; a slow function is slow every time, and by the processor's
 * clock too, which takes long to read.
 */
function isSlow(milliseconds: number, most: number, call: () => void): boolean {
  for (let tries = 0; milliseconds >= most && tries < 3; tries++) {
    const [start, cpu] = [performance.now(), processorTime()];
    call();
    milliseconds = Math.min(performance.now() - start, processorTime() - cpu);
  }
  return milliseconds >= most;
}

/** Whether the block holds a number or a text, header rows aside. */
function hasAnswer(f: WorksheetFunction, { rows }: Block): boolean {
  const isTable = f.result.shape === 'table' || f.result.shape === 'views';
  return rows
    .slice(isTable ? 1 : 0)
    .some((row) => row.some((cell) => typeof cell === 'number' || (typeof cell === 'string' && cell !== '')));
}

describe.each(described.map((f) => [f.name, f] as const))('%s', (_name, f) => {
  beforeAll(() => prepared(f));
  const { calls, mostMilliseconds } = triesOf(f);

  test(
    `keeps its promises in ${calls} random calls`,
    () => {
      let answered = 0;
      fc.assert(
        // One assertion a call at most: they cost more than the calls.
        fc.property(callsOf(f), (given) => {
          frozen(given);
          const start = performance.now();
          const block = evaluate(f, given);
          const milliseconds = performance.now() - start;
          const complaint = broken(block, FOREIGN);
          if (complaint !== undefined) throw new Error(complaint);
          if (isSlow(milliseconds, mostMilliseconds, () => evaluate(f, given))) {
            throw new Error(`over ${mostMilliseconds} ms`);
          }
          if (hasAnswer(f, block)) answered++;
        }),
        { numRuns: calls, seed: SEED },
      );
      // Calls that all fault would test nothing but the refusals.
      expect(answered).toBeGreaterThan(calls / 50);
    },
    60_000 + 30 * CALLS,
  );

  test('gives the same answer to the same random call', () => {
    fc.assert(
      fc.property(callsOf(f), (given) => {
        expect(evaluate(f, given)).toEqual(evaluate(f, given));
      }),
      { numRuns: Math.min(50, calls / 10), seed: SEED },
    );
  });
});
