import { newCaller } from '../../worksheet/call';
import { answerTo } from './answer';
import type { Question, Started, Told } from './messages';

// What runs in the worker: a caller of its own, which keeps its solver and the plans it has solved.

const caller = newCaller();

addEventListener('message', ({ data }: MessageEvent<Question>) => {
  void answerTo(data, caller, (progress) => postMessage({ progress } satisfies Told)).then((reply) =>
    postMessage(reply),
  );
});

const holding = (holds: string | null): void => postMessage({ holds } satisfies Started);
holding(null);
// Pages of one server share their locks: each worker has one of its own.
const lock = `pinset ${Math.random()}`;
if ('locks' in navigator) {
  void navigator.locks.request(lock, () => {
    holding(lock);
    return new Promise(() => undefined);
  });
}
