import { beforeAll, describe, expect, test } from '@jest/globals';
import { plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { START } from './loadingFarm';
import { evaluate, prepared } from './prepared';

// What LOADPLAN says would fill an order is done to the cells, as a grower would, and the plan is made again. The farm is
// invented: a block of Birch-1 gives 0.6 kg on the sixth and seventh day after loading. 18 kg are the blocks of 30.

beforeAll(() => prepared(LOADPLAN));

interface Farm {
  readonly lots: Cell[][];
  readonly rooms: Cell[][];
  readonly calendar: Cell[][];
  readonly settings: Cell[][];
  readonly order: Cell[];
}
const farm: Farm = {
  lots: [['B-1', 'Birch-1', 40, 2.5, 0.6, START - 68]],
  rooms: [['North', 5, 12, null, null, null]],
  calendar: [['every day', 'none', 'none']],
  settings: [['comfort days', 2]],
  order: ['Birch-1', 18, START + 12, null],
};
const LOT_COLUMNS = ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated', 'cost'];
const strains: Grid = [
  ['strain', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'efficiency'],
  ['Birch-1', 60, 70, 90, 6, 2, 0.6],
  ['Alder-3', 60, 70, 90, 6, 2, 0.6],
];
const table = (header: string[], rows: Cell[][]): Grid => [header, ...rows];
const order = ({ lots, rooms, calendar, settings, order: wanted }: Farm): Record<string, Cell> => {
  const [header, row] = plainValues(
    evaluate(LOADPLAN, [
      table(LOT_COLUMNS.slice(0, lots[0]!.length), lots),
      strains,
      table(['room', 'shelves', 'blocks per shelf', 'closed from', 'closed to', 'strains'], rooms),
      table(['product', 'mass', 'due', 'given'], [wanted]),
      [[START]],
      [[7]],
      table(['day', 'pick limit', 'load limit'], calendar),
      null,
      table(['name', 'value'], settings),
      null,
      [['orders']],
    ]),
  ) as [Cell[], Cell[]];
  return Object.fromEntries(header.map((name, n) => [name as string, row[n]!]));
};
const serial = (written: string): number =>
  START + (Date.parse(`${written}T00:00Z`) - Date.parse('2026-05-04T00:00Z')) / 86_400_000;

/** The farm with what a sentence names: each part is read by one pattern and done to the cells. */
function actedOn(sentence: string, { ...done }: Farm): Farm {
  const words = sentence.replace(/^with /, '').replace(/ it is filled$/, '');
  for (const part of words.split(/, (?=\d)| and (?=\d|North)/)) {
    const found = <T>(pattern: RegExp, act: (...groups: string[]) => T): boolean => {
      const [, ...groups] = pattern.exec(part) ?? [];
      if (groups.length > 0) act(...groups);
      return groups.length > 0;
    };
    const daily = (from: string, to: string | undefined, act: (row: Cell[]) => Cell[]): void => {
      const usual = done.calendar.find(([day]) => day === 'every day')!;
      for (let day = serial(from); day <= serial(to ?? from); day++) {
        const own = done.calendar.find(([on]) => on === day);
        const others = done.calendar.filter((row) => row !== own);
        done = { ...done, calendar: [...others, act([day, ...(own ?? usual).slice(1)])] };
      }
    };
    const isDone =
      found(/^(\d+) more shel.* in North/, (shelves) => {
        const [[room, count, ...rest]] = done.rooms as [Cell[]];
        done = { ...done, rooms: [[room!, Number(count) + Number(shelves), ...rest]] };
      }) ||
      found(/^(North) open from/, () => {
        done = { ...done, rooms: [['North', 5, 12, null, null, null]] };
      }) ||
      found(/^North for (.*) too$/, (strain) => {
        done = { ...done, rooms: [['North', 5, 12, null, null, `Alder-3, ${strain}`]] };
      }) ||
      found(/^(\d+) more ripe blocks? like B-1 to open on (\S+)/, (blocks, day) => {
        const more = ['B-2', 'Birch-1', Number(blocks), 2.5, 0.6, serial(day) - 70];
        done = { ...done, lots: [...done.lots, more] };
      }) ||
      found(/^([\d.]+) more picking on (?:each day from )?(\S+)(?: to (\S+))?/, (mass, from, to) =>
        daily(from, to, ([day, pick, load]) => [
          day!,
          (pick === 'off' ? 0 : Number(pick)) + Number(mass),
          load!,
        ]),
      ) ||
      found(/^(\d+) more blocks? loaded on (?:each day from )?(\S+)(?: to (\S+))?/, (blocks, from, to) =>
        daily(from, to, ([day, pick, load]) => [
          day!,
          pick!,
          (load === 'off' ? 0 : Number(load)) + Number(blocks),
        ]),
      ) ||
      found(/^([\d.]+) from the cold store/, (mass) => {
        done = { ...done, order: [...done.order.slice(0, 3), Number(mass)] };
      });
    if (!isDone) throw new Error(`nothing reads “${part}” of “${sentence}”`);
  }
  return done;
}

describe('what would fill an order is said so that it can be done, and done fills it', () => {
  test.each<[string, string, Partial<Farm>]>([
    ['too few ripe blocks', 'ripe blocks', { lots: [['B-1', 'Birch-1', 22, 2.5, 0.6, START - 68]] }],
    ['too few shelves', 'shelves', { rooms: [['North', 1, 12, null, null, null]] }],
    ['a room that is shut', 'room shut', { rooms: [['North', 5, 12, START, START + 20, null]] }],
    [
      'a room for another strain',
      'room for other strains',
      { rooms: [['North', 5, 12, null, null, 'Alder-3']] },
    ],
    ['too little picking', 'picking', { calendar: [['every day', 2, 'none']] }],
    ['too little loading, no day off in it', 'loading', { calendar: [['every day', 'none', 3]] }],
    ['no day of loading', 'loading', { calendar: [['every day', 'none', 'off']] }],
    [
      'an order that is due before anything can be picked',
      'too soon',
      { order: ['Birch-1', 18, START + 3, null] },
    ],
  ])('%s', (_, cause, change) => {
    const short = { ...farm, ...change };
    const before = order(short);
    expect(Number(before['short'])).toBeGreaterThan(0);
    expect(before['cause']).toBe(cause);
    expect(order(actedOn(before['what would close it'] as string, short))).toMatchObject({
      short: 0,
      cause: '',
    });
  });

  test.each<[string, Partial<Farm>, string]>([
    [
      'load cost',
      { settings: [...farm.settings, ['load cost', 100]] },
      'load cost is 100, the order is worth 18: with load cost none in settings it is filled',
    ],
    [
      'cost in lots',
      { lots: [['B-1', 'Birch-1', 40, 2.5, 0.6, START - 68, 7]] },
      'cost in lots is 7, the order is worth 18: with cost free in lots it is filled',
    ],
  ])('a %s far above what the order is worth is named, not shelves or blocks', (cause, change, remedy) => {
    // Five times what 18 kg are worth where no price is given, 1 a kilogram, is 90: less than a load costs. So are 30
    // blocks of 0.6 kg at 7 each.
    const dear = order({ ...farm, ...change });
    expect(dear).toMatchObject({ short: 18, cause, 'what would close it': remedy });
  });

  test('a product that no lot is of is told from an order that is due too soon', () => {
    const row = order({ ...farm, order: ['Hazel-9', 18, START + 3, null] });
    expect(row['cause']).toBe('no lot for it');
  });
});
