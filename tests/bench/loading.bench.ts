import { leastCost, loadPlan } from '../../src/maths/loading/loadPlan';
import { loadModel } from '../../src/maths/loading/loadModel';
import { planView } from '../../src/maths/loading/loadingProblem';
import { loadHighs } from '../../src/maths/shared/linearProgram';
import { instance } from '../maths/loading/instances';
import { compare, type Measurement } from './measure';

// A loading plan is several linear programmes, rounding to whole blocks and giving rooms: its time against one solution
// of its linear programme alone.

const SIZES = [
  { lots: 20, days: 28, rooms: 3, strains: 4, products: 4 },
  { lots: 80, days: 56, rooms: 6, strains: 8, products: 8 },
];

export async function measurements(): Promise<Measurement[]> {
  const highs = await loadHighs();
  return SIZES.map((size) => {
    const problem = instance(1, size);
    const { shortage, rest } = loadPlan(problem, highs).cost;
    const { bound, view } = loadPlan(problem, highs);
    const over =
      (100 * Math.max(0, shortage - bound!.shortage, shortage + rest - bound!.shortage - bound!.rest)) /
      view.orderValue;
    return compare(
      `loading plan of ${size.lots} lots over ${size.days} days (costs ${over.toFixed(2)}% of the orders’ value over the bound)`,
      () => loadPlan(problem, highs),
      'one linear programme in parts of blocks',
      () => leastCost(highs, loadModel(planView(problem)).program),
      undefined,
      6,
    );
  });
}
