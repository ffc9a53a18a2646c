import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import * as spawn from '../../../src/maths/lineage/spawnFamily';
import type { LotParents } from '../../../src/maths/lineage/spawnFamily';
import { expectFault } from '../expectFault';

const descendants = (lot: string, records: readonly LotParents[]) =>
  spawn.descendants(lot, records).relatives;
const ancestors = (lot: string, records: readonly LotParents[]) => spawn.ancestors(lot, records).relatives;

/** `B < A, X`: lot B was made from A and X. */
function family(...lines: string[]): LotParents[] {
  return lines.map((line) => {
    const [lot, parents = ''] = line.split(' < ');
    return { lot: lot!, parents: parents === '' ? [] : parents.split(', ') };
  });
}

// A mother culture, two jars of grain from it, sawdust bags from each, one block from both a good and a bad bag.
const FARM = family(
  'M',
  'G1 < M',
  'G2 < M',
  'S1 < G1',
  'S2 < G2',
  'B1 < S1',
  'B2 < S1, S2',
  'B3 < S2',
  'B4 < S3',
);

const told = (relatives: ReturnType<typeof descendants>): string[] =>
  relatives.map(({ lot, steps, path }) => `${lot} ${steps} ${path.join('>')}`);

describe('descendants(lot, records) lists every lot below', () => {
  test.each([
    ['G1', ['S1 1 G1>S1', 'B1 2 G1>S1>B1', 'B2 2 G1>S1>B2']],
    ['S2', ['B2 1 S2>B2', 'B3 1 S2>B3']],
    ['B1', []],
    // Named as a parent only: what came of it is still found
    ['S3', ['B4 1 S3>B4']],
    [' g2', ['S2 1 G2>S2', 'B2 2 G2>S2>B2', 'B3 2 G2>S2>B3']],
  ])('of %p: %p', (lot, gives) => {
    expect(told(descendants(lot, FARM))).toEqual(gives);
  });

  test('names the parents nobody recorded', () => {
    const [b2] = descendants('S1', family('B2 < S1, X9', 'S1 < G1'));
    expect(b2).toMatchObject({ lot: 'B2', isRecorded: true, unknownParents: ['X9'] });
    const both = descendants('S1', family('B1 < S1, X9, X9', 'B2 < X9, S1', 'S1'));
    expect(both.map(({ unknownParents }) => unknownParents)).toEqual([['X9'], ['X9']]);
    // The last parent of one row and the first of the next are two.
    const next = descendants('S1', family('B1 < S1, X9', 'B2 < X9, Z1', 'Z1 < S1'));
    expect(next.find(({ lot }) => lot === 'B2')).toMatchObject({ unknownParents: ['X9'] });
  });

  test('adds up the parents of a lot in several rows', () => {
    expect(told(descendants('Y', family('B < X', 'B < Y', 'b < x')))).toEqual(['B 1 Y>B']);
  });

  test('takes the shortest way, and of several the first by label', () => {
    expect(
      told(descendants('A', family('D < C, B2, B1', 'C < A', 'B1 < A', 'B2 < A', 'E < D, A'))),
    ).toContain('D 2 A>B1>D');
    expect(told(descendants('A', family('C < B', 'B < A', 'C < A')))).toEqual(['B 1 A>B', 'C 1 A>C']);
  });

  test('of a way of more than twelve lots writes five from either end', () => {
    const chain = family(...Array.from({ length: 30 }, (_, i) => `L${i + 10} < L${i + 9}`));
    const list = descendants('L9', chain);
    expect(list[10]!.path).toHaveLength(12);
    expect(list[29]!.path.join(' ')).toBe('L9 L10 L11 L12 L13 … 21 more … L35 L36 L37 L38 L39');
  });
});

describe('ancestors(lot, records) lists every lot above', () => {
  test.each([
    ['B2', ['S1 1 B2>S1', 'S2 1 B2>S2', 'G1 2 B2>S1>G1', 'G2 2 B2>S2>G2', 'M 3 B2>S1>G1>M']],
    ['M', []],
  ])('of %p: %p', (lot, gives) => {
    expect(told(ancestors(lot, FARM))).toEqual(gives);
  });

  test('lists a parent that has no row of its own, marked', () => {
    expect(ancestors('B4', FARM)).toEqual([
      { lot: 'S3', steps: 1, path: ['B4', 'S3'], isRecorded: false, unknownParents: [] },
    ]);
  });
});

