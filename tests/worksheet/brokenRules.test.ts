import { describe, expect, test } from '@jest/globals';
import type { BrokenRule } from '../../src/maths/loading/checkLoads';
import { formatted } from '../../src/worksheet/cells/cell';
import { brokenRows } from '../../src/worksheet/loading/brokenRules';

describe('brokenRows(broken, margin) says every broken rule in words', () => {
  const rule = (
    name: BrokenRule['rule'],
    subject: string,
    found: number,
    allowed: number,
    more: Partial<BrokenRule> = {},
  ): BrokenRule => ({ rule: name, day: 104, subject, found, allowed, ...more });

  test.each<[BrokenRule, string]>([
    [rule('lot not known', 'B-2', 1, 0), 'B-2 is not in lots'],
    [rule('room not known', 'East', 40, 0), 'East is not in rooms'],
    [rule('more blocks than the lot has', 'A-1', 51, 50), 'A-1 has 50 blocks, 51 are loaded'],
    [rule('opened too early', 'A-1', 99, 100), 'A-1 is opened 1 day before it may be'],
    [rule('opened too early', 'A-1', 104, 106), 'A-1 is opened 2 days before it may be'],
    [rule('opened too late', 'A-1', 111, 110), 'A-1 is opened 1 day after its last day'],
    [
      rule('strain not allowed in the room', 'North', 40, 0, { strain: 'Alder-3' }),
      'North does not take Alder-3',
    ],
    [rule('room shut', 'North', 40, 0, { days: 2 }), 'North is shut with up to 40 blocks inside for 2 days'],
    [
      rule('room over-full', 'North', 65, 60, { days: 9 }),
      'North has 60 places and holds up to 65 blocks for 9 days',
    ],
    [rule('too many blocks to load', 'loading', 40, 39), '40 blocks are planned, 39 can be loaded'],
    [
      rule('too many blocks to load', 'loading', 40, 0),
      'no loading is done on this day, 40 blocks are planned',
    ],
    [rule('too much to pick', 'picking', 12, 11), '12 is to be picked, 1 more than the limit'],
    [rule('order short', 'Alder-3', 30, 40), '30 of 40 is filled, 10 short'],
  ])('%p', (broken, sentence) => {
    expect(brokenRows([broken], 0)).toMatchObject([
      { rule: broken.rule, date: 104, where: broken.subject, 'in words': sentence },
    ]);
  });

  test('days of opening are dates, and a rule about no day has none', () => {
    expect(brokenRows([rule('opened too early', 'A-1', 99, 100)], 0)).toMatchObject([
      { found: formatted(99, 'date'), allowed: formatted(100, 'date') },
    ]);
    expect(
      brokenRows([rule('more blocks than the lot has', 'A-1', 51, 50, { day: undefined })], 0),
    ).toMatchObject([{ date: '', found: 51, allowed: 50 }]);
  });

  test('a margin is told where orders are short, and where none is', () => {
    expect(brokenRows([rule('order short', 'Alder-3', 36, 40)], 0.1)).toMatchObject([
      { 'in words': '36 of 40 is filled, 4 short with yields taken 10% lower' },
    ]);
    expect(brokenRows([], 0.1)).toMatchObject([
      { rule: 'none broken', 'in words': 'orders are filled with yields taken 10% lower' },
    ]);
    expect(brokenRows([], 0)).toMatchObject([{ rule: 'none broken', 'in words': '' }]);
  });
});
