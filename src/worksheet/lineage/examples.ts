import type { FaultExample } from '../words';

// Tables, sources and faults that the words of several functions of the family share. The farm in them is invented.

export const CHECK_CHARACTER =
  'ISO/IEC 7064:2003, Information technology – Security techniques – Check character systems, MOD 37,36';

export const exampleLots = [['M-1'], ['G-1'], ['G-2'], ['S-1'], ['S-2'], ['B-1'], ['B-2'], ['B-3']];
export const exampleParents = [[null], ['M-1'], ['M-1'], ['G-1'], ['G-2'], ['S-1'], ['S-1, S-2'], ['X-9']];
export const FAMILY_HEADER = ['lot', 'steps', 'path', 'note'];

export const familyNotes = [
  'Nearest first: the lot, how many steps away, and the shortest way to it. A way of more than twelve lots is shortened in its middle.',
  'A lot made from several has several rows, or has them all in one cell. Between them may be a comma, semicolon, slash, +, &, |, a line break or the word and. A lot whose own name holds such a sign stays whole.',
  'The list always comes. Lines without a lot at its end tell what could not be placed: parents that are no lot, rows that cannot be read, a loop, and lots that look alike. Check these before you rely on the list.',
  'The note says where a parent is named that has no row of its own. Rows count from the first row of the columns.',
];

export const familyFaults: readonly FaultExample[] = [
  {
    arguments: ['B-9', exampleLots, exampleParents],
    code: '#N/A',
    says: 'lot: "B-9" is not in lots',
    remedy: 'Correct the label, or add the lot to the list.',
  },
];

export const exampleSteps = [
  ['step', 'makes', 'days', 'loss', 'mass', 'batch', 'max generation'],
  ['mother culture', 8, 10, 0.1, null, 1, null],
  ['grain jar', 10, 14, 0.05, 1.2, 6, null],
  ['sawdust bag', 10, 21, 0.02, 2.5, 1, null],
  ['block', null, 77, 0.04, 2.5, 12, 3],
];
export const CHAIN_HEADER = ['step', 'generation', 'start', 'good', 'start on', 'ready by', 'mass', 'note'];
