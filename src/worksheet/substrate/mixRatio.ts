import { carbonToNitrogen } from '../../maths/substrate/carbonToNitrogen';
import { column } from '../cells/arguments';
import { fraction, orNone } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { masses, moistures } from './arguments';

export const MIXRATIO = defineFunction({
  name: 'MIXRATIO',
  family: 'substrate',
  arguments: [
    masses,
    moistures,
    column('carbon', orNone(fraction()), 'share of carbon in the dry matter of each'),
    column('nitrogen', orNone(fraction()), 'share of nitrogen in the dry matter of each'),
  ],
  result: value('C:N', amount()),
  whole: carbonToNitrogen,
});
