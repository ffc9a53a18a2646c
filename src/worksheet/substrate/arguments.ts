import { column, keyColumn, optionalSetting, setting } from '../cells/arguments';
import { count, fraction, fractionBelowOne, mass, moisture, orNone } from '../cells/kinds';

// Arguments that several functions of the family share.

export const blocks = setting('blocks', count(), 'number of blocks to fill');
export const blockMass = setting('block mass', mass(), 'wet mass of a finished block');
export const wantedMoisture = setting('moisture', moisture(), 'water share of the substrate wanted: 62%');
export const spare = optionalSetting(
  'spare',
  fraction(),
  0,
  'share mixed over, for what sticks to the mixer; 0 if left out',
);

export const spawnRate = optionalSetting(
  'spawn rate',
  fractionBelowOne(),
  0,
  'spawn by wet mass of substrate; 0 if left out',
);

export const masses = keyColumn('masses', orNone(mass()), 'mass of each ingredient in the mixer');
export const moistures = column(
  'moistures',
  orNone(fractionBelowOne()),
  'water share of each ingredient as received',
);
