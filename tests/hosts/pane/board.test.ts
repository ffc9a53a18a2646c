import { beforeAll, describe, expect, test } from '@jest/globals';
import {
  layOut,
  strainsOf,
  wordsAt,
  type Board,
  type Layout,
  type Load,
  type Shape,
} from '../../../src/hosts/pane/board/shapes';
import { boardNode, wholeDrawing } from '../../../src/hosts/pane/board/drawing';
import {
  answerWords,
  boardWords,
  brokenIn,
  brokenWords,
  changeOf,
  loadWords,
  pasteable,
} from '../../../src/hosts/pane/board/words';
import { toHtml } from '../../../src/hosts/pane/node';
import { DrawnPlan } from '../../../src/hosts/pane/board/drawnPlan';
import { plansIn } from '../../../src/hosts/pane/board/plans';
import type { BookContents, FormulaCell } from '../../../src/hosts/pane/book';
import type { Solve } from '../../../src/hosts/worker/solver';
import { addressOf } from '../../../src/hosts/xlsx/address';
import { newCaller } from '../../../src/worksheet/call';
import { plainValues, type CellError, type Grid } from '../../../src/worksheet/cells/cell';
import { readPlan } from '../../../src/worksheet/readPlan';
import { loadTools, type Tools } from '../../../src/worksheet/tools';
import { calendar, lots, orders, rooms, standing, START, strains } from '../../worksheet/loadingFarm';

// The drawn board without a page: where its shapes are, and what is said of it. The farm's first day is Monday 4 May
// 2026, and what is drawn is not a plan of LOADPLAN but loads by hand. By hand from the strains: Alder-3 has flushes on
// days 7 to 10 and 21 to 24 after loading, Birch-1 on days 6 to 8.

const DAYS = 21;
const WIDE = 20;
const settings: Grid = [
  ['name', 'value'],
  ['turn-round days', 2],
];
const given: (Grid | null)[] = [
  lots,
  strains,
  [...rooms.slice(0, 2), ['South', 14, 12, START + 14, START + 16, null], rooms[3]!],
  orders,
  [[START]],
  [[DAYS]],
  calendar,
  standing,
  settings,
];
const LOADS = [
  { lot: 'A-01', room: 'North', day: START + 1, blocks: 100 },
  { lot: 'A-02', room: 'North', day: START + 1, blocks: 90 },
  { lot: 'B-01', room: 'Annex', day: START + 2, blocks: 60 },
  { lot: 'B-02', room: 'Annex', day: START + 13, blocks: 30 },
];

let planning: Tools['planning'];
let problem: ReturnType<Tools['planning']['problemOf']>;
beforeAll(async () => {
  ({ planning } = (await loadTools(['planning'])) as Tools);
  const { farm, start, days } = readPlan(given, 1900);
  problem = planning.problemOf(farm, start, days, 1900);
});

const board = (loads = LOADS): Board => planning.drawnBoard(problem, loads);
const laid = (of: Board, more: Partial<Parameters<typeof layOut>[1]> = {}): Layout =>
  layOut(of, { dateSystem: 1900, today: START + 3, dayWidth: WIDE, ...more });
const boxes = (shapes: readonly Shape[], as: string) =>
  shapes.flatMap((shape) => (shape.kind === 'box' && shape.as === as ? [shape] : []));
const texts = (shapes: readonly Shape[], as: string): string[] =>
  shapes.flatMap((shape) => (shape.kind === 'text' && shape.as.split(' ').includes(as) ? [shape.text] : []));
const paths = (shapes: readonly Shape[], as: string): string[] =>
  shapes.flatMap((shape) => (shape.kind === 'line' && shape.as === as ? [shape.path] : []));
const barOf = ({ rooms: { bars } }: Layout, lot: string) => bars.find(({ load }) => load.lot === lot)!;

