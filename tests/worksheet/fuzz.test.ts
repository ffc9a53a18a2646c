import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import type { Block, Grid } from '../../src/worksheet/cells/cell';
import { described } from '../../src/worksheet/described';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { callsOf, FOREIGN } from './calls';
import { evaluate, prepared } from './prepared';
import { broken, frozen } from './promises';

// Random calls of every function. `npm run fuzz` makes a hundred times as many.

const CALLS = Number(process.env['PINSET_FUZZ_CALLS'] ?? 2000);
const SEED = 20_260_202;
/** What a call of ten rows may take before a sheet feels stuck, in pieces of `work`: 50 ms on a usual machine. */
const MOST_WORK = 50;
/** The view `worth` plans anew for each thing that a farm could have more of. */
const MOST_WORK_OF_WORTH = 4 * MOST_WORK;
/** SEASON makes many plans in a call, beside the page: fewer calls, each of which may take its time. */
const SEASONS = { calls: CALLS / 20, mostWork: 100 * MOST_WORK };
const triesOf = ({ name }: WorksheetFunction): typeof SEASONS =>
  name === 'SEASON' ? SEASONS : { calls: CALLS, mostWork: MOST_WORK };

/** Whether a call asks for the view `worth`. */
const isWorth = (given: readonly (Grid | null)[]): boolean =>
  given.some((cells) => cells?.[0]?.[0] === 'worth');

/** A fixed piece of work, about a millisecond: the measure of what the machine does at this moment. */
function work(): number {
  const sines = Array.from({ length: 2000 }, (_, n) => Math.sin(n * n)).sort((a, b) => a - b);
  return sines.reduce((sum, sine) => sum + Math.exp(-sine), 0);
}

/** What something takes of the processor, in milliseconds: waiting for a turn is none of its doing. */
function processorTime(run: () => void): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/**
 * Whether a call takes more than its share of work: the best of ten times against the best of ten pieces of work done
 * between them. A busy machine is slow at both.
 */
function isSlow(mostWork: number, call: () => void): boolean {
  let [fastest, piece] = [Infinity, Infinity];
  for (let tries = 0; tries < 10; tries++) {
    fastest = Math.min(fastest, processorTime(call));
    piece = Math.min(piece, processorTime(work));
    if (fastest < mostWork * piece) return false;
  }
  return true;
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
  const { calls, mostWork } = triesOf(f);

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
          // What was short by the clock, waiting included, took little work: only the others are measured.
          const most = isWorth(given) ? MOST_WORK_OF_WORTH : mostWork;
          if (milliseconds >= most / 2 && isSlow(most, () => evaluate(f, given))) {
            throw new Error(`takes more than ${most} pieces of work`);
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
