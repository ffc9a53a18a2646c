import { expect, test } from '@jest/globals';
import {
  column,
  keyColumn,
  optionalColumn,
  optionalSetting,
  table,
} from '../../src/worksheet/cells/arguments';
import { choice, mass, number, text } from '../../src/worksheet/cells/kinds';
import { key, optional } from '../../src/worksheet/cells/table';
import { defineFunction, value } from '../../src/worksheet/define';

// What matters here is checked by the compiler: `npm run check` fails where an expected error does not come.

const words = { family: 'harvest', summary: 'types only', sources: [], examples: [], faults: [] } as const;
const same = <T>(_value: T): number => 0;

const typed = defineFunction({
  ...words,
  name: 'TYPED',
  arguments: [
    keyColumn('mass', mass(), 'a mass'),
    column('lot', text(), 'a lot'),
    optionalColumn('spare', number(), undefined, 'a number or nothing'),
    table('lots', { lot: key(text()), days: optional(number()) }, 'a table'),
    optionalSetting('point', choice(['best', 'latest']), 'best', 'a point'),
  ],
  result: value('nothing'),
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
    result: value('nothing'),
    // @ts-expect-error a calculation that wants text does not fit a mass
    eachRow: (given: string) => given,
  });
  defineFunction({
    ...words,
    name: 'WRONGRESULT',
    arguments: [keyColumn('mass', mass(), 'a mass')],
    result: value('nothing'),
    // @ts-expect-error one value is promised, not a list
    eachRow: (given) => [given],
  });
  expect(typed.evaluate([[[2]], [['A']], null, [['lot'], ['A']]]).rows).toEqual([[1]]);
});
