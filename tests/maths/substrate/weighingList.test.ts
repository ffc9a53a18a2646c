import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shareOf } from '../../../src/maths/shared/fault';
import { weighingList, type Batch, type Ingredient } from '../../../src/maths/substrate/weighingList';
import { waterToAdd } from '../../../src/maths/substrate/waterToAdd';
import { expectFault, type Refusal } from '../expectFault';

const batch = { blocks: 40, blockMass: 2.5, moisture: 0.6, spare: 0, spawnRate: 0 };
const ingredient = (share: number, moisture: number, pack?: number) => ({ share, moisture, pack });

describe('weighingList(recipe, batch) gives what to weigh out', () => {
  test('follows a published recipe by dry mass: sawdust 78, wheat bran 20, gypsum 1, sugar 1 of 100 g dry', () => {
    // PMC8020957, table 1, formula 1 (shares of dry mass). At 40% dry matter 250 g of substrate hold the paper's 100 g.
    const recipe = [
      ingredient(0.78, 0.12),
      ingredient(0.2, 0.0989),
      ingredient(0.01, 0),
      ingredient(0.01, 0),
    ];
    const list = weighingList(recipe, { ...batch, blocks: 1, blockMass: 250 });
    expect(list.ingredients.map(({ dryMass }) => dryMass).map((dry) => Number(dry.toPrecision(12)))).toEqual([
      78, 20, 1, 1,
    ]);
    // 78 / 0.88 and 20 / 0.9011 as received.
    expect(list.ingredients[0]!.mass).toBeCloseTo(88.6363636364, 9);
    expect(list.ingredients[1]!.mass).toBeCloseTo(22.1951, 4);
    expect(list.water).toBeCloseTo(250 - 78 / 0.88 - 20 / 0.9011 - 2, 9);
  });

  test('mixes over by the spare and leaves room for the spawn', () => {
    const list = weighingList([ingredient(1, 0)], { ...batch, spare: 0.1, spawnRate: 0.1 });
    expect(list.substrate).toBeCloseTo(100, 12);
    expect(list.spawn).toBeCloseTo(10, 12);
    expect(list.substrate + list.spawn).toBeCloseTo(40 * 2.5 * 1.1, 12);
    expect(list.dryMassPerBlock).toBeCloseTo(40 / 44, 12);
  });

  test('counts whole packs, and a mass that fills them exactly takes no pack more', () => {
    const packs = (pack: number) => weighingList([ingredient(1, 0, pack)], batch).ingredients[0]!.packs;
    expect([packs(20), packs(39), packs(40), packs(0.1)]).toEqual([2, 2, 1, 400]);
  });

  const recipes = fc
    .array(
      fc.record({
        weight: fc.double({ min: 0.01, max: 1, noNaN: true }),
        moisture: fc.double({ min: 0, max: 0.45, noNaN: true }),
      }),
      { minLength: 1, maxLength: 10 },
    )
    .map((parts) => {
      const sum = parts.reduce((total, { weight }) => total + weight, 0);
      return parts.map(({ weight, moisture }) => ingredient(weight / sum, moisture));
    });

  test('keeps the balance: dry matter in is dry matter out, and masses sum to the substrate', () => {
    fc.assert(
      fc.property(
        recipes,
        fc.integer({ min: 1, max: 2000 }),
        fc.double({ min: 0.5, max: 0.75, noNaN: true }),
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        (recipe, blocks, moisture, spawnRate) => {
          const list = weighingList(recipe, { ...batch, blocks, moisture, spawnRate });
          const dry = list.ingredients.reduce(
            (sum, { mass }, i) => sum + mass * (1 - recipe[i]!.moisture),
            0,
          );
          const wet = list.ingredients.reduce((sum, { mass }) => sum + mass, 0) + list.water;
          expect(dry / list.dryMass).toBeCloseTo(1, 12);
          expect(wet / list.substrate).toBeCloseTo(1, 12);
          expect(1 - dry / wet).toBeCloseTo(moisture, 12);
        },
      ),
    );
  });

  test('agrees with the water worked out from what is in the mixer', () => {
    fc.assert(
      fc.property(recipes, fc.double({ min: 0.5, max: 0.75, noNaN: true }), (recipe, moisture) => {
        const list = weighingList(recipe, { ...batch, moisture });
        const masses = list.ingredients.map(({ mass }) => mass);
        const water = waterToAdd(
          masses,
          recipe.map((part) => part.moisture),
          moisture,
        );
        expect((water - list.water) / list.substrate).toBeCloseTo(0, 12);
      }),
    );
  });

  test.each<[Ingredient[], Batch, Refusal]>([
    [[], batch, ['recipe', 'noIngredient']],
    [[ingredient(0.8, 0.1)], batch, ['recipe, share', 'sharesNotWhole', { sum: shareOf(0.8) }]],
    [[ingredient(1.2, 0.1)], batch, ['recipe, share', 'outside', { above: 0, to: 1, given: 1.2 }]],
    [[ingredient(1, 1)], batch, ['recipe, moisture', 'outside', { from: 0, below: 1, given: 1 }]],
    [[ingredient(1, 0.1, -5)], batch, ['recipe, pack', 'outside', { above: 0, given: -5 }]],
    [
      [ingredient(1, 0.1)],
      { ...batch, blocks: 2.5 },
      ['blocks', 'outside', { from: 1, whole: true, given: 2.5 }],
    ],
    [
      [ingredient(1, 0.1)],
      { ...batch, moisture: 1 },
      ['moisture', 'outside', { from: 0, below: 1, given: 1 }],
    ],
    [
      [ingredient(1, 0.5)],
      { ...batch, moisture: 0.45 },
      ['moisture', 'tooWet', { moisture: shareOf(0.5), target: shareOf(0.45), excess: 10, wet: 110 }],
    ],
  ])('refuses %p for %p', (recipe, given, refusal) => {
    expectFault(() => weighingList(recipe, given), refusal);
  });
});
