import type { Workbook } from '../../src/hosts/xlsx/describe';
import { audit, planted } from './audit';
import { charts, coldChain, compared, costs, crops } from './crops';
import { lots, strains } from './lots';
import { corrected, picks } from './picks';
import { start } from './start';

export const yieldAudit: Workbook = {
  file: 'yield-audit',
  title: 'A quarter of picks, audited, of an invented farm',
  sheets: [start, picks, lots, strains, audit, planted, corrected, crops, compared, charts, costs, coldChain],
};
