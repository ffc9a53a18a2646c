import { blocksFor } from '../../maths/loading/blocksFor';
import { keyColumn } from '../cells/arguments';
import { mass } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { cropArguments } from '../harvest/arguments';

export const BLOCKSFOR = defineFunction({
  name: 'BLOCKSFOR',
  family: 'loading',
  arguments: [keyColumn('mass', mass(), 'fresh mass wanted, in the unit of block mass'), ...cropArguments],
  result: value('blocks to load', amount()),
  eachRow: (wanted, blockMass, moisture, efficiency, loss, share) =>
    blocksFor(wanted, { blockMass, moisture, efficiency, loss, share }),
});
