import { loadPlan } from '../../../src/maths/loading/loadPlan';
import { loadHighs, loadYalps, type LinearSolver } from '../../../src/maths/shared/linearProgram';
import { instance, type InstanceSize } from './instances';

// A program of its own, because the small solver is a hundred times slower inside the test runner's sandbox. For each
// farm of the seeds on its command line, `size:seed`, it prints whether the other ways to solve give HiGHS's own plan.

const SIZES: Record<string, InstanceSize> = {
  small: { lots: 10, days: 14, rooms: 2, strains: 2, products: 2 },
  medium: { lots: 24, days: 28, rooms: 3, strains: 3, products: 2 },
};

async function main(farms: readonly string[]): Promise<void> {
  const [highs, yalps] = await Promise.all([loadHighs(), loadYalps()]);
  const simplex: LinearSolver = { ...highs, solve: (program) => highs.solve(program, 'simplex') };
  for (const farm of farms) {
    const [size, seed] = farm.split(':') as [string, string];
    const problem = instance(Number(seed), SIZES[size]!);
    const loads = JSON.stringify(loadPlan(problem, highs).loads);
    const small = loadPlan(problem, yalps);
    const same = {
      simplex: JSON.stringify(loadPlan(problem, simplex).loads) === loads,
      small: JSON.stringify(small.loads) === loads,
    };
    console.log(JSON.stringify({ farm, method: small.method, ...same }));
  }
}

void main(process.argv.slice(2));
