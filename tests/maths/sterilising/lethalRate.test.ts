import { describe, expect, test } from '@jest/globals';
import { celsiusOf, degreesOf } from '../../../src/maths/shared/fault';
import {
  lethalRate,
  requireResistance,
  SPORES,
  type Resistance,
} from '../../../src/maths/sterilising/lethalRate';
import {
  REICHERT_MISPRINTS,
  REICHERT_RATES,
  REICHERT_REFERENCE_C,
  REICHERT_Z_C,
} from '../../reference/reichertLethalRates';
import { expectFault, type Refusal } from '../expectFault';

const REICHERT = { zC: REICHERT_Z_C, referenceC: REICHERT_REFERENCE_C };
/** The table cuts most figures at the third decimal and from 126 °C on is up to two off in it. */
const TOLERANCE = 0.002;

describe('lethalRate(temperatureC, resistance) gives minutes at the reference that a minute is worth', () => {
  test.each(REICHERT_RATES.filter(({ celsius }) => !REICHERT_MISPRINTS.has(celsius)))(
    'is $printed at $celsius °C, as Reichert printed',
    ({ celsius, printed }) => {
      expect(Math.abs(lethalRate(celsius, REICHERT) - printed)).toBeLessThan(TOLERANCE);
    },
  );

  test.each([...REICHERT_MISPRINTS])('at %p °C follows the law, not the misprint', (celsius, exact) => {
    expect(lethalRate(celsius, REICHERT)).toBeCloseTo(exact, 4);
    const printed = REICHERT_RATES.find((row) => row.celsius === celsius)!.printed;
    expect(Math.abs(printed - exact)).toBeGreaterThan(2 * TOLERANCE);
  });

  // Stobo (1973) as quoted by dairyscience.info: 110 °C against 121.11 °C is 0.077
  test('is 0.077 at 110 °C', () => {
    expect(lethalRate(110, REICHERT)).toBeCloseTo(0.077, 3);
  });

  test('is 1 at the reference and ten times as much a z higher', () => {
    const resistance = { zC: 7.5, referenceC: 95 };
    expect(lethalRate(95, resistance)).toBe(1);
    expect(lethalRate(102.5, resistance)).toBeCloseTo(10, 12);
  });

  const zs = { from: degreesOf(2), to: degreesOf(50) };
  test.each<[Resistance, Refusal]>([
    [{ zC: 0, referenceC: 121.1 }, ['z', 'outside', { ...zs, given: degreesOf(0) }]],
    [{ zC: NaN, referenceC: 121.1 }, ['z', 'outside', { ...zs, given: degreesOf(NaN) }]],
    [
      { zC: 10, referenceC: 250 },
      ['reference', 'outside', { from: celsiusOf(50), to: celsiusOf(150), given: celsiusOf(250) }],
    ],
  ])('a resistance of %p is refused', (resistance, refusal) => {
    expectFault(() => requireResistance(resistance), refusal);
  });
});

// F0 counts minutes at 121.1 °C (250 °F) with z = 10 °C: at that temperature a minute is a minute, 10 °C below a tenth.
test.each([
  [121.1, 1],
  [111.1, 0.1],
])('for spores a minute at %d °C counts %d', (temperature, rate) => {
  expect(lethalRate(temperature, SPORES)).toBeCloseTo(rate, 12);
});
