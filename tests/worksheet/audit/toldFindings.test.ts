import { describe, expect, test } from '@jest/globals';
import { toldFindings, type TableRow, type ToldFinding } from '../../../src/worksheet/audit/toldFindings';

// What the pane shows of findings. One lot of five picks, loaded on day 46,000, and a second six days later.

const PICKS = [
  [7, 4.1],
  [8, 4.3],
  [9, 4.2],
  [10, 4.4],
  [11, 4],
] as const;
const harvests = (changes: Readonly<Record<number, Partial<TableRow>>> = {}): TableRow[] =>
  ['A-101', 'B-202'].flatMap((lot, of) =>
    PICKS.map(([day, mass], i): TableRow => {
      const at = PICKS.length * of + i + 2;
      return { at, lot, date: 46_000 + 6 * of + day, mass: mass + of, flush: 1, ...changes[at] };
    }),
  );
const lots = (first: Partial<TableRow> = {}): TableRow[] =>
  ['A-101', 'B-202'].map((lot, of) => ({
    at: of + 2,
    lot,
    strain: 'Alder-3',
    blocks: 30,
    'block mass': 2.5,
    moisture: 0.6,
    loaded: 46_000 + 6 * of,
    ...(of === 0 && first),
  }));
const told = (
  changes: Readonly<Record<number, Partial<TableRow>>>,
  first: Partial<TableRow> = {},
): ToldFinding[] =>
  toldFindings({
    harvests: harvests(changes),
    lots: lots(first),
    strains: [
      { strain: 'Alder-3', facts: { firstPick: 7, pickDays: 5, flushGap: 18, flushes: 1, efficiency: 0.7 } },
    ],
    unit: 'kg',
    dateSystem: 1900,
  });

describe('toldFindings(book)', () => {
  test('a mass in grams: what is said, what the cell would hold, and a picture of the lot from its load on', () => {
    const [finding, ...others] = told({ 4: { mass: 4200 } });
    expect(others).toEqual([]);
    expect(finding).toMatchObject({
      says: 'the mass does not fit the lot’s other picks',
      slipWords: 'grams typed for kilograms',
      sureWords: 'almost certain',
      corrections: [{ row: 4, value: 4.2 }],
    });
    expect(finding!.evidence).toContain('The lot’s 4 other picks of flush 1 weigh 4 kg to 4.4 kg');
    // Six days before the load and six after the last pick: 45,994 to 46,017.
    expect(finding!.picture).toMatchObject({
      days: 23,
      loaded: 6,
      picks: [
        { day: 13, mass: 4.1, isOdd: false },
        { day: 14, mass: 4.3, isOdd: false },
        { day: 15, mass: 4200, isOdd: true },
        { day: 16, mass: 4.4, isOdd: false },
        { day: 17, mass: 4, isOdd: false },
      ],
      sentence:
        '4 picks of lot A-101 from 2025-12-16 to 2025-12-20 after the load of 2025-12-09; marked: 4200 kg on 2025-12-18.',
    });
  });

  test('a pick of another year is at the edge of the picture, and does not stretch it', () => {
    const [finding] = told({ 4: { date: 46_009 - 365 } });
    expect(finding).toMatchObject({ cause: 'date', corrections: [{ row: 4, value: 46_009 }] });
    expect(finding!.picture).toMatchObject({ days: 23, loaded: 6 });
    expect(finding!.picture!.picks[2]).toEqual({ day: 0, mass: 4.2, isOdd: true });
  });

  test('a load date after the picks or long before them is no part of the picture', () => {
    for (const loaded of [46_060, 45_600]) {
      const finding = told({ 4: { mass: 4200 } }, { loaded }).find(({ cause }) => cause === 'mass')!;
      expect(finding.picture!.loaded).toBeUndefined();
      // Six days on either side of 46,007 to 46,011.
      expect(finding.picture!.days).toBe(16);
      expect(finding.picture!.sentence).not.toContain('load');
    }
  });

  test('a lot whose load date is not known is pictured without', () => {
    const finding = told({ 4: { mass: 4200 } }, { loaded: undefined }).find(({ cause }) => cause === 'mass')!;
    expect(finding.picture).toMatchObject({ loaded: undefined, days: 16 });
  });

  test('findings of one lot stand together, the lot with the surest first', () => {
    const lotsTold = told({ 3: { mass: '4,3' }, 4: { mass: 4200 }, 8: { mass: '5,3' } }).map(
      ({ lot }) => lot,
    );
    expect(lotsTold).toEqual(['A-101', 'A-101', 'B-202']);
  });

  test('a label that is no lot’s says whose picks it lies among, and nothing where no lot is meant', () => {
    const [near] = told({ 4: { lot: 'A-11' } });
    expect(near).toMatchObject({
      cause: 'lot unknown',
      corrected: 'A-101',
      corrections: [{ row: 4, value: 'A-101' }],
    });
    expect(near!.evidence).toBe(
      'This pick is from 2025-12-18; the picks of lot A-101 are from 2025-12-16 to 2025-12-20.',
    );
    const [far] = told({ 4: { lot: 'Q-9' } });
    expect(far).toMatchObject({ cause: 'lot unknown', evidence: '', corrections: [], picture: undefined });
    expect(far!.says).toBe('this lot is not in lots; one of your lots is expected');
  });
});
