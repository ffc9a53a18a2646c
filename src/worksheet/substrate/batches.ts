import { evenBatches } from '../../maths/substrate/evenBatches';
import { setting } from '../cells/arguments';
import { count } from '../cells/kinds';
import { amount, tableResult } from '../cells/results';
import { defineFunction } from '../define';

export const BATCHES = defineFunction({
  name: 'BATCHES',
  family: 'substrate',
  arguments: [
    setting('blocks', count(), 'blocks to run'),
    setting('capacity', count(), 'blocks one run holds'),
  ],
  result: tableResult({ run: amount(), blocks: amount() }),
  whole: (blocks, capacity) =>
    evenBatches(blocks, capacity).map((inRun, run) => ({ run: run + 1, blocks: inRun })),
});
