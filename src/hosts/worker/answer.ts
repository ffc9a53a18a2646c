import type { Caller } from '../../worksheet/call';
import type { Progress } from '../../worksheet/definition';
import type { Question, Reply } from './messages';

/** Works out one call that came to the worker, and tells how far it has come. Never rejects. */
export async function answerTo(
  { name, given, dateSystem }: Question,
  caller: Caller,
  onProgress: (progress: Progress) => void = () => undefined,
): Promise<Reply> {
  try {
    await caller.ready([name]);
    return { block: caller.call(name, given, { dateSystem, onProgress }) };
  } catch (fault) {
    return { defect: fault instanceof Error ? fault.message : String(fault) };
  }
}
