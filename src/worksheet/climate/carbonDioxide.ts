import { carbonDioxide } from '../../maths/climate/carbonDioxide';
import { column, keyColumn, optionalColumn } from '../cells/arguments';
import { number, orNone } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { outside, ppm, PRODUCTION_MEANING } from './arguments';

export const CARBONDIOXIDE = defineFunction({
  name: 'CARBONDIOXIDE',
  family: 'climate',
  arguments: [
    column('production', orNone(number({ above: 0 })), PRODUCTION_MEANING),
    column('airflow', orNone(number({ above: 0 })), 'volume of outside air an hour; none for a closed room'),
    keyColumn('volume', number({ above: 0 }), 'volume of air in the room'),
    column('minutes', orNone(number({ above: 0 })), 'minutes since the level was at its start'),
    optionalColumn('start', ppm, undefined, 'level at the start in ppm; that outside if left out'),
    outside,
  ],
  result: value('CO2 level (ppm)', amount()),
  eachRow: (production, airflow, volume, minutes, start, outsidePpm) =>
    carbonDioxide({ production, airflow, volume }, minutes, start ?? outsidePpm, outsidePpm),
});
