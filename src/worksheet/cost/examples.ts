import type { FaultExample } from '../words';

// Tables, notes and faults that the words of several functions of the family share. The farm in them is invented.

export const BASES =
  'per: block = once for each block; batch = once for all blocks of the call; mass = for each unit of fresh mass, in the ' +
  'unit of your masses; shelf day = for each shelf and day.';

export const exampleCosts = [
  ['item', 'amount', 'per'],
  ['substrate', 1.5, 'block'],
  ['spawn', 0.5, 'block'],
  ['labour to fill', 300, 'batch'],
  ['picking and packing', 2, 'mass'],
];

export const exampleCrops = [
  ['lot', 'strain', 'blocks', 'total', 'days'],
  ['A-101', 'Alder-3', 100, 80, 40],
  ['B-201', 'Birch-1', 50, 25, 20],
];

export const heatingCosts = [
  ['item', 'amount', 'per'],
  ['heating', 0.2, 'shelf day'],
];

export const unknownBasis = [
  ['item', 'amount', 'per'],
  ['substrate', 1.5, 'bag'],
];

export const basisFault = {
  code: '#VALUE!',
  says: 'per in costs must be one of block, batch, mass, shelf day; it is "bag" (row 2 of costs)',
  remedy: 'Write one of the words: batch for what is spent once for all blocks.',
} satisfies Omit<FaultExample, 'arguments'>;
