import { descendants } from '../../maths/lineage/spawnFamily';
import { defineFunction } from '../define';
import { familyArguments, familyResult, recordsOf, relativeRow } from './family';

export const DESCENDANTS = defineFunction({
  name: 'DESCENDANTS',
  family: 'lineage',
  arguments: familyArguments('the lot whose offspring is asked for'),
  result: familyResult,
  whole: (lot, lots, parents) => descendants(lot, recordsOf(lots, parents)).map(relativeRow),
});
