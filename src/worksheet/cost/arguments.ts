import { optionalSetting } from '../cells/arguments';
import { count, number } from '../cells/kinds';

// Arguments that several functions of the family share.

export const price = number({ above: 0 });

export const optionalBlocksPerShelf = optionalSetting(
  'blocks per shelf',
  count(),
  undefined,
  'blocks a shelf holds, for costs per shelf day',
);
