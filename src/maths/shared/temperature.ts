import { requireCelsius } from './checks';
import type { Where } from './fault';

/** Degrees Celsius or Fahrenheit. */
export type TemperatureUnit = 'C' | 'F';

export function toCelsius(temperature: number, unit: TemperatureUnit): number {
  return unit === 'C' ? temperature : (temperature - 32) / 1.8;
}

export function fromCelsius(temperatureC: number, unit: TemperatureUnit): number {
  return unit === 'C' ? temperatureC : temperatureC * 1.8 + 32;
}

/** A difference of temperatures, as z is one: 18 °F is 10 °C. */
export function differenceToCelsius(difference: number, unit: TemperatureUnit): number {
  return unit === 'C' ? difference : difference / 1.8;
}

/** The temperature in °C, once it lies from `lowC` to `highC`; a refusal tells all three in the degrees asked in. */
export function celsiusWithin(
  argument: string,
  temperature: number,
  unit: TemperatureUnit,
  lowC: number,
  highC: number,
  where?: Where,
): number {
  return requireCelsius(argument, toCelsius(temperature, unit), lowC, highC, where);
}
