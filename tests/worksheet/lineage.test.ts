import { describe, expect, test } from '@jest/globals';
import { cellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { DESCENDANTS } from '../../src/worksheet/lineage/descendants';
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
