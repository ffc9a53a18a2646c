import type { Placed } from '../../maths/shared/fault';
import { ripeningSpeed, type TemperatureResponse } from '../../maths/ripening/ripeningSpeed';
import { column, keyColumn, optionalColumn, optionalSetting, table } from '../cells/arguments';
import { only } from '../cells/columns';
import { choice, serial, temperature, text } from '../cells/kinds';
import { strainColumns } from '../tables';

// Arguments that several functions of the family share.

export const inoculated = keyColumn('inoculated', serial(), 'date each lot was inoculated');
export const strain = column('strain', text(), 'strain of each lot, as in strains');

export const ripeningStrains = table(
  'strains',
  only(
    strainColumns,
    'strain',
    'earliest',
    'best',
    'latest',
    'observed at',
    'min temp',
    'best temp',
    'max temp',
  ),
  'table: strain, earliest, best, latest (days); for temperature also observed at and min, best, max temp',
);

export const point = optionalSetting(
  'point',
  choice({
    earliest: 'the first day a block may be opened',
    best: 'the day a block is at its best',
    latest: 'the last day before a block is too old',
  }),
  'best',
  'earliest, best or latest; best if left out',
);

export const roomTemperature = optionalColumn(
  'temperature',
  temperature(),
  undefined,
  'room temperature, in the unit of the strains table; left out, the one the days were seen at',
);

interface ResponseRow extends Placed {
  readonly 'observed at': number | undefined;
  readonly 'min temp': number | undefined;
  readonly 'best temp': number | undefined;
  readonly 'max temp': number | undefined;
}

export const responseOf = (row: ResponseRow): TemperatureResponse => ({
  at: row.at,
  observedAt: row['observed at'],
  min: row['min temp'],
  best: row['best temp'],
  max: row['max temp'],
});

/** How much faster than observed a strain ripens at a room's temperature; 1 where none is given. */
export const speedAt = (room: number | undefined, row: ResponseRow): number =>
  room === undefined ? 1 : ripeningSpeed(room, responseOf(row));
