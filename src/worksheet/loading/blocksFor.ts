import { blocksFor } from '../../maths/loading/blocksFor';
import { keyColumn, optionalColumn } from '../cells/arguments';
import { fraction, mass } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { blockArguments, SHARE_MEANING } from '../harvest/arguments';

export const BLOCKSFOR = defineFunction({
  name: 'BLOCKSFOR',
  family: 'loading',
  arguments: [
    keyColumn('mass', mass(), 'fresh mass wanted, in the unit of block mass'),
    ...blockArguments,
    // Of no share of the yield no number of blocks gives enough.
    optionalColumn('share', fraction(), 1, SHARE_MEANING),
  ],
  result: value('blocks to load', amount()),
  eachRow: (wanted, blockMass, moisture, efficiency, loss, share) =>
    blocksFor(wanted, { blockMass, moisture, efficiency, loss, share }),
});
