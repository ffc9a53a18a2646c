import { strainWaits, type StrainWaits } from '../../maths/ripening/strainWaits';
import { CalcError } from '../../maths/shared/fault';
import { column, keyColumn, setting } from '../cells/arguments';
import { orBlank, serial, text } from '../cells/kinds';
import { amount, everywhere, label, mixed, tableResult, type ResultRow } from '../cells/results';
import { defineFunction } from '../define';

const daysColumns = {
  'median (days)': mixed('days by which half of the lots are ready'),
  'median from': mixed('lower end of its 95% interval'),
  'median to': mixed('upper end of its 95% interval'),
  '10% ready (days)': mixed('days by which a tenth of the lots are ready'),
  '10% ready from': mixed('lower end of its 95% interval'),
  '10% ready to': mixed('upper end of its 95% interval'),
  '90% ready (days)': mixed('days by which nine tenths of the lots are ready'),
  '90% ready from': mixed('lower end of its 95% interval'),
  '90% ready to': mixed('upper end of its 95% interval'),
};

const NOT_REACHED = 'not reached';
const OPEN = 'open';

function daysShown(days: StrainWaits['days']): ResultRow<typeof daysColumns> {
  if (days instanceof CalcError) return everywhere(daysColumns, days);
  const { median, p10, p90 } = days;
  return {
    'median (days)': median.days ?? NOT_REACHED,
    'median from': median.from ?? OPEN,
    'median to': median.to ?? OPEN,
    '10% ready (days)': p10.days ?? NOT_REACHED,
    '10% ready from': p10.from ?? OPEN,
    '10% ready to': p10.to ?? OPEN,
    '90% ready (days)': p90.days ?? NOT_REACHED,
    '90% ready from': p90.from ?? OPEN,
    '90% ready to': p90.to ?? OPEN,
  };
}

export const READYSTATS = defineFunction({
  name: 'READYSTATS',
  family: 'ripening',
  arguments: [
    keyColumn('strain', text(), 'strain of each lot'),
    keyColumn('inoculated', serial(), 'date each lot was inoculated'),
    column('ready', orBlank(serial()), 'date each lot was ready; blank while it waits'),
    setting('as of', serial(), 'the date up to which the records are complete'),
  ],
  result: tableResult({
    strain: label(),
    lots: amount('lots that count'),
    waiting: amount('those of them that still wait'),
    ...daysColumns,
  }),
  whole: (strains, inoculatedSerials, readySerials, asOfSerial) => {
    const records = strains.map((strain, i) => ({
      strain,
      inoculatedSerial: inoculatedSerials[i]!,
      readySerial: readySerials[i] ?? undefined,
    }));
    return strainWaits(records, asOfSerial).map(({ strain, lots, waiting, days }) => ({
      strain,
      lots,
      waiting,
      ...daysShown(days),
    }));
  },
});
