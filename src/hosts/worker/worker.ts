import { newCaller } from '../../worksheet/call';
import { answerTo } from './answer';
import { STARTED, type Question } from './messages';

// What runs in the worker: a caller of its own, which keeps its solver and the plans it has solved.

const caller = newCaller();

addEventListener('message', ({ data }: MessageEvent<Question>) => {
  void answerTo(data, caller).then((reply) => postMessage(reply));
});
postMessage(STARTED);
