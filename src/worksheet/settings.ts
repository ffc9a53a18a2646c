import { optionalColumn, optionalSetting } from './cells/arguments';
import { choice, measure, orZero } from './cells/kinds';

// Arguments that several families share.

export const temperatureUnit = optionalSetting(
  'unit',
  choice({ C: 'degrees Celsius', F: 'degrees Fahrenheit' }, (degrees) => ({
    degrees,
    length: degrees === 'F' ? 'ft' : 'm',
  })),
  'C',
  'C for °C, F for °F; C if left out',
);

export const altitude = optionalColumn(
  'altitude',
  orZero(measure('altitude')),
  0,
  'metres above sea level (feet with US units or °F); 0 if left out',
);
