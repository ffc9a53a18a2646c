import { mixMoisture } from '../../maths/substrate/mixMoisture';
import { optionalSetting } from '../cells/arguments';
import { mass, orZero } from '../cells/kinds';
import { percent, value } from '../cells/results';
import { defineFunction } from '../define';
import { masses, moistures } from './arguments';

export const MIXMOISTURE = defineFunction({
  name: 'MIXMOISTURE',
  family: 'substrate',
  arguments: [
    masses,
    moistures,
    optionalSetting('water', orZero(mass()), 0, 'mass of water added; 0 if left out'),
  ],
  result: value('moisture', percent()),
  whole: mixMoisture,
});
