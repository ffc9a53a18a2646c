import { newCaller } from '../../worksheet/call';
import { solverIn } from '../worker/solver';
import { startWorker } from '../worker/start';
import { Works } from '../worker/works';

/** One caller and one solver for the cells and the pane, which run in the same page. */
export const caller = newCaller();
export const works = new Works();
export const solve = solverIn(startWorker, caller, undefined, works);
