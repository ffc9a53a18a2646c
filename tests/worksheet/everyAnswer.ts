import fc from 'fast-check';
import { serialOf, weekdayOf, writtenDate, writtenTime } from '../../src/worksheet/calendar';
import { plainValues, type Grid } from '../../src/worksheet/cells/cell';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import { tell } from '../surroundings';
import { callsOf } from './calls';
import { evaluate, prepared } from './prepared';

// A program of its own, because a process takes its locale from the environment it starts in: it prints every answer
// in each time zone.

const RANDOM_CALLS = 20;

const DAYS = [-1, 0, 0.5, 1, 59, 60, 61, 1461, 36525.999, 36526, 46054.5, 46109, 46320, 2958465];

const calls = described.map((f) => {
  const written = [...f.examples, ...f.faults].map(({ arguments: given }) => given.map(exampleGrid));
  const random: (Grid | null)[][] = fc.sample(callsOf(f), { numRuns: RANDOM_CALLS, seed: 1 });
  return [f, [...written, ...random]] as const;
});

function* answers(): Generator<unknown> {
  for (const [f, itsCalls] of calls) {
    for (const given of itsCalls) {
      for (const dateSystem of [1900, 1904] as const)
        yield [f.name, plainValues(evaluate(f, given, dateSystem))];
    }
  }
  for (const day of DAYS) {
    for (const system of [1900, 1904] as const) {
      yield [
        `day ${day} of ${system}`,
        [writtenDate, writtenTime, weekdayOf].map((words) => words(day, system)),
      ];
    }
  }
  yield ['29 March 2026', serialOf(2026, 3, 29)];
}

void tell(async () => {
  for (const f of described) await prepared(f);
  return [...answers()];
});
