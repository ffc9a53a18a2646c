import { beforeAll, describe, expect, test } from '@jest/globals';
import { CROPTABLE } from '../../src/worksheet/harvest/cropTable';
import { YIELDAUDIT } from '../../src/worksheet/audit/yieldAudit';
import { plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { shelfFarm, type Book } from '../maths/audit/books/farms';
import { evaluate, prepared } from './prepared';
import { Evidence } from '../../src/worksheet/audit/evidenceSaid';
import { slipsSaid } from '../../src/worksheet/audit/findingsSaid';
import type { Finding, PickRecord } from '../../src/maths/audit/yieldRecords';

beforeAll(() => prepared(YIELDAUDIT));

const audit = (...grids: (Grid | null)[]) => plainValues(evaluate(YIELDAUDIT, grids));
const column = (rows: readonly (readonly unknown[])[], header: string): unknown[] =>
  rows.slice(1).map((row) => row[rows[0]!.indexOf(header)]);

const cell = (entry: number | string | undefined): Cell => entry ?? null;

/** A book as sheets, with a picker and a unit in the header. */
function sheets({ picks, lots, strains }: Book, mass = 'Mass (kg)'): [Grid, Grid, Grid] {
  return [
    [
      ['Lot', 'Date', mass, 'Flush', 'Picked by'],
      ...picks.map((pick) => [pick.lot, cell(pick.date), cell(pick.mass), cell(pick.flush), pick.picker]),
    ],
    [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated', 'Loaded'],
      ...lots.map((lot) => [
        lot.lot,
        lot.strain,
        cell(lot.blocks),
        cell(lot.blockMass),
        cell(lot.moisture),
        cell(lot.inoculated),
        cell(lot.loaded),
      ]),
    ],
    [
      ['Strain', 'First pick', 'Pick days', 'Flush gap', 'Flushes', 'Efficiency'],
      ...[...strains].map(([label, { firstPick, pickDays, flushGap, flushes, efficiency }]) => [
        label,
        cell(firstPick),
        cell(pickDays),
        cell(flushGap),
        flushes,
        cell(efficiency),
      ]),
    ],
  ];
}

/** The first lots of a farm's book. */
function firstLots(book: Book, count: number): Book {
  const lots = book.lots.slice(0, count);
  const labels = new Set(lots.map(({ lot }) => lot));
  const picks = book.picks.filter(({ lot }) => labels.has(lot)).map((pick, i) => ({ ...pick, row: i + 2 }));
  return { ...book, lots, picks };
}

const clean = firstLots(shelfFarm(0.25, 42), 40);
const withMass = (row: number, factor: number): Book => ({
  ...clean,
  picks: clean.picks.map((pick) =>
    pick.row === row ? { ...pick, mass: Number(((pick.mass as number) * factor).toPrecision(5)) } : pick,
  ),
});
const settings = (...rows: (readonly [string, Cell])[]): Grid => [['setting', 'value'], ...rows];

describe('YIELDAUDIT', () => {
  test('says that it found nothing, and in how much', () => {
    const rows = audit(...sheets(clean));
    expect(rows[1]![3]).toBe(`nothing found in ${clean.picks.length} picks and 40 lots`);
  });

  test('takes the unit from the header or from the settings: nobody types ounces in a kilogram book', () => {
    const slips = (row: number, mass: string, set: Grid | null): unknown[] =>
      column(audit(...sheets(withMass(row, 16), mass), set), 'suspected slip');
    for (const row of [80, 160, 240, 280]) {
      expect(slips(row, 'Mass (lb)', null)).toEqual(['ounces typed for pounds']);
      expect(slips(row, 'Mass', settings(['unit', 'lb']))).toEqual(['ounces typed for pounds']);
      expect(slips(row, 'Mass (kg)', null)).not.toContain('ounces typed for pounds');
    }
  });

  test('takes a book whose blocks weigh thousands for one of grams, where no header says it', () => {
    const grams = {
      ...clean,
      lots: clean.lots.map((lot) => ({ ...lot, blockMass: 1000 * (lot.blockMass as number) })),
      picks: clean.picks.map((pick) => ({
        ...pick,
        mass: (pick.row === 200 ? 1 : 1000) * (pick.mass as number),
      })),
    };
    const rows = audit(...sheets(grams, 'Mass'));
    expect(column(rows, 'suspected slip')).toEqual(['kilograms typed for grams']);
    expect(column(rows, 'if corrected')).toEqual([1000 * (clean.picks[198]!.mass as number)]);
  });

  test('finds a picker who wrote pounds, in one line, and corrects each of the picks', () => {
    const pounds = {
      ...clean,
      picks: clean.picks.map((pick) =>
        pick.picker === 'Ben'
          ? { ...pick, mass: Number(((pick.mass as number) / 0.45359237).toFixed(1)) }
          : pick,
      ),
    };
    const grids = sheets(pounds);
    const rows = audit(...grids);
    const many = clean.picks.filter(({ picker }) => picker === 'Ben').length;
    expect(rows).toHaveLength(2);
    expect(column(rows, 'what is wrong')).toEqual([`${many} masses of picker Ben are off by one factor`]);
    expect(column(rows, 'suspected slip')).toEqual(['pounds typed for kilograms']);
    const corrected = audit(...grids, null, [['harvests']]);
    const truth = clean.picks.reduce((sum, pick) => sum + (pick.mass as number), 0);
    const total = column(corrected, 'mass').reduce<number>((sum, mass) => sum + (mass as number), 0);
    expect(total / truth).toBeCloseTo(1, 2);
    expect(column(corrected, 'corrected').filter((said) => said !== '')).toHaveLength(many);
  });

  test('gives harvests and lots as corrected, which CROPTABLE then takes', () => {
    const slipped = withMass(200, 10);
    const lots = slipped.lots.map((lot) =>
      lot.row === 9 ? { ...lot, blockMass: 10 * (lot.blockMass as number) } : lot,
    );
    const grids = sheets({ ...slipped, lots });
    const harvests = audit(...grids, null, [['harvests']]) as Grid;
    const asCorrected = audit(...grids, null, [['lots']]) as Grid;
    expect(column(harvests, 'mass')[198]).toBe(clean.picks[198]!.mass);
    expect(column(harvests, 'corrected')[198]).toMatch(
      /^mass was \S+, now \S+: decimal point one place to the right$/,
    );
    expect(column(asCorrected, 'block mass')[7]).toBe(clean.lots[7]!.blockMass);
    const crops = (h: Grid, l: Grid): unknown[] =>
      column(plainValues(evaluate(CROPTABLE, [h, l])), 'efficiency');
    const [trueHarvests, trueLots] = sheets(clean);
    expect(crops(harvests, asCorrected)).toEqual(crops(trueHarvests, trueLots));
  });

  test('applies only what is as sure as asked', () => {
    const grids = sheets(withMass(200, 10));
    expect(column(audit(...grids, settings(['sureness', 1])), 'what is wrong')).toEqual([
      expect.stringContaining('nothing found'),
    ]);
  });

  test.each<[string, Cell, string]>([
    ['sureness', 80, 'for 80% write 80% or 0.8'],
    ['sureness', 'high', 'sureness in settings'],
    ['unit', 'stone', 'unit in settings must be'],
    ['highest efficiency', 80, 'highest efficiency in settings'],
  ])('refuses a setting of %s to be %p', (name, value, says) => {
    const [[answer]] = audit(...sheets(clean), settings([name, value])) as unknown as [[{ reason: string }]];
    expect(answer.reason).toContain(says);
  });

  test('refuses masses and block masses in two units', () => {
    const [harvests, lots, strains] = sheets(clean, 'Mass (g)');
    const [header, ...rows] = lots;
    const inKilograms = [header!.map((one) => (one === 'Block mass' ? 'Block mass (kg)' : one)), ...rows];
    const [[answer]] = audit(harvests, inKilograms, strains) as unknown as [[{ code: string }]];
    expect(answer.code).toBe('#VALUE!');
  });
});

test('a strain is kept for 20 flushes at most: the slips of a thousand billion would never end', () => {
  const [picks, lots, [header, ...rows]] = sheets(clean);
  const kept = (flushes: number): Grid => [
    header!,
    ...rows.map((row) => row.map((old, at) => (header![at] === 'Flushes' ? flushes : old))),
  ];
  expect(audit(picks, lots, kept(20))[0]![0]).toBe('table');
  for (const flushes of [21, 1e15]) {
    expect(audit(picks, lots, kept(flushes))[0]![0]).toMatchObject({
      reason: `flushes in strains must be a whole number from 1 to 20; it is ${flushes} (row 2 of strains)`,
    });
  }
});

describe('what speaks for a finding about a picker, a scale or a crate', () => {
  const pickOf = (row: number, lot: string): PickRecord => ({
    row,
    lot,
    date: 46007,
    mass: 1,
    flush: 1,
    blocks: undefined,
    picker: 'P1',
    scale: '',
    grade: '',
    crate: '',
  });
  const evidence = new Evidence([pickOf(2, 'A-1'), pickOf(3, 'A-2'), pickOf(4, 'A-2')], [], 'kg', 1900);
  const group: Finding = {
    table: 'harvests',
    row: 2,
    rows: [2, 3, 4],
    lot: 'A-1',
    cause: 'group',
    column: 'mass',
    value: 'P1',
    sure: 0.9,
    wrong: 0.9,
    expected: undefined,
    corrected: undefined,
    slip: undefined,
  };

  test.each([
    [1.25, '1.25 times too heavy'],
    [0.8, '1.25 times too light'],
  ])('by a factor of %p: %s', (factor, said) => {
    expect(evidence.of({ ...group, factor })).toBe(
      `Next to other picks of the same 2 lots they are about ${said}.`,
    );
  });
});

describe('what speaks for a finding about a mass', () => {
  const pick = (row: number, mass: number, flush: number | undefined): PickRecord => ({
    row,
    lot: 'A-1',
    date: 46007,
    mass,
    flush,
    blocks: undefined,
    picker: '',
    scale: '',
    grade: '',
    crate: '',
  });
  const mass: Finding = {
    table: 'harvests',
    row: 2,
    rows: [2],
    lot: 'A-1',
    cause: 'mass',
    column: 'mass',
    value: 85,
    sure: 0.9,
    wrong: 0.9,
    expected: 8.5,
    corrected: undefined,
    slip: undefined,
  };
  const said = (...others: PickRecord[]): string =>
    new Evidence([pick(2, 85, 1), ...others], [], 'kg', 1900).of(mass);

  test('are the other picks of its flush, where there are two, and all others of its lot where there are not', () => {
    expect(said(pick(3, 8, 1), pick(4, 9, 1), pick(5, 2, 2))).toContain(
      'The lot’s 2 other picks of flush 1 weigh 8 kg to 9 kg; about 8.5 kg was to be expected.',
    );
    expect(said(pick(3, 8, 1), pick(4, 2, 2), pick(5, 3, 2))).toContain(
      'The lot’s 3 other picks weigh 2 kg to 8 kg; about 8.5 kg was to be expected.',
    );
  });

  test('names each other slip that it may be, with its figure', () => {
    const inPounds = (finding: Partial<Finding>): string =>
      new Evidence([pick(2, 54, 1)], [], 'lb', 1900).of({ ...mass, value: 54, ...finding });
    const ounces = { slip: 'ounces', corrected: 3.375, sure: 0.4 } as const;
    const decimal = { slip: 'decimal right', corrected: 5.4, sure: 0.55 } as const;
    expect(inPounds({ slip: 'decimal right', corrected: 5.4, rivals: [ounces] })).toBe(
      'It may also be ounces typed for pounds, 3.38 lb.',
    );
    expect(inPounds({ slip: 'decimal right', rivals: [decimal, ounces] })).toBe(
      'It may be decimal point one place to the right, 5.4 lb; or ounces typed for pounds, 3.38 lb.',
    );
  });
});

describe('a pick that may be of another flush or of another lot', () => {
  const pick: PickRecord = {
    row: 2,
    lot: 'A-1',
    date: 46_000,
    mass: 5,
    flush: 1,
    blocks: undefined,
    picker: '',
    scale: '',
    grade: '',
    crate: '',
  };
  const flush = { slip: 'flush', corrected: 2, sure: 0.45 } as const;
  const label = { slip: 'other lot', corrected: 'B-7', sure: 0.4 } as const;
  const year = { slip: 'other year', corrected: 45_635, sure: 0.1 } as const;
  const finding: Finding = {
    table: 'harvests',
    row: 2,
    rows: [2],
    lot: 'A-1',
    cause: 'flush',
    column: 'flush',
    value: 1,
    expected: 2,
    ...flush,
    wrong: 0.99,
  };

  test.each<[string, Partial<Finding>, string, string]>([
    [
      'names both slips where none is corrected',
      { corrected: undefined, rivals: [flush, label, year] },
      'another flush or another lot’s label',
      'It may be another flush, 2; or another lot’s label, B-7; or another year, 2024-12-09.',
    ],
    [
      'names the one that is corrected, and the other in the evidence',
      { sure: 0.8, rivals: [label] },
      'another flush',
      'It may also be another lot’s label, B-7.',
    ],
    ['names the one where there is no other', {}, 'another flush', ''],
  ])('%s', (_what, more, slips, evidence) => {
    const one = { ...finding, ...more };
    expect(slipsSaid(one, 'kg')).toBe(slips);
    expect(new Evidence([pick], [], 'kg', 1900).of(one)).toBe(evidence);
  });
});

test('the harvests as corrected keep the columns that something is written in, and no others', () => {
  const [harvests, lots, strains] = sheets(clean);
  const more = harvests.map((row, at) => [...row, at === 0 ? 'Crate' : 'red', at === 0 ? 'Grade' : null]);
  const [header, first] = audit(more, lots, strains, null, [['harvests']]) as unknown as [string[], Cell[]];
  expect(header).toEqual(expect.arrayContaining(['picker', 'crate']));
  expect(header).not.toContain('grade');
  expect(first[header.indexOf('crate')]).toBe('red');
});
