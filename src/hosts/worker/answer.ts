import type { Caller } from '../../worksheet/call';
import type { Question, Reply } from './messages';

/** Works out one call that came to the worker. Never rejects. */
export async function answerTo({ name, given, dateSystem }: Question, caller: Caller): Promise<Reply> {
  try {
    await caller.ready([name]);
    return { block: caller.call(name, given, { dateSystem }) };
  } catch (fault) {
    return { defect: fault instanceof Error ? fault.message : String(fault) };
  }
}
