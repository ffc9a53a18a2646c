import { createInterface } from 'node:readline';
import { newCaller } from '../../worksheet/call';
import { catalogue } from '../../worksheet/catalogue';
import type { DateSystem } from '../../worksheet/calendar';
import type { Block, Grid } from '../../worksheet/cells/cell';
import { loadTools } from '../../worksheet/tools';
import { renameIn } from './names';
import { reportOn } from './report';

interface Call {
  readonly call: string;
  readonly grids: readonly (Grid | null)[];
  readonly dateSystem: DateSystem;
  /** Set where the call took too long for a window that waits: no solver then, but the rule of thumb. */
  readonly quick?: true;
}

/** A line from Calc: a call of a function, or a saved copy of the workbook to look through, or a file to make readable. */
type Asked = Call | { readonly report: string } | { readonly rename: string; readonly into: string };

const caller = newCaller();

async function answerTo(line: string): Promise<object> {
  const asked = JSON.parse(line) as Asked;
  if ('report' in asked) return reportOn(asked.report);
  if ('rename' in asked) return renameIn(asked.rename, asked.into);
  if (asked.quick) return quickAnswer(asked);
  await caller.ready([asked.call]);
  return caller.call(asked.call, asked.grids, { dateSystem: asked.dateSystem });
}

async function quickAnswer({ call, grids, dateSystem }: Call): Promise<Block> {
  const definition = catalogue.find(({ name }) => name === call)!;
  const tools = await loadTools(definition.needs.filter((need) => need !== 'solver'));
  return definition.evaluate(grids, { dateSystem, tools: { ...tools, solver: null } });
}

/** One line answers each line that comes in, in order. The process ends with the one that started it. */
async function answerLines(): Promise<void> {
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
    const answer = await answerTo(line).catch((fault: unknown) => ({ failed: String(fault) }));
    process.stdout.write(`${JSON.stringify(answer)}\n`);
  }
}

void answerLines();