describe('the shapes of a board', () => {
  test('a load is a bar from its opening to its last pick, and its flushes are on their days', () => {
    const bar = barOf(laid(board()), 'A-01');
    // From day 1 to day 1 + 24, with a point of air at either end.
    expect([bar.x, bar.x + bar.width]).toEqual([WIDE + 1, 26 * WIDE - 1]);
    expect(boxes(bar.shapes, 'flush').map(({ x, width }) => [x, width])).toEqual([
      [8 * WIDE, 4 * WIDE],
      [22 * WIDE, 4 * WIDE - 1],
    ]);
    expect(texts(bar.shapes, 'number')).toEqual(['1', '2']);
    expect(texts(bar.shapes, 'label')).toEqual(['A-01 · 100']);
  });

  test('blocks on the shelves already begin where the board begins, and cannot be told from others by colour alone', () => {
    const { rooms: drawn } = laid(board());
    const old = drawn.bars.filter(({ load }) => load.planned === undefined);
    expect(old.map(({ x }) => x)).toEqual([1, 1]);
    expect(old.every(({ shapes }) => boxes(shapes, 'bar standing').length === 1)).toBe(true);
  });

  test('the words of a bar stay in view while a part of it that has room for them is', () => {
    const bar = barOf(laid(board()), 'A-01');
    // Its words fit from day 1 to the first flush on day 8, and from day 12 to the second on day 22.
    expect(wordsAt(bar, 0)).toBe(WIDE + 1 + 5);
    expect(wordsAt(bar, 2 * WIDE)).toBe(2 * WIDE + 5);
    expect(wordsAt(bar, 6 * WIDE)).toBe(12 * WIDE + 5);
    expect(wordsAt(bar, 14 * WIDE)).toBe(14 * WIDE + 5);
  });

  test('no bar lies over another, and each is in its room', () => {
    const { rooms: drawn } = laid(board());
    for (const a of drawn.bars) {
      const row = drawn.rows.find(({ room }) => room === a.load.room)!;
      expect(a.y >= row.y && a.y + a.height <= row.y + row.height).toBe(true);
      for (const b of drawn.bars) {
        if (a === b || a.y !== b.y) continue;
        expect(a.x + a.width <= b.x || b.x + b.width <= a.x).toBe(true);
      }
    }
    expect(drawn.bars.length).toBe(LOADS.length + standing.length - 1);
  });

  test('places free are said where they change, places below 0 and rooms that are shut in their own words', () => {
    const { rooms: drawn } = laid(board());
    const row = (room: string) => drawn.rows.find((one) => one.room === room)!;
    const inRow = (room: string, as: string): string[] =>
      drawn.days.flatMap((shape) =>
        shape.kind === 'text' &&
        shape.as.split(' ').includes(as) &&
        shape.y > row(room).y &&
        shape.y < row(room).y + row(room).height
          ? [shape.text]
          : [],
      );
    // Annex has 60 places: 60 blocks from day 2 for 9 days and 2 of turn-round, 30 from day 13 for 11.
    expect(inRow('Annex', 'free')).toEqual(['60', '0', '30', '60']);
    // North has 240: 60 stand there until day 18 and 2 days more, 190 from day 1 for 27.
    expect(inRow('North', 'free')).toEqual(['180', '−10', '50']);
    expect(inRow('North', 'over')).toEqual(['−10']);
    expect(inRow('South', 'free')).toEqual(['118', 'closed', '168']);
    expect(boxes(drawn.days, 'closed').map(({ x, width }) => [x, width])).toEqual([[14 * WIDE, 3 * WIDE]]);
  });

  test('what is picked is stacked by strain up to the mass of the day, and days over their limit are marked', () => {
    const drawn = board();
    const { picks } = laid(drawn);
    const columns = new Map<number, number>();
    for (const { x, height } of boxes(picks.days, 'pick')) columns.set(x, (columns.get(x) ?? 0) + height);
    const most = Math.max(...columns.values());
    const [massive] = [Math.max(...drawn.picked)];
    for (const [x, height] of columns) {
      const day = Math.round((x - 3) / WIDE);
      expect(height / most).toBeCloseTo(drawn.picked[day]! / massive, 1);
    }
    const over = drawn.picked.filter((mass, day) => mass > drawn.limits[day]!.pick * (1 + 1e-6));
    expect(over.length).toBeGreaterThan(0);
    expect(paths(picks.days, 'mark').length).toBe(over.length);
    expect(boxes(picks.days, 'beyond').length).toBe(over.length);
  });

  test('the limit is a stair over its days, broken where a day has none', () => {
    const drawn = board();
    const limits = drawn.limits.map((limit, day) => (day === 2 ? { ...limit, pick: Infinity } : limit));
    const [path] = paths(laid({ ...drawn, limits }).picks.days, 'limit');
    // Monday and Tuesday have 17, Wednesday none, Thursday and Friday 17, Saturday 8, Sunday is off.
    expect(path).toMatch(/^M0 (\S+)H20V\1H40M60 \1H80V\1H100V(\S+)H120V142H140V\1/);
  });

  test('today is marked while it is among the days, and a part of the days can be drawn', () => {
    expect(paths(laid(board()).rooms.days, 'today')).toEqual([
      `M${3 * WIDE + 1} 0V${laid(board()).rooms.height}`,
    ]);
    expect(paths(laid(board(), { today: START - 1 }).rooms.days, 'today')).toEqual([]);
    const part = laid(board(), { from: START + 7, to: START + 13 });
    expect(part.width).toBe(7 * WIDE);
    expect(texts(part.head.days, 'day')).toEqual(['11', '12', '13', '14', '15', '16', '17']);
    for (const { x, width } of part.rooms.bars) expect(x >= 0 && x + width <= part.width).toBe(true);
  });

  test('a board without a load has its rooms, its limits and nothing else', () => {
    const nothing = planning.drawnBoard({ ...problem, standing: [] }, []);
    const { rooms: drawn, picks } = laid(nothing);
    expect(drawn.bars).toEqual([]);
    expect(drawn.rows.map(({ room }) => room)).toEqual(['North', 'South', 'Annex']);
    expect(boxes(picks.days, 'pick')).toEqual([]);
    expect(boardWords(nothing, 1900)).toBe(
      'The plan loads nothing. No block is on the shelves. Nothing is picked.',
    );
  });

  test('no place of a shape is anything but a finite number, in every width of a day', () => {
    for (const dayWidth of [3, 11, 26, 60]) {
      const layout = laid(board(), { dayWidth });
      const text =
        toHtml(boardNode(layout, () => 'a load')) + toHtml(wholeDrawing(layout, 'b', 'c', board(), START));
      expect(text).not.toMatch(/NaN|Infinity|undefined/);
    }
  });

  test('each strain has a colour and a pattern, and the drawing names all of them', () => {
    const drawn = board();
    const text = toHtml(wholeDrawing(laid(drawn), 'Plan', 'words', drawn, START));
    expect(strainsOf(drawn)).toEqual(['Alder-3', 'Birch-1']);
    for (const strain of strainsOf(drawn)) expect(text).toContain(`>${strain}</text>`);
    expect(text).toContain('url(#paper-strain-0)');
    expect(text).toContain('url(#paper-strain-1)');
  });
});

