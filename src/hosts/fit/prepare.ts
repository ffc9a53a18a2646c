import { plainValues, type Block, type Grid } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { Fit } from './fitted';
import { sheetsOf, type JobSheets } from './write';
import type { AnswerCall, Surroundings } from './answerPage';

/** Works out a call, wherever the host does that; undefined once nobody waits for it. */
export type Ask = (
  name: string,
  grids: readonly (Grid | null)[],
  dateSystem: DateSystem,
) => Promise<Block | undefined>;

/** A call that would be written, and what it gives now. */
export interface AnsweredCall extends AnswerCall {
  readonly block: Block;
}

/** What a fit would write, and what it gives, before anything is written. */
export interface Prepared extends JobSheets {
  readonly calls: readonly AnsweredCall[];
}

/** Lays out the sheets of a fit in which nothing is open, by what their calls give now. */
export async function prepare(fit: Fit, around: Surroundings, ask: Ask): Promise<Prepared | undefined> {
  const blocks: Block[] = [];
  for (const { name, grids } of sheetsOf(fit, around).calls) {
    const block = await ask(name, grids, fit.book.dateSystem);
    if (!block) return undefined;
    blocks.push(block);
  }
  const written = sheetsOf(fit, { ...around, headers: blocks.map(headersOf) });
  return { ...written, calls: written.calls.map((call, i) => ({ ...call, block: blocks[i]! })) };
}

/** The header row of an answer; undefined where all it gives is an error. */
function headersOf(block: Block): string[] | undefined {
  const [first = []] = plainValues(block);
  return first.every((one): one is string => typeof one === 'string') ? first : undefined;
}
