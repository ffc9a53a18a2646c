import { CalcError, missing } from '../shared/calcError';
import { requirePositive } from '../shared/checks';
import { writtenDate, type DateSystem } from '../shared/serial';

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
 * @param system day count of the serials, for dates in messages
 * @returns the stage's name
 * @throws missing where no stage has begun by then
 * @throws invalid where a date is out of range, the date lies before inoculation, or two stages begin on one day
 */
export function stageOn(
  inoculatedSerial: number,
  onSerial: number,
  stages: readonly Stage[],
  system: DateSystem,
): string {
  requirePositive('inoculated', inoculatedSerial);
  requirePositive('on', onSerial);
  const day = Math.floor(onSerial) - Math.floor(inoculatedSerial);
  if (day < 0) {
    throw new CalcError(
      'invalid',
      `on: a date from inoculated (${writtenDate(inoculatedSerial, system)}) on needed, got ${writtenDate(onSerial, system)}`,
      { argument: 'on' },
    );
  }
  let current: Stage | undefined;
  for (const stage of stages) {
    if (stage.fromDay > day) continue;
    if (current && stage.fromDay === current.fromDay) {
      throw new CalcError(
        'invalid',
        `stages: one stage from day ${stage.fromDay} needed, got "${current.stage}" and "${stage.stage}"`,
        { argument: 'stages' },
      );
    }
    if (!current || stage.fromDay > current.fromDay) current = stage;
  }
  if (!current) {
    const first = Math.min(...stages.map(({ fromDay }) => fromDay));
    throw missing(
      'stages',
      `on day ${day} no stage of this strain has begun; the first begins on day ${first}`,
    );
  }
  return current.stage;
}
