import { modifiedZScores } from '../../maths/audit/modifiedZScores';
import { keyColumn, optionalSetting } from '../cells/arguments';
import { number, orNone } from '../cells/kinds';
import { amount, label, row } from '../cells/results';
import { defineFunction } from '../define';

export const OUTLIERS = defineFunction({
  name: 'OUTLIERS',
  family: 'audit',
  arguments: [
    keyColumn('values', orNone(number()), 'masses, efficiencies or other readings of one kind'),
    optionalSetting(
      'limit',
      number({ above: 0 }),
      3.5,
      'score from which a value is an outlier; 3.5 if left out',
    ),
  ],
  result: row({ 'modified z-score': amount(), finding: label() }),
  beside: (values, limit) =>
    modifiedZScores(values).map((score) => ({
      'modified z-score': score,
      finding: Math.abs(score) > limit ? 'outlier' : '',
    })),
});
