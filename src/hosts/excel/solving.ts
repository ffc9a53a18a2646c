import { newCaller } from '../../worksheet/call';
import { solverIn } from '../worker/solver';
import { startWorker } from '../worker/start';

/** One caller and one solver for the cells and the pane, which run in the same page. */
export const caller = newCaller();
export const solve = solverIn(startWorker, caller);