describe('what is said of a board', () => {
  test('loads, the fullest day and days over their limit in sentences', () => {
    const drawn = board();
    const onDay = drawn.limits.map((_, day) =>
      drawn.rooms.reduce((sum, { blocks }) => sum + blocks[day]!, 0),
    );
    const most = Math.max(...onDay);
    const words = boardWords(drawn, 1900);
    expect(words).toMatch(/^4 loads of 280 blocks in 2 rooms, opened from Tue 5 May to Sun 17 May\./);
    expect(words).toContain(`The shelves are fullest on Wed 6 May: ${most} blocks on 468 places.`);
    expect(words).toMatch(/\d+ days are over the limit of picking: /);
  });

  test('each load in words', () => {
    const [load] = board().loads.filter(({ lot }) => lot === 'A-01') as [Load];
    expect(loadWords(load, 1900)).toBe(
      'A-01 (Alder-3): 100 blocks in North, opened Tue 5 May, picked from Tue 12 May to Fri 29 May in 2 flushes',
    );
  });

  const HEAD = ['rule', 'date', 'where', 'found', 'allowed', 'in words'];
  const short = (found: number) => ['order short', START + 12, 'box', found, 22, `${found} of 22 is filled`];

  test('a change says what it breaks, what gets worse and what holds again', () => {
    const crowded = ['room over-full', START, 'North', 250, 240, 'North has 240 places'];
    const before = brokenIn([HEAD, short(20), crowded]);
    expect(answerWords(changeOf(before, before))).toBe('no rule is broken by it');
    expect(answerWords(changeOf([], brokenIn([HEAD, short(20)])))).toBe('1 rule is broken that held before');
    expect(answerWords(changeOf(before, brokenIn([HEAD, short(18)])))).toBe(
      '1 fault of the plan gets worse, 1 fault of the plan is gone',
    );
    expect(answerWords(changeOf(before, brokenIn([HEAD, short(21), crowded])))).toBe(
      '1 fault of the plan gets smaller',
    );
    expect(brokenIn([HEAD, ['none broken', '', '', '', '', '']])).toEqual([]);
  });

  test('a broken rule has its day and its place', () => {
    expect(brokenIn([HEAD, short(20)]).map((one) => brokenWords(one, 1900))).toEqual([
      'order short, Sat 16 May – box: 20 of 22 is filled',
    ]);
  });

  test('loads to paste have days that every spreadsheet reads', () => {
    expect(pasteable(LOADS.slice(0, 1), 1900)).toBe(
      'loaded\tlot\troom\tblocks\n2026-05-05\tA-01\tNorth\t100',
    );
  });
});

