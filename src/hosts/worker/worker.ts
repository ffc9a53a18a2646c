import { catalogue } from '../../worksheet/catalogue';
import { answerTo } from './answer';
import { STARTED, type Question } from './messages';

// What runs in the worker: a catalogue of its own, which keeps its solver and the plans it has solved.

addEventListener('message', ({ data }: MessageEvent<Question>) => {
  void answerTo(data, catalogue).then((reply) => postMessage(reply));
});
postMessage(STARTED);
