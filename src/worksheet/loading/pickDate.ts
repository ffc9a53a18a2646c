import { pickDate } from '../../maths/loading/pickDate';
import { column, keyColumn, optionalColumn, table } from '../cells/arguments';
import { only } from '../cells/columns';
import { count, serial, text } from '../cells/kinds';
import { date, value } from '../cells/results';
import { defineFunction } from '../define';
import { strainColumns } from '../tables';

export const PICKDATE = defineFunction({
  name: 'PICKDATE',
  family: 'loading',
  arguments: [
    keyColumn('loaded', serial(), 'date the blocks were opened and set on the shelf'),
    column('strain', text(), 'strain of each load, as in strains'),
    table(
      'strains',
      only(strainColumns, 'strain', 'first pick', 'flush gap', 'flushes'),
      'table with strain, first pick, flush gap and flushes',
    ),
    optionalColumn('flush', count(), 1, 'which flush; 1 if left out'),
  ],
  result: value('first pick', date()),
  eachRow: (loadedSerial, strainName, strains, flush) => {
    const times = strains.find(strainName, 'strain');
    return pickDate(
      loadedSerial,
      { firstPick: times['first pick'], flushGap: times['flush gap'], flushes: times.flushes },
      flush,
    );
  },
});
