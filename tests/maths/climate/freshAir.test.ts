import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { carbonDioxide, type VentilatedRoom } from '../../../src/maths/climate/carbonDioxide';
import { freshAir } from '../../../src/maths/climate/freshAir';
import { expectFault, type Refusal } from '../expectFault';

describe('freshAir(production, limitPpm, outsidePpm) gives the airflow that holds a limit', () => {
  // ASHRAE 62.1 technical FAQ 35: 7.5 L/s a person at 0.31 L/min of CO2 is about 700 ppm above outside (688.9)
  test('0.31 L/min at 7.5 L/s is 689 ppm above outside', () => {
    expect(freshAir(0.31 * 60, 420 + 688.9, 420)).toBeCloseTo(7.5 * 3600, -1);
  });

  test('holds the limit for ever in the room of carbonDioxide', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 5, noNaN: true }),
        fc.double({ min: 500, max: 20_000, noNaN: true }),
        fc.double({ min: 10, max: 1000, noNaN: true }),
        (production, limit, volume) => {
          const airflow = freshAir(production, limit);
          const room = { production, airflow, volume };
          expect(carbonDioxide(room, 1e9, 420) / limit).toBeCloseTo(1, 9);
          expect(carbonDioxide(room, 30, limit) / limit).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  const levels = { from: 0, to: 1e6, unit: 'ppm' };
  const above = { above: 420, unit: 'ppm', what: 'the level outside' };
  test.each<[number, number, number, Refusal]>([
    [-1, 1000, 420, ['production', 'outside', { from: 0, given: -1 }]],
    [1, 420, 420, ['limit', 'outside', { ...above, given: 420 }]],
    [1, NaN, 420, ['limit', 'outside', { ...levels, given: NaN }]],
    [1, 1000, -1, ['outside', 'outside', { ...levels, given: -1 }]],
  ])('refuses (%p, %p, %p)', (production, limit, outside, refusal) => {
    expectFault(() => freshAir(production, limit, outside), refusal);
  });
});

describe('carbonDioxide(room, minutes, startPpm, outsidePpm) gives the level over time', () => {
  // Decay by hand: after one time constant 1/e of the excess is left, after ln 2 of them a half
  test.each([
    [{ production: 0, airflow: 200, volume: 100 }, 30, 2420, 420 + 2000 / Math.E],
    [{ production: 0, airflow: 200, volume: 100 }, 30 * Math.LN2, 2420, 1420],
    [{ production: 0.1, airflow: 0, volume: 100 }, 60, 420, 1420],
  ])('%p after %p min from %p ppm', (room, minutes, start, expected) => {
    expect(carbonDioxide(room, minutes, start)).toBeCloseTo(expected, 9);
  });

  test('agrees with the balance stepped minute by minute', () => {
    const room = { production: 0.25, airflow: 150, volume: 120 };
    let level = 5000;
    const stepsAMinute = 20_000;
    for (let step = 0; step < 45 * stepsAMinute; step++) {
      level += (room.production * 1e6 - room.airflow * (level - 420)) / room.volume / 60 / stepsAMinute;
    }
    expect(carbonDioxide(room, 45, 5000)).toBeCloseTo(level, 1);
  });

  test('two stretches one after the other are one long stretch', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        (production, airflow, first, second) => {
          const room = { production, airflow, volume: 90 };
          const half = carbonDioxide(room, first, 800);
          expect(carbonDioxide(room, second, half) / carbonDioxide(room, first + second, 800)).toBeCloseTo(
            1,
            9,
          );
        },
      ),
    );
  });

  test('a nearly closed room is as good as closed', () => {
    const closed = carbonDioxide({ production: 0.1, airflow: 0, volume: 100 }, 60, 420);
    expect(carbonDioxide({ production: 0.1, airflow: 1e-9, volume: 100 }, 60, 420)).toBeCloseTo(closed, 6);
  });

  const levels = { from: 0, to: 1e6, unit: 'ppm' };
  test.each<[VentilatedRoom, number, number, Refusal]>([
    [{ production: -1, airflow: 1, volume: 1 }, 1, 420, ['production', 'outside', { from: 0, given: -1 }]],
    [{ production: 1, airflow: -1, volume: 1 }, 1, 420, ['airflow', 'outside', { from: 0, given: -1 }]],
    [{ production: 1, airflow: 1, volume: 0 }, 1, 420, ['volume', 'outside', { above: 0, given: 0 }]],
    [{ production: 1, airflow: 1, volume: 1 }, NaN, 420, ['minutes', 'outside', { from: 0, given: NaN }]],
    [{ production: 1, airflow: 1, volume: 1 }, 1, -5, ['start', 'outside', { ...levels, given: -5 }]],
    [{ production: 9, airflow: 0, volume: 1 }, 60, 420, ['production', 'pureCarbonDioxide']],
  ])('refuses %p', (room, minutes, start, refusal) => {
    expectFault(() => carbonDioxide(room, minutes, start), refusal);
  });
});
