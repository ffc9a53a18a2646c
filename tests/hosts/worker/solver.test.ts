import { afterEach, beforeEach, describe, expect, jest, test } from '@jest/globals';
import { answerTo } from '../../../src/hosts/worker/answer';
import type { Question } from '../../../src/hosts/worker/messages';
import {
  ANSWER_LIMIT,
  RETRY_AFTER,
  solverHere,
  solverIn,
  START_LIMIT,
  STOPPED_BY_HAND,
  type WorkerLike,
} from '../../../src/hosts/worker/solver';
import { Works, type Work } from '../../../src/hosts/worker/works';
import { newCaller, type Caller } from '../../../src/worksheet/call';
import { keyColumn } from '../../../src/worksheet/cells/arguments';
import { type Block, cellError, formatted } from '../../../src/worksheet/cells/cell';
import { mass } from '../../../src/worksheet/cells/kinds';
import { amount, mixed, percent, row, value } from '../../../src/worksheet/cells/results';
import { defineFunction } from '../../../src/worksheet/define';
import type { WorksheetFunction } from '../../../src/worksheet/definition';

const words = {
  name: 'SAMPLE',
  family: 'harvest',
  arguments: [keyColumn('mass', mass(), 'a mass')],
} as const;

const evaluatedInPage = jest.fn();
const plain = defineFunction({
  ...words,
  needs: ['distributions'],
  takesLong: true,
  result: value('the mass', amount()),
  eachRow: (given: number) => {
    evaluatedInPage(given);
    return given;
  },
});

const caller = newCaller([plain]);

/** A worker that answers when told to. */
class FakeWorker implements WorkerLike {
  static made: FakeWorker[] = [];
  static get last(): FakeWorker {
    return FakeWorker.made.at(-1)!;
  }
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  onmessageerror: WorkerLike['onmessageerror'] = null;
  readonly asked: Question[] = [];
  terminated = false;

  constructor(starts = true, holds: string | null = null) {
    FakeWorker.made.push(this);
    if (starts) setTimeout(() => (this.say({ holds: null }), this.say({ holds })));
  }

  postMessage(question: Question): void {
    this.asked.push(structuredClone(question));
  }

  terminate(): void {
    this.terminated = true;
  }

  /** Says it even once terminated: it may be under way then. */
  say(data: unknown): void {
    this.onmessage?.call(this as never, { data: structuredClone(data) } as MessageEvent);
  }

  answer(...cells: Block['rows'][number]): void {
    this.say({ block: { rows: [cells], formats: cells.map(() => 'plain') } });
  }

  break(message = ''): void {
    this.onerror?.call(this as never, { message } as ErrorEvent);
  }
}

beforeEach(() => {
  FakeWorker.made = [];
  evaluatedInPage.mockClear();
});

const turn = async (): Promise<void> => {
  for (let timer = 0; timer < 5; timer++) await new Promise((resolve) => setTimeout(resolve));
};

const newSolver = (): ((mass: number) => { answer: Promise<unknown>; cancel: () => void }) => {
  const solve = solverIn(() => new FakeWorker(), caller);
  return (mass) => {
    const cancelling = new AbortController();
    const block = solve(plain, [[[mass]]], 1900, cancelling.signal);
    const answer = block.then(
      (given) => given?.rows,
      ({ message }: Error) => message,
    );
    return { answer, cancel: () => cancelling.abort() };
  };
};

const massesAsked = (worker: FakeWorker): unknown[] => worker.asked.map(({ given }) => given[0]![0]![0]);

