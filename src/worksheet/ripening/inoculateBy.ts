import { inoculateBy } from '../../maths/ripening/inoculateBy';
import { column, keyColumn, table } from '../cells/arguments';
import { only } from '../cells/columns';
import { serial, text } from '../cells/kinds';
import { date, value } from '../cells/results';
import { defineFunction } from '../define';
import { strainColumns } from '../tables';
import { point } from './arguments';

export const INOCULATEBY = defineFunction({
  name: 'INOCULATEBY',
  family: 'ripening',
  arguments: [
    keyColumn('wanted', serial(), 'date of the first pick'),
    column('strain', text(), 'strain to inoculate, as in strains'),
    table(
      'strains',
      only(strainColumns, 'strain', 'earliest', 'best', 'latest', 'first pick'),
      'table with strain, its days to ready (earliest, best, latest) and first pick',
    ),
    point,
  ],
  result: value('day to inoculate', date()),
  eachRow: (wantedSerial, strainName, strains, atPoint) => {
    const row = strains.find(strainName, 'strain');
    return inoculateBy(wantedSerial, row, atPoint, row['first pick']);
  },
});