describe('a lot that would be its own ancestor', () => {
  const looped = family('A', 'B < A, D', 'C < B', 'D < C', 'E < A');
  test('is told with the loop, and the list is whole all the same', () => {
    expect(spawn.descendants('A', looped).loop).toEqual(['B', 'C', 'D', 'B']);
    expect(spawn.ancestors('C', looped).loop).toEqual(['B', 'C', 'D', 'B']);
    expect(told(descendants('A', looped))).toEqual(['B 1 A>B', 'E 1 A>E', 'C 2 A>B>C', 'D 3 A>B>C>D']);
  });

  test('is no concern of a lot that the loop does not reach', () => {
    expect(told(descendants('E', looped))).toEqual([]);
    expect(told(ancestors('E', looped))).toEqual(['A 1 E>A']);
  });

  test('its own parent is the shortest loop', () => {
    expect(spawn.descendants('A', family('A < A'))).toEqual({ relatives: [], loop: ['A', 'A'] });
  });

  test('of a long loop five lots from either end are printed', () => {
    const ring = family(...Array.from({ length: 40 }, (_, i) => `L${i + 10} < L${((i + 39) % 40) + 10}`));
    expect(spawn.descendants('L30', ring).loop).toContain('… 31 more …');
  });
});

test('a lot nobody knows is refused', () => {
  expectFault(() => descendants('Z', FARM), ['lot', 'notIn', { label: 'Z', table: 'lots' }]);
});

/** Lots 0…n−1, each with parents among those before it: no loops. */
const trees = fc.array(fc.array(fc.nat(), { maxLength: 3 }), { minLength: 1, maxLength: 40 }).map((lists) =>
  lists.map((parents, i): LotParents => ({
    lot: `L${i}`,
    parents: i === 0 ? [] : parents.map((parent) => `L${parent % i}`),
  })),
);

describe('on random families', () => {
  // An independent method: the parents applied over and over to a set until it grows no more.
  test('descendants are what a growing set collects', () => {
    fc.assert(
      fc.property(trees, fc.nat(), (records, pick) => {
        const root = records[pick % records.length]!.lot;
        const below = new Set<string>([root]);
        for (let size = -1; size !== below.size;) {
          size = below.size;
          for (const { lot, parents } of records)
            if (parents.some((parent) => below.has(parent))) below.add(lot);
        }
        below.delete(root);
        expect(new Set(descendants(root, records).map(({ lot }) => lot))).toEqual(below);
      }),
    );
  });

  test('a is above b exactly where b is below a, as many steps apart', () => {
    fc.assert(
      fc.property(trees, fc.nat(), (records, pick) => {
        const root = records[pick % records.length]!.lot;
        for (const { lot, steps } of descendants(root, records)) {
          expect(ancestors(lot, records).find((one) => one.lot === root)?.steps).toBe(steps);
        }
      }),
    );
  });

  test('every path is a way of that many steps, each from parent to child', () => {
    fc.assert(
      fc.property(trees, (records) => {
        const parentsOf = new Map(records.map(({ lot, parents }) => [lot, parents]));
        for (const { path, steps, lot } of descendants('L0', records)) {
          if (path.length > 11) continue;
          expect([path[0], path.at(-1), path.length]).toEqual(['L0', lot, steps + 1]);
          for (let i = 1; i < path.length; i++) expect(parentsOf.get(path[i]!)).toContain(path[i - 1]);
        }
      }),
    );
  });

  test('the order of the rows does not matter', () => {
    fc.assert(
      fc.property(trees, (records) => {
        expect(descendants('L0', [...records].reverse())).toEqual(descendants('L0', records));
      }),
    );
  });

  test('a loop anywhere below is found', () => {
    fc.assert(
      fc.property(trees, fc.nat(), (records, pick) => {
        const below = descendants('L0', records);
        fc.pre(below.length > 0);
        const { lot } = below[pick % below.length]!;
        const closed = [...records, { lot: 'L0', parents: [lot] }];
        expect(spawn.descendants('L0', closed).loop).toBeDefined();
        expect(spawn.ancestors(lot, closed).loop).toBeDefined();
      }),
    );
  });
});

test('100,000 lots in one chain are followed to the end', () => {
  const chain = Array.from({ length: 100_000 }, (_, i) => ({ lot: `L${i + 1}`, parents: [`L${i}`] }));
  const list = descendants('L0', chain);
  expect(list).toHaveLength(100_000);
  expect(list.at(-1)).toMatchObject({ lot: 'L100000', steps: 100_000 });
});
