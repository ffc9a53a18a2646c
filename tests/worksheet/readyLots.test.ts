import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { cellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { READYLOTS } from '../../src/worksheet/ripening/readyLots';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(READYLOTS));

// The list of ready lots against a plain loop over the same random books, which knows nothing of tables, faults or
// worksheets: it is told beside each lot whether it can be read. The farm is invented.

const FROM = 46_100;
const HEADER = ['lot', 'strain', 'blocks', 'inoculated', 'earliest', 'best', 'latest', 'loaded'];

/** A lot as the farm knows it, and the cells in which its row was spoiled. */
interface Kept {
  readonly lot: string;
  readonly strain: 'Birch-1' | 'Alder-3' | 'Moss-2';
  readonly blocks: number;
  readonly inoculated: number | null;
  readonly own: readonly [number, number, number] | null;
  readonly loaded: number | null;
  readonly spoilt: readonly [column: number, cell: Cell] | null;
}

const DAYS = { 'Birch-1': [12, 16, 24], 'Alder-3': [63, 77, 98], 'Moss-2': [20, null, null] } as const;
const STRAINS: Grid = [
  ['strain', 'earliest', 'best', 'latest'],
  ...Object.entries(DAYS).map(([strain, days]): Cell[] => [strain, ...days]),
];

const spoilt = fc.constantFrom<readonly [number, Cell]>(
  [1, 'Birch 1'],
  [1, 'Larch-9'],
  [1, null],
  [2, null],
  [2, '40 bags'],
  [2, 12.5],
  [2, cellError('#REF!')],
  [3, '3/2/26'],
  [3, -4],
  [3, cellError('#N/A')],
  [7, 2.5],
  [7, 500],
  [7, 'yes'],
);

const kept: fc.Arbitrary<Kept> = fc
  .record({
    lot: fc.integer({ min: 1, max: 60 }).map((n) => `L-${n}`),
    strain: fc.constantFrom('Birch-1' as const, 'Alder-3' as const, 'Moss-2' as const),
    blocks: fc.integer({ min: 1, max: 120 }),
    inoculated: fc.option(fc.integer({ min: FROM - 110, max: FROM + 10 }), { freq: 12 }),
    waits: fc.option(
      fc.tuple(
        fc.integer({ min: 5, max: 60 }),
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 0, max: 20 }),
      ),
      { freq: 3 },
    ),
    share: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { freq: 3 }),
    loadedOn: fc.option(fc.integer({ min: FROM - 30, max: FROM + 20 }), { freq: 5 }),
    spoilt: fc.option(spoilt, { freq: 5 }),
  })
  .map(({ waits, share, loadedOn, ...lot }) => {
    const start = (lot.inoculated ?? FROM - 40) + (waits?.[0] ?? 0);
    return {
      ...lot,
      own: waits && [start, start + waits[1], start + waits[1] + waits[2]],
      // No blocks loaded is a cell left empty.
      loaded: loadedOn ?? (share === null ? null : Math.floor(share * lot.blocks) || null),
    };
  });

const rowOf = ({ lot, strain, blocks, inoculated, own, loaded, spoilt }: Kept): Cell[] => {
  const row: Cell[] = [lot, strain, blocks, inoculated, ...(own ?? [null, null, null]), loaded];
  if (spoilt) row[spoilt[0]] = spoilt[1];
  return row;
};

/** Whether a spoilt cell hides what the list needs: the strain's days are asked for only where the lot has none. */
const cannotBeRead = ({ spoilt, inoculated, own }: Kept): boolean =>
  spoilt !== null && !(spoilt[0] === 1 && spoilt[1] !== null && (own !== null || inoculated === null));

interface Expected {
  readonly rows: Cell[][];
  readonly over: number;
  readonly loaded: number;
  readonly undated: number;
  readonly leftOut: number;
}

function byHand(book: readonly Kept[], to: number): Expected {
  const counts = { over: 0, loaded: 0, undated: 0, leftOut: 0 };
  const rows: Cell[][] = [];
  for (const one of book) {
    if (cannotBeRead(one)) {
      counts.leftOut++;
      continue;
    }
    const [ready, best, latest] = DAYS[one.strain].map((wait, point) => {
      if (one.own) return one.own[point] ?? null;
      return one.inoculated === null || wait === null ? null : one.inoculated + wait;
    });
    let left = one.blocks;
    if (one.loaded !== null && one.loaded >= 30_000) left = one.loaded <= to ? 0 : left;
    else if (one.loaded !== null) left -= one.loaded;
    if (ready === null || ready === undefined) counts.undated++;
    else if (left === 0) counts.loaded++;
    else if ((latest ?? Infinity) < FROM) counts.over++;
    else if (ready <= to) {
      const strain = rowOf(one)[1]!;
      const age = one.inoculated === null || one.inoculated > FROM ? '' : FROM - one.inoculated;
      const state =
        (ready > FROM ? 'comes ready' : 'ready') + ((latest ?? 1e9) > to ? '' : ', goes over age');
      rows.push([one.lot, strain, left, one.inoculated ?? '', ready, best ?? '', latest ?? '', age, state]);
    }
  }
  return { rows, ...counts };
}

