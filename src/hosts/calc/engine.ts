import { createInterface } from 'node:readline';
import { newCaller } from '../../worksheet/call';
import type { DateSystem } from '../../worksheet/calendar';
import type { Grid } from '../../worksheet/cells/cell';
import { renameIn } from './names';
import { reportOn } from './report';

interface Call {
  readonly call: string;
  readonly grids: readonly (Grid | null)[];
  readonly dateSystem: DateSystem;
  /** Set where the call took too long for a window that waits: no time for a solver then, so the rule of thumb. */
  readonly quick?: true;
}

/** A line from Calc: a call of a function, or a saved copy of the workbook to look through, or a file to make readable. */
type Asked = Call | { readonly report: string } | { readonly rename: string; readonly into: string };

const caller = newCaller();

async function answerTo(line: string): Promise<object> {
  const asked = JSON.parse(line) as Asked;
  if ('report' in asked) return reportOn(asked.report);
  if ('rename' in asked) return renameIn(asked.rename, asked.into);
  const { call, grids, dateSystem, quick } = asked;
  await caller.ready([call]);
  return caller.call(call, grids, quick ? { dateSystem, secondsLeft: () => 0 } : { dateSystem });
}

/** One line answers each line that comes in, in order. The process ends with the one that started it. */
async function answerLines(): Promise<void> {
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
    const answer = await answerTo(line).catch((fault: unknown) => ({ failed: String(fault) }));
    process.stdout.write(`${JSON.stringify(answer)}\n`);
  }
}

void answerLines();
