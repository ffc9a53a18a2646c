import { waterToAdd } from '../../maths/substrate/waterToAdd';
import { setting } from '../cells/arguments';
import { moisture } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { masses, moistures } from './arguments';

export const MIXWATER = defineFunction({
  name: 'MIXWATER',
  family: 'substrate',
  arguments: [masses, moistures, setting('target', moisture(), 'water share wanted: 62%')],
  result: value('water to add', amount()),
  whole: waterToAdd,
});
