import fc from 'fast-check';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { described } from '../../src/worksheet/described';
import { loadTools } from '../../src/worksheet/tools';
import { callsOf } from '../worksheet/calls';
import { largeFarm } from '../worksheet/loadingFarm';
import { seeded } from './measure';

// A day of work in one process: random calls of every function, then loading plans, each another one. What stays in
// memory after a collection is told after each tenth of either. `npm run bench -- soak`; `CALLS` and `PLANS` in the
// environment say how many.

const CALLS = Number(process.env['CALLS'] ?? 100_000);
const PLANS = Number(process.env['PLANS'] ?? 10_000);

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

function megabytes(): string {
  collect();
  const { heapUsed, external, rss } = process.memoryUsage();
  const shown = (bytes: number): string => (bytes / 1e6).toFixed(0).padStart(5);
  return `heap ${shown(heapUsed)}  outside it ${shown(external)}  resident ${shown(rss)} MB`;
}

/** Does a job so often, and tells the memory after each tenth, as it goes: the whole takes long. */
function telling(what: string, times: number, job: (turn: number) => void): void {
  for (let turn = 0; turn < times; turn++) {
    job(turn);
    if ((turn + 1) % Math.ceil(times / 10) === 0)
      console.log(`${turn + 1} of ${times} ${what}: ${megabytes()}`);
  }
}

export async function figures(): Promise<string[]> {
  const tools = await loadTools(new Set(described.flatMap(({ needs }) => needs)), {});
  const quick = described.filter(({ name }) => name !== 'SEASON');
  const perFunction = Math.ceil(CALLS / 10 / quick.length);
  console.log(`${10 * quick.length * perFunction} random calls of ${quick.length} functions`);
  telling('parts of the calls', 10, (seed) => {
    for (const f of quick) {
      fc.assert(
        fc.property(callsOf(f), (given) => {
          f.evaluate(given, { dateSystem: 1900, tools });
        }),
        { numRuns: perFunction, seed: seed + 1 },
      );
    }
  });
  const plan = described.find(({ name }) => name === 'LOADPLAN')!;
  const random = seeded(1);
  const farm = largeFarm(12, 28);
  telling('plans', PLANS, () => {
    const [lots, ...others] = farm;
    const [header, ...rows] = lots!;
    const at = header!.indexOf('blocks');
    const changed = rows.map((row) =>
      row.map((cell, column) => (column === at ? 1 + Math.floor(200 * random()) : cell)),
    );
    plan.evaluate([[header!, ...changed], ...others], { dateSystem: 1900, tools });
  });
  return [];
}
