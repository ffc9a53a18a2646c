import { describe, expect, test } from '@jest/globals';
import { USUAL_SETTINGS, yieldAudit } from '../../../src/maths/audit/yieldAudit';
import type { Finding, LotRecord, PickRecord, StrainFacts } from '../../../src/maths/audit/yieldRecords';

// Lots of one strain, one loaded every six days: each is picked on three days in a row from day 8 on, and again from day 20
// on. On the days of one lot's second flush the lot loaded twelve days later is in its first. Written by hand; nothing here
// was measured.

const strains = new Map<string, StrainFacts>([
  ['dusk', { earliest: undefined, firstPick: 8, pickDays: 3, flushGap: 12, flushes: 2, efficiency: 0.7 }],
]);
/** By how much lots differ honestly. */
const LOTS = [1, 1.2, 0.8, 1.1, 0.9, 1.3, 0.75, 1, 1.15, 0.85, 1.05, 0.95];
const PICKS = [
  [8, 9, 1],
  [9, 11, 1],
  [10, 6, 1],
  [20, 5, 2],
  [21, 6.5, 2],
  [22, 4, 2],
] as const;
const labelOf = (at: number): string => `D${String.fromCharCode(65 + at)}-${(37 * (at + 3)) % 100}`;

const lots = Array.from({ length: 24 }, (_, at): LotRecord => ({
  row: at + 2,
  lot: labelOf(at),
  strain: 'Dusk',
  blocks: 20,
  blockMass: 10,
  moisture: 0.6,
  inoculated: undefined,
  loaded: 46_000 + 6 * at,
  total: undefined,
}));
const picks = lots.flatMap(({ lot, loaded }, at) =>
  PICKS.map(([day, mass, flush], nth): PickRecord => ({
    row: PICKS.length * at + nth + 2,
    lot,
    date: Number(loaded) + day,
    mass: Number((mass * LOTS[at % LOTS.length]! * (1 + 0.06 * ((at + nth) % 3))).toFixed(1)),
    flush,
    blocks: undefined,
    picker: '',
    scale: '',
    grade: '',
    crate: '',
  })),
);
/** The row of a lot's nth pick, from 0. */
const rowOf = (at: number, nth: number): number => PICKS.length * at + nth + 2;

const told = (
  row: number,
  change: Partial<PickRecord>,
  gone: readonly number[] = [],
  sureness = 0.5,
): Finding[] =>
  yieldAudit(
    picks.flatMap((pick) =>
      gone.includes(pick.row) ? [] : pick.row === row ? { ...pick, ...change } : pick,
    ),
    lots,
    strains,
    { ...USUAL_SETTINGS, unit: 'lb', sureness },
  );

describe('yieldAudit of a pick under the label of another lot of its strain', () => {
  test('finds nothing in the book as it is', () => {
    expect(told(0, {})).toEqual([]);
  });

  test.each([1, 0, 2])(
    'pick %d of a first flush, typed under a lot that is in its second, is that lot’s and no other flush',
    (nth) => {
      // Lot 12 was in its first flush on the days on which lot 10 was in its second.
      const findings = told(rowOf(12, nth), { lot: labelOf(10) });
      expect(findings).toHaveLength(1);
      expect(findings[0]).toMatchObject({ cause: 'lot other', corrected: labelOf(12), slip: 'other lot' });
      expect(findings[0]!.sure).toBeGreaterThan(0.8);
    },
  );

  test('a wrong flush is one where no other lot lacks a pick', () => {
    const findings = told(rowOf(10, 4), { flush: 1 });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ cause: 'flush', corrected: 2, slip: 'flush' });
    expect(findings[0]!.sure).toBeGreaterThan(0.9);
  });

  // On that day neither lot has a pick: the row that is left says lot 10 and flush 1.
  const either = (mass: number, sureness: number): Finding => {
    const findings = told(rowOf(10, 4), { flush: 1, mass }, [rowOf(12, 1)], sureness);
    expect(findings).toHaveLength(1);
    return findings[0]!;
  };
  const asFlush = { slip: 'flush', corrected: 2 };
  const asLot = { slip: 'other lot', corrected: labelOf(12) };

  test.each([
    // Lot 10 weighs about 6.8 in flush 2 on that day, lot 12 about 11 in flush 1.
    ['its own lot’s second flush', 8, asFlush, asLot],
    ['the other lot’s first flush', 10.5, asLot, asFlush],
  ])(
    'a pick that would fill a day of either lot and weighs nearer to %s may be the other as well',
    (_, mass, named, rival) => {
      const { rivals, ...finding } = either(mass, 0.5);
      expect(finding).toMatchObject(named);
      expect(finding.sure).toBeLessThan(0.97);
      expect(rivals).toMatchObject([rival]);
    },
  );

  test('nothing is offered where neither is as sure as is asked for, and both are said', () => {
    const { corrected, rivals, wrong } = either(8.8, 0.9);
    expect(wrong).toBeGreaterThan(0.99);
    expect(corrected).toBeUndefined();
    expect(rivals).toHaveLength(2);
    expect(rivals).toEqual(
      expect.arrayContaining([expect.objectContaining(asFlush), expect.objectContaining(asLot)]),
    );
  });
});