describe('a plan found in a workbook', () => {
  const sheets: Readonly<Record<string, Grid>> = Object.fromEntries(
    given.flatMap((grid, n) => (grid ? [[`T${n}`, grid] as const] : [])),
  );
  const argument = (n: number): string => {
    const grid = given[n]!;
    return `T${n}!A1:${addressOf({ row: grid.length - 1, column: grid[0]!.length - 1 })}`;
  };
  const all = given.map((_, n) => argument(n)).join();
  const cell = (address: string, formula: string): FormulaCell => ({ sheet: 'Plan', address, formula });
  const contents = (...formulas: FormulaCell[]): BookContents => ({
    dateSystem: 1900,
    formulas,
    tables: [],
    shown: {
      vocabulary: { name: () => undefined, table: () => undefined, tableAt: () => undefined },
      cells: (sheet, { top, left, bottom, right }) =>
        sheets[sheet]?.slice(top, bottom + 1).map((row) => row.slice(left, right + 1)),
      spill: () => undefined,
    },
  });
  const caller = newCaller();
  // However long it takes: a page would make do with the rule of thumb.
  const solve: Solve = async ({ name }, cells, dateSystem) => {
    await caller.ready([name]);
    return caller.call(name, cells, { dateSystem });
  };
  const found = (...formulas: FormulaCell[]) => plansIn(contents(...formulas), caller, solve);

  test('formulas that ask for views of one plan are one plan, and others are none', async () => {
    const { plans, unreadable } = await found(
      cell('A1', '=SUM(B1:B3)'),
      cell('A2', `=PINSET.LOADPLAN(${all})`),
      cell('A3', `=IFERROR(PINSET.LOADPLAN(${all},,"week"),"")`),
      cell('A4', `=PINSET.LOADPLAN(${all.replace(argument(5), '14')})`),
      cell('A5', `=PINSET.LOADPLAN(SORT(${argument(0)}),${argument(1)})`),
    );
    expect(plans.map(({ cell: { address } }) => address)).toEqual(['A2', 'A4']);
    expect(plans[0]!.given).toEqual([...given, undefined]);
    expect(unreadable.map(({ address }) => address)).toEqual(['A5']);
  });

  test('its loads are LOADPLAN’s, they move inside the days of the plan, and the checker answers to what is moved', async () => {
    const { plans } = await found(cell('A2', `=PINSET.LOADPLAN(${all})`));
    const drawn = (await DrawnPlan.of(plans[0]!, 1900, caller, solve, planning)) as DrawnPlan;
    const asked = plainValues(caller.call('LOADPLAN', [...given, null, [['plan']]]));
    const listed = asked.slice(1).filter(([loaded]) => typeof loaded === 'number');
    expect(drawn.planned.map(({ day, lot, room, blocks }) => [day, lot, room, blocks])).toEqual(
      listed.map((row) => [row[0], row[1], row[3], row[4]]),
    );
    expect(drawn.change()).toEqual({ broken: [], worse: [], better: [], held: [], same: drawn.before });

    drawn.move(0, START + 500, 'South');
    expect(drawn.loads[0]).toEqual({ ...drawn.planned[0]!, day: START + DAYS - 1, room: 'South' });
    drawn.move(1, START - 9, drawn.planned[1]!.room);
    expect(drawn.loads[1]!.day).toBe(START);
    drawn.draw();
    const { broken } = drawn.change();
    expect(broken.map(({ rule }) => rule)).toContain('opened too late');
    expect(drawn.board.loads.find(({ planned }) => planned === 0)!.loaded).toBe(START + DAYS - 1);
    expect(drawn.moved.at(-1)).toBe(drawn.planned[1]!.day === START ? 0 : 1);
    drawn.putAllBack();
    expect([drawn.moved, drawn.loads]).toEqual([[], drawn.planned]);
  });

  test('the check of loads on another sheet is given what the plan is given', async () => {
    const formula = `=PINSET.LOADPLAN(Lots[#All], ${argument(1)}, $A$1:$F$4, Orders, Today, 21, , 'Old loads'!A1#)`;
    const named: BookContents['shown'] = {
      ...contents().shown!,
      vocabulary: {
        name: (name) => (name === 'Today' ? 'T4!$A$1' : name === 'Orders' ? 'T3!$A$1:$E$8' : undefined),
        table: (name) =>
          name === 'Lots'
            ? {
                name,
                sheet: 'T0',
                area: { top: 0, left: 0, bottom: lots.length - 1, right: lots[0]!.length - 1 },
                headerRows: 1,
                totalsRows: 0,
                columns: lots[0]!.map(String),
              }
            : undefined,
        tableAt: () => undefined,
      },
      cells: (sheet, area) =>
        contents().shown!.cells({ Plan: 'T2', 'Old loads': 'T7' }[sheet] ?? sheet, area),
      spill: () => ({ top: 0, left: 0, bottom: standing.length - 1, right: standing[0]!.length - 1 }),
    };
    const { plans } = await plansIn({ ...contents(cell('A2', formula)), shown: named }, caller, solve);
    const drawn = (await DrawnPlan.of(plans[0]!, 1900, caller, solve, planning)) as DrawnPlan;
    expect(drawn.checkOf('ChangedLoads[#All]')).toBe(
      `=PINSET.CHECKLOADS(ChangedLoads[#All], Lots[#All], ${argument(1)}, Plan!$A$1:$F$4, Orders, , 'Old loads'!A1#)`,
    );
  });

  test('a plan that LOADPLAN refuses is refused in its words', async () => {
    const short = given.slice(0, 5).map((_, n) => argument(n));
    const { plans } = await found(cell('A2', `=PINSET.LOADPLAN(${short.join()},0)`));
    const fault = (await DrawnPlan.of(plans[0]!, 1900, caller, solve, planning)) as CellError;
    expect(fault.code).toBe('#VALUE!');
    expect(fault.reason).toContain('days must be');
  });
});
