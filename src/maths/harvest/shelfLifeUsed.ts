import { requireCelsius, requirePositive, requireWithin } from '../shared/checks';
import { invalid, missing, timeOf } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

/** How long mushrooms keep, and how that changes with temperature. */
export interface Keeping {
  /** Days they keep at the reference temperature. */
  readonly lifeDays: number;
  readonly referenceC: number;
  /** How many times faster they age 10 °C warmer. */
  readonly q10: number;
}

/** What a cold chain has used up. */
export interface ShelfLife {
  /** Share of the shelf life used; above 1 where it is over. */
  readonly used: number;
  /** Days left at the last temperature; 0 where it is over. */
  readonly daysLeft: number;
}

/**
 * Share of the shelf life that a temperature log has used, and the days left at its last temperature.
 *
 * used = ∫ Q10^((T − reference)/10) dt / life. Exact where the temperature runs straight between readings: a step counts
 * its length × the logarithmic mean of its two rates. Ageing only: it says nothing of microbes, drying or bruises.
 *
 * @param times of the readings in days, rising
 * @param temperaturesC reading at each time, -5 to 50
 * @param keeping life above 0 days; q10 from 1 to 10; reference from -5 to 50 °C
 * @throws invalid where an input is out of range, or a time is not later than the one before
 * @throws missing where there are fewer than two readings
 * @source Labuza, T. P. (1982) Shelf-Life Dating of Foods. Food & Nutrition Press: Q10 and the fraction of life consumed
 * (from memory, unverified)
 */
export function shelfLifeUsed(
  times: readonly number[],
  temperaturesC: readonly number[],
  { lifeDays, referenceC, q10 }: Keeping,
): ShelfLife {
  const log = checkedLog(times, temperaturesC);
  requirePositive('life', lifeDays);
  requireCelsius('reference', referenceC, -5, 50);
  requireWithin('q10', q10, 1, 10);
  if (times.length < 2) {
    throw missing('times', 'tooFew', { least: 2, things: 'readings', found: times.length });
  }
  const perDegree = Math.log(q10) / 10;
  const rate = (temperatureC: number): number => Math.exp(perDegree * (temperatureC - referenceC));
  const steps = log.slice(1).map(([time, temperatureC], i) => {
    const [timeBefore, before] = log[i]!;
    const rise = perDegree * (temperatureC - before);
    return (time - timeBefore) * rate(before) * (rise === 0 ? 1 : Math.expm1(rise) / rise);
  });
  const used = compensatedSum(steps) / lifeDays;
  return { used, daysLeft: (Math.max(0, 1 - used) * lifeDays) / rate(log.at(-1)![1]) };
}

type Reading = readonly [time: number, temperatureC: number];

/** The readings, checked one by one. */
function checkedLog(times: readonly number[], temperaturesC: readonly number[]): Reading[] {
  return times.map((time, i) => {
    const before = times[i - 1];
    if (i > 0 && !(time > before!)) {
      throw invalid('times', 'notLater', { before: timeOf(before!), given: timeOf(time) }, i);
    }
    return [time, requireCelsius('temperatures', temperaturesC[i]!, -5, 50, i)];
  });
}
