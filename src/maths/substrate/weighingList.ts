import {
  requireAtLeast,
  requireFractionBelowOne,
  requireNumber,
  requirePositive,
  requireWhole,
} from '../shared/checks';
import { invalid, missing, shareOf, type Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { wholeUnitsFor } from '../shared/rounding';
import { tooWet } from './waterToAdd';

declare module '../shared/fault' {
  interface FaultDetails {
    noIngredient: object;
    /** Shares of a recipe that do not add up to the whole. */
    sharesNotWhole: { readonly sum: Quantity };
  }
}

/** An ingredient of a recipe. */
export interface Ingredient extends Placed {
  /** Share of the dry mass, above 0 to 1. */
  readonly share: number;
  /** Water share as received, 0 up to less than 1. */
  readonly moisture: number;
  /** Mass of a bag as bought; undefined where it is not bought by the bag. */
  readonly pack: number | undefined;
}

/** What the mix is for. */
export interface Batch {
  /** Blocks to fill, a whole number from 1. */
  readonly blocks: number;
  /** Wet mass of a finished block, spawn included, above 0. */
  readonly blockMass: number;
  /** Water share of the substrate wanted, 0 up to less than 1. */
  readonly moisture: number;
  /** Share mixed over, for what sticks to the mixer: 0.05 mixes for 5% more blocks. */
  readonly spare: number;
  /** Spawn by wet mass of substrate: 0.03 is 3 kg to 100 kg. */
  readonly spawnRate: number;
}

/** What to weigh out for each ingredient, in the order of the recipe. */
export interface Weighing {
  readonly dryMass: number;
  readonly mass: number;
  /** Whole bags to fetch; undefined where it is not bought by the bag. */
  readonly packs: number | undefined;
}

/** The weighing list of a mix. Masses in the unit of the block mass. */
export interface WeighingList {
  readonly ingredients: readonly Weighing[];
  readonly water: number;
  /** Wet substrate: ingredients and water. */
  readonly substrate: number;
  readonly dryMass: number;
  readonly spawn: number;
  /** Dry matter of substrate in one block. */
  readonly dryMassPerBlock: number;
}

/** How far the shares of a recipe may be from 1 in sum. */
export const SHARE_TOLERANCE = 0.001;

/**
 * What to weigh out for a number of blocks from a recipe by dry shares.
 *
 * Wet mass wanted = blocks × block mass × (1 + spare), of which substrate is 1 / (1 + spawn rate): a block of 5 kg
 * at a spawn rate of 3% is 4.854 kg of substrate and 0.146 kg of spawn. Dry mass = substrate × (1 − moisture); each
 * ingredient is its share of that, and weighs dry / (1 − its moisture) as received; water makes up the rest. Shares
 * that miss 1 by rounding are scaled to it. Gypsum counts as dry: its crystal water is not free water. The spawn's
 * own water is not counted against the moisture wanted.
 *
 * @throws invalid where an input is outside its range, shares do not sum to 1 within 0.001, or the ingredients are
 * wetter than the moisture wanted
 * @throws missing where the recipe has no ingredient
 * @source Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54: moisture of a mixture
 */
export function weighingList(recipe: readonly Ingredient[], batch: Batch): WeighingList {
  const { blocks, blockMass, moisture, spare, spawnRate } = batch;
  requireWhole('blocks', blocks, 1);
  requirePositive('block mass', blockMass);
  requireFractionBelowOne('moisture', moisture);
  requireAtLeast('spare', spare, 0);
  requireFractionBelowOne('spawn rate', spawnRate);
  const shares = sharesOf(recipe);
  const substrate = (blocks * blockMass * (1 + spare)) / (1 + spawnRate);
  const dryMass = substrate * (1 - moisture);
  const ingredients = recipe.map((ingredient, i): Weighing => {
    const dry = dryMass * shares[i]!;
    const mass = dry / (1 - ingredient.moisture);
    return {
      dryMass: dry,
      mass,
      packs: ingredient.pack === undefined ? undefined : wholeUnitsFor(mass / ingredient.pack),
    };
  });
  const wet = compensatedSum(ingredients.map(({ mass }) => mass));
  const water = substrate - wet;
  if (water < -1e-12 * substrate) throw tooWet('moisture', wet, dryMass, moisture);
  return {
    ingredients,
    water: Math.max(0, water),
    substrate,
    dryMass,
    spawn: substrate * spawnRate,
    dryMassPerBlock: dryMass / (blocks * (1 + spare)),
  };
}

/** The shares of a recipe, checked and scaled to sum to 1. */
function sharesOf(recipe: readonly Ingredient[]): number[] {
  if (recipe.length === 0) throw missing('recipe', 'noIngredient');
  for (const ingredient of recipe) {
    const { share, moisture, pack } = ingredient;
    requireNumber('recipe, share', share, { above: 0, to: 1 }, undefined, ingredient);
    requireFractionBelowOne('recipe, moisture', moisture, ingredient);
    if (pack !== undefined) requirePositive('recipe, pack', pack, ingredient);
  }
  const sum = compensatedSum(recipe.map(({ share }) => share));
  if (!(Math.abs(sum - 1) <= SHARE_TOLERANCE + 1e-12)) {
    throw invalid('recipe, share', 'sharesNotWhole', { sum: shareOf(sum) });
  }
  return recipe.map(({ share }) => share / sum);
}
