import { carbonToNitrogen } from '../../maths/substrate/carbonToNitrogen';
import { column, keyColumn } from '../cells/arguments';
import { fraction, mass } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { moistures } from './arguments';

export const MIXRATIO = defineFunction({
  name: 'MIXRATIO',
  family: 'substrate',
  arguments: [
    keyColumn('masses', mass(), 'mass of each ingredient as received'),
    moistures,
    column('carbon', fraction(), 'share of carbon in the dry matter of each'),
    column('nitrogen', fraction(), 'share of nitrogen in the dry matter of each'),
  ],
  result: value('C:N', amount()),
  whole: carbonToNitrogen,
});
