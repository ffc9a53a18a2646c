import { afterEach, beforeAll, describe, expect, jest, test } from '@jest/globals';
import { PAGE_LIMIT, solverHere } from '../../../src/hosts/worker/solver';
import { newCaller } from '../../../src/worksheet/call';
import { plainValues, type Cell, type Grid } from '../../../src/worksheet/cells/cell';
import { LOADPLAN } from '../../../src/worksheet/loading/loadPlan';
import { SEASON } from '../../../src/worksheet/loading/season';
import { calendar, lots, orders, rooms, standing, START, strains } from '../../worksheet/loadingFarm';

// "If an add-in is not responsive for 5 seconds, Office restarts it" (the vendor's page on resource limits, September
// 2025). Where no worker starts, the page solves, so what it solves has a limit by the clock. The clock is a fake one.

const caller = newCaller([LOADPLAN, SEASON]);
const solve = solverHere(caller);
beforeAll(() => caller.ready());
afterEach(() => void jest.restoreAllMocks());

/** A clock that goes on by some seconds each time it is looked at: before each programme, that is. */
const slowBy = (seconds: number): void => {
  let now = 0;
  jest.spyOn(performance, 'now').mockImplementation(() => 1000 * seconds * now++);
};

/** A clock on which an hour is left, however busy the machine is: solving itself takes the time it takes. */
const timeEnough = (): void => {
  jest.spyOn(performance, 'now').mockReturnValueOnce(0).mockReturnValue(-3_600_000);
};

/** Other settings are other cells, so that no test is answered by what another has solved. */
const settings = (comfortDays: number): Grid => [
  ['name', 'value'],
  ['comfort days', comfortDays],
];
const ask = async (comfortDays: number, view: string): Promise<Cell[][]> => {
  const given = [lots, strains, rooms, orders, [[START]], [[21]], calendar, standing, settings(comfortDays)];
  const { signal } = new AbortController();
  return plainValues((await solve(LOADPLAN, [...given, null, [[view]]], 1900, signal))!);
};
const lineOf = (rows: readonly Cell[][], what: string): Cell[] => rows.find(([first]) => first === what)!;

describe(`a page that has solved for ${PAGE_LIMIT} seconds`, () => {
  const RULE = [
    'method',
    'rule of thumb',
    'solving took longer than can be waited for here: no limit is broken, but the plan does not look ahead',
  ];

  test('takes the rule of thumb, and the summary says so', async () => {
    expect(PAGE_LIMIT).toBeLessThanOrEqual(3);
    slowBy(PAGE_LIMIT / 4);
    expect(lineOf(await ask(2, 'summary'), 'method')).toEqual(RULE);
  });

  test('gives that plan whole, as it comes without any solving, whenever the time is up', async () => {
    const plans: Cell[][][] = [];
    for (const share of [2, 1 / 2, 1 / 6]) {
      slowBy(PAGE_LIMIT * share);
      plans.push(await ask(3, 'plan'));
    }
    expect(plans[0]!.length).toBeGreaterThan(5);
    expect(plans[1]).toEqual(plans[0]);
    expect(plans[2]).toEqual(plans[0]);
  });

  test('keeps nothing of it: with time enough the next call has the solver’s plan, and the views of that stay', async () => {
    slowBy(PAGE_LIMIT);
    expect(lineOf(await ask(4, 'summary'), 'method')).toEqual(RULE);
    timeEnough();
    const summary = await ask(4, 'summary');
    expect(lineOf(summary, 'method')[1]).toBe('linear programme');
    slowBy(PAGE_LIMIT);
    expect(await ask(4, 'summary')).toEqual(summary);
  });

  test('says of an order’s cause, of what more would be worth and of seasons that they were not worked out', async () => {
    slowBy(PAGE_LIMIT);
    const short = (await ask(5, 'orders')).filter((row) => row.includes('not worked out'));
    expect(short.length).toBeGreaterThan(0);
    for (const row of short)
      expect(row).toContain('working out the causes took longer than can be waited for here');
    expect((await ask(5, 'worth'))[1]).toEqual([
      'not worked out',
      '',
      'planning again for each line took longer than can be waited for here',
    ]);
    const season = [lots, strains, rooms, orders, [[START]], [[2]]];
    const block = (await solve(SEASON, season, 1900, new AbortController().signal))!;
    expect(plainValues(block)[1]).toEqual([
      'not worked out',
      '',
      '',
      '',
      'this takes longer than can be waited for here: ask for fewer seasons or weeks, or use the rule thumb',
    ]);
  });

  // No programme is solved here: the clock is looked at before each week.
  test.each(['thumb', 60])('plays no seasons by the rule %s beyond it', async (rule) => {
    const season = [lots, strains, rooms, orders, [[START]], [[2]], null, null, null, [[rule]], [[3]]];
    const play = async (): Promise<Cell[][]> =>
      plainValues((await solve(SEASON, season, 1900, new AbortController().signal))!);
    slowBy(PAGE_LIMIT / 4);
    expect(await play()).toEqual([
      ['what', 'mean', 'lowest', 'highest', 'note'],
      [
        'not worked out',
        '',
        '',
        '',
        'this takes longer than can be waited for here: ask for fewer seasons or weeks',
      ],
    ]);
    slowBy(PAGE_LIMIT / 8);
    expect(lineOf(await play(), 'seasons played')[1]).toBe(3);
  });
});
