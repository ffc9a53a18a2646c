import psychrolib from 'psychrolib';
import { ambientPressure } from '../shared/ambientPressure';
import { requireCelsius, requireFraction } from '../shared/checks';
import { bracketedRoot } from '../shared/numeric';

// PsychroLib holds the equations of the ASHRAE Handbook – Fundamentals (2017), chapter 1. This is its only importer.
// The library keeps one global unit mode, throws on humidities of 0 and raises humidity ratios below 1e-7 to that. Its
// searches stop within 0.001 °C, for the wet bulb on either side of freezing. None of that leaves this file.

/** Moist air. */
export interface Air {
  /** Dry bulb in °C, -40 to 60. */
  readonly celsius: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
}

export const COLDEST_AIR = -40;
export const HOTTEST_AIR = 60;

/** Mass of a mole of water over that of a mole of dry air (ASHRAE 2017, chapter 1, equation 20). */
const WATER_TO_AIR = 0.621945;
/** Below it PsychroLib answers with this instead. */
const LEAST_RATIO = 1e-7;
/** The lowest temperature of the equations. */
export const COLDEST_DEW = -100;
/** How near PsychroLib's own searches come, in °C. */
const SEARCH_STEP = 0.001;
/** Perfectly dry air of -40 °C has a higher wet bulb than this. */
const COLDEST_BULB = -60;

/** Passes air whose temperature and humidity the equations hold for. */
export function requireAir(air: Air, temperature = 'temperature', humidity = 'humidity'): void {
  requireCelsius(temperature, air.celsius, COLDEST_AIR, HOTTEST_AIR);
  requireFraction(humidity, air.humidity);
}

function inSI<T>(work: () => T): T {
  const before = psychrolib.GetUnitSystem();
  psychrolib.SetUnitSystem(psychrolib.SI);
  try {
    return work();
  } finally {
    if (before !== undefined) psychrolib.SetUnitSystem(before);
  }
}

/** Pressure of water vapour in Pa that air of a temperature holds at most: over ice below the triple point. */
export function saturatedVapourPressure(celsius: number): number {
  return inSI(() => psychrolib.GetSatVapPres(celsius));
}

/** Kilograms of water vapour to a kilogram of dry air. */
export function waterToDryAir({ celsius, humidity }: Air, pressurePa: number): number {
  const vapour = humidity * saturatedVapourPressure(celsius);
  return (WATER_TO_AIR * vapour) / (pressurePa - vapour);
}

/** Temperature in °C at which the vapour in the air begins to condense; undefined where that is below -100 °C. */
export function condensesAt({ celsius, humidity }: Air): number | undefined {
  const vapour = humidity * saturatedVapourPressure(celsius);
  if (!(vapour > saturatedVapourPressure(COLDEST_DEW))) return undefined;
  return inSI(() => {
    const near = psychrolib.GetTDewPointFromVapPres(celsius, vapour);
    const excess = (dew: number): number => psychrolib.GetSatVapPres(dew) - vapour;
    return bracketedRoot(excess, near - SEARCH_STEP, Math.min(near + SEARCH_STEP, celsius));
  });
}

/**
 * Temperature in °C that a wetted bulb in moving air takes. Below 0 °C it is frozen, and the equations jump there: for
 * some air both a liquid and a frozen bulb solve them. The liquid one is given then.
 */
export function wetBulbOf(air: Air, altitudeM: number): number {
  const pressure = ambientPressure(altitudeM);
  const ratio = Math.max(waterToDryAir(air, pressure), 2 * LEAST_RATIO);
  return inSI(() => {
    const excess = (bulb: number): number =>
      psychrolib.GetHumRatioFromTWetBulb(air.celsius, bulb, pressure) - ratio;
    if (air.celsius >= 0 && excess(0) <= 0) return bracketedRoot(excess, 0, air.celsius);
    return bracketedRoot(excess, COLDEST_BULB, Math.min(air.celsius, -Number.EPSILON));
  });
}

/** Relative humidity from dry and wet bulb; undefined where even perfectly dry air has a higher wet bulb. */
export function humidityFrom(celsius: number, wetBulb: number, altitudeM: number): number | undefined {
  const pressure = ambientPressure(altitudeM);
  const ratio = inSI(() => psychrolib.GetHumRatioFromTWetBulb(celsius, wetBulb, pressure));
  if (ratio <= LEAST_RATIO) return undefined;
  const vapour = (pressure * ratio) / (WATER_TO_AIR + ratio);
  return Math.min(1, vapour / saturatedVapourPressure(celsius));
}

/** Cubic metres of moist air that hold a kilogram of dry air. */
export function volumeOfDryKilogram(air: Air, pressurePa: number): number {
  const ratio = waterToDryAir(air, pressurePa);
  return inSI(() => psychrolib.GetMoistAirVolume(air.celsius, ratio, pressurePa));
}