describe('solverIn(startWorker) asks one worker', () => {
  test('one call after another, in the order they came', async () => {
    const ask = newSolver();
    const calls = [ask(1), ask(2), ask(3)];
    for (const mass of [1, 2, 3]) {
      await turn();
      expect(massesAsked(FakeWorker.last)).toHaveLength(mass);
      FakeWorker.last.answer(10 * mass);
    }
    expect(await Promise.all(calls.map(({ answer }) => answer))).toEqual([[[10]], [[20]], [[30]]]);
    expect(FakeWorker.made).toHaveLength(1);
    expect(evaluatedInPage).not.toHaveBeenCalled();
  });

  test('and tells it the workbook’s date system', async () => {
    const { signal } = new AbortController();
    const answer = solverIn(() => new FakeWorker(), caller)(plain, [[[1]]], 1904, signal);
    await turn();
    expect(FakeWorker.last.asked).toEqual([{ name: 'SAMPLE', given: [[[1]]], dateSystem: 1904 }]);
    FakeWorker.last.answer(10);
    expect((await answer)!.rows).toEqual([[10]]);
  });
});

describe('those who show what is under way', () => {
  const shown = (): {
    works: Works;
    told: (Work | undefined)[];
    ask: (mass: number) => Promise<Block | undefined>;
  } => {
    const works = new Works();
    const told: (Work | undefined)[] = [];
    works.watch((work) => told.push(work));
    const solve = solverIn(() => new FakeWorker(), caller, undefined, works);
    return { works, told, ask: (mass) => solve(plain, [[[mass]]], 1900, new AbortController().signal) };
  };

  test('are told of the call that runs, how far it has come, how many wait, and that it has ended', async () => {
    const { told, ask } = shown();
    const calls = [ask(1), ask(2)];
    await turn();
    FakeWorker.last.say({ progress: { done: 3, of: 8 } });
    FakeWorker.last.answer(10);
    await turn();
    FakeWorker.last.answer(20);
    await Promise.all(calls);
    expect(told.map((work) => work && [work.name, work.progress, work.waiting])).toEqual([
      undefined,
      ['SAMPLE', undefined, 1],
      ['SAMPLE', { done: 3, of: 8 }, 1],
      undefined,
      ['SAMPLE', undefined, 0],
      undefined,
    ]);
  });

  test('may stop it: what runs and what waits say that they were stopped, and the next call has a new worker', async () => {
    const { works, told, ask } = shown();
    const calls = [ask(1), ask(2)];
    await turn();
    const stopped = FakeWorker.last;
    works.stop();
    expect(await Promise.all(calls)).toEqual([STOPPED_BY_HAND, STOPPED_BY_HAND]);
    expect([stopped.terminated, told.at(-1)]).toEqual([true, undefined]);
    const next = ask(3);
    await turn();
    expect(FakeWorker.made).toHaveLength(2);
    FakeWorker.last.answer(30);
    expect((await next)!.rows).toEqual([[30]]);
  });

  test('lose nothing where there is nothing to stop', async () => {
    const { works, ask } = shown();
    works.stop();
    const call = ask(1);
    await turn();
    FakeWorker.last.answer(10);
    expect((await call)!.rows).toEqual([[10]]);
  });
});

describe('a cancelled call', () => {
  test('is never asked where it was waiting', async () => {
    const ask = newSolver();
    const [first, second, third] = [ask(1), ask(2), ask(3)];
    await turn();
    second.cancel();
    FakeWorker.last.answer(10);
    await turn();
    FakeWorker.last.answer(30);
    expect(await Promise.all([first.answer, second.answer, third.answer])).toEqual([
      [[10]],
      undefined,
      [[30]],
    ]);
    expect(massesAsked(FakeWorker.last)).toEqual([1, 3]);
    expect(FakeWorker.made).toHaveLength(1);
  });

  test('stops its worker where it was running, and those that waited go to a new one', async () => {
    const ask = newSolver();
    const [first, second] = [ask(1), ask(2)];
    await turn();
    const stopped = FakeWorker.last;
    first.cancel();
    expect(stopped.terminated).toBe(true);
    expect(await first.answer).toBeUndefined();
    await turn();
    expect(FakeWorker.last).not.toBe(stopped);
    stopped.answer(10);
    FakeWorker.last.answer(20);
    expect(await second.answer).toEqual([[20]]);
  });

  test('among many that one edit cancels starts no worker for the others', async () => {
    const ask = newSolver();
    const old = [ask(1), ask(2), ask(3)];
    await turn();
    for (const { cancel } of old) cancel();
    const next = ask(4);
    await turn();
    FakeWorker.last.answer(40);
    expect(await next.answer).toEqual([[40]]);
    expect(FakeWorker.made.map(massesAsked)).toEqual([[1], [4]]);
  });

  test('is not asked where it was cancelled before it came', async () => {
    const call = newSolver()(1);
    call.cancel();
    await turn();
    expect(await call.answer).toBeUndefined();
    expect(FakeWorker.made).toHaveLength(0);
  });

  test('that has its answer already disturbs nothing', async () => {
    const ask = newSolver();
    const first = ask(1);
    await turn();
    FakeWorker.last.answer(10);
    expect(await first.answer).toEqual([[10]]);
    first.cancel();
    const second = ask(2);
    await turn();
    FakeWorker.last.answer(20);
    expect(await second.answer).toEqual([[20]]);
    expect(FakeWorker.made).toHaveLength(1);
  });
});

