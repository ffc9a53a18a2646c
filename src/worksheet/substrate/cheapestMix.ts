import type { MixLevel } from '../../maths/substrate/cheapestMix';
import { table } from '../cells/arguments';
import { formatted, type Formatted } from '../cells/cell';
import { key, only, optional, optionalOr, others } from '../cells/columns';
import { anything, fraction, number, orNone, orZero, text } from '../cells/kinds';
import { label, mixed, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { recipeColumns } from './tables';

/** 0 would put an ingredient out of the mix and a blank leave it without a limit, and a host may not tell them apart. */
const highestShare = {
  ...orNone(fraction()),
  needed: 'a percentage up to 100% (100% is no limit), or the word none',
};

export const CHEAPESTMIX = defineFunction({
  name: 'CHEAPESTMIX',
  family: 'substrate',
  arguments: [
    table(
      'ingredients',
      {
        ...only(recipeColumns, 'ingredient', 'cost', 'moisture'),
        lowest: optionalOr(orZero(fraction()), 0, 'least share of the dry mass', 'least', 'minimum', 'min'),
        highest: optionalOr(highestShare, 1, 'greatest share of the dry mass', 'most', 'maximum', 'max'),
        contents: others(
          { ...anything(), zeroWord: 'none' },
          'what each holds of a need, per unit of dry matter',
        ),
      },
      'table with ingredient, cost, moisture, lowest and highest share, and what each holds',
    ),
    table(
      'needs',
      {
        need: key(text(), 'column of the ingredients, or C:N, or moisture', 'nutrient', 'requirement'),
        lowest: optional(
          orNone(number({ above: 0 })),
          'least that the mix must hold',
          'least',
          'minimum',
          'min',
        ),
        highest: optional(
          orNone(number({ above: 0 })),
          'most that the mix may hold',
          'most',
          'maximum',
          'max',
        ),
      },
      'table with need (nitrogen, C:N, moisture, ash …), lowest and highest',
    ),
  ],
  result: tableResult({
    what: label(),
    'share or level': mixed(),
    'limit reached': label(),
    'enters below': mixed('price below which an unused ingredient becomes worth buying, or never'),
    'worth of the limit': mixed('rise in the cost of dry matter when the limit rises, or no mix'),
    'for a rise of': mixed('1 point, which is a hundredth of the dry mass or of the mix, or 1'),
  }),
  needs: ['solver', 'mixing'],
  takesLong: true,
  whole: (ingredients, needs, { tools: { solver, mixing } }) => {
    const candidates = ingredients.onceEach('ingredient').map((row) => ({ ...row, name: row.ingredient }));
    const mix = mixing.cheapestMix(
      candidates,
      needs
        .onceEach('need')
        .map((row) => ({ ...row, name: row.need, ...mixing.contentOf(row, ingredients) })),
      solver,
    );
    const line = (
      what: string,
      level: number | Formatted,
      { limit, worth }: Pick<MixLevel, 'limit' | 'worth'> = { limit: undefined, worth: undefined },
      ofShare = false,
      entersAt?: number | null,
    ) => ({
      what,
      'share or level': level,
      'limit reached': limit ?? '',
      'enters below': entersAt === undefined ? '' : (entersAt ?? 'never'),
      'worth of the limit':
        worth === undefined ? '' : worth === null ? 'no mix' : worth / (ofShare ? 100 : 1),
      'for a rise of': limit === undefined ? '' : ofShare ? '1 point' : 1,
    });
    return [
      ...mix.ingredients.map((standing, i) =>
        line(candidates[i]!.name, formatted(standing.level, 'percent'), standing, true, standing.entersAt),
      ),
      ...mix.needs.map((standing, n) => {
        const { need } = needs.rows[n]!;
        return line(need, standing.level, standing, mixing.isShare(need));
      }),
      line('cost of dry matter', mix.costOfDry),
      line('cost as received', mix.costAsReceived),
    ];
  },
});
