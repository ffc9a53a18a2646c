import { figures, heading, remark, type Sheet } from '../../src/hosts/xlsx/describe';
import { surenesses } from './audit';

export const start: Sheet = {
  name: 'Start',
  title: 'A quarter of picks, audited',
  notes: [
    'An invented farm’s picks from the loads of seven weeks, with slips planted on purpose. Nothing here was measured.',
  ],
  things: [
    heading('A4', 'Findings of the audit'),
    figures(
      'A5',
      ...surenesses,
      { label: 'Slips planted', formula: '=Planted!B5', reads: 'count', remark: 'see Planted' },
      { label: 'Of these found', formula: '=Planted!B6', reads: 'count' },
    ),
    heading('A11', 'The sheets'),
    remark(
      'A12',
      'Audit – one line per finding, the surest first, with what the value would be if the slip were corrected.',
      'Planted – every slip that was planted, and whether the audit found it.',
      'Crops, Compared, Differences, Next lot – what the corrected records show, and how sure it is.',
      'Losses and One strain – control charts: blocks lost by week, and the efficiencies of one strain’s lots.',
      'Costs – what a block costs and what shelves earn. Cold chain – how much of its life a delivery has used.',
      'Corrected – the same picks after going through the findings; flushes found from the dates.',
      'Picks, Lots and Strains are only typed in: what was typed, slips included, and what the audit compares it with.',
    ),
    remark(
      'A20',
      'An audit finds what is unlikely; it does not know what happened. Look at the scales’ sheet before you correct.',
    ),
  ],
  upright: true,
  widths: { A: 30, B: 14 },
};