describe('a worker that', () => {
  test('dies gives one fault, and the next call goes to a new one', async () => {
    const ask = newSolver();
    const [first, second] = [ask(1), ask(2)];
    await turn();
    FakeWorker.last.break('out of memory');
    expect(await first.answer).toBe('what works it out has stopped (out of memory)');
    await turn();
    FakeWorker.last.answer(20);
    expect(await second.answer).toEqual([[20]]);
    expect(FakeWorker.made.map(({ terminated }) => terminated)).toEqual([true, false]);
  });

  test('reports a defect gives that fault, and is replaced', async () => {
    const ask = newSolver();
    const first = ask(1);
    await turn();
    FakeWorker.last.say({ defect: 'unreachable executed' });
    expect(await first.answer).toBe('unreachable executed');
    expect(FakeWorker.last.terminated).toBe(true);
  });

  test('says what cannot be read gives a fault', async () => {
    const first = newSolver()(1);
    await turn();
    FakeWorker.last.onmessageerror!.call(FakeWorker.last as never, {} as MessageEvent);
    expect(await first.answer).toBe('the answer could not be read');
  });

  test('dies while nothing is asked of it is replaced at the next call', async () => {
    const ask = newSolver();
    const first = ask(1);
    await turn();
    FakeWorker.last.answer(10);
    await first.answer;
    FakeWorker.last.break();
    const second = ask(2);
    await turn();
    FakeWorker.last.answer(20);
    expect(await second.answer).toEqual([[20]]);
    expect(FakeWorker.made).toHaveLength(2);
  });
});

describe('a worker that dies without a word', () => {
  /** As the browser's locks: one that is asked for is given once its worker has ended. */
  const locks = new Map<string, () => void>();
  const whenFree = (lock: string): Promise<void> => new Promise((free) => locks.set(lock, free));
  const dies = (worker: number): void => locks.get(`lock ${worker}`)!();
  const solve = solverIn(() => new FakeWorker(true, `lock ${FakeWorker.made.length}`), caller, whenFree);
  const ask = (mass: number): Promise<unknown> =>
    solve(plain, [[[mass]]], 1900, new AbortController().signal).then(
      (block) => block?.rows,
      ({ message }: Error) => message,
    );

  test('is told at once, and the calls that wait go to a new one', async () => {
    const [first, second] = [ask(1), ask(2)];
    await turn();
    dies(0);
    expect(await first).toBe('what works it out has stopped');
    await turn();
    expect(FakeWorker.made.map(massesAsked)).toEqual([[1], [2]]);
    FakeWorker.last.answer(20);
    expect(await second).toEqual([[20]]);
    // One that was ended while idle is replaced without a fault.
    dies(1);
    await turn();
    const third = ask(3);
    await turn();
    FakeWorker.last.answer(30);
    expect(await third).toEqual([[30]]);
    expect(FakeWorker.made.map(({ terminated }) => terminated)).toEqual([true, true, false]);
  });
});

