import { shelfDayYield } from '../../maths/harvest/shelfDayYield';
import { column, keyColumn } from '../cells/arguments';
import { count, days, mass, orNone } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';

export const SHELFDAYYIELD = defineFunction({
  name: 'SHELFDAYYIELD',
  family: 'harvest',
  arguments: [
    keyColumn(
      'fresh',
      orNone(mass()),
      'mass of fresh mushrooms picked from the lot; none for a crop that failed',
    ),
    column('blocks', count(), 'blocks in the lot'),
    column('blocks per shelf', count(), 'blocks that one shelf holds'),
    column('days', days(), 'days the shelf was taken, from loading until cleared'),
  ],
  result: value('fresh mass per shelf and day', amount()),
  eachRow: shelfDayYield,
});
