import { requireAtLeast, requireNumber, requirePositive } from '../shared/checks';
import { celsiusOf } from '../shared/fault';
import { exponentialIntegral } from './exponentialIntegral';
import type { HeatingFit } from './heatingFit';
import { lethalRate, requireResistance, SPORES, type Resistance } from './lethalRate';
import { HOTTEST_READING } from './readings';

/**
 * Equivalent minutes that a core gathers while it heats by its fitted line; cooling is not counted.
 *
 * With k = ln 10 / z and B = k j (medium − core at first):
 * f / ln 10 × 10^((medium − reference) / z) × [E1(B × 10^(−t / f)) − E1(B)], the integral of the lethal rate along
 * core = medium − j (medium − core at first) 10^(−t / f).
 *
 * @param fit heating rate and lag factor of the core
 * @param startC core temperature at the start in °C, below the medium
 * @param mediumC temperature of the heating medium in °C
 * @param minutes time of heating, 0 or more
 * @returns equivalent minutes at the reference temperature
 * @throws invalid where an input is outside its range
 * @source Stoforos, N. G. (2010) Food Eng. Rev. 2:1–16, heating part of Ball's formula in exponential integrals
 */
export function heatingLethality(
  { minutesPerTenth, lagFactor }: Pick<HeatingFit, 'minutesPerTenth' | 'lagFactor'>,
  startC: number,
  mediumC: number,
  minutes: number,
  resistance: Resistance = SPORES,
): number {
  requirePositive('heating rate', minutesPerTenth);
  requirePositive('lag factor', lagFactor);
  requireNumber('medium', mediumC, { above: celsiusOf(startC), to: celsiusOf(HOTTEST_READING) });
  requireAtLeast('minutes', minutes, 0);
  requireResistance(resistance);
  const perDegree = Math.LN10 / resistance.zC;
  const begin = perDegree * lagFactor * (mediumC - startC);
  const end = begin * 10 ** (-minutes / minutesPerTenth);
  return (
    (minutesPerTenth / Math.LN10) *
    lethalRate(mediumC, resistance) *
    (exponentialIntegral(end) - exponentialIntegral(begin))
  );
}
