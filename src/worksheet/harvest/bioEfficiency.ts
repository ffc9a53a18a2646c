import { biologicalEfficiency } from '../../maths/harvest/biologicalEfficiency';
import { column, keyColumn, optionalColumn } from '../cells/arguments';
import { count, mass, moisture, orNone } from '../cells/kinds';
import { percent, value } from '../cells/results';
import { defineFunction } from '../define';

export const BIOEFFICIENCY = defineFunction({
  name: 'BIOEFFICIENCY',
  family: 'harvest',
  arguments: [
    keyColumn(
      'fresh',
      orNone(mass()),
      'mass of fresh mushrooms picked, all flushes counted; none for a crop that failed',
    ),
    column('block mass', mass(), 'wet mass of one block, in the unit of fresh'),
    column('moisture', moisture(), 'water share of the wet block: 62% or 0.62'),
    optionalColumn('blocks', count(), 1, 'number of blocks the mushrooms came from; 1 if left out'),
  ],
  result: value('biological efficiency', percent()),
  eachRow: biologicalEfficiency,
});
