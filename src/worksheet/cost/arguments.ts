import { optionalSetting } from '../cells/arguments';
import { count } from '../cells/kinds';

// Arguments that several functions of the family share.

export const optionalBlocksPerShelf = optionalSetting(
  'blocks per shelf',
  count(),
  undefined,
  'blocks a shelf holds, for costs per shelf day',
);
