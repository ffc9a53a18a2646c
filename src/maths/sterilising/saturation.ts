import { requireWithin } from '../shared/checks';

// Coefficients n1 to n10 of the saturation-pressure equation, R7-97(2012) Table 34.
const N1 = 1167.0521452767;
const N2 = -724213.16703206;
const N3 = -17.073846940092;
const N4 = 12020.82470247;
const N5 = -3232555.0322333;
const N6 = 14.91510861353;
const N7 = -4823.2657361591;
const N8 = 405113.40542057;
const N9 = -0.23855557567849;
const N10 = 650.17534844798;

/**
 * Pressure of saturated steam at a temperature.
 *
 * @param kelvin 273.15 to 647.096
 * @returns absolute pressure in MPa
 * @throws invalid where the temperature is outside its range
 * @source IAPWS R7-97(2012) Industrial Formulation 1997, region 4, equation 30
 */
export function saturationPressure(kelvin: number): number {
  requireWithin('temperature', kelvin, 273.15, 647.096, 'K');
  const theta = kelvin + N9 / (kelvin - N10);
  const a = theta * theta + N1 * theta + N2;
  const b = N3 * theta * theta + N4 * theta + N5;
  const c = N6 * theta * theta + N7 * theta + N8;
  return ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Temperature of saturated steam at a pressure.
 *
 * @param megapascals absolute pressure, 0.000611213 to 22.064 MPa
 * @returns temperature in K
 * @throws invalid where the pressure is outside its range
 * @source IAPWS R7-97(2012) Industrial Formulation 1997, region 4, equation 31
 */
export function saturationTemperature(megapascals: number): number {
  requireWithin('pressure', megapascals, 0.000611213, 22.064, 'MPa absolute');
  const beta = megapascals ** 0.25;
  const e = beta * beta + N3 * beta + N6;
  const f = N1 * beta * beta + N4 * beta + N7;
  const g = N2 * beta * beta + N5 * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (N10 + d - Math.sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2;
}
