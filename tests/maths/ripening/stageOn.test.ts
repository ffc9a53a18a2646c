import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { stageOn, type Stage } from '../../../src/maths/ripening/stageOn';
import { serialOf } from '../../../src/maths/shared/serial';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

// Royse & Sánchez-Vázquez (2007), shiitake: 21 days of spawn run, 28 of browning, 38 over three breaks.
const STAGES = [
  { stage: 'cropping', fromDay: 49 },
  { stage: 'spawn run', fromDay: 0 },
  { stage: 'browning', fromDay: 21 },
  { stage: 'spent', fromDay: 87 },
];
const inoculated = serialOf(2024, 1, 15);

describe('stageOn(inoculatedSerial, onSerial, stages) names the stage begun last', () => {
  test.each([
    [[2024, 1, 15], 'spawn run'],
    [[2024, 2, 4], 'spawn run'],
    [[2024, 2, 5], 'browning'],
    [[2024, 3, 3], 'browning'],
    [[2024, 3, 4], 'cropping'],
    [[2024, 4, 10], 'cropping'],
    [[2024, 4, 11], 'spent'],
    [[2030, 1, 1], 'spent'],
  ])('inoculated 2024-01-15, on %p it is %s', ([year, month, day], stage) => {
    expect(stageOn(inoculated, serialOf(year!, month!, day!), STAGES)).toBe(stage);
  });

  test('goes by calendar days: the time of day of either date does not count', () => {
    const time = fc.double({ min: 0, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200 }), time, time, (day, early, late) => {
        expect(stageOn(inoculated + early, inoculated + day + late, STAGES)).toBe(
          stageOn(inoculated, inoculated + day, STAGES),
        );
      }),
    );
  });

  test('does not depend on the order of the stages', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(STAGES, { minLength: 4 }),
        fc.integer({ min: 0, max: 200 }),
        (shuffled, day) => {
          expect(stageOn(inoculated, inoculated + day, shuffled)).toBe(
            stageOn(inoculated, inoculated + day, STAGES),
          );
        },
      ),
    );
  });

  test('two stages from one day are a fault on the days they begin last, in the same words in any order', () => {
    const together = [{ stage: 'rest', fromDay: 21 }, ...STAGES];
    fc.assert(
      fc.property(fc.shuffledSubarray(together, { minLength: 5 }), (stages) => {
        expect(stageOn(inoculated, inoculated + 20, stages)).toBe('spawn run');
        expect(stageOn(inoculated, inoculated + 60, stages)).toBe('cropping');
        const details = { day: 21, stages: ['browning', 'rest'] as const };
        expectFault(
          () => stageOn(inoculated, inoculated + 30, stages),
          ['stages', 'stagesTogether', details],
        );
      }),
    );
  });

  test.each<[number, number, readonly Stage[], Refusal]>([
    [
      inoculated,
      inoculated - 1,
      STAGES,
      ['on', 'notBefore', { other: 'inoculated', date: dateOf(inoculated), given: dateOf(inoculated - 1) }],
    ],
    [NaN, inoculated, STAGES, ['inoculated', 'outside', { above: 0, given: NaN }]],
    [inoculated, NaN, STAGES, ['on', 'outside', { above: 0, given: NaN }]],
    [
      inoculated,
      inoculated + 4,
      STAGES.filter(({ fromDay }) => fromDay > 0),
      ['stages', 'noStageYet', { day: 4, first: 21 }],
    ],
    [
      inoculated,
      inoculated + 30,
      [...STAGES, { stage: 'rest', fromDay: 21 }],
      ['stages', 'stagesTogether', { day: 21, stages: ['browning', 'rest'] }],
    ],
  ])('refuses (%p, %p)', (from, on, stages, refusal) => {
    expectFault(() => stageOn(from, on, stages), refusal);
  });
});
