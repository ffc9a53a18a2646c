import { stageOn } from '../../maths/ripening/stageOn';
import { column, table } from '../cells/arguments';
import { key, required } from '../cells/columns';
import { days, orZero, serial, text } from '../cells/kinds';
import { label, value } from '../cells/results';
import { defineFunction } from '../define';
import { HEADERS } from '../alsoCalled';
import { inoculated } from './arguments';

const stageColumns = {
  strain: key(text(), 'name of the strain, one row for each of its stages', ...HEADERS.strain),
  stage: required(text(), 'name of the stage', 'phase', 'stage name'),
  'from day': required(
    orZero(days()),
    'day the stage begins; the day of inoculation is day 0',
    'day',
    'start day',
    'starts on day',
  ),
};

export const STAGE = defineFunction({
  name: 'STAGE',
  family: 'ripening',
  arguments: [
    inoculated,
    column('on', serial(), 'the date asked about'),
    column('strain', text(), 'strain of each lot, as in stages'),
    table(
      'stages',
      stageColumns,
      'table with strain, stage and from day: the day it begins, counted from inoculation as day 0',
    ),
  ],
  result: value('stage', label()),
  eachRow: (inoculatedSerial, onSerial, strainName, stages) => {
    const ofStrain = stages.findAll(strainName, 'strain');
    return stageOn(
      inoculatedSerial,
      onSerial,
      ofStrain.map((row) => ({ stage: row.stage, fromDay: row['from day'] })),
    );
  },
});
