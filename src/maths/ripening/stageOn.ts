import { requirePositive } from '../shared/checks';
import { dateOf, invalid, missing } from '../shared/fault';

declare module '../shared/fault' {
  interface FaultDetails {
    /** No stage of the strain has begun on a day. */
    noStageYet: { readonly day: number; readonly first: number };
    /** Two stages of a strain that begin on the same day. */
    stagesTogether: { readonly day: number; readonly stages: readonly [string, string] };
  }
}

/** A stage of a strain's life and the day, counted from inoculation as day 0, that it begins on. */
export interface Stage {
  readonly stage: string;
  readonly fromDay: number;
}

/**
 * The stage a lot is in on a date: of the stages begun by then, the one that began last. Days are calendar days, so the
 * time of day of neither date counts.
 *
 * @param inoculatedSerial date of inoculation, a worksheet serial
 * @param onSerial the date asked about, a worksheet serial
 * @param stages the strain's stages in any order, `fromDay` 0 or more
 * @returns the stage's name
 * @throws missing where no stage has begun by then
 * @throws invalid where a date is out of range, the date lies before inoculation, or two stages began last on one day
 */
export function stageOn(inoculatedSerial: number, onSerial: number, stages: readonly Stage[]): string {
  requirePositive('inoculated', inoculatedSerial);
  requirePositive('on', onSerial);
  const day = Math.floor(onSerial) - Math.floor(inoculatedSerial);
  if (day < 0) {
    throw invalid('on', 'notBefore', {
      other: 'inoculated',
      date: dateOf(inoculatedSerial),
      given: dateOf(onSerial),
    });
  }
  const begun = stages.filter(({ fromDay }) => fromDay <= day);
  if (begun.length === 0) {
    const first = Math.min(...stages.map(({ fromDay }) => fromDay));
    throw missing('stages', 'noStageYet', { day, first });
  }
  const last = Math.max(...begun.map(({ fromDay }) => fromDay));
  // In the order of the alphabet: the same words whatever the order of the rows.
  const [current, other] = begun.flatMap(({ stage, fromDay }) => (fromDay === last ? [stage] : [])).sort();
  if (other !== undefined) {
    throw invalid('stages', 'stagesTogether', { day: last, stages: [current!, other] });
  }
  return current!;
}
