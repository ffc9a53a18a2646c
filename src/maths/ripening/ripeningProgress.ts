import { requireNumber, requirePositive } from '../shared/checks';
import { dateOf, invalid, missing, timeOf, type CalcError } from '../shared/fault';
import { LAST_SERIAL } from '../shared/serial';
import { rateWithin, type CardinalTemperatures } from './growthRate';
import { meanGrowthRate } from './meanGrowthRate';
import { knownResponse, type TemperatureResponse } from './ripeningSpeed';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A log without a reading between two dates; without `to`, after the first. */
    noReadings: { readonly from: Quantity; readonly to?: Quantity };
    /** A strain that did not grow in the last days of the log, so that nothing tells when it is ready. */
    noGrowthLately: { readonly days: number };
  }
}

/** A lot, and the columns of a temperature logger in its room. */
export interface LoggedLot {
  readonly inoculatedSerial: number;
  /** Days to ready at the temperature they were observed at. */
  readonly days: number;
  readonly response: TemperatureResponse;
  /** Times of the readings, worksheet serials, ever later. */
  readonly timeSerials: readonly number[];
  /** One temperature a reading, in the unit of the response. */
  readonly temperatures: readonly number[];
  /** The time to reckon up to; undefined for that of the last reading. */
  readonly asOfSerial: number | undefined;
}

export interface RipeningProgress {
  /** Share of the way to ready, 0 to 1. */
  readonly progress: number;
  /** When it was or will be ready, or why that cannot be told. */
  readonly readySerial: number | CalcError;
  /** Steps between readings longer than 6 hours since inoculation, bridged by a straight line, and their hours. */
  readonly gaps: number;
  readonly gapHours: number;
  /** Hours since inoculation before the first reading, and from the last reading to `asOfSerial`. */
  readonly hoursBefore: number;
  readonly hoursAfter: number;
}

const LONGEST_STEP_DAYS = 6 / 24;
const MEAN_OVER_DAYS = 7;

/**
 * How far a lot has ripened by the temperatures a logger wrote down, and when it is ready.
 *
 * Each day at temperature T counts as growth rate(T) / growth rate(observed) days of the strain; the lot is ready when
 * those add up to its days. Between two readings the temperature runs in a straight line and the rate is integrated
 * along it. Neither the logger's step nor where a log is cut changes the sum. Steps over 6 hours are bridged the same
 * way and reported. Time before the first reading counts at the mean rate of the log's first seven days. Time after the
 * last, and the rest of the run, counts at the mean rate of its last seven.
 *
 * @returns progress and ready date, and what the log left open
 * @throws invalid where times are not ever later, or a number is out of range, or `asOfSerial` lies before inoculation
 * @throws missing where no reading falls between inoculation and `asOfSerial`, or the response is not complete
 */
export function ripeningProgress(lot: LoggedLot): RipeningProgress {
  const { inoculatedSerial, days, timeSerials } = lot;
  requirePositive('inoculated', inoculatedSerial);
  requirePositive('best', days);
  const { cardinals, observedRate } = knownResponse(lot.response);
  requireReadings(lot);
  const lastReading = timeSerials.at(-1);
  const asOf = lot.asOfSerial ?? lastReading ?? inoculatedSerial;
  if (!(asOf >= inoculatedSerial)) throw tooEarly(lot, asOf);
  const first = timeSerials[0];
  if (first === undefined || lastReading === undefined || first > asOf || lastReading < inoculatedSerial) {
    throw missing('times', 'noReadings', { from: dateOf(inoculatedSerial), to: dateOf(asOf) });
  }

  const line = new TemperatureLine(timeSerials, lot.temperatures, cardinals);
  const start = Math.max(inoculatedSerial, first);
  const end = Math.min(asOf, lastReading);
  const lastRate = line.meanRate(Math.max(start, end - MEAN_OVER_DAYS), end);
  const grown = new Growth(inoculatedSerial, days * observedRate);
  grown.steadily(start, line.meanRate(start, Math.min(end, start + MEAN_OVER_DAYS)));
  let gaps = 0;
  let gapDays = 0;
  for (const piece of line.pieces(start, end)) {
    grown.along(piece, cardinals);
    const step = piece.end - piece.start;
    if (step > LONGEST_STEP_DAYS + 1e-9) {
      gaps++;
      gapDays += step;
    }
  }
  grown.steadily(asOf, lastRate);
  return {
    progress: grown.share,
    readySerial: readySerial(grown, asOf, lastRate),
    gaps,
    gapHours: gapDays * 24,
    hoursBefore: (start - inoculatedSerial) * 24,
    hoursAfter: (asOf - end) * 24,
  };
}

