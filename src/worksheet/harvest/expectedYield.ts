import { expectedYield } from '../../maths/harvest/expectedYield';
import { keyColumn } from '../cells/arguments';
import { count } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { cropArguments } from './arguments';

export const EXPECTEDYIELD = defineFunction({
  name: 'EXPECTEDYIELD',
  family: 'harvest',
  arguments: [keyColumn('blocks', count(), 'number of blocks loaded'), ...cropArguments],
  result: value('fresh mass', amount()),
  eachRow: (blocks, blockMass, moisture, efficiency, loss, share) =>
    expectedYield(blocks, { blockMass, moisture, efficiency, loss, share }),
});
