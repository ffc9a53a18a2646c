import type { Workbook } from '../../src/hosts/xlsx/describe';
import { lots } from './lots';
import { mix } from './mix';
import { orders } from './orders';
import { picks } from './picks';
import { start } from './start';
import { strains } from './strains';

export const farmBook: Workbook = {
  file: 'farm-book',
  title: 'Farm book of an invented farm',
  sheets: [start, strains, lots, mix, picks, orders],
};