describe('a worker that started and never answers', () => {
  beforeEach(() => void jest.useFakeTimers());
  afterEach(() => void jest.useRealTimers());

  test('is told after a time limit, and the calls that wait go to a new one', async () => {
    const ask = newSolver();
    const [first, second] = [ask(1), ask(2)];
    await jest.advanceTimersByTimeAsync(ANSWER_LIMIT - 1_000);
    expect(FakeWorker.made).toHaveLength(1);
    await jest.advanceTimersByTimeAsync(1_100);
    expect(await first.answer).toBe('what works it out has not answered for half an hour');
    expect(FakeWorker.made.map(({ terminated }) => terminated)).toEqual([true, false]);
    FakeWorker.last.answer(20);
    expect(await second.answer).toEqual([[20]]);
  });

  test('is not taken for one while each of many calls is answered in time', async () => {
    const ask = newSolver();
    for (const mass of [1, 2, 3]) {
      const { answer } = ask(mass);
      await jest.advanceTimersByTimeAsync(ANSWER_LIMIT / 2);
      FakeWorker.last.answer(10 * mass);
      expect(await answer).toEqual([[10 * mass]]);
    }
    await jest.advanceTimersByTimeAsync(2 * ANSWER_LIMIT);
    expect(FakeWorker.made.map(({ terminated }) => terminated)).toEqual([false]);
  });

  test('does not shorten the time of the next call where its own was cancelled', async () => {
    const ask = newSolver();
    const first = ask(1);
    await jest.advanceTimersByTimeAsync(ANSWER_LIMIT / 2);
    first.cancel();
    const second = ask(2);
    await jest.advanceTimersByTimeAsync(ANSWER_LIMIT - 1_000);
    FakeWorker.last.answer(20);
    expect(await second.answer).toEqual([[20]]);
  });
});

describe('where no worker starts the page solves, one call after another:', () => {
  const signal = (): AbortSignal => new AbortController().signal;
  const bothFrom = async (startWorker: () => WorkerLike): Promise<unknown> => {
    const solve = solverIn(startWorker, caller);
    const blocks = [1, 2].map((mass) => solve(plain, [[[mass]]], 1900, signal()));
    return (await Promise.all(blocks)).map((block) => block!.rows);
  };

  test('there is no such thing in this runtime', async () => {
    const missing = jest.fn((): WorkerLike => {
      throw new ReferenceError('Worker is not defined');
    });
    expect(await bothFrom(missing)).toEqual([[[1]], [[2]]]);
    expect(missing).toHaveBeenCalledTimes(1);
  });

  test('a policy refuses it, which shows as an error before its first word', async () => {
    const refused = jest.fn((): WorkerLike => {
      const worker = new FakeWorker(false);
      setTimeout(() => worker.break());
      return worker;
    });
    expect(await bothFrom(refused)).toEqual([[[1]], [[2]]]);
    expect(refused).toHaveBeenCalledTimes(1);
  });

  test('its script did not come once: a minute later another is tried', async () => {
    jest.useFakeTimers();
    try {
      const start = jest.fn((): WorkerLike => {
        const isFirst = FakeWorker.made.length === 0;
        const worker = new FakeWorker(!isFirst);
        if (isFirst) setTimeout(() => worker.break());
        return worker;
      });
      const solve = solverIn(start, caller);
      const ask = async (mass: number): Promise<unknown> =>
        (await solve(plain, [[[mass]]], 1900, signal()))!.rows;
      const first = ask(1);
      await jest.advanceTimersByTimeAsync(RETRY_AFTER / 2);
      expect(await first).toEqual([[1]]);
      const second = ask(2);
      await jest.advanceTimersByTimeAsync(RETRY_AFTER);
      expect(await second).toEqual([[2]]);
      expect(start).toHaveBeenCalledTimes(1);
      const third = ask(3);
      await jest.advanceTimersByTimeAsync(100);
      FakeWorker.last.answer(30);
      expect(await third).toEqual([[30]]);
      expect(start).toHaveBeenCalledTimes(2);
    } finally {
      jest.useRealTimers();
    }
  });

  test('it never says a word', async () => {
    jest.useFakeTimers();
    try {
      const both = bothFrom(() => new FakeWorker(false));
      await jest.advanceTimersByTimeAsync(START_LIMIT + 100);
      expect(await both).toEqual([[[1]], [[2]]]);
    } finally {
      jest.useRealTimers();
    }
  });

  test('what fails there fails in the same words', async () => {
    const failing: Caller = {
      ...caller,
      ready: jest
        .fn<Caller['ready']>()
        .mockRejectedValueOnce(new Error('the solver is missing'))
        .mockImplementation(caller.ready),
    };
    const solve = solverIn(() => {
      throw new ReferenceError('Worker is not defined');
    }, failing);
    await expect(solve(plain, [[[1]]], 1900, signal())).rejects.toThrow('the solver is missing');
    expect((await solve(plain, [[[2]]], 1900, signal()))!.rows).toEqual([[2]]);
  });

  test('a function that only has something to load is worked out in the page, with no worker started', async () => {
    const quick = defineFunction({
      ...words,
      needs: ['distributions'],
      result: value('the mass', amount()),
      eachRow: (given: number) => given,
    });
    const start = jest.fn<() => WorkerLike>();
    const solve = solverIn(start, newCaller([quick]));
    expect((await solve(quick, [[[3]]], 1900, signal()))!.rows).toEqual([[3]]);
    expect(start).not.toHaveBeenCalled();
  });

  test('a call that was cancelled meanwhile is not worked out', async () => {
    const cancelling = new AbortController();
    const answer = solverHere(caller)(plain, [[[1]]], 1900, cancelling.signal);
    cancelling.abort();
    expect(await answer).toBeUndefined();
    expect(evaluatedInPage).not.toHaveBeenCalled();
  });
});

