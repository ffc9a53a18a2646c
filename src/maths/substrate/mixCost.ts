import { requireAtLeast } from '../shared/checks';
import { invalid } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { weighingList, type Batch, type Ingredient } from './weighingList';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A figure that is of no use without another. */
    onlyWith: { readonly other: string };
  }
}

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
 * Cost of a mix, to a block with its spawn and to a unit of dry matter without.
 *
 * Σ mass to weigh out × cost, over the dry mass mixed; that and spawn mass × price over the blocks. Water is not
 * counted, nor what is left in opened bags.
 *
 * @param spawnPrice cost of a unit of mass of spawn, 0 or more; undefined where the batch has no spawn
 * @throws invalid where an input is outside its range or `weighingList` refuses the recipe, or of spawn rate and
 * price only one is there
 * @throws missing where the recipe has no ingredient
 */
export function mixCost(recipe: readonly PricedIngredient[], batch: Batch, spawnPrice?: number): MixCost {
  for (const ingredient of recipe) requireAtLeast('recipe, cost', ingredient.cost, 0, ingredient);
  if (batch.spawnRate > 0 && spawnPrice === undefined) {
    throw invalid('spawn price', 'onlyWith', { other: 'spawn rate' });
  }
  if (spawnPrice !== undefined) {
    requireAtLeast('spawn price', spawnPrice, 0);
    if (batch.spawnRate === 0) throw invalid('spawn rate', 'onlyWith', { other: 'spawn price' });
  }
  const { ingredients, dryMass, spawn } = weighingList(recipe, batch);
  const total = compensatedSum(ingredients.map(({ mass }, i) => mass * recipe[i]!.cost));
  return { perBlock: (total + spawn * (spawnPrice ?? 0)) / batch.blocks, perDryMass: total / dryMass };
}
