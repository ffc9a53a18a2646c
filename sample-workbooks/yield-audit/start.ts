import { remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'A quarter of picks, audited',
  notes: [
    'An invented farm’s picks from the loads of seven weeks, with slips planted on purpose. Nothing here was measured.',
  ],
  things: [
    remark(
      'A4',
      'Picks: what was typed, slips included. Lots and Strains: what the audit compares it with.',
      'Audit: one line per finding, the surest first, with what the value would be if the slip were corrected.',
      'Planted: every slip that was planted, and whether the audit found it.',
      'Corrected: the same picks after going through the findings; flushes found from the dates.',
      'Crops, Compared, Charts, Costs: what the corrected records show, and how sure it is.',
      'Cold chain: how much of their life a delivery’s mushrooms have used.',
    ),
    remark(
      'A12',
      'An audit finds what is unlikely; it does not know what happened. Look at the scales’ sheet before you correct.',
    ),
  ],
};
