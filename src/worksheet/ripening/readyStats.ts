import type { StrainWaits } from '../../maths/ripening/strainWaits';
import { CalcError, invalid } from '../../maths/shared/fault';
import { labelKey, lookKey } from '../../maths/shared/labels';
import { column, setting } from '../cells/arguments';
import { serial } from '../cells/kinds';
import { amount, everywhere, label, mixed, tableResult, type ResultRow } from '../cells/results';
import { defineFunction } from '../define';
import { judgedInoculated, judgedReady, judgedStrain, lotRecords } from './lotRecords';

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
  'ready spread': amount('standard deviation between lots, as LOADPLAN reads it'),
};

const NOT_REACHED = 'not reached';
const OPEN = 'open';

function daysShown(days: StrainWaits['days']): ResultRow<typeof daysColumns> {
  if (days instanceof CalcError) return everywhere(daysColumns, days);
  const { median, p10, p90, spread } = days;
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
    'ready spread': spread ?? '',
  };
}

/** Shown under every header of a row that only tells of lots left out. */
const NO_DAYS = everywhere(daysColumns, '');

const leftOut = (lots: number, what: string) => ({
  strain: `${lots} ${lots === 1 ? 'lot' : 'lots'} without a ${what} left out`,
  lots: '' as const,
  waiting: '' as const,
  ...NO_DAYS,
});

export const READYSTATS = defineFunction({
  name: 'READYSTATS',
  family: 'ripening',
  arguments: [
    column('strain', judgedStrain, 'strain of each lot'),
    column('inoculated', judgedInoculated, 'date each lot was inoculated'),
    column('ready', judgedReady, 'date each lot was ready; blank while it waits'),
    setting('as of', serial(), 'the date up to which the records are complete'),
  ],
  result: tableResult({
    strain: label(),
    lots: amount('lots that count'),
    waiting: amount('those of them that still wait'),
    ...daysColumns,
  }),
  needs: ['ripening'],
  whole: (strains, inoculated, ready, asOfSerial, context) => {
    const { records, spoiled, withoutStrain, withoutDate } = lotRecords(strains, inoculated, ready, context);
    const read = context.tools.ripening.strainWaits(records, asOfSerial);
    const known = new Set(read.map(({ strain }) => labelKey(strain)));
    const unread = [...spoiled].flatMap(([key, { strain }]) =>
      known.has(key) ? [] : [{ strain, lots: 0, waiting: 0 }],
    );
    const rows = [...read, ...unread].sort((a, b) => (labelKey(a.strain) < labelKey(b.strain) ? -1 : 1));
    const looks = new Map<string, string[]>();
    for (const { strain } of rows) {
      const look = lookKey(strain);
      looks.set(look, [...(looks.get(look) ?? []), strain]);
    }
    return [
      ...rows.map((row) => {
        const { strain, lots, waiting } = row;
        const bad = spoiled.get(labelKey(strain));
        const [first, second] = looks.get(lookKey(strain))!;
        const shown = second
          ? everywhere(daysColumns, invalid('strain', 'strainsAlike', { strains: [first!, second] }))
          : bad || !('days' in row)
            ? everywhere(daysColumns, bad!.fault)
            : daysShown(row.days);
        return { strain, lots: lots + (bad?.lots ?? 0), waiting, ...shown };
      }),
      ...(withoutStrain > 0 ? [leftOut(withoutStrain, 'strain')] : []),
      ...(withoutDate > 0 ? [leftOut(withoutDate, 'date')] : []),
    ];
  },
});
