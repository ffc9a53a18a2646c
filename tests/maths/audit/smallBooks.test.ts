import { describe, expect, test } from '@jest/globals';
import { USUAL_SETTINGS, yieldAudit } from '../../../src/maths/audit/yieldAudit';
import type {
  Finding,
  LotRecord,
  MassUnit,
  PickRecord,
  StrainFacts,
} from '../../../src/maths/audit/yieldRecords';

// Books of a few lots, written by hand: what a grower who has just begun would paste. Nothing here was measured.

const facts = (firstPick: number, pickDays: number, flushGap: number, flushes: number): StrainFacts => ({
  earliest: undefined,
  firstPick,
  pickDays,
  flushGap,
  flushes,
  efficiency: 0.7,
});
const strains = new Map([
  ['grey', facts(6, 4, 12, 2)],
  ['lion', facts(10, 3, 14, 2)],
  ['shii', facts(7, 5, 17, 2)],
]);

type Masses = readonly (readonly [day: number, mass: number, flush?: number | undefined])[];

interface Small {
  readonly picks: PickRecord[];
  readonly lots: LotRecord[];
}

/** A book of lots, each with its strain, day of load, blocks and picks by days from load. */
function book(
  blockMass: number,
  lots: readonly (readonly [lot: string, strain: string, loaded: number, blocks: number, masses: Masses])[],
): Small {
  const picks: PickRecord[] = [];
  for (const [lot, , loaded, , masses] of lots) {
    for (const [day, mass, flush] of masses) {
      picks.push({
        row: picks.length + 2,
        lot,
        date: loaded + day,
        mass,
        flush,
        blocks: undefined,
        picker: '',
        scale: '',
        grade: '',
        crate: '',
      });
    }
  }
  const records = lots.map(([lot, strain, loaded, blocks], i) => ({
    row: i + 2,
    lot,
    strain,
    blocks,
    blockMass,
    moisture: 0.62,
    inoculated: undefined,
    loaded,
    total: undefined,
  }));
  return { picks, lots: records };
}

const GREY: Masses = [
  [6, 3.1, 1],
  [7, 5.2, 1],
  [8, 2.4, 1],
  [18, 1.9, 2],
  [19, 2.2, 2],
];
const LION: Masses = [
  [10, 2.6, 1],
  [11, 3.3, 1],
  [25, 1.4, 2],
];
const SHII: Masses = [
  [8, 2.2, 1],
  [9, 4.1, 1],
  [10, 3.6, 1],
  [25, 2.1, 2],
  [26, 1.7, 2],
];
const times = (masses: Masses, factor: number): Masses =>
  masses.map(([day, mass, flush]) => [day, Number((mass * factor).toPrecision(3)), flush]);

const five = book(2.5, [
  ['G1', 'Grey', 46000, 15, GREY],
  ['L2', 'Lion', 46004, 14, LION],
  ['G3', 'Grey', 46010, 20, times(GREY, 1.4)],
  ['S4', 'Shii', 46015, 18, SHII],
  ['S5', 'Shii', 46021, 16, times(SHII, 0.8)],
]);
const two = book(2.5, [
  ['G1', 'Grey', 46000, 15, GREY],
  ['G2', 'Grey', 46009, 18, times(GREY, 1.1)],
]);
const oneStrain = book(2.5, [
  ['S1', 'Shii', 46000, 18, SHII],
  ['S2', 'Shii', 46006, 18, times(SHII, 1.2)],
  ['S3', 'Shii', 46013, 18, times(SHII, 0.7)],
  ['S4', 'Shii', 46019, 18, times(SHII, 1.1)],
]);
const pounds = book(5.5, [
  ['G1', 'Grey', 46000, 15, times(GREY, 2.2)],
  ['L2', 'Lion', 46004, 14, times(LION, 2.2)],
  ['G3', 'Grey', 46010, 20, times(GREY, 3)],
]);
const grams = book(2500, [
  ['G1', 'Grey', 46000, 15, times(GREY, 1000)],
  ['L2', 'Lion', 46004, 14, times(LION, 1000)],
  ['G3', 'Grey', 46010, 20, times(GREY, 1400)],
]);

