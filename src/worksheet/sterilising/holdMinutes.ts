import { toCelsius } from '../../maths/shared/temperature';
import { holdMinutes } from '../../maths/sterilising/holdMinutes';
import { column, keyColumn, optionalColumn } from '../cells/arguments';
import { number, temperature } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { temperatureUnit } from '../settings';
import { REFERENCE_MEANING, resistanceOf, Z_MEANING, zKind } from './arguments';

export const HOLDMINUTES = defineFunction({
  name: 'HOLDMINUTES',
  family: 'sterilising',
  arguments: [
    keyColumn('target', number({ above: 0 }), 'equivalent minutes wanted'),
    column('temperature', temperature(), 'steady core temperature'),
    optionalColumn('z', zKind, undefined, Z_MEANING),
    optionalColumn('reference', temperature(), undefined, REFERENCE_MEANING),
    temperatureUnit,
  ],
  result: value('minutes to hold', amount()),
  eachRow: (target, core, z, reference, unit) =>
    holdMinutes(target, toCelsius(core, unit), resistanceOf(z, reference, unit)),
});
