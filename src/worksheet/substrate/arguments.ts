import { column, keyColumn, optionalSetting, setting } from '../cells/arguments';
import { count, fraction, fractionBelowOne, mass } from '../cells/kinds';

// Arguments that several functions of the family share.

export const blocks = setting('blocks', count(), 'number of blocks to fill');
export const blockMass = setting('block mass', mass(), 'wet mass of a finished block');
export const wantedMoisture = setting(
  'moisture',
  fractionBelowOne(),
  'water share of the substrate wanted: 62%',
);
export const spare = optionalSetting(
  'spare',
  fraction(),
  0,
  'share mixed over, for what sticks to the mixer; 0 if left out',
);

export const masses = keyColumn('masses', mass(), 'mass of each ingredient in the mixer');
export const moistures = column(
  'moistures',
  fractionBelowOne(),
  'water share of each ingredient as received',
);
