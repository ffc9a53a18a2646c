import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { mixMoisture } from '../../../src/maths/substrate/mixMoisture';
import { waterToAdd } from '../../../src/maths/substrate/waterToAdd';
import { weighingList, type Ingredient } from '../../../src/maths/substrate/weighingList';

/** One to eight ingredients whose shares add up to 1, and a batch wetter than any of them. */
const mixes = fc.record({
  ingredients: fc.array(
    fc.record({
      weight: fc.double({ min: 0.01, max: 1, noNaN: true }),
      moisture: fc.double({ min: 0, max: 0.55, noNaN: true }),
    }),
    { minLength: 1, maxLength: 8 },
  ),
  batch: fc.record({
    blocks: fc.integer({ min: 1, max: 2000 }),
    blockMass: fc.double({ min: 0.2, max: 12, noNaN: true }),
    moisture: fc.double({ min: 0.56, max: 0.75, noNaN: true }),
    spare: fc.double({ min: 0, max: 0.2, noNaN: true }),
    spawnRate: fc.double({ min: 0, max: 0.15, noNaN: true }),
  }),
});
const recipeOf = (ingredients: readonly { weight: number; moisture: number }[]): Ingredient[] => {
  const sum = ingredients.reduce((total, { weight }) => total + weight, 0);
  return ingredients.map(({ weight, moisture }) => ({ share: weight / sum, moisture, pack: undefined }));
};
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('the mass of a mix is kept', () => {
  test('dry matter in is dry matter out', () => {
    fc.assert(
      fc.property(mixes, ({ ingredients, batch }) => {
        const recipe = recipeOf(ingredients);
        const list = weighingList(recipe, batch);
        const dryIn = sum(list.ingredients.map(({ mass }, i) => mass * (1 - recipe[i]!.moisture)));
        expect(dryIn / list.dryMass).toBeCloseTo(1, 12);
        expect((list.dryMassPerBlock * batch.blocks * (1 + batch.spare)) / dryIn).toBeCloseTo(1, 12);
        expect(list.dryMass / (list.substrate * (1 - batch.moisture))).toBeCloseTo(1, 12);
      }),
    );
  });

  test('water in the ingredients and water added are the water of the substrate', () => {
    fc.assert(
      fc.property(mixes, ({ ingredients, batch }) => {
        const recipe = recipeOf(ingredients);
        const list = weighingList(recipe, batch);
        const waterIn = sum(list.ingredients.map(({ mass }, i) => mass * recipe[i]!.moisture));
        expect((waterIn + list.water) / (list.substrate * batch.moisture)).toBeCloseTo(1, 12);
      }),
    );
  });

  test('blocks, spare and spawn make up the whole', () => {
    fc.assert(
      fc.property(mixes, ({ ingredients, batch }) => {
        const list = weighingList(recipeOf(ingredients), batch);
        const wanted = batch.blocks * batch.blockMass * (1 + batch.spare);
        expect((list.substrate + list.spawn) / wanted).toBeCloseTo(1, 12);
        expect(list.spawn / list.substrate).toBeCloseTo(batch.spawnRate, 12);
      }),
    );
  });

  test('the weighing list put into mixMoisture gives the moisture wanted to 1e-12', () => {
    fc.assert(
      fc.property(mixes, ({ ingredients, batch }) => {
        const recipe = recipeOf(ingredients);
        const list = weighingList(recipe, batch);
        const masses = list.ingredients.map(({ mass }) => mass);
        const moistures = recipe.map(({ moisture }) => moisture);
        expect(Math.abs(mixMoisture(masses, moistures, list.water) - batch.moisture)).toBeLessThan(1e-12);
        expect(waterToAdd(masses, moistures, batch.moisture) / list.water).toBeCloseTo(1, 9);
      }),
    );
  });

  test('waterToAdd put into mixMoisture gives the target back', () => {
    fc.assert(
      fc.property(mixes, ({ ingredients, batch }) => {
        const masses = ingredients.map(({ weight }) => 100 * weight);
        const moistures = ingredients.map(({ moisture }) => moisture);
        const water = waterToAdd(masses, moistures, batch.moisture);
        expect(Math.abs(mixMoisture(masses, moistures, water) - batch.moisture)).toBeLessThan(1e-12);
      }),
    );
  });
});
