import type { Workbook } from '../../src/hosts/xlsx/describe';
import { audit, planted } from './audit';
import { losses, oneStrain } from './controlCharts';
import { coldChain, costs } from './costs';
import { compared, crops, differences, nextLot } from './crops';
import { lots, strains } from './lots';
import { corrected, picks } from './picks';
import { start } from './start';

export const yieldAudit: Workbook = {
  file: 'yield-audit',
  title: 'A quarter of picks, audited, of an invented farm',
  sheets: [
    ...[start, audit, planted, crops, compared, differences, nextLot],
    ...[losses, oneStrain, costs, coldChain, corrected, picks, lots, strains],
  ],
};
