import type { Workbook } from '../../src/hosts/xlsx/describe';
import { crops } from './crops';
import { lots } from './lots';
import { mix } from './mix';
import { mixer } from './mixer';
import { orders } from './orders';
import { picked } from './picked';
import { picks } from './picks';
import { ready } from './ready';
import { start } from './start';
import { strains } from './strains';

export const farmBook: Workbook = {
  file: 'farm-book',
  title: 'Farm book of an invented farm',
  sheets: [start, ready, lots, mix, mixer, orders, crops, picked, picks, strains],
};