const inAnyOrder = (rows: readonly Cell[][]): string[] => rows.map((row) => JSON.stringify(row)).sort();

/** The lots that the lines of a cause count, all together. */
const counted = (lines: readonly string[], cause: RegExp): number =>
  lines.reduce((all, line) => all + Number(cause.exec(line)?.[1] ?? 0), 0);

describe('READYLOTS, against a plain loop', () => {
  test('has the same lots, ages and blocks left, and counts every lot that it leaves out', () => {
    const books = fc.tuple(fc.array(kept, { maxLength: 40 }), fc.integer({ min: 0, max: 14 }));
    fc.assert(
      fc.property(books, ([book, days]) => {
        const to = FROM + days;
        const all = plainValues(
          evaluate(READYLOTS, [[HEADER, ...book.map(rowOf)], STRAINS, [[FROM]], [[to]]]),
        ).slice(1);
        const rows = all.filter((row) => row[1] !== '');
        const lines = all.slice(rows.length).map((row) => row[0] as string);
        const expected = byHand(book, to);
        expect(inAnyOrder(rows)).toEqual(inAnyOrder(expected.rows));
        const latest = rows.map((row) => (row[6] === '' ? Infinity : Number(row[6])));
        expect(latest).toEqual([...latest].sort((a, b) => a - b));
        expect(counted(lines, /^(\d+) lots? (?:is|are) past the latest day/)).toBe(expected.over);
        expect(counted(lines, /^(\d+) lots? (?:is|are) loaded already/)).toBe(expected.loaded);
        expect(counted(lines, /^(\d+) lots? without dates left out/)).toBe(expected.undated);
        expect(counted(lines, /^(\d+) lots? left out/)).toBe(expected.leftOut);
        const twice = new Set(book.map(({ lot }) => lot).filter((lot, at, lots) => lots.indexOf(lot) !== at));
        const shown = [...twice].filter((lot) => rows.some((row) => row[0] === lot));
        expect(counted(lines, /^(\d+) lots? (?:is|are) in several rows/)).toBe(shown.length);
      }),
      { numRuns: 300 },
    );
  });

  test.each<[what: string, dates: Cell[], reason: string]>([
    [
      'latest before earliest',
      [null, FROM + 5, null, FROM + 2],
      'latest in lots must not be before earliest',
    ],
    ['best before earliest', [null, FROM + 5, FROM + 2, null], 'best in lots must not be before earliest'],
    ['latest before best', [null, FROM + 1, FROM + 4, FROM + 3], 'latest in lots must not be before best'],
    [
      'earliest before inoculated',
      [FROM + 3, FROM + 1, null, FROM + 9],
      'earliest in lots must not be before inoculated',
    ],
    [
      'its own earliest after its strain’s best',
      [FROM - 14, FROM + 5, null, null],
      'best in lots must not be before earliest',
    ],
  ])('leaves a lot out whose days are out of order, and says which: %s', (_what, dates, reason) => {
    const list = [HEADER, ['L-1', 'Birch-1', 40, ...dates, null]];
    const all = plainValues(evaluate(READYLOTS, [list, STRAINS, [[FROM]], [[FROM + 9]]]));
    expect(all.slice(1).map((row) => row[0])).toEqual([
      'no lot is ready in these days',
      expect.stringContaining(`1 lot left out, L-1: ${reason} (`),
    ]);
  });

  test('tells of a lot that is there twice, and of two that look the same', () => {
    const lot = (name: string): Cell[] => [name, 'Birch-1', 40, FROM - 14, null, null, null, null];
    const list = [HEADER, lot('L-1'), lot('L-2'), lot('l-1 '), lot('L 2')];
    const all = plainValues(evaluate(READYLOTS, [list, STRAINS, [[FROM]], [[FROM + 6]]]));
    expect(all.slice(1).map((row) => row[0])).toEqual([
      'L 2',
      'L-1',
      'l-1',
      'L-2',
      '1 lot is in several rows, and all of them are listed: L-1',
      'two lots look the same but are not: L 2 and L-2',
    ]);
  });
});
