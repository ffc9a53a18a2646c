import { ancestors } from '../../maths/lineage/spawnFamily';
import { defineFunction } from '../define';
import { familyArguments, familyResult, recordsOf, relativeRow } from './family';

export const ANCESTORS = defineFunction({
  name: 'ANCESTORS',
  family: 'lineage',
  arguments: familyArguments('the lot whose origin is asked for'),
  result: familyResult,
  whole: (lot, lots, parents) => ancestors(lot, recordsOf(lots, parents)).map(relativeRow),
});
