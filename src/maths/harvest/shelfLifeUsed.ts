import { requireCelsius, requirePositive, requireWithin } from '../shared/checks';
import { invalid, missing, timeOf } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A log without a single reading; 0 degrees reads as blank. */
    zeroReading: object;
  }
}

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
 * @param temperaturesC reading at each time, -5 to 50; one that is undefined is bridged from its neighbours, and before the
 * first reading and after the last the nearest one holds
 * @param keeping life above 0 days; q10 from 1 to 10; reference from -5 to 50 °C
 * @throws invalid where an input is out of range, or a time is not later than the one before
 * @throws missing where there are fewer than two times, or no reading
 * @source Labuza, T. P. (1982) Shelf-Life Dating of Foods. Food & Nutrition Press: Q10 and the fraction of life consumed
 * (from memory, unverified)
 */
export function shelfLifeUsed(
  times: readonly number[],
  temperaturesC: readonly (number | undefined)[],
  { lifeDays, referenceC, q10 }: Keeping,
): ShelfLife {
  const log = bridgedLog(times, temperaturesC);
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

/** The readings there are, checked, with the first and the last carried to the ends of the log. */
function bridgedLog(times: readonly number[], temperaturesC: readonly (number | undefined)[]): Reading[] {
  const log = temperaturesC.flatMap((temperatureC, i): Reading[] =>
    temperatureC === undefined ? [] : [[times[i]!, requireCelsius('temperatures', temperatureC, -5, 50, i)]],
  );
  if (log.length === 0) throw missing('temperatures', 'zeroReading');
  times.forEach((time, i) => {
    if (i === 0 || time > times[i - 1]!) return;
    throw invalid('times', 'notLater', { before: timeOf(times[i - 1]!), given: timeOf(time) }, i);
  });
  const [start, end] = [times[0]!, times.at(-1)!];
  if (log[0]![0] > start) log.unshift([start, log[0]![1]]);
  if (log.at(-1)![0] < end) log.push([end, log.at(-1)![1]]);
  return log;
}