describe('answerTo(question, caller) works out in a worker what the page would', () => {
  /** Page and worker with nothing between them but copies of plain data. */
  const throughCopies = (definition: WorksheetFunction): ReturnType<typeof solverIn> => {
    const inWorker = newCaller([definition]);
    return solverIn(
      () => {
        const worker = new FakeWorker();
        worker.postMessage = (question: Question) =>
          void answerTo(structuredClone(question), inWorker).then((reply) => worker.say(reply));
        return worker;
      },
      newCaller([definition]),
    );
  };

  const varied = defineFunction({
    ...words,
    needs: ['distributions'],
    takesLong: true,
    needsDateSystem: true,
    result: row({ mass: amount(), share: percent(), since: amount(), fault: mixed() }),
    eachRow: (given: number, { dateSystem }) => ({
      mass: given,
      share: formatted(0.5, 'percent'),
      since: dateSystem,
      fault: cellError('#N/A', 'no such strain'),
    }),
  });

  test('faults, formats and error cells included', async () => {
    const given = [[[2], ['2 kg'], [null], [cellError('#DIV/0!', 'nothing to divide by')]]];
    const { signal } = new AbortController();
    const inPage = newCaller([varied]);
    await inPage.ready();
    const here = inPage.call('SAMPLE', given, { dateSystem: 1904 });
    expect(here.rows[0]).toEqual([2, formatted(0.5, 'percent'), 1904, cellError('#N/A', 'no such strain')]);
    const there = (await throughCopies(varied)(varied, given, 1904, signal))!;
    expect(there).toStrictEqual(here);
  });

  test('a defect comes back in our own words', async () => {
    const broken = defineFunction({
      ...words,
      needs: ['distributions'],
      takesLong: true,
      result: value('nothing', amount()),
      eachRow: (): number => {
        throw new TypeError('nothing here');
      },
    });
    const { signal } = new AbortController();
    const block = (await throughCopies(broken)(broken, [[[1]]], 1900, signal))!;
    expect(block.rows[0]![0]).toHaveProperty(
      'reason',
      expect.stringContaining('SAMPLE has a fault of its own'),
    );
  });
});
