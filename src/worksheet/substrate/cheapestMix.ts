import { cheapestMix } from '../../maths/substrate/cheapestMix';
import { table } from '../cells/arguments';
import { formatted } from '../cells/cell';
import { key, optional, optionalOr, others, required } from '../cells/columns';
import { anything, fraction, fractionBelowOne, number, text } from '../cells/kinds';
import { amount, label, mixed, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { recipeColumns } from '../tables';
import { contentOf } from './contents';

export const CHEAPESTMIX = defineFunction({
  name: 'CHEAPESTMIX',
  family: 'substrate',
  arguments: [
    table(
      'ingredients',
      {
        ingredient: recipeColumns.ingredient,
        cost: required(
          number({ from: 0 }),
          'price of a unit of mass as received',
          ...recipeColumns.cost.alsoCalled,
        ),
        moisture: required(
          fractionBelowOne(),
          'water share as received',
          ...recipeColumns.moisture.alsoCalled,
        ),
        lowest: optionalOr(fraction(), 0, 'least share of the dry mass', 'least', 'minimum', 'min'),
        highest: optionalOr(fraction(), 1, 'greatest share of the dry mass', 'most', 'maximum', 'max'),
        contents: others(anything(), 'what each holds of a need, per unit of dry matter'),
      },
      'table with ingredient, cost, moisture, lowest and highest share, and what each holds',
    ),
    table(
      'needs',
      {
        need: key(text(), 'column of the ingredients, or C:N, or moisture', 'nutrient'),
        lowest: optional(number({ from: 0 }), 'least that the mix must hold', 'least', 'minimum', 'min'),
        highest: optional(number({ from: 0 }), 'most that the mix may hold', 'most', 'maximum', 'max'),
      },
      'table with need (nitrogen, C:N, moisture, ash …), lowest and highest',
    ),
  ],
  result: tableResult({
    what: label(),
    'share or level': mixed(),
    'limit reached': label(),
    'enters below': amount('price below which an unused ingredient becomes worth buying'),
    'worth of the limit': amount('rise in the cost of dry matter when the limit rises by one'),
  }),
  needs: ['solver'],
  takesLong: true,
  whole: (ingredients, needs, { tools }) => {
    const candidates = ingredients.rows.map((row) => ({ ...row, name: row.ingredient }));
    const mix = cheapestMix(
      candidates,
      needs.rows.map((row) => ({ ...row, name: row.need, ...contentOf(row, ingredients) })),
      tools.solver,
    );
    const blank = { 'limit reached': '', 'enters below': '' as const, 'worth of the limit': '' as const };
    return [
      ...mix.ingredients.map(({ level, limit, entersAt }, i) => ({
        ...blank,
        what: candidates[i]!.name,
        'share or level': formatted(level, 'percent'),
        'limit reached': limit ?? '',
        'enters below': entersAt ?? ('' as const),
      })),
      ...mix.needs.map(({ level, limit, worth }, n) => ({
        ...blank,
        what: needs.rows[n]!.need,
        'share or level': level,
        'limit reached': limit ?? '',
        'worth of the limit': limit === undefined ? ('' as const) : worth,
      })),
      { ...blank, what: 'cost of dry matter', 'share or level': mix.costOfDry },
      { ...blank, what: 'cost as received', 'share or level': mix.costAsReceived },
    ];
  },
});
