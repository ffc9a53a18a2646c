import { requirePositive } from '../shared/checks';
import { dateOf, invalid, missing } from '../shared/fault';
import { requireInOrder, type RipeningDays, type RipeningPoint } from './readyDate';

/**
 * The last whole day on which to inoculate for a first pick no later than a wanted date: the wanted date less the days
 * from load to the first pick, less the strain's days to the point it is opened at.
 *
 * @param wantedSerial date of the first pick, a worksheet serial
 * @param days the strain's days from inoculation to ready, above 0
 * @param firstPick the strain's days from load to the first pick, above 0
 * @returns serial of the day
 * @throws missing where the strain has no days for the point
 * @throws invalid where an input is out of range, days are not in order, or the day would lie before the first a worksheet can show
 */
export function inoculateBy(
  wantedSerial: number,
  days: RipeningDays,
  point: RipeningPoint,
  firstPick: number,
): number {
  requirePositive('wanted', wantedSerial);
  const wait = days[point];
  if (wait === undefined) throw missing('strain', 'blank', { header: point, table: 'strains' });
  requirePositive(point, wait);
  requireInOrder(days);
  requirePositive('first pick', firstPick);
  const day = Math.floor(wantedSerial - firstPick - wait);
  if (!(day >= 1)) throw invalid('wanted', 'beforeCalendar', { given: dateOf(wantedSerial) });
  return day;
}
