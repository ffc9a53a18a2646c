import type { Workbook } from '../../src/hosts/xlsx/describe';
import { cheapest, recipes, runs } from './mixing';
import { bulbs, freshAir, roomClimate, setPoints } from './roomClimate';
import { runLogs, steam, steriliser } from './steriliser';

export const workRooms: Workbook = {
  file: 'work-rooms',
  title: 'Mixing, steriliser and room climate of an invented farm',
  sheets: [
    ...[...recipes, cheapest, runs],
    ...[steriliser, runLogs, steam],
    ...[roomClimate, setPoints, freshAir, bulbs],
  ],
};