function requireReadings({ timeSerials, temperatures }: LoggedLot): void {
  timeSerials.forEach((time, index) => {
    requirePositive('times', time, index);
    requireNumber('temperatures', temperatures[index]!, {}, undefined, index);
    const before = timeSerials[index - 1];
    if (before !== undefined && !(time > before)) {
      throw invalid('times', 'notLater', { before: timeOf(before), given: timeOf(time) }, index);
    }
  });
}

function tooEarly({ inoculatedSerial, asOfSerial }: LoggedLot, asOf: number): CalcError {
  const from = dateOf(inoculatedSerial);
  if (asOfSerial === undefined) return missing('times', 'noReadings', { from });
  return invalid('as of', 'notBefore', { other: 'inoculated', date: from, given: dateOf(asOf) });
}

function readySerial(grown: Growth, asOf: number, lastRate: number): number | CalcError {
  if (grown.readySerial !== undefined) return grown.readySerial;
  if (lastRate === 0) return missing('temperatures', 'noGrowthLately', { days: MEAN_OVER_DAYS });
  const ready = asOf + grown.left / lastRate;
  return ready < LAST_SERIAL + 1 ? ready : missing('temperatures', 'neverReady');
}

/** A stretch of time over which the temperature runs in a straight line. */
interface Piece {
  readonly start: number;
  readonly end: number;
  readonly from: number;
  readonly to: number;
}

/** The readings joined by straight lines. */
class TemperatureLine {
  constructor(
    private readonly times: readonly number[],
    private readonly temperatures: readonly number[],
    private readonly cardinals: CardinalTemperatures,
  ) {}

  /** The straight pieces from start to end, both within the readings; none where they are the same. */
  *pieces(start: number, end: number): Generator<Piece> {
    for (let i = firstAfter(this.times, start); i < this.times.length && this.times[i - 1]! < end; i++) {
      const pieceStart = Math.max(start, this.times[i - 1]!);
      const pieceEnd = Math.min(end, this.times[i]!);
      yield { start: pieceStart, end: pieceEnd, from: this.at(i, pieceStart), to: this.at(i, pieceEnd) };
    }
  }

  /** Mean growth rate from start to end; where they are the same, the rate then. */
  meanRate(start: number, end: number): number {
    let sum = 0;
    for (const piece of this.pieces(start, end)) {
      sum += (piece.end - piece.start) * meanGrowthRate(piece.from, piece.to, this.cardinals);
    }
    if (end > start) return sum / (end - start);
    const next = Math.min(firstAfter(this.times, start), this.times.length - 1);
    return rateWithin(this.at(next, start), this.cardinals);
  }

  /** Temperature at a time between the readings before and at `next`. */
  private at(next: number, time: number): number {
    const before = Math.max(0, next - 1);
    const span = this.times[next]! - this.times[before]!;
    const share = span > 0 ? (time - this.times[before]!) / span : 0;
    return this.temperatures[before]! + share * (this.temperatures[next]! - this.temperatures[before]!);
  }
}

/** Position of the first time later than `time`. */
function firstAfter(times: readonly number[], time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! > time) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Growth added up from inoculation on, and the moment it reached what is needed. */
class Growth {
  private sum = 0;
  readySerial: number | undefined;

  constructor(
    private now: number,
    private readonly needed: number,
  ) {}

  get share(): number {
    return this.readySerial === undefined ? this.sum / this.needed : 1;
  }

  get left(): number {
    return this.needed - this.sum;
  }

  /** On to a time at one rate. */
  steadily(until: number, rate: number): void {
    this.add(until, rate * (until - this.now), (growth) => growth / rate);
  }

  /** On to the end of a piece, along its line of temperature. */
  along({ start, end, from, to }: Piece, cardinals: CardinalTemperatures): void {
    const days = end - start;
    const grownIn = (part: number): number =>
      part * meanGrowthRate(from, from + (part / days) * (to - from), cardinals);
    this.add(end, grownIn(days), (growth) => timeFor(growth, days, grownIn));
  }

  private add(until: number, growth: number, timeTo: (growth: number) => number): void {
    if (this.readySerial === undefined && this.sum + growth >= this.needed) {
      this.readySerial = this.now + timeTo(this.left);
    }
    this.sum += growth;
    this.now = until;
  }
}

/** The time from 0 to `days` in which `growth` is reached, by halving: growth never falls with time. */
function timeFor(growth: number, days: number, grownIn: (days: number) => number): number {
  let low = 0;
  let high = days;
  // Fifty halvings of even a year-long gap end below a microsecond.
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (grownIn(middle) < growth) low = middle;
    else high = middle;
  }
  return high;
}
