import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { spawnChain, type SpawnStep } from '../../../src/maths/lineage/spawnChain';
import { dateOf, shareOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

const step = (name: string, more: Partial<SpawnStep> = {}): SpawnStep => ({
  step: name,
  makes: undefined,
  days: 0,
  loss: 0,
  mass: undefined,
  batch: 1,
  maxGeneration: undefined,
  ...more,
});

/** About tenfold from sawdust to sawdust is common practice, no source. */
const CHAIN = [
  step('mother culture', { makes: 8, days: 10, loss: 0.1 }),
  step('grain jar', { makes: 10, days: 14, loss: 0.05, mass: 1.2, batch: 6 }),
  step('sawdust bag', { makes: 10, days: 21, loss: 0.02, mass: 2.5 }),
  step('block', { days: 77, loss: 0.04, mass: 2.5, batch: 12 }),
];

describe('spawnChain(units, needed, steps, allowance) plans each step backwards', () => {
  // By hand. 500 × 1.05 = 525 good blocks: 525/0.96 = 546.9 → 547, in dozens 552, of which 529.92 → 529 good. 552/10 →
  // 56 bags wanted: 56/0.98 = 57.1 → 58. 58/10 → 6 jars wanted: 6/0.95 = 6.3 → 7, in sixes 12. 12/8 → 2 cultures
  // wanted: 2/0.9 → 3.
  test('500 blocks with 5% over, by hand', () => {
    const needed = 46200;
    expect(spawnChain(500, needed, CHAIN, 0.05)).toEqual([
      {
        step: 'mother culture',
        generation: 0,
        start: 3,
        good: 2,
        startSerial: needed - 122,
        readySerial: needed - 112,
        mass: undefined,
        isPastMaxGeneration: false,
      },
      {
        step: 'grain jar',
        generation: 1,
        start: 12,
        good: 11,
        startSerial: needed - 112,
        readySerial: needed - 98,
        mass: 12 * 1.2,
        isPastMaxGeneration: false,
      },
      {
        step: 'sawdust bag',
        generation: 2,
        start: 58,
        good: 56,
        startSerial: needed - 98,
        readySerial: needed - 77,
        mass: 145,
        isPastMaxGeneration: false,
      },
      {
        step: 'block',
        generation: 3,
        start: 552,
        good: 529,
        startSerial: needed - 77,
        readySerial: needed,
        mass: 1380,
        isPastMaxGeneration: false,
      },
    ]);
  });

  // Stamets, Growing Gourmet and Medicinal Mushrooms, 3rd ed., p. 123–127 (as quoted): a first generation of grain
  // inoculates about ten times its mass; most stop at the third.
  test('ten to one over three generations multiplies a thousandfold, and a fourth is past the limit', () => {
    const grain = ['G0', 'G1', 'G2', 'G3', 'G4'].map((name) => step(name, { makes: 10, maxGeneration: 3 }));
    const plan = spawnChain(10_000, 46200, grain, 0);
    expect(plan.map(({ start }) => start)).toEqual([1, 10, 100, 1000, 10_000]);
    expect(plan.map(({ isPastMaxGeneration }) => isPastMaxGeneration)).toEqual([
      false,
      false,
      false,
      false,
      true,
    ]);
  });

  test('starts on whole days', () => {
    const [first] = spawnChain(1, 46200.5, [step('block', { days: 10.25 })], 0);
    expect(first!.startSerial).toBe(46190);
  });

  test('does not ask for a unit too many because of floating point', () => {
    // 0.1 + 0.2 and 1 − 0.9 are not exact in binary: 100 × 1.1 is 110, 90 / (1 − 0.1) is 100.
    expect(spawnChain(100, 46200, [step('block')], 0.1)[0]!.start).toBe(110);
    expect(spawnChain(90, 46200, [step('block', { loss: 0.1 })], 0)[0]!.start).toBe(100);
    expect(spawnChain(3, 46200, [step('block', { loss: 0.9 })], 0)[0]!.start).toBe(30);
  });

  const chains = fc.array(
    fc.record({
      makesQuarters: fc.integer({ min: 1, max: 80 }),
      days: fc.integer({ min: 0, max: 90 }),
      lossPercent: fc.integer({ min: 0, max: 60 }),
      batch: fc.integer({ min: 1, max: 24 }),
    }),
    { minLength: 1, maxLength: 4 },
  );
  type Chain = typeof chains extends fc.Arbitrary<infer T> ? T : never;
  const stepsOf = (chain: Chain): SpawnStep[] =>
    chain.map(({ makesQuarters, days, lossPercent, batch }, i) =>
      step(`step ${i}`, { makes: makesQuarters / 4, days, loss: lossPercent / 100, batch }),
    );
  /** Good units of so many started, in whole numbers throughout. */
  const goodOf = (start: number, lossPercent: number): number =>
    Math.floor((start * (100 - lossPercent)) / 100);

  test('done forwards with the stated losses it yields what is asked; a batch less anywhere does not', () => {
    fc.assert(
      fc.property(chains, fc.integer({ min: 1, max: 200 }), (chain, units) => {
        const plan = spawnChain(units, 60_000, stepsOf(chain), 0);
        plan.forEach(({ start, good }, i) => {
          const { lossPercent, batch, makesQuarters } = chain[i]!;
          // Enough where good units × makes reach what the next step starts; at the last, the units asked for.
          const enough = (of: number): boolean =>
            i === plan.length - 1
              ? goodOf(of, lossPercent) >= units
              : goodOf(of, lossPercent) * makesQuarters >= 4 * plan[i + 1]!.start;
          expect(start % batch).toBe(0);
          expect(good).toBe(goodOf(start, lossPercent));
          expect(enough(start)).toBe(true);
          expect(enough(start - batch)).toBe(false);
        });
      }),
    );
  });

  test('dates follow backwards: each step is ready the day the next one starts', () => {
    fc.assert(
      fc.property(chains, (chain) => {
        const plan = spawnChain(10, 60_000, stepsOf(chain), 0);
        expect(plan.at(-1)!.readySerial).toBe(60_000);
        plan.forEach(({ startSerial, readySerial }, i) => {
          expect(readySerial - startSerial).toBe(chain[i]!.days);
        });
        plan.slice(1).forEach(({ startSerial }, i) => expect(plan[i]!.readySerial).toBe(startSerial));
      }),
    );
  });

  test('more units, more allowance or more loss never starts less', () => {
    fc.assert(
      fc.property(
        chains,
        fc.integer({ min: 1, max: 100 }),
        fc.integer({ min: 0, max: 50 }),
        (chain, units, percent) => {
          const starts = (some: number, allowance: number, extraLoss: number): number[] =>
            spawnChain(
              some,
              60_000,
              stepsOf(chain.map((one) => ({ ...one, lossPercent: one.lossPercent + extraLoss }))),
              allowance,
            ).map(({ start }) => start);
          const least = starts(units, 0, 0);
          for (const more of [
            starts(units + 1, 0, 0),
            starts(units, percent / 100, 0),
            starts(units, 0, 5),
          ]) {
            more.forEach((start, i) => expect(start).toBeGreaterThanOrEqual(least[i]!));
          }
        },
      ),
    );
  });

  test.each<[number, number, SpawnStep[], number, Refusal]>([
    [0, 46200, CHAIN, 0, ['units', 'outside', { from: 1, whole: true, given: 0 }]],
    [1.5, 46200, CHAIN, 0, ['units', 'outside', { whole: true, given: 1.5 }]],
    [10, NaN, CHAIN, 0, ['needed', 'outside', { above: 0, given: NaN }]],
    [10, 46200, CHAIN, -0.1, ['allowance', 'outside', { from: shareOf(0), given: shareOf(-0.1) }]],
    [10, 46200, CHAIN, 5, ['allowance', 'outside', { to: shareOf(1), given: shareOf(5) }]],
    [10, 46200, [], 0, ['steps', 'tooFew', { least: 1, found: 0 }]],
    [
      10,
      46200,
      [step('grain', { at: 2 }), step('block')],
      0,
      ['steps, makes', 'makesUnknown', { step: 'grain' }, { at: 2 }],
    ],
    [10, 46200, [step('block', { loss: 1 })], 0, ['steps, loss', 'outside', { below: 1, given: 1 }]],
    [10, 46200, [step('block', { days: NaN })], 0, ['steps, days', 'outside', { from: 0, given: NaN }]],
    [10, 46200, [step('block', { batch: 0 })], 0, ['steps, batch', 'outside', { from: 1, given: 0 }]],
    [10, 46200, [step('block', { mass: 0 })], 0, ['steps, mass', 'outside', { above: 0, given: 0 }]],
    [2_000_000, 46200, [step('block')], 0, ['units', 'tooManyUnits', { most: 1_000_000, given: 2_000_000 }]],
    [10, 50, CHAIN, 0, ['needed', 'beforeCalendar', { given: dateOf(50) }]],
  ])('refuses (%p, %p, …)', (units, needed, steps, allowance, refusal) => {
    expectFault(() => spawnChain(units, needed, steps, allowance), refusal);
  });
});
