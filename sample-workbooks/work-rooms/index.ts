import type { Workbook } from '../../src/hosts/xlsx/describe';
import { mixingDay } from './mixingDay';
import { roomClimate } from './roomClimate';
import { steriliser } from './steriliser';

export const workRooms: Workbook = {
  file: 'work-rooms',
  title: 'Mixing, steriliser and room climate of an invented farm',
  sheets: [mixingDay, steriliser, roomClimate],
};
