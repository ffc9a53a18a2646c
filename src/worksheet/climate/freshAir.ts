import { freshAir } from '../../maths/climate/freshAir';
import { column, keyColumn } from '../cells/arguments';
import { number } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { outside, ppm, PRODUCTION_MEANING } from './arguments';

export const FRESHAIR = defineFunction({
  name: 'FRESHAIR',
  family: 'climate',
  arguments: [
    keyColumn('production', number({ above: 0 }), PRODUCTION_MEANING),
    column('limit', ppm, 'level to hold, in ppm'),
    outside,
  ],
  result: value('airflow an hour', amount()),
  eachRow: (production, limit, outsidePpm) => freshAir(production, limit, outsidePpm),
});
