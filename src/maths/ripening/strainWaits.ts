import { requirePositive } from '../shared/checks';
import { dateOf, invalid, type CalcError } from '../shared/fault';
import { labelKey } from '../shared/labels';
import { daysBy, daysSpread, waitingCurve, type DaysBy, type Waits } from './daysToReady';

/** A lot as recorded; `readySerial` is undefined while it waits. */
export interface RipeningRecord {
  /** Its place in the columns it comes from, from 0. */
  readonly index?: number;
  readonly strain: string;
  readonly inoculatedSerial: number;
  readonly readySerial: number | undefined;
}

interface Group {
  strain: string;
  readonly ready: number[];
  readonly waiting: number[];
  fault: CalcError | undefined;
}

/** What the records say of one strain. */
export interface StrainWaits {
  readonly strain: string;
  readonly lots: number;
  readonly waiting: number;
  /** Days by which 10%, half and 90% of the lots are ready, or why a record of this strain cannot be counted. */
  readonly days:
    | {
        readonly p10: DaysBy;
        readonly median: DaysBy;
        readonly p90: DaysBy;
        /** Standard deviation between lots; undefined where the records cannot tell it. */
        readonly spread: number | undefined;
      }
    | CalcError;
}

/**
 * How many days each strain takes to be ready, from the farm's own records as they stood on a date. Lots that still
 * wait count as waiting so far, not as missing: leaving them out would make every strain look faster than it is.
 *
 * A lot inoculated on or after `asOfSerial` does not count yet; one ready only after it counts as waiting on that date.
 * A record that cannot be true spoils its own strain's figures and no other's.
 *
 * @returns one entry a strain, in the order of their names
 * @throws invalid where `asOfSerial` is no date
 */
export function strainWaits(records: readonly RipeningRecord[], asOfSerial: number): StrainWaits[] {
  requirePositive('as of', asOfSerial);
  const groups = new Map<string, Group>();
  /** By the strain as written: a long column writes the same few again and again. */
  const written = new Map<string, Group>();
  const groupOf = (strain: string): Group => {
    const key = labelKey(strain);
    let group = groups.get(key);
    if (!group) groups.set(key, (group = { strain, ready: [], waiting: [], fault: undefined }));
    if (strain < group.strain) group.strain = strain;
    written.set(strain, group);
    return group;
  };
  for (const record of records) {
    const { strain, inoculatedSerial, readySerial } = record;
    if (inoculatedSerial >= asOfSerial) continue;
    const group = written.get(strain) ?? groupOf(strain);
    if (readySerial !== undefined && !(readySerial > inoculatedSerial)) {
      group.fault ??= readyTooEarly(record, readySerial);
    }
    if (readySerial !== undefined && readySerial <= asOfSerial)
      group.ready.push(readySerial - inoculatedSerial);
    else group.waiting.push(asOfSerial - inoculatedSerial);
  }
  return [...groups.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, group]) => ({
      strain: group.strain,
      lots: group.ready.length + group.waiting.length,
      waiting: group.waiting.length,
      days: group.fault ?? quantiles(group),
    }));
}

function quantiles(waits: Waits): Exclude<StrainWaits['days'], CalcError> {
  const curve = waitingCurve(waits);
  return {
    p10: daysBy(0.1, curve),
    median: daysBy(0.5, curve),
    p90: daysBy(0.9, curve),
    spread: daysSpread(curve),
  };
}

function readyTooEarly(record: RipeningRecord, ready: number): CalcError {
  const details = { other: 'inoculated', date: dateOf(record.inoculatedSerial), given: dateOf(ready) };
  return invalid('ready', 'after', details, record.index);
}
