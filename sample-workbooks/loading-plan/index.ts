import type { Workbook } from '../../src/hosts/xlsx/describe';
import { backwards } from './backwards';
import { board } from './board';
import { blocks } from './blocks';
import { byHand } from './byHand';
import { farm } from './farm';
import { shelfBlocks, split } from './oneRoom';
import { orders } from './orders';
import { picks } from './picks';
import { checked, plan } from './plan';
import { season } from './season';
import { shelves } from './shelves';
import { start } from './start';
import { strains } from './strains';

export const loadingPlan: Workbook = {
  file: 'loading-plan',
  title: 'Loading plan of an invented farm',
  sheets: [
    ...[start, plan, checked, orders, picks, shelves, board, blocks],
    ...[byHand, backwards, season, shelfBlocks, split, farm, strains],
  ],
};
