import { vapourPressureDeficit } from '../../maths/climate/vapourPressureDeficit';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { airArguments, airOf } from './arguments';

export const VPD = defineFunction({
  name: 'VPD',
  family: 'climate',
  arguments: airArguments,
  result: value('vapour pressure deficit (kPa)', amount()),
  eachRow: (degrees, humidity, _altitude, unit) => vapourPressureDeficit(airOf(degrees, humidity, unit)),
});
