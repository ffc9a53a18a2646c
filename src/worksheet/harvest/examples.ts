import type { FaultExample } from '../words';

// Tables, sources and faults that the words of several functions of the family share. The farm in them is invented.

export const examplePicks = [
  ['lot', 'date', 'mass', 'flush'],
  ['A-101', 46007, 4, 1],
  ['A-101', 46009, 3, 1],
  ['A-101', 46027, 2, 2],
  ['A-101', 46031, 1, 2],
  ['A-102', 46018, 12, 1],
  ['A-102', 46035, 4, 2],
];

export const exampleLots = [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'loaded'],
  ['A-101', 'Alder-3', 10, 2.5, 0.6, 46000],
  ['A-102', 'Alder-3', 20, 2.5, 0.6, 46010],
  ['B-201', 'Birch-1', 10, 2.5, 0.6, 46020],
];

export const unknownPick = [
  ['lot', 'date', 'mass'],
  ['A-999', 46007, 4],
];

export const unknownLot = {
  code: '#N/A',
  says: 'lot in harvests: "A-999" is not in lots',
  remedy: 'Correct the lot’s label in the harvests, or add the lot to the lots.',
} satisfies Omit<FaultExample, 'arguments'>;
