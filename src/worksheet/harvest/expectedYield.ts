import { expectedYield } from '../../maths/harvest/expectedYield';
import { keyColumn, optionalColumn } from '../cells/arguments';
import { count, fraction, orZero } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { blockArguments, SHARE_MEANING } from './arguments';

export const EXPECTEDYIELD = defineFunction({
  name: 'EXPECTEDYIELD',
  family: 'harvest',
  arguments: [
    keyColumn('blocks', count(), 'number of blocks loaded'),
    ...blockArguments,
    optionalColumn('share', orZero(fraction()), 1, SHARE_MEANING),
  ],
  result: value('fresh mass', amount()),
  eachRow: (blocks, blockMass, moisture, efficiency, loss, share) =>
    expectedYield(blocks, { blockMass, moisture, efficiency, loss, share }),
});
