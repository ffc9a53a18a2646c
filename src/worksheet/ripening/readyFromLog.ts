import type { RipeningProgress } from '../../maths/ripening/ripeningProgress';
import { missing } from '../../maths/shared/fault';
import { celsiusWithin } from '../../maths/shared/temperature';
import { column, keyColumn, optionalSetting, setting, table } from '../cells/arguments';
import { only } from '../cells/columns';
import { choice, serial, temperature, text } from '../cells/kinds';
import { amount, date, label, percent, row } from '../cells/results';
import { defineFunction } from '../define';
import { strainColumns } from '../tables';
import { responseOf } from './arguments';

/** Where the log has no readings, in words; empty where it has them throughout. */
function unlogged({ gaps, hoursBefore, hoursAfter }: RipeningProgress): string {
  const hours = (time: number): string => `${Number(time.toFixed(1))} h`;
  const parts: string[] = [];
  if (hoursBefore > 0.05) parts.push(`${hours(hoursBefore)} before the first`);
  if (gaps > 0) parts.push(`${gaps} ${gaps === 1 ? 'gap' : 'gaps'} over 6 h`);
  if (hoursAfter > 0.05) parts.push(`${hours(hoursAfter)} after the last`);
  return parts.join(', ');
}

/** In °C: no mycelium grows fastest outside this, so the table is in the other unit. Common practice, no source. */
const LIKELY_BEST = { low: 5, high: 60 };

export const READYFROMLOG = defineFunction({
  name: 'READYFROMLOG',
  family: 'ripening',
  arguments: [
    setting('inoculated', serial(), 'date the lot was inoculated'),
    setting('strain', text(), 'strain of the lot, as in strains'),
    table(
      'strains',
      only(strainColumns, 'strain', 'best', 'observed at', 'min temp', 'best temp', 'max temp'),
      'table with strain, best (days), observed at, min temp, best temp and max temp',
    ),
    keyColumn('times', serial(), 'date and time of each reading, each later than the one before'),
    column('temperatures', temperature(), 'temperature read at each time'),
    optionalSetting(
      'as of',
      serial(),
      undefined,
      'date to work the progress out for; that of the last reading if left out',
    ),
    optionalSetting(
      'unit',
      choice(
        {
          C: 'the readings and the strains table are in degrees Celsius',
          F: 'the readings and the strains table are in degrees Fahrenheit',
        },
        (degrees) => ({ degrees }),
      ),
      'C',
      'unit of the readings and of the strains table, C or F; C if left out',
    ),
  ],
  result: row({
    progress: percent('share of the way to ready'),
    'date ready': date('when it was or will be ready'),
    'hours without readings': amount(),
    where: label('where the readings are missing'),
  }),
  needs: ['ripening'],
  whole: (
    inoculatedSerial,
    strainName,
    strains,
    timeSerials,
    temperatures,
    asOfSerial,
    unit,
    { tools: { ripening } },
  ) => {
    const strain = strains.find(strainName, 'strain');
    if (strain.best === undefined) throw missing('strain', 'blank', { header: 'best', table: 'strains' });
    if (strain['best temp'] !== undefined) {
      celsiusWithin(
        'strains, best temp',
        strain['best temp'],
        unit,
        LIKELY_BEST.low,
        LIKELY_BEST.high,
        strain,
      );
    }
    const log = ripening.ripeningProgress({
      inoculatedSerial,
      days: strain.best,
      response: responseOf(strain),
      timeSerials,
      temperatures,
      asOfSerial,
    });
    const hours = log.gapHours + log.hoursBefore + log.hoursAfter;
    return {
      progress: log.progress,
      'date ready': log.readySerial,
      'hours without readings': Math.round(hours * 100) / 100,
      where: unlogged(log),
    };
  },
});
