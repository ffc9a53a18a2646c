import { requireAtLeast } from '../shared/checks';
import { compensatedSum } from '../shared/numeric';
import { weighingList, type Batch, type Ingredient } from './weighingList';

/** An ingredient and what it costs. */
export interface PricedIngredient extends Ingredient {
  /** Cost of a unit of mass as received, 0 or more. */
  readonly cost: number;
}

/** What the ingredients of a mix cost. */
export interface MixCost {
  /** To a block that is filled; what is mixed over is in it. */
  readonly perBlock: number;
  /** To a unit of mass of dry matter. */
  readonly perDryMass: number;
}

/**
 * Cost of the ingredients of a mix, to a block and to a unit of dry matter.
 *
 * Σ mass to weigh out × cost, over the blocks and over the dry mass mixed. Water and spawn are not counted, nor what
 * is left in opened bags.
 *
 * @throws invalid where an input is outside its range or `weighingList` refuses the recipe
 * @throws missing where the recipe has no ingredient
 */
export function mixCost(recipe: readonly PricedIngredient[], batch: Batch): MixCost {
  for (const ingredient of recipe) requireAtLeast('recipe, cost', ingredient.cost, 0, ingredient);
  const { ingredients, dryMass } = weighingList(recipe, batch);
  const total = compensatedSum(ingredients.map(({ mass }, i) => mass * recipe[i]!.cost));
  return { perBlock: total / batch.blocks, perDryMass: total / dryMass };
}
