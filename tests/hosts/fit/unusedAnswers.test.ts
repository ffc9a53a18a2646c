import { expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import type { JobName } from '../../../src/hosts/fit/jobs';
import { bookWith, fitted, opened } from './laidOut';

// Answers that name what the book does not have.

const book = async () =>
  opened(
    await bookWith({
      Lots: [
        ['Lot', 'Strain', 'Bags', 'Inoculated', 'To fruiting', 'Kg'],
        ['A1', 'Blue larch', 20, '2026-02-26', null, 2.5],
        ['A2', 'Blue larch', 24, '2026-02-27', '2026-03-24', 2.5],
        ['A3', 'Blue larch', 24, '2026-02-28', null, 2.5],
      ],
      Moved: [
        ['When', 'Lot', 'Bags loaded'],
        ['2026-03-24', 'A1', 5],
        ['2026-03-24', 'A3', 5],
      ],
      Strains: [
        ['Strain', 'Min days', 'Best', 'Max days'],
        ['Blue larch', 18, 24, 45],
      ],
    }),
  );
const none: Answers = { taken: { lots: [] } };
const NO_HEADER = 'is no header of your lots in Lots!A1:F4';

test.each<[string, JobName, Answers, readonly string[]]>([
  ['nothing but what is there', 'ready', none, []],
  ['a header as it is', 'ready', { columns: { lots: { loaded: 'To fruiting' } } }, []],
  ['a header in other capitals', 'ready', { columns: { lots: { loaded: 'to FRUITING' } } }, []],
  [
    'a header that the table does not have',
    'ready',
    { columns: { lots: { loaded: 'Set out' } } },
    [`“Set out”, your answer for “loaded”, ${NO_HEADER}`],
  ],
  [
    'what the names of lots say',
    'audit',
    { columns: { lots: { inoculated: 'YYMMDD in the lot’s name' } } },
    [],
  ],
  ['no header', 'ready', { columns: { lots: { loaded: null } } }, []],
  [
    'a header of a column that another job takes',
    'ready',
    { columns: { lots: { 'block mass': 'Pounds' } } },
    [],
  ],
  [
    'a needed column, which is asked about with that word',
    'ready',
    { columns: { lots: { blocks: 'Pounds' } } },
    [],
  ],
  [
    'a sheet that lists no blocks',
    'ready',
    { columns: { lots: { loaded: null } }, taken: { lots: ['Moved', 'Mooved'] } },
    ['“Mooved”, which your answers name, takes no blocks off your lots'],
  ],
  [
    'a sheet that lists blocks',
    'ready',
    { columns: { lots: { loaded: null } }, taken: { lots: ['Moved'] } },
    [],
  ],
])('answers that name %s', async (_, job, answers, told) => {
  expect(fitted(await book(), job, answers).unused).toEqual(told);
});
