import { descendants } from '../../maths/lineage/spawnFamily';
import { defineFunction } from '../define';
import { familyArguments, familyResult, recordsOf, told } from './family';

export const DESCENDANTS = defineFunction({
  name: 'DESCENDANTS',
  family: 'lineage',
  arguments: familyArguments('the lot whose offspring is asked for'),
  result: familyResult,
  whole: (lot, lots, parents, { rowNumbers }) => {
    const read = recordsOf(lot, lots, parents, rowNumbers);
    return told(lot, read, descendants(lot, read.records));
  },
});
