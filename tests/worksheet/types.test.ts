import { expect, test } from '@jest/globals';
import {
  column,
  keyColumn,
  optionalColumn,
  optionalSetting,
  table,
} from '../../src/worksheet/cells/arguments';
import { key, numbered, optional, others, required } from '../../src/worksheet/cells/columns';
import { choice, mass, number, text } from '../../src/worksheet/cells/kinds';
import { amount, date, row, tableResult, value } from '../../src/worksheet/cells/results';
import { defineFunction } from '../../src/worksheet/define';
import type { Words } from '../../src/worksheet/words';

// What matters here is checked by the compiler: `npm run check` fails where an expected error does not come.

const words = { family: 'harvest' } as const;
const same = <T>(_value: T): number => 0;

const typed = defineFunction({
  ...words,
  name: 'TYPED',
  arguments: [
    keyColumn('mass', mass(), 'a mass'),
    column('lot', text(), 'a lot'),
    optionalColumn('spare', number(), undefined, 'a number or nothing'),
    table('lots', { lot: key(text(), 'a lot'), days: optional(number(), 'days') }, 'a table'),
    optionalSetting('point', choice({ best: 'the best', latest: 'the last' }), 'best', 'a point'),
  ],
  result: value('nothing', amount()),
  eachRow: (massOfRow, lot, spare, lots, point, { dateSystem }) => {
    same<number>(massOfRow);
    same<string>(lot);
    same<number | undefined>(spare);
    same<number | undefined>(lots.rows[0]?.days);
    same<'best' | 'latest'>(point);
    same<1900 | 1904>(dateSystem);
    // @ts-expect-error a mass is no text
    same<string>(massOfRow);
    // @ts-expect-error it may be left out
    same<number>(spare);
    // @ts-expect-error the table has no such column
    same(lots.rows[0]?.weeks);
    // @ts-expect-error no such choice
    same<'worst'>(point);
    return 1;
  },
});

test('a definition gives its calculation plain values of the right types', () => {
  defineFunction({
    ...words,
    name: 'WRONG',
    arguments: [keyColumn('mass', mass(), 'a mass')],
    result: value('nothing', amount()),
    // @ts-expect-error a calculation that wants text does not fit a mass
    eachRow: (given: string) => given,
  });
  defineFunction({
    ...words,
    name: 'WRONGRESULT',
    arguments: [keyColumn('mass', mass(), 'a mass')],
    result: value('nothing', amount()),
    // @ts-expect-error one value is promised, not a list
    eachRow: (given) => [given],
  });
  expect(typed.evaluate([[[2]], [['A']], null, [['lot'], ['A']]]).rows).toEqual([[1]]);
});

test('a result holds exactly the columns it declares, each of its kind', () => {
  const given = { ...words, arguments: [keyColumn('mass', mass(), 'a mass')] } as const;
  const pair = { day: date(), share: amount() };
  defineFunction({
    ...given,
    name: 'LACKING',
    result: row(pair),
    // @ts-expect-error a column is missing
    eachRow: (one) => ({ day: one }),
  });
  defineFunction({
    ...given,
    name: 'MISNAMED',
    result: tableResult(pair),
    // @ts-expect-error a column has another name
    whole: (all) => all.map((one) => ({ day: one, shares: one })),
  });
  const right = defineFunction({
    ...given,
    name: 'RIGHT',
    result: tableResult(pair),
    whole: (all) => all.map((one) => ({ day: one, share: 1 })),
  });
  expect(right.evaluate([[[2]]]).rows).toEqual([['day', 'share'], [2, 1]]); // prettier-ignore
});

test('what a definition does not say it needs is not handed in', () => {
  const given = { ...words, arguments: [keyColumn('mass', mass(), 'a mass')] } as const;
  defineFunction({
    ...given,
    name: 'FORGOTTEN',
    result: value('nothing', amount()),
    eachRow: (one, { tools }) => {
      // @ts-expect-error the distributions are not among its needs
      same<unknown>(tools.distributions);
      return one;
    },
  });
  const needing = defineFunction({
    ...given,
    name: 'NEEDING',
    result: value('nothing', amount()),
    needs: ['distributions'],
    eachRow: (one, { tools }) => tools.distributions.logGamma(one),
  });
  expect(() => needing.evaluate([[[2]]])).toThrow('NEEDING was called before its distributions was loaded');
});

test('an argument, a column of a table and a value do not compile without what they mean', () => {
  const without = [
    // @ts-expect-error an argument means something
    () => keyColumn('mass', mass()),
    // @ts-expect-error a table means something
    () => table('lots', { lot: key(text(), 'a lot') }),
    // @ts-expect-error a key means something
    () => key(text()),
    // @ts-expect-error a column means something
    () => required(mass()),
    // @ts-expect-error one that may be missing means something
    () => optional(mass()),
    // @ts-expect-error a family of columns means something
    () => numbered(mass()),
    // @ts-expect-error all other columns mean something
    () => others(mass()),
    // @ts-expect-error a value means something
    () => value(amount()),
  ];
  expect(new Set(without).size).toBe(8);
});

test('words lack nothing', () => {
  const all = {
    summary: '',
    notes: [],
    sources: [],
    questions: [],
    examples: [],
    faults: [],
  } satisfies Words;
  const without = <K extends keyof typeof all>(part: K): Omit<typeof all, K> => {
    const { [part]: _gone, ...rest } = all;
    return rest;
  };
  const lacking: Words[] = [
    // @ts-expect-error no summary
    without('summary'),
    // @ts-expect-error no notes
    without('notes'),
    // @ts-expect-error no sources
    without('sources'),
    // @ts-expect-error no questions
    without('questions'),
    // @ts-expect-error no examples
    without('examples'),
    // @ts-expect-error no faults
    without('faults'),
  ];
  expect(lacking.map((words) => Object.keys(words).length)).toEqual(Object.keys(all).map(() => 5));
});
