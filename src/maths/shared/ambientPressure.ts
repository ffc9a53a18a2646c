import { requireNumber } from './checks';
import { metresOf } from './fault';

/**
 * Mean air pressure at an altitude, by the standard atmosphere.
 *
 * p = 101325 (1 − 2.25577e-5 h)^5.25588, the troposphere of ISO 2533. Weather moves the real pressure by up to 3%
 * about it: near 1 °C in the boiling point.
 *
 * @param altitudeM altitude above sea level in metres, -500 to 11,000
 * @returns pressure in Pa
 * @throws invalid where the altitude is outside its range
 * @source ISO 2533:1975 Standard Atmosphere
 */
export function ambientPressure(altitudeM: number): number {
  requireNumber('altitude', altitudeM, { from: metresOf(-500), to: metresOf(11_000) });
  return 101_325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588;
}
