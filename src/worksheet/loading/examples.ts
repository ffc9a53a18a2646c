import type { FaultExample } from '../words';

// Tables that the words of several functions of the family share. The farm in them is invented.

export const exampleStrains = [
  ['strain', 'first pick', 'flush gap', 'flushes'],
  ['Alder-3', 7, 18, 3],
  ['Birch-1', 6, null, 1],
];

/** Alder-3 gives 0.8 of the dry mass, 60% in a first flush of four days and 40% in a second; Birch-1 has one flush. */
export const exampleCrops = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flush 1', 'flush 2', 'efficiency', 'loss'],
  ['Alder-3', 7, 4, 14, 0.6, 0.4, 0.8, null],
  ['Birch-1', 6, 2, null, null, null, 0.5, 0.1],
];

export const exampleRooms = [
  ['room', 'shelves', 'blocks per shelf', 'closed from', 'closed to'],
  ['North', 10, 12, null, null],
  ['South', 5, 12, 46150, 46151],
];

/** Birch-1 is picked six and seven days after loading, 0.45 kg from a block of 2.5 kg at 60% moisture. */
export const examplePlan = {
  strains: [
    ['strain', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'efficiency', 'loss'],
    ['Birch-1', 60, 70, 80, 6, 2, 0.5, 0.1],
  ],
  lots: [
    ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated'],
    ['B-12', 'Birch-1', 20, 2.5, 0.6, 46078],
  ],
  rooms: [
    ['room', 'shelves', 'blocks per shelf'],
    ['North', 10, 12],
  ],
  /** To be picked on 12 and 13 May 2026, so loaded on the 6th. */
  orders: (mass: number) => [
    ['product', 'mass', 'from', 'due'],
    ['Birch-1', mass, 46154, 46155],
  ],
};

/** A strain that is not in the strains table: `argument` says where its label is, in row 2 if that is a table. */
export const unknownStrain = (argument: string, given: FaultExample['arguments']): FaultExample => ({
  arguments: given,
  code: '#N/A',
  says: `${argument}: "Hazel-9" is not in strains`,
  remedy: 'Add the strain to the strains table, or correct its spelling.',
});
