import { readyDate } from '../../maths/ripening/readyDate';
import { date, value } from '../cells/results';
import { defineFunction } from '../define';
import { inoculated, point, ripeningStrains, roomTemperature, speedAt, strain } from './arguments';

export const READYDATE = defineFunction({
  name: 'READYDATE',
  family: 'ripening',
  arguments: [inoculated, strain, ripeningStrains, point, roomTemperature],
  result: value('date ready', date()),
  eachRow: (inoculatedSerial, strainName, strains, atPoint, room) => {
    const row = strains.find(strainName, 'strain');
    return readyDate(inoculatedSerial, row, atPoint, speedAt(room, row));
  },
});
