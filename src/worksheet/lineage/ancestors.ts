import { ancestors } from '../../maths/lineage/spawnFamily';
import { defineFunction } from '../define';
import { familyArguments, familyResult, recordsOf, told } from './family';

export const ANCESTORS = defineFunction({
  name: 'ANCESTORS',
  family: 'lineage',
  arguments: familyArguments('the lot whose origin is asked for'),
  result: familyResult,
  whole: (lot, lots, parents, { rowNumbers }) => {
    const read = recordsOf(lot, lots, parents, rowNumbers);
    return told(lot, read, ancestors(lot, read.records));
  },
});
