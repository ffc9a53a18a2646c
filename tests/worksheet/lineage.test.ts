import { describe, expect, test } from '@jest/globals';
import { cellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { DESCENDANTS } from '../../src/worksheet/lineage/descendants';
import { LOTCODE } from '../../src/worksheet/lineage/lotCode';
import { evaluate } from './prepared';

const column = (...cells: Cell[]): Grid => cells.map((cell) => [cell]);
const recall = (lot: string, lots: Grid, parents: Grid) => {
  const rows = plainValues(evaluate(DESCENDANTS, [[[lot]], lots, parents])).slice(1);
  return {
    lots: rows.map(([one]) => one).filter((one) => one !== ''),
    lines: rows.filter(([one]) => one === '').map((cells) => cells[3]),
  };
};

describe('the recall list misses no lot in silence', () => {
  test.each([
    'S1/S2',
    'S1 + S2',
    'S1 & S2',
    'S1 and S2',
    'S1 AND S2',
    'S1 | S2',
    'S1\tS2',
    'S1\r\nS2',
    'S1，S2',
    'S1；S2',
    'S1／S2',
    'S1、S2',
    'S1, S2',
  ])('finds both parents written %j', (parents) => {
    for (const lot of ['S1', 'S2']) {
      expect(recall(lot, column('S1', 'S2', 'B1'), column(null, null, parents))).toEqual({
        lots: ['B1'],
        lines: [],
      });
    }
  });

  test.each(['S1/S2', 'Sand and gravel', 'Bag, old', 'Bag; new'])(
    'keeps the lot %j whole, alone and beside another parent',
    (lot) => {
      const lots = column(lot, 'G1', 'B1', 'B2');
      expect(recall(lot, lots, column(null, null, lot, `G1, ${lot}`)).lots).toEqual(['B1', 'B2']);
      expect(recall('G1', lots, column(null, null, lot, `${lot} + G1`)).lots).toEqual(['B2']);
    },
  );

  test('ends with the rows that name a parent that is no lot, and the nearest label', () => {
    expect(recall('G1', column('G1', 'S1', 'S2'), column(null, 'G1', 'Gl'))).toEqual({
      lots: ['S1'],
      lines: ['parent Gl is not in lots (row 3): did you mean G1?'],
    });
    expect(recall('G1', column('G1', 'S1', 'S2'), column(null, 'Gl', 'Gl')).lines).toEqual([
      'parent Gl is not in lots (rows 2, 3): did you mean G1?',
    ]);
  });

  test('tells of a loop that the list does not reach: one of its parents is wrong', () => {
    expect(recall('G1', column('G1', 'S1', 'S2', 'S3'), column(null, 'G1', 'S3', 'S2'))).toEqual({
      lots: ['S1'],
      lines: ['parents lead a lot back to itself: S2 → S3 → S2'],
    });
  });

  test('gives the list in spite of a loop, an error and a parent without a lot, and tells each', () => {
    const lots = column('G1', 'S1', 'S2', 'S3', cellError('#REF!'), null);
    const parents = column(null, 'G1, S2', 'S1', cellError('#N/A'), 'G1', 'G1');
    expect(recall('G1', lots, parents)).toEqual({
      lots: ['S1', 'S2'],
      lines: [
        'row 4, lot S3, has #N/A for a parent',
        'row 5 has #REF! for a lot',
        'row 6 has a parent but no lot',
        'parents lead a lot back to itself: S1 → S2 → S1',
      ],
    });
  });

  test('tells lots that look alike', () => {
    expect(recall('G1', column('G1', 'Gl', 'S1'), column(null, null, 'Gl'))).toEqual({
      lots: [],
      lines: ['G1 and Gl look alike but are two lots: check which is meant'],
    });
  });
});

describe('LOTCODE writes no label for two crops', () => {
  const made = [[46083]];
  const codes = (species: Grid, strain: Grid, ...more: (Grid | null)[]) =>
    plainValues(evaluate(LOTCODE, [species, strain, [[2]], made, ...more])).flat();
  const reasons = (given: readonly unknown[]) =>
    given.map((cell) => (cell as { readonly reason: string }).reason.replace(/ \(row .*/, ''));

  // In calls of one row each, as a formula filled down.
  test('shimeji and shiitake have letters of their own', () => {
    const [shiitake] = codes([['Shiitake']], [['Alder-3']]);
    const [shimeji] = codes([['shimeji']], [['Alder-3']]);
    expect([shiitake, shimeji]).toEqual([expect.stringMatching(/^SHI-/), expect.stringMatching(/^SHM-/)]);
  });

  test('two species of a call that begin alike are errors in all their rows, in any order, and no others', () => {
    for (const species of [
      ['King oyster', 'Enoki', 'King stropharia', 'king oyster'],
      ['King stropharia', 'Enoki', 'king oyster', 'King oyster'],
    ]) {
      const [first, enoki, ...others] = codes(column(...species), [['Alder-3']]);
      expect(enoki).toMatch(/^ENO-/);
      expect(new Set(reasons([first, ...others]))).toEqual(
        new Set([
          'species: "King oyster" and "King stropharia" are both KIN on a label: give each species its own three letters',
        ]),
      );
    }
  });

  test('letters of their own part them, and may not join two others', () => {
    const species = column('King oyster', 'King stropharia');
    const apart = codes(species, [['Alder-3']], null, column('koy', 'KST'));
    expect(apart).toEqual([expect.stringMatching(/^KOY-/), expect.stringMatching(/^KST-/)]);
    expect(reasons(codes(column('Enoki', 'Reishi'), [['Alder-3']], null, column('ABC', 'abc')))).toEqual(
      Array(2).fill(
        'species: "Enoki" and "Reishi" are both ABC on a label: give each species its own three letters',
      ),
    );
  });

  test.each(['KI', 'KING', 'K1N'])('refuses the letters %s', (letters) => {
    expect(reasons(codes([['King oyster']], [['Alder-3']], null, [[letters]]))).toEqual([
      `letters must be 3 letters A to Z; it is "${letters}"`,
    ]);
  });

  test('two ways to write a strain are errors; a row without a date or with another fault is in nobody’s way', () => {
    const strain = column('Alder-3', 'Alder 3', 'Alder/3');
    expect(reasons(codes([['Enoki']], strain))).toEqual([
      'strain: "Alder 3" and "Alder-3" make the same label: write the strain one way',
      'strain: "Alder 3" and "Alder-3" make the same label: write the strain one way',
      'strain may hold letters A to Z, digits, spaces and hyphens, and no other sign; it is "Alder/3"',
    ]);
    const days = column(46083, null, 46083);
    const [one, blank] = plainValues(evaluate(LOTCODE, [[['Enoki']], strain, [[2]], days])).flat();
    expect(one).toMatch(/^ENO-ALDER3-G2-260302-01-/);
    expect(blank).toBe('');
  });

  test('the same strain of two species is no clash', () => {
    expect(codes(column('Enoki', 'Reishi'), column('Alder-3', 'Alder 3'))).toEqual([
      expect.stringMatching(/^ENO-/),
      expect.stringMatching(/^REI-/),
    ]);
  });
});
