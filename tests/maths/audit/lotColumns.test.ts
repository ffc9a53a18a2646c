import { describe, expect, test } from '@jest/globals';
import { USUAL_SETTINGS, yieldAudit } from '../../../src/maths/audit/yieldAudit';
import type { Finding, LotRecord, PickRecord, StrainFacts } from '../../../src/maths/audit/yieldRecords';

// Books of two strains, one in bags of 10 lb and one in bags of 5 lb, written by hand. Nothing here was measured.

const facts = (firstPick: number, pickDays: number, flushGap: number): StrainFacts => ({
  earliest: undefined,
  firstPick,
  pickDays,
  flushGap,
  flushes: 2,
  efficiency: 0.75,
});
const strains = new Map([
  ['dusk', facts(8, 3, 14)],
  ['gull', facts(10, 3, 15)],
]);

/** What a lot of 20 bags yields in each pick, in shares of its dry mass, and on which day from load. */
const PICKS = [
  [8, 0.18, 1],
  [9, 0.22, 1],
  [10, 0.12, 1],
  [22, 0.13, 2],
  [23, 0.1, 2],
] as const;
/** By how much lots differ honestly. */
const LOTS = [1, 1.2, 0.8, 1.1, 0.9, 1.3, 0.75, 1, 1.15, 0.85, 1.05, 0.95, 1.25, 0.8];

interface Lot {
  readonly strain?: 'Dusk' | 'Gull';
  readonly typed: number;
  /** The mass of the bags that were filled; as typed where left out. */
  readonly filled?: number;
  readonly good?: number;
}

function told(lots: readonly Lot[]): Partial<Finding>[] {
  const picks: PickRecord[] = [];
  const records = lots.map(({ strain = 'Dusk', typed, filled = typed, good }, i): LotRecord => {
    const [lot, loaded] = [`${strain[0]}-${100 + 7 * i}`, 46_000 + 5 * i];
    PICKS.forEach(([day, share, flush], nth) => {
      const mass =
        20 * filled * 0.4 * share * (good ?? LOTS[i % LOTS.length]!) * (1 + 0.05 * ((i + nth) % 3));
      picks.push({
        row: picks.length + 2,
        lot,
        date: loaded + day,
        mass: Number(mass.toFixed(1)),
        flush,
        blocks: undefined,
        picker: '',
        scale: '',
        grade: '',
        crate: '',
      });
    });
    return {
      row: i + 2,
      lot,
      strain,
      blocks: 20,
      blockMass: typed,
      moisture: 0.6,
      inoculated: undefined,
      loaded,
      total: undefined,
    };
  });
  return yieldAudit(picks, records, strains, { ...USUAL_SETTINGS, unit: 'lb' })
    .filter((finding) => finding.column === 'block mass')
    .map(({ row, cause, value, corrected, slip }) => ({ row, cause, value, corrected, slip }))
    .sort((one, other) => one.row - other.row);
}

const many = (count: number, lot: Lot): Lot[] => Array.from({ length: count }, () => lot);
const tens = many(24, { typed: 10 });
const fives = many(20, { strain: 'Gull', typed: 5 });

describe('yieldAudit of a block mass that other strains’ lots have', () => {
  const slip: Partial<Finding> = {
    row: 2,
    cause: 'block mass',
    value: 5,
    corrected: 10,
    slip: 'other strain',
  };

  test.each<[string, Lot[], Partial<Finding>[]]>([
    ['5 typed for bags of 10', [{ typed: 5, filled: 10 }, ...tens, ...fives], [slip]],
    [
      '5 typed for 10 in a lot that yields a fifth more than usual',
      [{ typed: 5, filled: 10, good: 1.2 }, ...tens, ...fives],
      [slip],
    ],
    [
      '10 typed for bags of 5',
      [{ strain: 'Gull', typed: 10, filled: 5 }, ...tens, ...fives],
      [{ ...slip, value: 10, corrected: 5 }],
    ],
    ['bags that are truly smaller', [{ typed: 5 }, ...tens, ...fives], []],
    [
      'truly smaller bags of a lot that yields a third more than usual',
      [{ typed: 5, good: 1.33 }, ...tens, ...fives],
      [],
    ],
    ['a lot of 10 that yields twice as much', [{ typed: 10, good: 2 }, ...tens, ...fives], []],
    [
      '5 typed for 10 in two good lots',
      [...many(2, { typed: 5, filled: 10, good: 1.2 }), ...tens, ...fives],
      [slip, { ...slip, row: 3 }],
    ],
    [
      '5 for 10 where a sixth of the other strain’s lots have 5',
      [{ typed: 5, filled: 10 }, ...tens, ...many(25, { strain: 'Gull', typed: 8 }), ...fives.slice(0, 5)],
      [slip],
    ],
    [
      '5 for 10 where a tenth of them have',
      [{ typed: 5, filled: 10 }, ...tens, ...many(27, { strain: 'Gull', typed: 8 }), ...fives.slice(0, 3)],
      [{ ...slip, slip: 'unusual mass' }],
    ],
    [
      '5 for 10 where no other lot has 5',
      [{ typed: 5, filled: 10 }, ...tens],
      [{ ...slip, slip: 'unusual mass' }],
    ],
    ['one truly smaller bag among all others of 10', [{ typed: 5 }, ...tens], []],
    ['one truly smaller bag that yields a third more than usual', [{ typed: 5, good: 1.33 }, ...tens], []],
    ['one truly larger bag that yields a quarter less', [{ typed: 20, good: 0.75 }, ...tens], []],
    ['5 for 10 beside six other lots', [{ typed: 5, filled: 10 }, ...tens.slice(0, 5)], []],
    [
      '5 for 10 in a strain that has either',
      [{ typed: 5, filled: 10 }, ...tens, ...many(10, { typed: 5 }), ...fives],
      [],
    ],
    ['5 for 10 in a strain of three lots', [{ typed: 5, filled: 10 }, ...tens.slice(0, 2), ...fives], []],
  ])('%s', (_what, lots, wanted) => {
    expect(told(lots)).toEqual(wanted);
  });
});