const run = (
  { picks, lots }: Small,
  unit: MassUnit,
  pick: Partial<PickRecord> & { row: number } = { row: 0 },
  lot: Partial<LotRecord> & { row: number } = { row: 0 },
): Finding[] =>
  yieldAudit(
    picks.map((one) => (one.row === pick.row ? { ...one, ...pick } : one)),
    lots.map((one) => (one.row === lot.row ? { ...one, ...lot } : one)),
    strains,
    { ...USUAL_SETTINGS, unit },
  );

describe('yieldAudit on books of a few lots', () => {
  test.each<[string, Small, MassUnit]>([
    ['five lots of three strains', five, 'kg'],
    ['two lots', two, 'kg'],
    ['one strain', oneStrain, 'kg'],
    ['a book in pounds', pounds, 'lb'],
    ['a book in grams', grams, 'g'],
  ])('leaves %s without a slip alone', (_what, small, unit) => {
    expect(run(small, unit)).toEqual([]);
    // Flushes not recorded.
    const without = { ...small, picks: small.picks.map((pick) => ({ ...pick, flush: undefined })) };
    expect(run(without, unit)).toEqual([]);
  });

  test.each<[string, Parameters<typeof run>, Partial<Finding>]>([
    [
      'grams among five lots',
      [five, 'kg', { row: 3, mass: 5200 }],
      { cause: 'mass', slip: 'grams', corrected: 5.2 },
    ],
    [
      'a decimal among five lots',
      [five, 'kg', { row: 16, mass: 41 }],
      { cause: 'mass', slip: 'decimal right' },
    ],
    [
      'a year among five lots',
      [five, 'kg', { row: 3, date: 46007 - 365 }],
      { cause: 'date', slip: 'other year', corrected: 46007 },
    ],
    ['a flush among five lots', [five, 'kg', { row: 3, flush: 2 }], { cause: 'flush', corrected: 1 }],
    [
      'a label among five lots',
      [five, 'kg', { row: 3, lot: 'G11' }],
      { cause: 'lot unknown', corrected: 'G1' },
    ],
    ['grams in two lots', [two, 'kg', { row: 3, mass: 5200 }], { cause: 'mass', slip: 'grams' }],
    ['a decimal in two lots', [two, 'kg', { row: 3, mass: 52 }], { cause: 'mass', slip: 'decimal right' }],
    ['a year in two lots', [two, 'kg', { row: 6, date: 46019 + 365 }], { cause: 'date', corrected: 46019 }],
    [
      'a decimal in one strain',
      [oneStrain, 'kg', { row: 8, mass: 49.2 }],
      { cause: 'mass', slip: 'decimal right' },
    ],
    [
      'dry share for moisture in one strain',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 0.38 }],
      { cause: 'moisture', slip: 'dry share', corrected: 0.62 },
    ],
    [
      'grams in pounds',
      [pounds, 'lb', { row: 3, mass: Math.round(453.59237 * 11.4) }],
      { cause: 'mass', slip: 'grams' },
    ],
    [
      'kilograms in grams',
      [grams, 'g', { row: 3, mass: 5.2 }],
      { cause: 'mass', slip: 'kilograms', corrected: 5200 },
    ],
    [
      'a block mass in pounds',
      [pounds, 'lb', undefined, { row: 3, blockMass: 55 }],
      { cause: 'block mass', slip: 'decimal right', corrected: 5.5 },
    ],
    // A lot's moisture of 62%, its digits in the other order, a decimal to the left, in per cent.
    [
      'swapped digits of a moisture',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 0.26 }],
      { cause: 'moisture', slip: 'swapped digits', corrected: 0.62, expected: 0.62 },
    ],
    [
      'a decimal of a moisture',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 0.062 }],
      { cause: 'moisture', slip: 'decimal left', corrected: 0.62 },
    ],
    [
      'a moisture without its sign',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 62 }],
      { cause: 'out of range', column: 'moisture', slip: 'percent', corrected: 0.62 },
    ],
    [
      'a moisture that is none',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 150 }],
      { cause: 'out of range', column: 'moisture', slip: undefined, corrected: undefined },
    ],
    [
      'a moisture of all water',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 100 }],
      { cause: 'out of range', column: 'moisture', slip: undefined, corrected: undefined },
    ],
    [
      'a moisture of 100%',
      [oneStrain, 'kg', undefined, { row: 4, moisture: 1 }],
      { cause: 'out of range', column: 'moisture', slip: undefined, corrected: undefined },
    ],
    [
      'swapped digits of a block mass',
      [oneStrain, 'kg', undefined, { row: 4, blockMass: 5.2 }],
      { cause: 'block mass', slip: 'swapped digits', corrected: 2.5 },
    ],
    // 1 lb is 0.45359237 kg by definition.
    [
      'a block mass typed in pounds',
      [oneStrain, 'kg', undefined, { row: 4, blockMass: 5.51 }],
      { cause: 'block mass', slip: 'pounds', corrected: 2.5 },
    ],
    [
      'a block mass typed in grams',
      [oneStrain, 'kg', undefined, { row: 4, blockMass: 2500 }],
      { cause: 'block mass', slip: 'grams', corrected: 2.5 },
    ],
    [
      'a mass below 1 that is text',
      [five, 'kg', { row: 3, mass: '0,9' }],
      { cause: 'not a number', slip: 'text', corrected: 0.9 },
    ],
    [
      'two decimals too far right',
      [five, 'kg', { row: 3, mass: 520 }],
      { cause: 'mass', slip: 'two decimals right', corrected: 5.2 },
    ],
    [
      'two decimals too far left',
      [five, 'kg', { row: 3, mass: 0.052 }],
      { cause: 'mass', slip: 'two decimals left', corrected: 5.2 },
    ],
  ])('names %s', (_what, args, wanted) => {
    const found = run(...args);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject(wanted);
  });

  test('tells the surest first, and of the equally sure the picks before the lots, each by its row', () => {
    const bad: Partial<PickRecord>[] = [{}, { mass: 'heavy' }, {}, { mass: 2100 }, {}, { date: undefined }];
    const picks = oneStrain.picks.map((pick, i) => ({ ...pick, ...bad[i] }));
    const lots = oneStrain.lots.map((lot, i) => (i === 1 ? { ...lot, moisture: 62 } : lot));
    const told = (sureness: number) =>
      yieldAudit(picks, lots, strains, { ...USUAL_SETTINGS, unit: 'kg', sureness }).map(
        ({ table, row, sure }) => [table, row, sure === 1],
      );
    const certain = [
      ['harvests', 3, true],
      ['harvests', 7, true],
      ['lots', 3, true],
    ];
    expect(told(0.5)).toEqual([...certain, ['harvests', 5, false]]);
    expect(told(1)).toEqual(certain);
  });

  test.each([
    ['in one flush', [1, 1, 1, 1, 1], [6, 7, 8, 9, 10]],
    ['in two flushes', [1, 1, 1, 2, 2], [6, 7, 8, 19, 20]],
  ])('123 among five masses of 24 %s is told, and 23 is offered', (_, flushes, days) => {
    const masses = [24, 24.5, 123, 23, 24.5].map((mass, i) => [days[i]!, mass, flushes[i]!] as const);
    const { picks, lots } = book(5, [['G-1', 'grey', 45_300, 60, masses]]);
    const findings = yieldAudit(picks, lots, strains, { ...USUAL_SETTINGS, unit: 'kg' });
    expect(findings.map(({ cause, row, slip, corrected }) => [cause, row, slip, corrected])).toEqual([
      ['mass', 4, 'extra digit', 23],
    ]);
  });
});
