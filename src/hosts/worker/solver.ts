import { cellError, type Block } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { Progress, WorksheetFunction } from '../../worksheet/definition';
import type { Caller } from '../../worksheet/call';
import type { Given, Question, Reply, Started, Told } from './messages';
import type { Works } from './works';

/**
 * Gives the answer of a function that may take long, or undefined once the call is cancelled. Rejects with what
 * should not have happened.
 */
export type Solve = (
  definition: WorksheetFunction,
  given: Given,
  dateSystem: DateSystem,
  cancelled: AbortSignal,
) => Promise<Block | undefined>;

/** What a newer call has replaced is cancelled in the same turn: nothing long begins before the next. */
const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/**
 * Seconds that a page may solve, standing still meanwhile: Excel starts all add-ins again where a page is silent for five
 * (the vendor's resource limits, September 2025). The rule of thumb comes after them.
 */
export const PAGE_LIMIT = 2.5;

/** Counts down from now, for one call that is worked out in the page. */
export function pageSeconds(): () => number {
  const end = performance.now() + 1000 * PAGE_LIMIT;
  return () => (end - performance.now()) / 1000;
}

/** Solves in the page itself, which stands still meanwhile. */
export const solverHere =
  (caller: Caller): Solve =>
  async ({ name }, given, dateSystem, cancelled) => {
    await caller.ready([name]);
    await nextTurn();
    if (cancelled.aborted) return undefined;
    return caller.call(name, given, { dateSystem, secondsLeft: pageSeconds() });
  };

/** As much of a worker as is used here. */
export type WorkerLike = Pick<
  Worker,
  'postMessage' | 'terminate' | 'onmessage' | 'onerror' | 'onmessageerror'
>;

/** A new worker that has said nothing after this many milliseconds is not waited for any longer. */
export const START_LIMIT = 20_000;

/** The page solves for so many milliseconds after a worker's script did not come; then a worker is tried again. */
export const RETRY_AFTER = 60_000;

/**
 * A call that has no answer after this many milliseconds never gets one, where the browser does not tell that its worker
 * has died. No worker can say that it is still at work while it solves, so this is far above what the longest calls take.
 */
export const ANSWER_LIMIT = 30 * 60_000;

const STOPPED = 'what works it out has stopped';

/** The answer of a call that somebody stopped. */
export const STOPPED_BY_HAND: Block = {
  rows: [[cellError('#N/A', 'stopped before it was worked out')]],
  formats: ['plain'],
};

interface Call {
  readonly question: Question;
  readonly solveHere: () => Promise<Block | undefined>;
  readonly settle: (answer: Block | undefined) => void;
  readonly fail: (defect: Error) => void;
}

/** Resolves once nobody holds a lock of this name: its worker has ended, however that came. Never rejects. */
export type WhenFree = (lock: string) => Promise<void>;

const whenFree: WhenFree = (lock) => navigator.locks.request(lock, () => undefined);

/**
 * Solves one call after another in a worker, so that the page stays alive and a running call can be stopped. Calls
 * wait on this side, so they outlive a worker. Where none starts (the browser has none, or a policy refuses it) the
 * page solves. `works` shows what is under way, and may stop it.
 */
export function solverIn(
  startWorker: () => WorkerLike,
  caller: Caller,
  ended: WhenFree = whenFree,
  works?: Works,
): Solve {
  const solveHere = solverHere(caller);
  const waiting: Call[] = [];
  let running: Call | undefined;
  let worker: WorkerLike | undefined;
  let noneStartsUntil = 0;
  let startTimer: ReturnType<typeof setTimeout>;
  let answerTimer: ReturnType<typeof setTimeout>;
  let since = 0;

  const show = (progress?: Progress): void =>
    works?.tell(running && { name: running.question.name, since, progress, waiting: waiting.length });

  if (works) {
    works.stop = () => {
      if (!running) return;
      const stopped = [running, ...waiting.splice(0)];
      stopWorker();
      finish();
      for (const { settle } of stopped) settle(STOPPED_BY_HAND);
    };
  }

  function stopWorker(): void {
    clearTimeout(startTimer);
    if (!worker) return;
    worker.onmessage = worker.onerror = worker.onmessageerror = null;
    worker.terminate();
    worker = undefined;
  }

  function newWorker(): WorkerLike {
    const started = startWorker();
    let hasStarted = false;
    startTimer = setTimeout(() => runHere(), START_LIMIT);
    started.onmessage = ({ data }: MessageEvent<Started | Told | Reply>) => {
      if ('holds' in data) {
        hasStarted = true;
        clearTimeout(startTimer);
        if (data.holds !== null) void ended(data.holds).then(() => started === worker && giveUp(STOPPED));
      } else if ('progress' in data) {
        show(data.progress);
      } else if ('block' in data) {
        finish()?.settle(data.block);
      } else {
        giveUp(data.defect);
      }
    };
    started.onerror = ({ message }) => {
      if (hasStarted) giveUp(message ? `${STOPPED} (${message})` : STOPPED);
      else runHere(Date.now() + RETRY_AFTER);
    };
    started.onmessageerror = () => giveUp('the answer could not be read');
    return started;
  }

  /** Ends the running call and lets the next begin. */
  function finish(): Call | undefined {
    clearTimeout(answerTimer);
    const ended = running;
    running = undefined;
    show();
    setTimeout(proceed);
    return ended;
  }

  /** A solver that has failed once is not trusted with the next call. */
  function giveUp(defect: string): void {
    stopWorker();
    finish()?.fail(new Error(defect));
  }

  function runHere(until = Infinity): void {
    noneStartsUntil = until;
    clearTimeout(answerTimer);
    stopWorker();
    const call = running!;
    const end = (): void => void (call === running && finish());
    call.solveHere().then(call.settle, call.fail).finally(end);
  }

  function proceed(): void {
    if (running) return;
    running = waiting.shift();
    if (!running) return;
    since = Date.now();
    show();
    if (Date.now() < noneStartsUntil) return runHere(noneStartsUntil);
    try {
      worker ??= newWorker();
      worker.postMessage(running.question);
      answerTimer = setTimeout(giveUp, ANSWER_LIMIT, 'what works it out has not answered for half an hour');
    } catch {
      runHere();
    }
  }

  return (definition, given, dateSystem, cancelled) => {
    if (!definition.takesLong) return solveHere(definition, given, dateSystem, cancelled);
    return new Promise((settle, fail) => {
      const call: Call = {
        question: { name: definition.name, given, dateSystem },
        solveHere: () => solveHere(definition, given, dateSystem, cancelled),
        settle,
        fail,
      };
      const cancel = (): void => {
        settle(undefined);
        if (call === running) {
          stopWorker();
          finish();
        } else if (waiting.includes(call)) {
          waiting.splice(waiting.indexOf(call), 1);
        }
      };
      if (cancelled.aborted) return cancel();
      cancelled.addEventListener('abort', cancel);
      waiting.push(call);
      setTimeout(proceed);
    });
  };
}
