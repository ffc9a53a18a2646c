import { shelfBlocks } from '../../maths/loading/shelfBlocks';
import { column, keyColumn } from '../cells/arguments';
import { number, orNone } from '../cells/kinds';
import { amount, label, row } from '../cells/results';
import { defineFunction } from '../define';

const length = () => number({ above: 0 });

export const SHELFBLOCKS = defineFunction({
  name: 'SHELFBLOCKS',
  family: 'loading',
  arguments: [
    keyColumn('shelf length', length(), 'length of the shelf'),
    column('shelf depth', length(), 'depth of the shelf, front to back'),
    column('block length', length(), 'longer side of the block as it sits on the shelf'),
    column('block width', length(), 'shorter side of the block as it sits on the shelf'),
    column('gap', orNone(number({ above: 0 })), 'air between neighbouring blocks; none where they touch'),
  ],
  result: row({
    blocks: amount('the better of the two'),
    set: label('along or across'),
    'blocks along': amount(),
    'blocks across': amount(),
  }),
  eachRow: (shelfLength, shelfDepth, blockLength, blockWidth, gap) => {
    const { along, across } = shelfBlocks({ shelfLength, shelfDepth, blockLength, blockWidth, gap });
    return {
      blocks: Math.max(along, across),
      set: along >= across ? 'along' : 'across',
      'blocks along': along,
      'blocks across': across,
    };
  },
});
