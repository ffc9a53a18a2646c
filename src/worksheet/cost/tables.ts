import { table } from '../cells/arguments';
import { key, optional, optionalOr, required } from '../cells/columns';
import { HEADERS } from '../alsoCalled';
import { choice, count, days, mass, orNone, price, text } from '../cells/kinds';

// The tables of the family.

export const costColumns = {
  item: key(text(), 'what the money is spent on', 'expense', 'description', 'cost item'),
  amount: required(price(), 'what it costs; free where it costs nothing', 'cost', 'price', 'spend'),
  per: optionalOr(
    choice({
      block: 'spent once for each block',
      batch: 'spent once for all blocks of the call',
      mass: 'spent for each unit of fresh mass, in the unit of your masses',
      'shelf day': 'spent for each shelf and day',
    }),
    'batch',
    'what the amount is spent for; batch without this column',
  ),
};

export const costsTable = table(
  'costs',
  costColumns,
  'table with item, amount and per: block, batch, mass or shelf day',
);

export const costedCropColumns = {
  lot: key(text(), 'name of the lot', ...HEADERS.lot),
  strain: optional(text(), 'strain of the lot', ...HEADERS.strain),
  blocks: required(count(), 'number of blocks in the lot', ...HEADERS.blocks),
  total: optional(
    orNone(mass()),
    'fresh mass picked; none where the crop failed, blank where nothing is picked yet',
  ),
  days: optional(days(), 'days from loading to the last pick', 'crop days'),
  'shelf days': optional(days(), 'days the shelves were really taken, where they differ from days'),
};

export const cropsTable = table(
  'crops',
  costedCropColumns,
  'a CROPTABLE result, or any table with lot, blocks, total and days',
);
