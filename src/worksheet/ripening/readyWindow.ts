import { readyDate, type RipeningPoint } from '../../maths/ripening/readyDate';
import { orFault } from '../cells/fault';
import { date, row } from '../cells/results';
import { defineFunction } from '../define';
import { inoculated, ripeningStrains, roomTemperature, speedAt, strain } from './arguments';

export const READYWINDOW = defineFunction({
  name: 'READYWINDOW',
  family: 'ripening',
  arguments: [inoculated, strain, ripeningStrains, roomTemperature],
  result: row({ earliest: date(), best: date(), latest: date() }),
  eachRow: (inoculatedSerial, strainName, strains, room) => {
    const strainRow = strains.find(strainName, 'strain');
    const speed = speedAt(room, strainRow);
    const ready = (point: RipeningPoint) =>
      orFault(() => readyDate(inoculatedSerial, strainRow, point, speed));
    return { earliest: ready('earliest'), best: ready('best'), latest: ready('latest') };
  },
});
