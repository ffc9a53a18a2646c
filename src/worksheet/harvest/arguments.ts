import { column, optionalColumn, table } from '../cells/arguments';
import { efficiency, loss, mass, moisture } from '../cells/kinds';
import { croppedLotColumns, harvestColumns } from '../tables';

// Arguments that several functions of the family share.

/** What one block is and what is expected of it: for functions that go from blocks to mass and back. */
export const blockArguments = [
  column('block mass', mass(), 'wet mass of one block'),
  column('moisture', moisture(), 'water share of the wet block: 62% or 0.62'),
  column('efficiency', efficiency(), 'biological efficiency expected over all flushes: 80%'),
  optionalColumn('loss', loss(), 0, 'share of blocks lost before picking; 0 if left out'),
] as const;

export const SHARE_MEANING = 'share of the yield counted, 70% for the first flush; 100% if left out';

export const harvestsTable = table(
  'harvests',
  harvestColumns,
  'table with lot, date and mass, and flush where recorded',
);

export const croppedLotsTable = table(
  'lots',
  croppedLotColumns,
  'table with lot, strain, blocks, block mass, moisture and loaded',
);
